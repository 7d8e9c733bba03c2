"""A setting worked out from earlier catches, without a catch at it: the card says so.

Openings in m, weights in kg, ground in m2, rates in kg/m2; marks as on the lever's scale.
"""

from dataclasses import dataclass

from assistant.calc import lever, openings, turned
from assistant.calc.aiming import bracket, rising
from assistant.calc.catches import Scale, Tried, seed_caught, settings_tried
from assistant.calc.contract import Area, Choice, Length, Mark, Mass, Rate, Share, Trial
from assistant.calc.figures import at_most
from assistant.calc.turned_catches import Catches


class OpeningAhead:
    """An opening that was not caught at."""

    @dataclass(frozen=True, slots=True)
    class Set:
        """The opening, what it should drop there, and the last catch with its opening."""

        final_opening: Length
        expected_rate: Rate
        caught_opening: Length
        caught_rate: Rate
        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class NearEnough:
        """The opening of the last catch, with that catch: it is within the tolerance."""

        final_opening: Length
        caught_rate: Rate
        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class AsNear:
        """The opening of the last catch, with that catch: no mark of the ruler is nearer."""

        final_opening: Length
        caught_rate: Rate
        percent_off: Share


class MarkAhead:
    """A lever mark that was not caught at."""

    @dataclass(frozen=True, slots=True)
    class Set:
        """The mark in its drive range, what it should drop there, and the last catch."""

        final_lever_mark: Mark
        final_range: Choice
        expected_rate: Rate
        caught_mark: Mark
        caught_rate: Rate
        percent_off: Share

    @dataclass(frozen=True, slots=True)
    class AsNear:
        """The mark of the last catch, with that catch: no other is nearer."""

        final_lever_mark: Mark
        final_range: Choice
        caught_rate: Rate
        percent_off: Share


@dataclass(frozen=True, slots=True)
class OffScale:
    """It would lie past an end of the scale."""


@dataclass(frozen=True, slots=True)
class Against:
    """A smaller opening gave more than a larger one: one catch lies, so nothing is worked out."""


@dataclass(frozen=True, slots=True)
class Odd:
    """The last catch can't be, by those before it, so nothing is worked out."""


@dataclass(frozen=True, slots=True)
class OneMark:
    """All catches lie on one side of the target: a mark is a place, so nothing is worked out."""


@dataclass(frozen=True, slots=True)
class NoCatch:
    """No catch that brought seed."""


ByOpening = OpeningAhead.Set | OpeningAhead.NearEnough | OpeningAhead.AsNear


def opening_ahead(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    ground_covered: Area,
    opening_step: Length,
    widest_opening: Length,
    narrowest_opening: Length,
    repeat_tolerance: Share,
    tolerance: Share,
) -> ByOpening | OffScale | Against | NoCatch:
    """The opening that should bring the target, from the catches so far, by `next_opening`.

    What it should drop is the last catch in proportion to the opening. All lengths and the target
    more than 0. Raises ValueError when the last catch has no opening. Common practice, no source.
    """
    scale = Scale(tare, catch_step)
    if not trials or seed_caught(trials[-1], scale) <= 0:
        return NoCatch()
    aim = openings.next_opening(
        trials=trials,
        tare=tare,
        catch_step=catch_step,
        target_catch=target_catch,
        opening_step=opening_step,
        widest_opening=widest_opening,
        narrowest_opening=narrowest_opening,
        repeat_tolerance=repeat_tolerance,
    )
    if isinstance(aim, openings.SetAgain):
        return Against()
    last = settings_tried(trials, scale, lambda trial: trial.opening, repeat_tolerance)[-1]
    caught = (last.seed / ground_covered, last.seed / target_catch - 1)
    if at_most(abs(caught[1]), tolerance):
        return OpeningAhead.NearEnough(last.setting, *caught)
    if isinstance(aim, openings.AsNear):
        return OpeningAhead.AsNear(aim.next_opening, *caught)
    if not isinstance(aim, openings.SetNext):
        return OffScale()
    expected_rate = caught[0] * aim.next_opening / last.setting
    return OpeningAhead.Set(aim.next_opening, expected_rate, last.setting, *caught)


def opening_ahead_by_all(
    *, catches: Catches, ground_covered: Area, sure: Share
) -> ByOpening | OffScale | Odd | NoCatch:
    """The opening that should bring the target, by the plan of `turned.aim_opening`.

    Units as there; what it should drop is foreseen there too. Raises ValueError when the last catch
    holds no weight. Source: as there.
    """
    if not catches.trials or catches.last <= 0:
        return NoCatch()
    last = turned.judge_opening(catches=catches, ground_covered=ground_covered)
    if isinstance(last, turned.Sure.PutAside | turned.RunsEmpty):
        return Odd()
    caught = (last.caught_rate, last.percent_off)
    present = catches.trials[-1].opening or catches.narrowest_opening
    if at_most(abs(last.percent_off), catches.tolerance):
        return OpeningAhead.NearEnough(present, *caught)
    aim = turned.aim_opening(catches=catches, ground_covered=ground_covered, sure=sure)
    if isinstance(aim, openings.Foreseen.SetNext | openings.Foreseen.SetBetween):
        return OpeningAhead.Set(aim.next_opening, aim.foreseen_rate, present, *caught)
    if isinstance(aim, openings.TooWide | openings.TooNarrow):
        return OffScale()
    return OpeningAhead.AsNear(present, *caught)


def mark_ahead(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    ground_covered: Area,
    lever_step: Mark,
    lever_top: Mark,
    lever_lowest: Mark,
    probe: Share,
    lever_opens: Choice,
    repeat_tolerance: Share,
) -> MarkAhead.Set | MarkAhead.AsNear | OffScale | OneMark | NoCatch:
    """The mark that should bring the target: only between a light and a heavy catch.

    By `next_lever_mark`, the way that the catches show; what it should drop lies on the straight
    line between the two. Raises ValueError when the last catch has no mark.
    Common practice, no source.
    """
    if not trials or seed_caught(trials[-1], scale := Scale(tare, catch_step)) <= 0:
        return NoCatch()
    marks = settings_tried(trials, scale, lambda trial: trial.lever_mark, repeat_tolerance)
    aim = lever.next_lever_mark(
        trials=trials,
        tare=tare,
        catch_step=catch_step,
        target_catch=target_catch,
        lever_step=lever_step,
        lever_top=lever_top,
        lever_lowest=lever_lowest,
        probe=probe,
        lever_opens=(way := lever.way_shown(marks, lever_opens, repeat_tolerance)),
        repeat_tolerance=repeat_tolerance,
    )
    if isinstance(aim, lever.TooWide | lever.TooNarrow):
        return OffScale()
    if (sides := bracket(rising(marks, upward=lever.upward(way)), target_catch)) is None:
        return OneMark()
    mark, drive_range = aim.next_lever_mark, trials[-1].drive_range or ""
    caught = (marks[-1].seed / ground_covered, marks[-1].seed / target_catch - 1)
    if isinstance(aim, lever.AsNear):
        return MarkAhead.AsNear(mark, drive_range, *caught)
    there = _between(*sides, mark) / ground_covered
    return MarkAhead.Set(mark, drive_range, there, marks[-1].setting, *caught)


def _between(light: Tried, heavy: Tried, mark: float) -> float:
    """The seed (kg) at a mark on the straight line through two catches."""
    slope = (heavy.seed - light.seed) / (heavy.setting - light.setting)
    return light.seed + (mark - light.setting) * slope
