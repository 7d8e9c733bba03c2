"""What was hidden in a practice drill, and what it teaches."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.dialogue.wording import hundredths, off_target, say
from assistant.practice.drill import caught_rows
from assistant.practice.population import ROWS, RULER
from assistant.practice.practicing import Practice
from assistant.practice.sights import opening
from assistant.quantities.show import show

FAR = 2
"""How many times its usual play a lever may land beside a mark."""


def uncovered(sitting: Practice, *, level: str, seed: str) -> list[str]:
    """The truth, line by line, once the job is done or left, and how to meet this drill again."""
    words, yard, truth = sitting.job, sitting.yard, sitting.yard.truth
    lines = [say(words, "practice.title"), *setting(sitting)]
    lines.append(
        say(words, "practice.chart", chart=opening(yard.chart), needed=opening(truth.needed))
    )
    if yard.catches and not yard.primed_first:
        lines.append(say(words, "practice.short", amount=hundredths(truth.short)))
    if truth.plugged is not None and truth.plugged in rows(sitting):
        number = rows(sitting).index(truth.plugged) + 1
        lines.append(say(words, "practice.plugged", number=f"{number}"))
    lines.append(
        say(words, "practice.play", play=show("length", FAR * truth.play, unit="mm", step="0.1"))
    )
    slack = show("length", truth.slack, unit="mm", step="0.1")
    lines.append(say(words, "practice.slack", slack=slack))
    if yard.set_at is not None and abs(truth.lies) >= RULER:
        at, by_scale = opening(yard.set_at), opening(yard.by_scale)
        lines.append(say(words, "practice.lies", scale=by_scale, opening=at))
    lines.append(say(words, "practice.squat", amount=hundredths(truth.squat)))
    lines += [say(words, f"practice.{name}") for name in habits(sitting)]
    return [*lines, say(words, "practice.again", level=level, seed=seed)]


def setting(sitting: Practice) -> Iterator[str]:
    """What the setting really throws: the rows that were caught, and all."""
    yard, words = sitting.yard, sitting.job
    if not (sitting.finish and sitting.finish.card and yard.set_at is not None):
        yield say(words, "practice.over")
        return
    caught = off_target(words, yard.throws(len(rows(sitting))) - 1)
    whole = off_target(words, yard.throws(ROWS) - 1)
    yield say(words, "practice.caught", opening=opening(yard.set_at), caught=caught)
    yield say(words, "practice.all_rows", rows=f"{ROWS}", all=whole)
    if yard.slack_in:
        anew = off_target(words, yard.anew(len(rows(sitting))) - 1)
        yield say(words, "practice.anew", anew=anew)


def rows(sitting: Practice) -> list[int]:
    """The rows that were caught, from 0."""
    return caught_rows(sitting.rows)


def habits(sitting: Practice) -> Iterator[str]:
    """What went well, then what would have helped."""
    yard = sitting.yard
    if not yard.catches:
        return
    proven = bool(sitting.finish and sitting.finish.outcome == "proven")
    went = {"prime": yard.primed_first, "look": yard.looked, "again": proven}
    if yard.went_down:
        went["shut"] = not yard.came_down
    if yard.truth.plugged in rows(sitting):
        went["mend"] = yard.mended
    yield from (f"good_{name}" for name, well in went.items() if well)
    yield from (f"next_{name}" for name, well in went.items() if not well)
