"""The words that work at every question. They are written once, here and in words.toml."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.text import listed
from assistant.dialogue.asides import answered, aside, in_other_unit
from assistant.dialogue.changing import begin_change, go_back
from assistant.dialogue.explaining import help_for, meaning, why
from assistant.dialogue.guard import to_put_back
from assistant.dialogue.in_passing import answered_by_name
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import UnitsSet
from assistant.dialogue.messages import HowChecked, OldCard, Paused, Say, Todo
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.review import review_of
from assistant.dialogue.unknowing import do_not_know, park
from assistant.dialogue.walk import DRILL
from assistant.dialogue.wording import filled, say


def command(job: Job, state: State, text: str) -> Outcome | None:
    """What a word of the machine does, or None if the line is an answer."""
    plain = " ".join(text.split()).strip(" .!").lower()
    bare = plain.rstrip("?").strip() or plain
    name = named(job, bare) or named(job, plain)
    if name in SIMPLE:
        return SIMPLE[name](job, state)
    word, _, rest = plain.partition(" ")
    it = rest.partition(" ")[0] in listed(job.word("mending.it"))
    if word in job.library.commands["change"] and not it:
        answered_so = answered_by_name(job, state, rest)
        return answered_so or begin_change(job, state, " ".join(text.split())[len(word) :].strip())
    if word in job.library.commands["units"]:
        return units(job, state, rest)
    for opening in job.library.commands["old_card"]:
        if f"{plain} ".startswith(opening + " "):
            wanted = OldCard(plain[len(opening) :].strip(), state.situation.choice(DRILL))
            return aside(state, wanted)
    return in_other_unit(job, state, text) or asks(job, state, text, plain)


def asks(job: Job, state: State, text: str, plain: str) -> Outcome | None:
    """A word of the trade, a declared question, or an honest "I don't know it"."""
    asked = answered(job, state, text)
    term = term_asked(job, plain.rstrip("?").strip())
    if not term:
        return asked
    known = meaning(job, term)
    unknown = say(job, "glossary.none", term=term)
    return aside(state, Say(known)) if known else asked or aside(state, Say(unknown))


def term_asked(job: Job, plain: str) -> str:
    """What a line asks the meaning of, such as X of "what does X mean"; empty if it does not."""
    for words in job.library.commands["what_is"]:
        opens, _, closes = words.partition(" ... ")
        if plain.startswith(f"{opens} ") and plain.endswith(f" {closes}" if closes else ""):
            return plain.removeprefix(opens).removesuffix(closes).strip(" .!\"'")
    return ""


def named(job: Job, plain: str) -> str:
    """The name of the command that a line is, whole."""
    return next((n for n, words in job.library.commands.items() if plain in words), "")


def leave(job: Job, state: State) -> Outcome:
    """Pause: all is saved; what must be put back, drill or seed, is shown without waiting."""
    steps = to_put_back(job, state.log).values()
    texts = dict.fromkeys(filled(job, state.log, state.situation, n, n.step.say) for n in steps)
    lists = [Todo(text) for text in texts or seed_kept(job, state)]
    return Outcome(said=(Paused(say(job, "pause.saved")), *lists), state=replace(state, left=True))


def seed_kept(job: Job, state: State) -> list[str]:
    """The short line of each caution about the seed that was passed, while nothing else is due."""
    cautions = job.library.cautions
    passed = dict.fromkeys(each.fact for each in state.situation.used if each.fact in cautions)
    return [job.caution(name).short for name in passed if job.caution(name).of_seed]


def units(job: Job, state: State, system: str) -> Outcome:
    """Show values in the other system; nothing stored changes."""
    chosen = named(job, system).removeprefix("units_")
    if chosen not in {"us", "metric"}:
        return aside(state, Say(say(job, "units.which")))
    return Outcome((UnitsSet(chosen),), (Say(say(job, f"units.{chosen}")),))


def sure(job: Job, state: State) -> Outcome:
    """How far the last results may be off: read when it is asked for, not at each start."""
    from assistant.dialogue.doubt import how_sure

    return aside(state, how_sure(job, state))


SIMPLE = {
    "why": lambda job, state: aside(state, why(job, state)),
    "help": lambda job, state: aside(state, help_for(job, state)),
    "back": go_back,
    "review": lambda job, state: aside(state, review_of(job, state)),
    "how_sure": sure,
    "how_checked": lambda _job, state: aside(state, HowChecked()),
    "repeat": lambda _job, state: aside(state),
    "do_not_know": do_not_know,
    "later": park,
    "pause": leave,
}
