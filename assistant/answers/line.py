"""One line that may tell several facts: those asked, and those that are told early.

The words are cut into pieces in every way that makes sense, and the cheapest cut is taken: every
question answered, in the order asked unless names or kinds tell otherwise, nothing left over.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from assistant.answers.across import rows_across
from assistant.answers.choice import known_name
from assistant.answers.cut import NO_SUCH_VALUE, best_cut, rest_of_line
from assistant.answers.evidence import early
from assistant.answers.expect import Doubt, Expect, Line, Reading, Refusal, Settled
from assistant.answers.kinds_told import kinds_with_values, paired_lists
from assistant.answers.pieces import JOINS, line_words, piece
from assistant.answers.read import read
from assistant.answers.two_names import names_by_commas, read_two_names
from assistant.answers.unit_words import UNITS
from assistant.quantities.kinds import KINDS

MOST_WORDS = 40
SPLIT_AFTER = frozenset(
    (
        *("two_numbers", "list", "range", "not_a_number", "no_number"),
        *("unknown_unit", "unknown_choice", "unit_of_another_kind", "bushels"),
    )
)
"""A text refused for one of these may be several facts; other refusals stand unless all is used."""

AGAINST = re.compile(
    r"(?:minus|less|or|and|to|point|not|menos|o|open)\b|[-+*]|"
    r"(?:lbs?|oz|kg|g|ft|in|cm|mm|m|ac|ha|kg/ha|lb/ac|percent|%)(?![a-z])"
)
"""How a rest begins that belongs to the value before it: that value may not stand without it."""
VALUE = re.compile(r"\d[\d.,/ ]*\s?[a-z%]+(?:/[a-z0-9]+)?", re.IGNORECASE)

WHOLE_LINE = frozenset(["empty", "too_long", "control", "many_lines"])


def read_line(
    expects: Sequence[Expect],
    text: str,
    others: Sequence[Expect] = (),
    proposed: frozenset[str] = frozenset(),
) -> Line:
    """What one line tells: for the question (`expects`, one fact or a natural few) and early.

    The first piece must fit the question. A further piece is taken for one of `others` only if it
    names its fact or can be nothing else; a member named in `proposed` may be left out. What is
    found stands under the fact that was asked; a variant's name is in its `Settled`. Never raises.
    """
    first = expects[0]
    whole = read(first, text)
    if isinstance(whole, Refusal) and whole.code in WHOLE_LINE:
        return Line(refused={first.fact: whole})
    if first.kind == "text":
        kinds = kinds_with_values(first, text, others)
        if kinds:
            return kinds
        if len(expects) == 1:
            return _named(expects, text, others, whole)
        two = names_by_commas(expects, text, others) or read_two_names(expects, text)
        if two is None:
            return _named(expects, text, others, whole)
        return _with_rest(two, first, expects[1], others)
    if len(expects) == 1 and not isinstance(whole, Refusal):
        return _alone(first, whole)
    slashed = len(expects) > 1 and all(_form(each) == "percent" for each in expects)
    words = line_words(text, slashed=slashed)
    pair = (
        _comma_pair(expects, words)
        or rows_across(expects, text)
        or paired_lists(expects, text, whole)
    )
    pair = pair or _from_to(expects, whole)
    if pair:
        return pair
    cut = best_cut(expects, words, others, proposed) if len(words) <= MOST_WORDS else None
    line = cut.line() if cut else Line()
    parted = {after for before, after in pairwise(words) if before.lower() in JOINS}
    if not _holds(line, expects, whole) or _turns_round(line, parted):
        return _as_one(expects, text, proposed, whole)
    return _unclear(line) if slashed and "/" in words else line


def _form(expect: Expect) -> str:
    return KINDS[expect.kind].form if expect.kind in KINDS else ""


def _alone(expect: Expect, reading: Reading) -> Line:
    if isinstance(reading, Settled):
        return Line(found={expect.fact: reading})
    if isinstance(reading, Doubt):
        return Line(doubts={expect.fact: reading})
    return Line(refused={expect.fact: reading})


def _named(expects: Sequence[Expect], text: str, others: Sequence[Expect], whole: Reading) -> Line:
    """A line that begins with a name: the known name, or the words, before what is told early.

    The whole line is the name unless all the rest of it tells other facts.
    """
    first = expects[0]
    words = line_words(text)
    known = [n for n in range(len(words), 0, -1) if known_name(first, piece(words[:n]))]
    plain = next((n for n, word in enumerate(words) if re.search(r"\d", word)), len(words))
    cut_at = rest_of_line(Expect(first.fact, "text", choices=first.choices), words, others)
    for end in dict.fromkeys((*known, *range(plain, 0, -1), *range(plain + 1, len(words)))):
        cut = cut_at(end)
        if end < len(words) and cut and (end in known or not cut.unused):
            return cut.line()
    return _alone(first, whole)


def _with_rest(two: Line, first: Expect, second: Expect, others: Sequence[Expect]) -> Line:
    """Two names without what is told early after each: "barley treated lot 4471 80 lb".

    A second name that is a choice of another question is none: "wheat, treated".
    """
    if second.fact not in two.found:
        return two
    told = early(others, str(two.found[second.fact].value))
    if told and isinstance(told.reading, Settled):
        return Line(found={first.fact: two.found[first.fact]}, early={told.fact: told.reading})
    words = line_words(str(two.found[first.fact].value))
    cut_at = rest_of_line(first, words, others)
    for end in range(1, len(words)):
        cut = cut_at(end) if known_name(first, piece(words[:end])) else None
        if cut and not cut.unused:
            line = cut.line()
            two = replace(two, found={**two.found, **line.found}, early={**two.early, **line.early})
            break
    words = line_words(str(two.found[second.fact].value))
    cut_at = rest_of_line(second, words, others)
    for end in range(1, len(words)):
        cut = cut_at(end)
        if cut and not cut.unused:
            line = cut.line()
            told_early = {**two.early, **line.early}
            return replace(line, found={**two.found, **line.found}, early=told_early)
    return _to_the_comma(two, second)


def _to_the_comma(two: Line, second: Expect) -> Line:
    """A second name ends at a comma: of "lot 9, rows 20" with the rows known, "rows 20" is left."""
    name, _, rest = str(two.found[second.fact].value).partition(",")
    told = read(second, name)
    if not rest or not isinstance(told, Settled):
        return two
    return replace(two, found={**two.found, second.fact: told}, unused=rest.strip())


def _comma_pair(expects: Sequence[Expect], words: Sequence[str]) -> Line | None:
    """`30,6` at a question for two facts: one number with a decimal comma, or two."""
    found = re.fullmatch(r"(\d+),(\d+)", words[0]) if len(words) == 1 and len(expects) > 1 else None
    if not found:
        return None
    one, other = read(expects[0], found[1]), read(expects[1], found[2])
    both = read(expects[0], words[0])
    if not (isinstance(one, Settled) and isinstance(other, Settled)):
        return None
    if isinstance(both, Settled):
        return Line(doubts={expects[0].fact: Doubt((both, one))})
    pair = {expects[0].fact: one, expects[1].fact: other}
    return _unclear(Line(found=pair))


def _from_to(expects: Sequence[Expect], whole: Reading) -> Line | None:
    """`4-6 mph` at a question for the slowest and the fastest speed: a range, for one of them."""
    speeds = [each.kind for each in expects] == ["speed", "speed"]
    if not speeds or not isinstance(whole, Refusal) or whole.code != "range":
        return None
    about = dict(whole.about)
    told = (f"{about[end]} {about['unit']}".strip() for end in ("low", "high"))
    ends = {each.fact: read(each, end) for each, end in zip(expects, told, strict=True)}
    settled = {fact: each for fact, each in ends.items() if isinstance(each, Settled)}
    return Line(found=settled) if len(settled) == len(expects) else None


def _holds(line: Line, expects: Sequence[Expect], whole: Reading) -> bool:
    """Whether a cut says more than a refusal of the whole line would."""
    told = {**line.found, **line.doubts}
    if not told:
        if line.early and not line.unused and expects[0].kind == "choice":
            return True  # all of it is for other questions; this one is still open
        refused = {each.code for each in line.refused.values()}
        return bool(refused) and refused <= NO_SUCH_VALUE and not line.unused
    if line.unused and not line.early and expects[0].kind == "choice":
        return False  # "one side" is no "one": a word left over may turn it round
    if line.unused and (_goes_on(line.unused, expects) or _told_twice(line.unused, expects)):
        return False  # a second value for the same question, or what takes the first one back
    if len(expects) > 1 or not isinstance(whole, Refusal) or not line.unused:
        return True
    if whole.code not in SPLIT_AFTER:
        return False
    wordy = not any(map(str.isdigit, whole.heard)) and not line.early
    return not (wordy and " " in line.unused)  # "one more catch" is no 1


def _goes_on(unused: str, expects: Sequence[Expect]) -> bool:
    """Whether a rest belongs to the value before it, as its unit or what takes it back."""
    first = unused.split(maxsplit=1)[0].lower()
    its_unit = first in UNITS and any(isinstance(read(e, f"1 {first}"), Settled) for e in expects)
    return its_unit or AGAINST.match(unused) is not None


def _turns_round(line: Line, parted: set[str]) -> bool:
    """Whether a refused piece belongs to the value before it: "5 mph" is no 5, "5/8 open" no 5/8.

    So does one below zero: nobody tells two values and one of them such. A joining word parts
    them: "24 at foo" is 24.
    """
    heard = [each.heard for each in line.refused.values()]
    bare = [each for each in heard if " " not in each and not any(map(str.isdigit, each))]
    negative = any(each.code == "negative" for each in line.refused.values())
    told = {**line.found, **line.doubts, **line.early}
    return bool(told) and (negative or not parted.issuperset(bare))


def _told_twice(unused: str, expects: Sequence[Expect]) -> bool:
    """Whether what is left over holds another value for a question, whole or with its unit."""
    pieces = (unused, *VALUE.findall(unused))
    return any(not isinstance(read(e, piece), Refusal) for e in expects for piece in pieces)


def _as_one(expects: Sequence[Expect], text: str, proposed: frozenset[str], whole: Reading) -> Line:
    """The whole line, which tells no two facts, read or refused for the question that is open."""
    open_ = next((each for each in expects if each.fact not in proposed), expects[0])
    return _alone(open_, read(open_, text) if open_ is not expects[0] else whole)


def _unclear(line: Line) -> Line:
    found = {fact: replace(each, clear=False) for fact, each in line.found.items()}
    return replace(line, found=found)
