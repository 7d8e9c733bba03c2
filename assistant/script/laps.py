"""The rows of a facts file, each the catch of one lap."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from assistant.sitting.sitting import Sitting

Row = Mapping[str, str]
Note = tuple[str, str]


@dataclass(slots=True)
class Laps:
    """Which row of each series comes next.

    Rows that a resumed conversation holds already, told in the same words, are passed over: a file
    with one more catch goes on where the last run ended, and no catch is counted twice.
    """

    sitting: Sitting
    rows: Mapping[str, Sequence[Row]]
    taken: dict[str, int] = field(default_factory=dict)
    held: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        for name, rows in self.rows.items():
            typed = list(self._typed(name))
            begins = [text in row.values() for text, row in zip(typed, rows, strict=False)]
            if typed and len(typed) <= len(rows) and all(begins):
                self.taken[name] = len(typed)
                self.held.add(name)

    def _typed(self, name: str) -> Iterator[str]:
        last = self.sitting.job.graph.series[name].last
        return (e.typed for e in self.sitting.state.situation.used if e.fact in last)

    def number(self, name: str) -> int:
        """The row that comes next, counted from 1."""
        return self.taken.get(name, 0) + 1

    def following(self, name: str) -> Row:
        """The row that comes next, empty when there is none."""
        return {} if self.used_up(name) else self.rows[name][self.taken.get(name, 0)]

    def took(self, name: str, facts: Sequence[str]) -> None:
        """Some facts of a row were taken; with its last one the row is done."""
        job = self.sitting.job
        last = job.graph.series[name].last
        ends = {*last, *(each for fact in last for each in job.fact(fact).variants.values())}
        if ends & set(facts):
            self.taken[name] = self.number(name)

    def used_up(self, name: str) -> bool:
        """Whether every row was taken."""
        return self.taken.get(name, 0) >= len(self.rows.get(name, ()))

    def in_file(self, name: str, fact: str) -> str:
        """What a fact of a row is called in the file."""
        declared = self.sitting.job.graph.declared
        prefix = name.removesuffix(declared.get(name, name))
        return f"{name}.{fact.removeprefix(prefix)}"

    def notes(self) -> Iterator[Note]:
        """Rows that were held before, and rows that were left over when the job was finished."""
        yield from (("held", name) for name in sorted(self.held))
        if self.sitting.finish:
            yield from (("not_used", name) for name in self.rows if not self.used_up(name))
