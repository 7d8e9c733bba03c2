"""What the settings tried tell of the next one, once more: for openings, marks and gears alike."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from assistant.calc.contract import Trial
from tests.calc.second.catches import mean, seed_of, this_stay, with_last
from tests.calc.second.exact import Given, same


@dataclass(frozen=True)
class Tried:
    """A setting, what it brought, how often one came to it from another, and how often it was."""

    at: Fraction
    brought: Fraction
    visits: int
    times: int


def tried_at(of: Given, name: str) -> list[Tried]:
    """Each setting in the present drive range, by the name of its fact; the present one last.

    Raises ValueError where the last catch has none, or brought nothing.
    """
    last = of["trials"][-1]
    if getattr(last, name) is None or seed_of(last, of) <= 0:
        raise ValueError(last)
    here: list[Trial] = [
        each
        for each in of["trials"]
        if seed_of(each, of) > 0
        and each.drive_range == last.drive_range
        and getattr(each, name) is not None
    ]
    now = this_stay(of)
    agreeing = with_last(now, of)
    found = visited([(_at(each, name), seed_of(each, of)) for each in here])
    present = Tried(
        found[-1].at,
        mean(agreeing if len(agreeing) > 1 else now),
        found[-1].visits,
        found[-1].times,
    )
    return [*found[:-1], present]


def _at(trial: Trial, name: str) -> Fraction:
    return Fraction(getattr(trial, name))


def visited(catches: Sequence[tuple[Fraction, Fraction]]) -> list[Tried]:
    """Each setting with the mean of what it brought, the last one last."""
    places: list[Fraction] = []
    for at, _ in catches:
        if not any(same(at, each) for each in places):
            places.append(at)
    last = next(each for each in places if same(each, catches[-1][0]))
    found = []
    for place in [*(each for each in places if each != last), last]:
        stood = [same(at, place) for at, _ in catches]
        came = sum(now and not before for before, now in zip([False, *stood], stood, strict=False))
        brought = mean([seed for (_, seed), there in zip(catches, stood, strict=True) if there])
        found.append(Tried(place, brought, came, sum(stood)))
    return found


def rising(tried: Sequence[Tried], *, upward: bool = True) -> list[Tried]:
    """Those that rise with the setting, from the present one outwards to both sides."""
    present = tried[-1]
    up = sorted(tried, key=lambda each: each.at if upward else -each.at)
    here = up.index(present)
    kept = [present]
    for each in reversed(up[:here]):
        if each.brought < kept[0].brought:
            kept.insert(0, each)
    for each in up[here + 1 :]:
        if each.brought > kept[-1].brought:
            kept.append(each)
    return kept


def bracket(tried: Sequence[Tried], wanted: Fraction) -> tuple[Tried, Tried] | None:
    """The nearest that is not heavy, and the nearest that is; nothing where one side is empty."""
    light = [each for each in tried if each.brought <= wanted]
    heavy = [each for each in tried if each.brought > wanted]
    if not light or not heavy:
        return None
    return max(light, key=lambda each: each.brought), min(heavy, key=lambda each: each.brought)


def on_line(one: Tried, other: Tried, wanted: Fraction) -> Fraction:
    """Where the straight line through two settings brings what is wanted."""
    part = (wanted - one.brought) / (other.brought - one.brought)
    return (1 - part) * one.at + part * other.at


def nearest_step(value: Fraction, step: Fraction) -> Fraction:
    """The nearest whole number of steps, a half one upwards."""
    return step * floor(value / step * (1 + Fraction(1, 10**9)) + Fraction(1, 2))


def best_mark(goal: Fraction, tried: Sequence[Tried], wanted: Fraction, step: Fraction) -> Fraction:
    """The goal, or the present setting where the goal is no better."""
    present = tried[-1]
    there = min(tried, key=lambda each: abs(each.at - goal))
    if abs(there.at - goal) >= step / 2:
        return goal
    nearer = abs(there.brought - wanted) < abs(present.brought - wanted)
    beside = abs(goal - present.at) < step * Fraction(3, 2)
    return goal if nearer and not (beside and present.visits > 1) else present.at
