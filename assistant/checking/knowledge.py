"""What is known when the machine comes to a place, whatever road it took.

It mirrors the machine's situation without values: a fact is known on every road or on some, and
each way in which it came to be known keeps what it was worked out from, so that the checker
forgets stale results where the machine does.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache

from assistant.dialogue.guard import covered
from assistant.flow.model import Only

Under = Mapping[str, Iterable[str]]
Guards = frozenset[tuple[str, str]]
"""Cautions that were passed or are not needed, each with the part that it guards with all in it."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way in which a fact came to be known: where, from what, or asked and not known."""

    place: str
    inputs: frozenset[str] = frozenset()
    has_value: bool = True


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """A fact as it is known: on every road (`sure`, and with a value) or on some.

    Made by `held_by` alone, so that two which say the same are one object.
    """

    sure: bool
    ways: frozenset[Way]
    inputs: frozenset[str] = frozenset()


@cache
def held_by(ways: frozenset[Way], *, sure: bool) -> Held:
    """A fact that is known in these ways, with all that it may have been worked out from.

    The same ways give the very same object: that is quick to compare, and to sort out in sets.
    """
    return Held(sure, ways, frozenset[str]().union(*(way.inputs for way in ways)))


@dataclass(slots=True)
class Knowledge:
    """What is known at a place; `choices` are those that a split or a condition looks at later.

    `guarded` are the cautions passed or not needed on every road, with the part of each;
    `exposed` the parts whose put-back list is due on some road.
    """

    held: dict[str, Held] = field(default_factory=dict)
    choices: dict[str, str] = field(default_factory=dict)
    guarded: Guards = frozenset()
    exposed: frozenset[str] = frozenset()

    def copy(self) -> Knowledge:
        """A copy that can be changed without touching this one."""
        return Knowledge(dict(self.held), dict(self.choices), self.guarded, self.exposed)

    def is_sure(self, name: str) -> bool:
        """Whether the fact has a value on every road."""
        return name in self.held and self.held[name].sure

    def ways(self, name: str) -> frozenset[Way]:
        """The ways in which the fact may have come to be known."""
        return self.held[name].ways if name in self.held else frozenset()

    def may_lack_value(self, name: str) -> bool:
        """Whether the fact may have been asked and not known."""
        return any(not way.has_value for way in self.ways(name))

    def learn(self, name: str, way: Way) -> None:
        """The fact is answered: what was worked out from it is forgotten."""
        self.forget_after(name)
        self.drop(name)
        self.learn_if_lacking(name, way)

    def learn_if_lacking(self, name: str, way: Way, *, ask_unknown: bool = False) -> None:
        """The fact is passed where it is known, and answered where it is not.

        Where it is not known nothing was worked out from it, so nothing is forgotten. With
        `ask_unknown` it is answered too where it was asked and not known.
        """
        kept = {each for each in self.ways(name) if each.has_value or not ask_unknown}
        ways = frozenset({*kept, way})
        self.held[name] = held_by(ways, sure=all(each.has_value for each in ways))
        self.choices.pop(name, None)

    def has_value(self, name: str) -> None:
        """On this road the fact is known, and not as unknown."""
        self.held[name] = held_by(frozenset(w for w in self.ways(name) if w.has_value), sure=True)

    def forget_after(self, name: str, *, certain: bool = True) -> None:
        """Forget all that was worked out from a fact or a series."""
        for other in [each for each, held in self.held.items() if name in held.inputs]:
            held = self.held.get(other)
            if held is None:
                continue  # forgotten meanwhile, by what it rests on
            kept = frozenset(w for w in held.ways if not certain or name not in w.inputs)
            if not kept:
                self.drop(other)
                self.forget_after(other)
            elif held.sure or kept != held.ways:
                self.held[other] = held_by(kept, sure=False)
                self.choices.pop(other, None)
                self.forget_after(other, certain=False)

    def drop(self, name: str) -> None:
        """The fact is known no more."""
        self.held.pop(name, None)
        self.choices.pop(name, None)

    def holds(self, under: Under) -> bool:
        """Whether every choice named stands at one of its names."""
        return all(self.choices.get(fact, "") in names for fact, names in under.items())

    def counts(self, only: Only, member: str) -> bool:
        """Whether a member of a row counts under the choices made."""
        return self.holds(only.get(member, {}))

    def joined(self, other: Knowledge) -> Knowledge:
        """What holds where two roads with the same choices meet."""
        here, there = self.held, other.held
        held = here if here == there else _met_all(here, there)
        guarded = _guarded_by_both(self.guarded, other.guarded)
        return Knowledge(held, self.choices, guarded, self.exposed | other.exposed)

    def with_choice(self, fact: str, choice: str) -> Knowledge:
        """The same with a choice made."""
        made = self.copy()
        made.choices[fact] = choice
        return made


@cache
def _guarded_by_both(here: Guards, there: Guards) -> Guards:
    """A part is guarded where each guards it or one around it."""
    return frozenset(
        each for each in here | there if covered(here, *each) and covered(there, *each)
    )


def _met_all(here: Mapping[str, Held], there: Mapping[str, Held]) -> dict[str, Held]:
    met = dict(here)
    for name in sorted({name for name, _ in here.items() ^ there.items()}):
        met[name] = _met(here.get(name), there.get(name))
    return met


@cache
def _met(here: Held | None, there: Held | None) -> Held:
    ways = frozenset[Way]().union(*(held.ways for held in (here, there) if held))
    return held_by(ways, sure=bool(here and there and here.sure and there.sure))
