"""Long random walks through a job, and the straight way from wherever one stands to an end."""

from __future__ import annotations

from datetime import timedelta
from random import Random

from assistant.dialogue.changing import NEW_VALUE
from assistant.dialogue.messages import (
    Ask,
    Finish,
    Message,
    Offer,
    Paused,
    Todo,
    Trouble,
    Warn,
)
from assistant.dialogue.questions import proposals
from assistant.dialogue.review import targets
from assistant.quantities.units import factor
from tests.dialogue.walks import ASIDES, SLIPS, TURNS
from tests.histories.lines import VALUES, line_for, text_for, word_for
from tests.histories.talk import PAUSES, STARTS, Talk, talk_of

SAY_WHAT_TO_TYPE = {"not_the_word", "not_done", "parked", "still_to_do"}
"""Refusals after which a long caution, list or review is not put again."""

SUPPOSED = ("what if 20", "what if 1.2 lb", "suppose the wheel is 80 in", "what about 7 in")
LAPS = 6
"""After so many catches that prove nothing, or laps of a loop, a person has enough of it."""
WAY_OUT = 150


def asks_or_ends(said: tuple[Message, ...]) -> bool:
    """Whether a reply ends in a question, in a way to go on, or in an end."""
    last = said[-1]
    if isinstance(last, Todo):
        return bool(last.ask) or any(isinstance(each, Paused) for each in said)
    if isinstance(last, Trouble):
        return last.code in SAY_WHAT_TO_TYPE
    return isinstance(last, Ask | Warn | Offer | Finish | Paused)


def some_line(talk: Talk, random: Random) -> str:
    """Mostly what goes on, now and then back, a change, later, or a row dropped."""
    chance, listed = random.random(), targets(talk.job, talk.state.situation)
    if talk.state.moment is None and chance < 0.08:
        return "back"
    if talk.state.moment is None and chance < 0.11:
        return random.choice(("later", "don't know", "review", "-3"))
    if talk.state.moment is None and chance < 0.18 and listed:
        number, target = random.choice(list(enumerate(listed, 1)))
        if target.series and random.random() < 0.5:
            return f"change {number} drop it fell"
        return f"change {number} {text_for(talk.job, talk.state, target.entry.fact, random)}"
    leave = talk.job.graph[talk.open.place].step.leave
    if talk.state.moment is None and leave and chance < 0.23:
        return random.choice(list(leave))
    return line_for(talk.job, talk.state, random)


def wild_line(talk: Talk, random: Random) -> str:
    """A line as people type it, with asides and slips between."""
    chance = random.random()
    if talk.state.moment and chance < 0.9:
        return random.choice(("1", "2", "yes", "no", "drop it fell"))
    if chance < 0.15:
        return random.choice(random.choice((ASIDES, SLIPS, TURNS, SUPPOSED)))
    return some_line(talk, random)


def walked(name: str, seed: int, most: int = 70) -> Talk:
    """One random walk; each reply was looked at."""
    random = Random(seed)
    talk = talk_of(name, random.choice(STARTS[name]))
    for _ in range(most):
        if talk.ended:
            break
        if random.random() < 0.03:
            talk.type("pause")
            assert asks_or_ends(talk.said), talk.typed
            talk.come_back(random.choice(PAUSES))
        elif random.random() < 0.02:
            talk.come_back(timedelta())
        else:
            talk.type(wild_line(talk, random))
        assert asks_or_ends(talk.said) or talk.ended, (talk.typed, talk.said[-1:])
    return talk


def to_the_end(talk: Talk) -> int:
    """Go on by accepted answers alone to an end; returns how many lines that took."""
    laps = 0
    for lines in range(WAY_OUT):
        if talk.ended:
            return lines
        laps += any(talk.job.graph.home(fact) for fact in talk.open.facts[-1:])
        talk.type(straight_line(talk, tired=laps > LAPS))
    raise AssertionError(talk.typed)


def straight_line(talk: Talk, *, tired: bool) -> str:
    """The line that leads on most surely."""
    open_, state = talk.open, talk.state
    if state.moment and state.moment.kind == NEW_VALUE:
        return "no"  # the change is let go
    if state.moment:
        return "yes" if len(state.moment.options) == 1 else "1"
    if open_.kind == "review":
        return "don't know" if talk.typed[-1] == "" else ""
    if open_.kind != "ask":
        return word_for(talk.job, state, open_)
    if tired and "give up" in talk.job.graph[open_.place].step.leave:
        return "give up"
    if open_.facts[-1].rpartition(".")[2] in {"catch", "seeds_caught"}:
        return wanted(talk, open_.facts[-1])
    if open_.visit > LAPS and talk.typed[-1] != "don't know":  # a loop these answers never leave
        choices = talk.job.fact(open_.facts[-1]).choices
        return str(len(choices)) if choices else "don't know"
    if set(proposals(talk.job, state)) >= set(open_.facts):
        return ""
    return ", ".join(first_text(talk, name) for name in open_.facts)


def first_text(talk: Talk, name: str) -> str:
    """The first text for a fact, or its first choice; in a loop that does not end, another."""
    fact = talk.job.fact(name)
    if fact.choices:
        return "1"
    texts = VALUES[talk.job.graph.declared.get(name, name)]
    return texts[max(0, talk.open.visit - LAPS) % len(texts)]


def wanted(talk: Talk, name: str) -> str:
    """Just the reading or the count that is wanted."""
    half, what = name[: name.rfind(".") + 1], name.rpartition(".")[2]
    aim = {"catch": "expected_reading", "seeds_caught": "expected_seeds"}[what]
    known = talk.state.situation.known[f"{half}{aim}"]
    assert isinstance(known.value, float)
    return f"{known.value / factor('lb'):.3f} lb" if what == "catch" else f"{known.value:.0f}"
