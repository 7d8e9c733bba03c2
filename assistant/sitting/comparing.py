"""Why a card differs from another: each change of a result shared out among what changed.

A result is taken apart as far as both cards worked it out by the same formula from the same facts.
Where they went different ways, the fact at which they part is an input like any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property
from math import isclose
from typing import Any

from assistant.book.records import StoredCard
from assistant.dialogue.standing import known_fact
from assistant.dialogue.wording import shown_value, told_as
from assistant.flow.graph import Node
from assistant.sitting.making import makers
from assistant.sitting.replaying import Replay
from assistant.sitting.sharing import shares

RESULTS = ("bulk_rate", "target_catch", "final_opening")
NEARNESS, FLOW = "=nearness", "=flow"
"""What an opening rests on beside the rate: how near the last catch came, and how seed runs."""
SAME = 1e-9  # two values nearer than this are one
MOST = 12  # inputs that one change is shared among: 4,096 sums


@dataclass(frozen=True, slots=True)
class Share:
    """What one input adds to a change, in SI of the result."""

    fact: str
    amount: float


@dataclass(frozen=True, slots=True)
class Change:
    """A result that changed, both values in SI, and the shares, largest first.

    Without shares the change can't be shared out: the two cards worked it out in different ways.
    """

    result: str
    old: float
    new: float
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class Side:
    """A card and the replay of its conversation, None where it can't be worked out again."""

    card: StoredCard
    again: Replay | None

    def held(self, name: str) -> float | None:
        """The number that the card holds, in SI."""
        fact = self.card.facts.get(name)
        value = fact.get("value") if isinstance(fact, Mapping) else None
        return value if isinstance(value, float) else None


class CannotShareError(Exception):
    """The two cards did not work a result out in the same way."""


@dataclass(frozen=True)
class Pair:
    """Two cards, the older one first."""

    old: Side
    new: Side

    def changes(self) -> Iterator[Change]:
        """The results that both cards hold and that are not the same."""
        for name in RESULTS:
            old, new = self.old.held(name), self.new.held(name)
            if old is not None and new is not None and not close(old, new):
                yield Change(name, old, new, self._shared(name, old, new))

    def gathered(self, name: str) -> bool:
        """Whether a fact is of one row of several, so that the last one tells nothing alone."""
        sides = (self.old.again, self.new.again)
        return any(each.job.graph.home(name) is not None for each in sides if each)

    def amount(self, result: str, difference: float) -> str:
        """The size of a difference as the newer card shows the result."""
        again = self.new.again
        if again is None:  # shares come from replays only
            raise CannotShareError(result)
        fact = told_as(again.job, again.state.situation, result)
        return shown_value(again.state.log, again.state.situation, fact, abs(difference))

    def _shared(self, name: str, old: float, new: float) -> tuple[Share, ...]:
        if self.old.again is None or self.new.again is None:
            return ()
        sums = Sums(self.old.again, self.new.again)
        try:
            changed = sums.changed(name)
            found = shares(changed, lambda taken: sums.value(name, taken))
            ends = sums.value(name, frozenset()), sums.value(name, frozenset(changed))
        except CannotShareError:
            return ()
        if not (close(ends[0], old) and close(ends[1], new)):
            return ()  # a formula has moved on since: these would be the shares of other numbers
        told = [Share(fact, amount) for fact, amount in found.items()]
        return tuple(sorted(told, key=lambda share: -abs(share.amount)))


@dataclass(frozen=True)
class Sums:
    """The sums behind the results of two conversations, as far as they are the same sums."""

    old: Replay
    new: Replay
    _inputs: dict[str, Sequence[str]] = field(default_factory=dict)

    @cached_property
    def _makers(self) -> tuple[Mapping[str, Node], Mapping[str, Node]]:
        return makers(self.old.job, self.old.state), makers(self.new.job, self.new.state)

    def changed(self, name: str) -> Sequence[str]:
        """The inputs of a result that are not the same on both sides.

        Raises CannotShareError where there is no common sum, or more inputs than can be shared
        among.
        """
        if not self.inputs(name):
            raise CannotShareError(name)
        leaves = [each for each in dict.fromkeys(self.leaves(name)) if not self._same(each)]
        if len(leaves) > MOST:
            raise CannotShareError(name)
        return leaves

    def inputs(self, name: str) -> Sequence[str]:
        """What both sides worked a fact out from in the same way; empty for a leaf."""
        if name not in self._inputs:
            self._inputs[name] = self._common(name)
        return self._inputs[name]

    def _common(self, name: str) -> Sequence[str]:
        if name == "final_opening":
            return () if self._flow_unknown() else ("bulk_rate", NEARNESS, FLOW)
        old, new = (made.get(name) for made in self._makers)
        if old is None or new is None or old.step.what != new.step.what:
            return ()
        reads = [self.reads(old), self.reads(new)]
        series = {**self.old.job.graph.series, **self.new.job.graph.series}
        if reads[0] != reads[1] or set(reads[0].values()) & set(series):
            return ()
        return tuple(reads[0].values())

    def reads(self, node: Node) -> Mapping[str, str]:
        """The facts that a step reads, by the parameters of its calculation."""
        parameters = self.new.job.calculations[node.step.what[0]].parameters
        return {name: node.real(node.step.reads.get(name, name)) for name in parameters}

    def leaves(self, name: str) -> Iterator[str]:
        """The facts that a result comes down to."""
        inputs = self.inputs(name)
        if not inputs:
            yield name
        for each in inputs:
            yield from self.leaves(each)

    def value(self, name: str, taken: frozenset[str]) -> Any:
        """A fact when the inputs `taken` are from the new side and all others from the old.

        Raises CannotShareError where the sum then comes to another outcome.
        """
        if not self.inputs(name):
            return self.told(self.new if name in taken else self.old, name)
        if name == "final_opening":
            rate, nearness, flow = (self.value(each, taken) for each in self.inputs(name))
            return opening_for(rate, nearness, flow)
        node = self._makers[1][name]
        given = {at: self.value(each, taken) for at, each in self.reads(node).items()}
        result = self.new.job.calculations[node.step.what[0]].run(given)
        for each in fields(result):
            if node.real(node.step.sets.get(each.name, each.name)) == name:
                return getattr(result, each.name)
        raise CannotShareError(name)

    def told(self, side: Replay, name: str) -> Any:
        """A fact of one side as it was told, measured or taken as it came."""
        if name == NEARNESS:
            return self._number(side, "caught_rate") / self._number(side, "bulk_rate")
        if name == FLOW:
            return self._number(side, "caught_rate") / self._number(side, "final_opening")
        known = known_fact(side.job, side.state.situation, name)
        if known is None or known.value is None:
            raise CannotShareError(name)
        return known.value

    def _number(self, side: Replay, name: str) -> float:
        known = side.state.situation.known.get(name)
        if known is None or not isinstance(known.value, float) or known.value == 0:
            raise CannotShareError(name)
        return known.value

    def _flow_unknown(self) -> bool:
        try:
            return not all(self.told(side, FLOW) for side in (self.old, self.new))
        except CannotShareError:
            return True

    def _same(self, name: str) -> bool:
        return close(self.told(self.old, name), self.told(self.new, name))


def opening_for(bulk_rate: float, nearness: float, flow: float) -> float:
    """The opening, in m, at which a catch brings `nearness` times the rate.

    `flow` is the rate caught for each metre of opening: what comes of a fluted roller goes with its
    opening, common practice, no source.
    """
    return bulk_rate * nearness / flow


def close(one: Any, other: Any) -> bool:
    """Whether two values are the same, numbers to nine digits."""
    if isinstance(one, float) and isinstance(other, float):
        return isclose(one, other, rel_tol=SAME)
    return bool(one == other)
