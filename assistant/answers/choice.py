"""A typed word to one of the named choices: by name, other words, number, or a clear beginning."""

from __future__ import annotations

import re
from functools import lru_cache

from assistant.answers.by_number import by_number
from assistant.answers.expect import Choice, Doubt, Expect, Settled, Trouble
from assistant.answers.rank import MOST_ASKED
from assistant.answers.text import plain, words_only
from assistant.answers.yes_no import yes_no

SHORTEST_START = 3
NEGATING = frozenset(("no", "not", "never", "none", "isnt", "without", "sin", "nada", "or", "o"))
"""A word that turns a choice round, or sets it beside another one."""

_TOLD = re.compile(r"^(?:i|we) | it$")
"""What tells no more than that somebody did it: "we taped it"."""


def read_choice(expect: Expect, text: str) -> Settled | Doubt:
    """The choice that a typed text means.

    Raises: Trouble unknown_choice, with the likeliest choice if a slip of one letter explains it,
    the line has its words among others, or asks for it ("half?").
    """
    said = words_only(text)
    if said.isdecimal() and plain(text).startswith("-"):
        raise Trouble("unknown_choice")  # below zero: no number of the list
    plainly = _plainly(expect, said, text)
    if plainly and text.rstrip().endswith("?"):
        raise Trouble("unknown_choice", ("likely", plainly[0].name))
    if plainly:
        return _chosen(expect, plainly, clear=True)
    begun = [each for each in expect.choices if _begins(said, each)]
    if begun:
        return _chosen(expect, begun, clear=False)
    raise Trouble("unknown_choice", *_likely(expect, said))


def _plainly(expect: Expect, said: str, text: str) -> list[Choice]:
    """The choices that a text names by a word of theirs, by number, or with yes and no."""
    told = {said, _TOLD.sub("", said)}
    exact = [each for each in expect.choices if not told.isdisjoint(_spellings(each))]
    at = by_number(said, len(expect.choices))
    if exact or at is not None:
        return exact or [expect.choices[at or 0]]
    meant = _yes_or_no(expect, text)
    return [meant] if meant else []


def known_name(expect: Expect, text: str) -> Settled | None:
    """The choice that is named in full, for a name that may also be any other.

    None for a text that is no line, such as what stands before a comma alone.
    """
    try:
        said = words_only(text)
    except Trouble:
        return None
    known = [each for each in expect.choices if said in _spellings(each)]
    return Settled(expect.fact, known[0].name, known[0].name) if known else None


@lru_cache(maxsize=1024)
def _spellings(choice: Choice) -> tuple[str, ...]:
    names = (choice.name.replace("_", " "), *choice.words)
    return tuple(words_only(each) for each in names)


def _chosen(expect: Expect, choices: list[Choice], *, clear: bool) -> Settled | Doubt:
    read = tuple(Settled(expect.fact, each.name, each.name, clear) for each in choices)
    return read[0] if len(read) == 1 else Doubt(read[:MOST_ASKED])


def _yes_or_no(expect: Expect, text: str) -> Choice | None:
    answer = {True: "yes", False: "no", None: ""}[yes_no(text)]
    return next((each for each in expect.choices if each.name == answer), None)


def _begins(said: str, choice: Choice) -> bool:
    if len(said) < SHORTEST_START:
        return False
    return any(each.startswith(said) for each in _spellings(choice))


def _likely(expect: Expect, said: str) -> tuple[tuple[str, str], ...]:
    near = [c.name for c in expect.choices if any(one_slip(said, s) for s in _spellings(c))]
    if not near and not NEGATING & set(said.split()):
        near = [c.name for c in expect.choices if any(_holds(said, s) for s in _spellings(c))]
    return (("likely", near[0]),) if len(near) == 1 else ()


def _holds(said: str, spelling: str) -> bool:
    """Whether a line has the words of a choice among others: "ran a tape round it"."""
    return len(spelling) >= SHORTEST_START and f" {spelling} " in f" {said} "


def one_slip(one: str, other: str) -> bool:
    """Whether one letter more, less, other, or two swapped make one word the other (4 or more)."""
    if min(len(one), len(other)) < SHORTEST_START or abs(len(one) - len(other)) > 1:
        return False
    at = next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), None)
    if at is None:
        return one != other
    swapped = one[:at] + one[at : at + 2][::-1] + one[at + 2 :]
    tails = (
        (one[at + 1 :], other[at + 1 :]),
        (one[at:], other[at + 1 :]),
        (one[at + 1 :], other[at:]),
    )
    return swapped == other or any(a == b for a, b in tails)
