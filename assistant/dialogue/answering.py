"""A typed line as the answer to the open question, and named texts from a script."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from assistant.answers.expect import Expect, Line, Refusal, Settled
from assistant.answers.line import read_line
from assistant.answers.read import read
from assistant.answers.slips import judge
from assistant.answers.text import listed
from assistant.answers.yes_no import is_done, yes_no
from assistant.dialogue.asking import LEAVE
from assistant.dialogue.choosing import refuse, to_corrected, to_offer
from assistant.dialogue.expecting import expect
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import REVIEW, Answered, Entry, GivenEarly, Record, Told
from assistant.dialogue.messages import Message, ReadBack, Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.questions import caution_word, ends_row, proposals
from assistant.dialogue.situation import Open
from assistant.dialogue.standing import told_at
from assistant.dialogue.trouble import doubtful, refused, shown_settled, unusual
from assistant.dialogue.unknowing import do_not_know, made, parked, still_parked
from assistant.dialogue.walk import DONE
from assistant.dialogue.wording import say


def answer(job: Job, state: State, text: str) -> Outcome:
    """What a typed line comes to at the open question."""
    open_ = state.situation.open
    if open_ is None or open_.kind in {"ended", "fetch"}:
        return Outcome(state=state)
    if open_.kind == "ask":
        return to_question(job, state, open_, text)
    if open_.kind in {"caution", "guard"}:
        return to_caution(job, state, open_, text)
    if open_.kind == "offer":
        return to_offer(job, state, open_, text)
    if open_.kind == "corrected":
        return to_corrected(job, state, text)
    word = left_by(job, open_, text)
    if word:
        return Outcome((Answered((made(state, LEAVE, word),)),))
    fact = DONE if open_.kind == "wait" else REVIEW
    if fact == REVIEW and parked(state) and yes_no(text.strip() or "yes"):
        return still_parked(job, state)
    agrees = is_done(text) if fact == DONE else yes_no(text.strip() or "yes")
    if agrees:
        return Outcome((Answered((made(state, fact, "done"),)),))
    if fact == REVIEW:
        return refuse(job, state, "not_reviewed", text, "yes")
    return refuse(job, state, "not_done" if text.strip() else "still_to_do", text, "done")


def left_by(job: Job, open_: Open, text: str) -> str:
    """The word by which a line leaves the step another way; empty if it does not."""
    plain = text.strip(" .!").lower()
    return plain if plain in job.graph[open_.place].step.leave else ""


def to_caution(job: Job, state: State, open_: Open, text: str) -> Outcome:
    """The word passes a caution; a bare Enter never does. Who can't is not sure."""
    word = caution_word(job, state, open_)
    mind = job.caution(open_.hazard).grade == "mind"
    said = text.strip(" .!").lower()
    if said.startswith(listed(job.word("mending.not_able"))):
        return do_not_know(job, state)
    if said != word and not (mind and yes_no(text)):
        return refuse(job, state, "not_the_word", word, word)
    place = open_.place + ("!" + open_.hazard if open_.kind == "guard" else "")
    return Outcome((Answered((made(state, open_.hazard, word, place=place),)),))


def to_question(job: Job, state: State, open_: Open, text: str) -> Outcome:
    """One fact or a natural pair; what is proposed may be left out."""
    taken = proposals(job, state)
    if not text.strip():
        if set(taken) >= set(open_.facts):
            entries = tuple(proposed(job, state, name, taken) for name in open_.facts)
            return Outcome((Answered(entries),))
        return refused(job, state, open_.facts[-1], Refusal("empty", "", ()))
    word = left_by(job, open_, text)
    if word:
        return Outcome((Answered((made(state, LEAVE, word),)),))
    whole_start = told_at_once(job, state, open_, text)
    if whole_start:
        return whole_start
    expects = [expect(job, state.log, state.situation, name) for name in open_.facts]
    settings = frozenset(name for name in taken if not ends_row(job, name))
    rest = [] if fits_alone(expects, text) else others(job, state, open_, text)
    line = read_line(expects, text, rest, settings)
    return from_line(job, state, open_, text, line)


def fits_alone(expects: Sequence[Expect], text: str) -> bool:
    """Whether the whole line answers the one question, so that it tells nothing else."""
    first, *more = expects
    if more or first.kind == "text":
        return False
    return not isinstance(read(first, text), Refusal)


def told_at_once(job: Job, state: State, open_: Open, text: str) -> Outcome | None:
    """A line such as `wheat 80 lb 24 at 7 1/2` at a question for a name: facts, all told early.

    It must begin with a known word of another fact and use up the whole line in two facts or more.
    """
    fact = job.fact(open_.facts[0])
    if fact.kind != "text" or fact.known_words or len(open_.facts) > 1:
        return None
    rest = others(job, state, open_, text)
    for first in rest:
        if first.kind == "text" and first.choices:
            line = read_line([first], text, [each for each in rest if each is not first])
            known = line.found.get(first.fact)
            if known and line.early and not line.unused and known.settled in spellings(first):
                told = {first.fact: known, **line.early}
                facts = tuple(told_of(job, name, found, text) for name, found in told.items())
                return Outcome((GivenEarly(facts),), (kept_for_later(job, state, told),))
    return None


def spellings(expect: Expect) -> set[str]:
    """The names of an expected fact's choices."""
    return {choice.name for choice in expect.choices}


def kept_for_later(job: Job, state: State, told: Mapping[str, Settled]) -> ReadBack:
    """What a line told of later questions, by name and value."""
    facts = ((job.fact(each.fact), each.settled) for each in told.values())
    values = (f"{fact.label} {shown_settled(job, state, fact, spelt)}" for fact, spelt in facts)
    return ReadBack(say(job, "told_at_once", names=", ".join(values)))


def others(job: Job, state: State, open_: Open, text: str) -> list[Expect]:
    """The facts not known yet that a line may tell early: those that words can name.

    A line without a digit, where words are asked, tells no numbers: their ranges need no units.
    """
    at, wordy = state.situation, {"text", "choice"}
    words_alone = job.fact(open_.facts[0]).kind in wordy and not any(map(str.isdigit, text))
    told = (
        name
        for name in job.graph.named_alone
        if name not in at.known and name not in open_.facts
        if not words_alone or job.fact(name).kind in wordy
    )
    return [expect(job, state.log, at, name, listed=False) for name in told]


def from_line(job: Job, state: State, open_: Open, text: str, line: Line) -> Outcome:
    """Entries for what was found; a question for the first piece that could be otherwise."""
    taken = proposals(job, state)
    entries: list[Entry] = []
    asked: Outcome | None = None
    for name in (each for each in open_.facts if each in line.found):
        found = line.found[name]
        judged = judge(expect_of(job, state, name), found)
        if not judged and not (asked and job.graph.home(name)):  # no row ends before its setting
            entries.append(entry_of(job, state, name, found, text))
        elif isinstance(judged, Refusal):
            asked = asked or refused(job, state, found.fact, judged)
        elif judged:
            asked = asked or unusual(job, state, name, found, judged, text)
    if asked:
        return kept(job, state, entries, line, text, asked)
    for name, doubt in line.doubts.items():
        return kept(job, state, entries, line, text, doubtful(job, state, name, doubt, text))
    for name, refusal in line.refused.items():
        return kept(job, state, entries, line, text, refused(job, state, name, refusal))
    if entries or not open_.facts:
        left = [n for n in open_.facts if n in taken and n not in line.found]
        entries += [proposed(job, state, name, taken) for name in left]
    return settled_line(job, state, entries, line, text)


def settled_line(job: Job, state: State, entries: list[Entry], line: Line, text: str) -> Outcome:
    """The records of an understood line, with its read-back and what was not used."""
    from assistant.dialogue.fold import applied

    if not entries:  # then the line told of later questions alone, or it was refused before
        told = kept_for_later(job, state, line.early)
        return Outcome(told_early(job, state, line, text), (told, *not_used(job, state, line)))
    if line.early and job.fact(entries[0].fact).kind == "choice":
        left = tuple(not_used(job, state, line))
        if left:  # a tag read out: nothing of it goes by unheard
            kept_so = kept_for_later(job, state, line.early)
            return Outcome(told_early(job, state, line, text), (kept_so, *left))
    records = (*told_early(job, state, line, text), Answered(tuple(entries)))
    taken = proposals(job, state)
    unclear = [e for e in entries if e.fact in line.found and not line.found[e.fact].clear]
    reset = [e for e in entries if e.fact in taken and set_otherwise(job, e, taken[e.fact][0])]
    back = [e for e in entries if e in unclear or e in reset]
    said: list[Message] = [read_back(job, state, back)] if back else []
    pool = applied(job, state, records)[0].situation.pool if line.early else {}
    early = {name: found for name, found in line.early.items() if name in pool}
    said += [kept_for_later(job, state, early)] if early else []
    return Outcome(records, (*said, *not_used(job, state, line)))


def set_otherwise(job: Job, entry: Entry, settled: str) -> bool:
    """Whether a row's setting was told and is not the proposed one."""
    of_row = job.graph.home(entry.fact) and not ends_row(job, entry.fact)
    return bool(of_row) and bool(entry.typed) and entry.settled != settled


def told_early(job: Job, state: State, line: Line, text: str) -> tuple[Record, ...]:
    """What a line tells of later questions; what is out of the usual is asked in its turn."""
    early = {name: found for name, found in line.early.items() if usual(job, state, name, found)}
    told = tuple(told_of(job, name, found, text) for name, found in early.items())
    return (GivenEarly(told),) if told else ()


def usual(job: Job, state: State, name: str, found: Settled) -> bool:
    """Whether a value can be taken without a question."""
    return judge(expect_of(job, state, name), found) is None


def not_used(job: Job, state: State, line: Line) -> Iterator[Message]:
    """What of a line was left, handed back."""
    left = [line.unused] if line.unused else []
    for name, found in line.early.items():
        if not usual(job, state, name, found):
            fact = job.fact(found.fact)
            left.append(f"{fact.label} {shown_settled(job, state, fact, found.settled)}")
    for each in left:
        yield Trouble("unused", say(job, "refused.unused", heard=each))


def kept(  # noqa: PLR0913, PLR0917  a line, what is good in it, and what is asked
    job: Job, state: State, entries: list[Entry], line: Line, text: str, outcome: Outcome
) -> Outcome:
    """Keep the good pieces of a line whose other piece was not understood."""
    good = told_early(job, state, line, text)
    if entries:
        good = (*good, Answered(tuple(entries)))
    if not good:
        return outcome
    from assistant.dialogue.fold import applied

    after, _, records = applied(job, state, good)
    half = outcome.state or after
    moved = replace(after, moment=half.moment, misread=half.misread)
    return Outcome(records, outcome.said, moved)


def read_back(job: Job, state: State, entries: Iterable[Entry]) -> ReadBack:
    """What was understood, where it could have been otherwise, in one line."""
    from assistant.dialogue.review import entry_shown

    parts = [
        f"{job.fact(each.variant or each.fact).label}: {entry_shown(job, state, each)}"
        for each in entries
    ]
    return ReadBack(say(job, "read_back", line=", ".join(parts)))


def expect_of(job: Job, state: State, name: str) -> Expect:
    """What the fact takes in this state."""
    return expect(job, state.log, state.situation, name)


def entry_of(  # noqa: PLR0913  an answer, where it was given, and how sure
    job: Job, state: State, name: str, found: Settled, text: str, *, sure: bool = False
) -> Entry:
    """The entry of a settled answer."""
    variant = found.fact if found.fact != name else ""
    told = told_at(job, state.situation.place, variant or name)
    return replace(made(state, name, found.settled, told), variant=variant, typed=text, sure=sure)


def proposed(job: Job, state: State, name: str, taken: Mapping[str, tuple[str, str, str]]) -> Entry:
    """The entry of a proposal that Enter took."""
    settled, where, variant = taken[name]
    told = where or told_at(job, state.situation.place, variant or name)
    return replace(made(state, name, settled, told), variant=variant)


def told_of(job: Job, name: str, found: Settled, text: str, *, sure: bool = False) -> Told:
    """A settled answer as a fact told early."""
    variant = found.fact if found.fact != name else ""
    return Told(name, found.settled, variant, text, job.fact(found.fact).told, sure)
