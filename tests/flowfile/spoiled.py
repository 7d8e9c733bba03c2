"""Cases of spoiled flow files, read from text files that look like a difference.

    == unknown_fact at remark
    fact: remarks
    also: never_proposed
    @ jobs/plot.toml
     id = "remark"
    -ask = "remark"
    +>ask = "remarks"

The finding has this code and step; `fact: ...` is one of its values; `also` names the codes that
the same fault brings along. Each `@` names a file: lines with `-` go, lines with `+` come, lines
with a space stay. The finding stands on the line marked with `>`.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from assistant.flowfile.findings import Finding, line_for, sentences


@dataclass(slots=True)
class Hunk:
    """One place of one file that is spoiled; `mark` counts the lines before the marked one."""

    file: str
    old: list[str] = field(default_factory=list)
    new: list[str] = field(default_factory=list)
    mark: int | None = None

    def take(self, line: str) -> None:
        """One more line of the difference."""
        sign, text = line[0], line[1:]
        if text.startswith(">"):
            self.mark, text = len(self.new), text[1:]
        if sign in " -":
            self.old.append(text)
        if sign in " +":
            self.new.append(text)

    def apply(self, folder: Path) -> int:
        """Spoil the file; returns the number of its first line that this touches."""
        path = folder / self.file
        text = path.read_text(encoding="utf-8") if path.exists() else ""
        new = "".join(f"{line}\n" for line in self.new)
        if not self.old:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text + new, encoding="utf-8")
            return text.count("\n") + 1
        old = "\n" + "".join(f"{line}\n" for line in self.old)
        assert f"\n{text}".count(old) == 1, (self.file, old)
        before, after = f"\n{text}".split(old)
        path.write_text(f"{before}\n{new}{after}"[1:], encoding="utf-8")
        return before.count("\n") + 1


@dataclass(slots=True)
class Spoiled:
    """One case."""

    code: str
    step: str
    about: dict[str, str] = field(default_factory=dict)
    also: set[str] = field(default_factory=set)
    hunks: list[Hunk] = field(default_factory=list)

    def apply(self, folder: Path) -> tuple[str, int]:
        """Spoil the flows below a folder; returns the file and line where the finding must be."""
        where = ("", 0)
        for hunk in self.hunks:
            first = hunk.apply(folder)
            if hunk.mark is not None:
                where = (hunk.file, first + hunk.mark)
        return where

    def is_that(self, where: tuple[str, int], found: Finding) -> bool:
        """Whether a finding is the one that this case is about."""
        place = (found.code, found.step, found.file, found.line)
        told = self.about.items() <= dict(found.about).items()
        return place == (self.code, self.step, *where) and told

    def is_found(self, where: tuple[str, int], found: list[Finding]) -> None:
        """Assert that just this is found, and what it brings along, all with whole sentences."""
        said = sentences()
        assert all(each.file in line_for(each, said) for each in found)
        mine = [each for each in found if self.is_that(where, each)]
        assert len(mine) == 1, (where, found)
        assert {each.code for each in found if each not in mine} == self.also, found


def cases(folder: Path) -> list[Spoiled]:
    """The cases of all files in a folder, in order."""
    return [case for path in sorted(folder.glob("*.txt")) for case in read_cases(path)]


def read_cases(path: Path) -> list[Spoiled]:
    """The cases of one file."""
    return list(_cases(path))


def name_of(case: Spoiled) -> str:
    """A name for a test of a case."""
    return "-".join([case.code, case.step.replace(" ", "_"), *case.about.values()])


def _cases(path: Path) -> Iterator[Spoiled]:
    case: Spoiled | None = None
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("== "):
            if case:
                yield case
            code, _, step = line[3:].partition(" at ")
            case = Spoiled(code, step)
        elif case and line.startswith("@ "):
            case.hunks.append(Hunk(line[2:]))
        elif case and case.hunks and line:
            case.hunks[-1].take(line)
        elif case and line:
            key, _, value = line.partition(":")
            if key == "also":
                case.also = set(value.split())
            else:
                case.about[key] = value.strip()
    if case:
        yield case
