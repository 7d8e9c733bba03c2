"""What the rows that were not caught leave open: how far the mean of all rows may lie."""

from dataclasses import dataclass

from assistant.calc.chance import normal_reach, student_reach
from assistant.calc.contract import Rows, Share, Trial
from assistant.calc.figures import at_least, error_of_part, to_step


class LeftOpen:
    """How far the mean of all rows may lie from that of the rows caught."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """A share of the mean, to both sides."""

        rows_left_open: Share

    @dataclass(frozen=True, slots=True)
    class AllCaught:
        """No row is left."""

    @dataclass(frozen=True, slots=True)
    class RowByRow:
        """A catch was weighed row by row: its own spread tells more than the usual one."""

    @dataclass(frozen=True, slots=True)
    class OneRow:
        """One row tells nothing of how rows differ."""


def rows_left_open(
    *,
    trials: tuple[Trial, ...],
    usual_row_cv: Share,
    rows_caught: Rows,
    row_count: Rows,
    one_row: Rows,
    sure: Share,
) -> LeftOpen.Worked | LeftOpen.AllCaught | LeftOpen.RowByRow:
    """What is left open by the rows not caught, where the spread between rows is known.

    `sure` (0.95 is 19 in 20) of drills lie inside. The correction for a finite number of rows is
    1 - n/N, as the spread has divisor n - 1. Source: Cochran, Sampling Techniques, 2.6, from
    memory. `one_row` is 1, with its kind.
    """
    if at_least(rows_caught, row_count):
        return LeftOpen.AllCaught()
    if any(trial.row_weights for trial in trials):
        return LeftOpen.RowByRow()
    error = error_of_part(usual_row_cv, rows_caught / one_row, row_count / one_row)
    return LeftOpen.Worked(normal_reach(float(sure)) * error)


def rows_left_open_by_these(
    *, row_cv: Share, rows_caught: Rows, row_count: Rows, one_row: Rows, sure: Share
) -> LeftOpen.Worked | LeftOpen.AllCaught | LeftOpen.OneRow:
    """The same where the spread was found from just these rows, so that it is unsure itself.

    Student's t with n - 1 degrees of freedom stands for the normal law. Source: as
    `rows_left_open`.
    """
    if at_least(rows_caught, row_count):
        return LeftOpen.AllCaught()
    rows = int(to_step(float(rows_caught / one_row), 1))
    if rows <= 1:
        return LeftOpen.OneRow()
    error = error_of_part(row_cv, rows_caught / one_row, row_count / one_row)
    return LeftOpen.Worked(student_reach(float(sure), rows - 1) * error)
