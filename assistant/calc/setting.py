"""What is set on a drill, and the setting that the card keeps."""

from dataclasses import dataclass

from assistant.calc.contract import Choice, Count, Length, Mark, Trial
from assistant.calc.figures import same
from assistant.calc.lever import upward

OPENED, DOUBLE_RUN = ("fluted", "small_seed"), "double_run"
"""The choices of `feed` that are set by an opening, and that by its sprockets.

The others have a lever and a drive range.
"""


class WhatIsSet:
    """What sets the rate of a feed."""

    @dataclass(frozen=True, slots=True)
    class ByOpening:
        """How much of a roller is open: a length with a true zero."""

    @dataclass(frozen=True, slots=True)
    class ByMark:
        """A mark on a lever, in a drive range."""

    @dataclass(frozen=True, slots=True)
    class ByTeeth:
        """The sprocket that is in: a rate that moves in steps."""


def what_is_set(*, feed: Choice) -> WhatIsSet.ByOpening | WhatIsSet.ByMark | WhatIsSet.ByTeeth:
    """What sets the rate of a feed, by the choice of `feed`.

    Common practice, no source; that of a double run, an agricultural engineering teaching page on
    seed metering.
    """
    if same(feed, DOUBLE_RUN):
        return WhatIsSet.ByTeeth()
    return WhatIsSet.ByOpening() if feed in OPENED else WhatIsSet.ByMark()


@dataclass(frozen=True, slots=True)
class ByOpening:
    """The setting is an opening, in metres."""

    final_opening: Length


@dataclass(frozen=True, slots=True)
class ByMark:
    """The setting is a lever mark, in a drive range."""

    final_lever_mark: Mark
    final_range: Choice


@dataclass(frozen=True, slots=True)
class ByTeeth:
    """The setting is a sprocket of so many teeth."""

    final_teeth: Count


def final_setting(*, trials: tuple[Trial, ...]) -> ByOpening | ByMark | ByTeeth:
    """The setting of the last catch: what was set, not what was proposed.

    Raises ValueError when it has no opening (m), no teeth and no mark with its drive range,
    IndexError without a trial.
    """
    last = trials[-1]
    if last.teeth is not None:
        return ByTeeth(last.teeth)
    if last.opening is not None:
        return ByOpening(last.opening)
    if last.lever_mark is None or last.drive_range is None:
        raise ValueError(last)
    return ByMark(last.lever_mark, last.drive_range)


class MarkByOpening:
    """About where a lever stands."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """On a scale from 0, with marks as far apart as the roller moves."""

        expected_mark: Mark


def mark_by_opening(
    *, trials: tuple[Trial, ...], widest_opening: Length, lever_top: Mark, lever_opens: Choice
) -> MarkByOpening.Worked:
    """About the mark of the last catch, by its opening; the lever opens evenly to its widest (m).

    Where a lower number gives more, from the top mark down. A scale may lie by a few mm and need
    not be even: this finds a gross misreading, no more. Raises ValueError when the last catch has
    no opening, IndexError without a trial. Common practice, no source.
    """
    if trials[-1].opening is None:
        raise ValueError(trials[-1])
    mark = lever_top * trials[-1].opening / widest_opening
    return MarkByOpening.Worked(mark if upward(lever_opens) else lever_top - mark)
