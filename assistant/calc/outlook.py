"""What a tolerance takes: rows that speak for the whole drill, and catches to count on."""

from dataclasses import dataclass

from assistant.calc.assumed import FEW_CATCHES_FROM, LEFT_FOR_ROWS, SOME_CATCHES_FROM
from assistant.calc.contract import Rows, Share
from assistant.calc.figures import at_least, at_most, up_to_step


class RowsForAll:
    """Rows to catch, so that they speak for all rows."""

    @dataclass(frozen=True, slots=True)
    class More:
        """Whole rows, more than are proposed."""

        rows_for_all: Rows

    @dataclass(frozen=True, slots=True)
    class Enough:
        """Those that are proposed are as many."""


class CatchesExpected:
    """How many catches a tolerance takes as a rule."""

    @dataclass(frozen=True, slots=True)
    class Few:
        """Two to five."""

    @dataclass(frozen=True, slots=True)
    class Some:
        """Three to nine."""

    @dataclass(frozen=True, slots=True)
    class Many:
        """Six or more, and not every drill can be set so."""


def rows_for_all(
    *,
    drive_rows: Rows,
    proposed_rows_caught: Rows,
    tolerance: Share,
    usual_row_cv: Share,
    one_row: Rows,
) -> RowsForAll.More | RowsForAll.Enough:
    """Rows to catch, so that all `drive_rows` are within the tolerance in 95 of 100 drills.

    Rows scatter by `usual_row_cv`; the caught ones are on target by then, which leaves a part of
    the tolerance (`LEFT_FOR_ROWS`) for those not caught. `one_row` is 1, with its kind. Source:
    Cochran, Sampling Techniques, 2.6 (a finite number of rows), from memory.
    """
    left = LEFT_FOR_ROWS * tolerance / usual_row_cv
    wanted = up_to_step(one_row / (left * left + one_row / drive_rows), one_row)
    if at_least(proposed_rows_caught, wanted):
        return RowsForAll.Enough()
    return RowsForAll.More(wanted)


def catches_expected(
    *, tolerance: Share, scatter_told: Share
) -> CatchesExpected.Few | CatchesExpected.Some | CatchesExpected.Many:
    """How many catches to count on, of a drill whose catches scatter by `scatter_told`.

    One that scatters by more than half the tolerance takes more. Common practice, no source: see
    `assumed`.
    """
    steady = at_most(scatter_told, tolerance / 2)
    if steady and at_least(tolerance, FEW_CATCHES_FROM):
        return CatchesExpected.Few()
    if at_least(tolerance, SOME_CATCHES_FROM if steady else FEW_CATCHES_FROM):
        return CatchesExpected.Some()
    return CatchesExpected.Many()
