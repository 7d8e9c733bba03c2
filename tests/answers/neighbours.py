"""What lies one slip of a key from what the table of spellings holds, and what reading makes of it.

A slip puts a sign in, leaves one out, takes another for it, or swaps two. Signs are those of the
table itself, so that a slip may turn any of its marks into any other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from assistant.answers.expect import Doubt, Expect, Refusal, Settled
from assistant.answers.read import judge, read
from assistant.answers.slips import variant
from assistant.answers.text import LONGEST
from assistant.quantities.settled import exact, members, si_value
from assistant.quantities.show import show_settled
from tests.answers.test_table import TABLE, TARGETS
from tests.stories.play import library

SIGNS = sorted({sign for _, typed, _ in (*TABLE, *TARGETS) for sign in typed})
MOST_PLACES = 200  # in a text far too long to be read, slips at so many places will do


@cache
def rows() -> tuple[tuple[Expect, str], ...]:
    """Each question of the table, asked as the program asks it, and what is typed there."""
    return tuple((bounded(question), typed) for question, typed, _ in (*TABLE, *TARGETS))


def bounded(question: Expect) -> Expect:
    """The question with the possible range that its fact has in the program, if it has none."""
    fact = library().facts.get(question.fact)
    if question.variants:
        return replace(question, variants=tuple(map(bounded, question.variants)))
    if question.least is not None or fact is None or fact.possible is None:
        return question
    least, most = (exact(fact.kind, end) for end in (fact.possible.least, fact.possible.most))
    return replace(question, least=least, most=most)


def neighbours(typed: str) -> Iterator[str]:
    """Every text that is one slip from this one, each once."""
    end = len(typed)
    places = range(0, end + 1, end // MOST_PLACES + 1)
    found = dict.fromkeys(slipped for at in places for slipped in slips(typed, at))
    return (each for each in found if each != typed)


def slips(typed: str, at: int) -> Iterator[str]:
    """Every slip at one place of a text."""
    before, sign, after = typed[:at], typed[at : at + 1], typed[at + 1 :]
    yield before + after
    yield before + after[:1] + sign + after[1:]
    for other in SIGNS:
        yield before + other + sign + after
        yield before + other + after


def assert_read_or_refused(question: Expect, typed: str) -> None:
    """A text comes to a reading; what is settled is shown as what it is, and reads as that again.

    What is shown may be asked about (of "1.0250 lb" is shown "1.025 lb", where a point before
    three digits may part thousands); it never comes to another value, or to none.
    """
    told = read(question, typed)
    assert isinstance(told, Settled | Doubt | Refusal), (typed, told)
    if not isinstance(told, Settled):
        return
    kind = variant(question, told.fact).kind
    assert told.value == si_value(kind, told.settled), (typed, told)
    shown = show_settled(kind, told.settled)
    if isinstance(judge(question, told), Refusal) or len(shown) > LONGEST:
        return  # no drill has it, or no line can tell it
    again = read(question, shown)
    readings = again.readings if isinstance(again, Doubt) else (again,)
    assert worth(question, told) in [worth(question, each) for each in readings], (typed, again)


def worth(question: Expect, told: Settled | Refusal) -> object:
    """What a reading is worth, to the last digit: the fact, and its exact values or its words."""
    if isinstance(told, Refusal):
        return None
    kind = variant(question, told.fact).kind
    if isinstance(told.value, str):
        return told.fact, told.settled
    listed = members(told.settled)
    values = listed if listed is not None else (told.settled,)
    return told.fact, listed is None, tuple(exact(kind, each) for each in values)
