"""One more catch at a setting that is kept, from rows that were not caught before."""

from dataclasses import dataclass

from assistant.calc.assumed import APART
from assistant.calc.chance import normal_reach
from assistant.calc.contract import Area, Mass, Rate, Rows, Share
from assistant.calc.figures import at_least, error_of_part, mean, root


@dataclass(frozen=True, slots=True)
class SomeLeft:
    """As many rows again as were caught."""


@dataclass(frozen=True, slots=True)
class FewLeft:
    """Fewer than that."""


class OtherRows:
    """What the other rows dropped (kg/m2); all that were caught, against the target, as a share.

    And what those not caught leave open, as a share.
    """

    @dataclass(frozen=True, slots=True)
    class Alike:
        """They differ by no more than rows do."""

        other_rate: Rate
        both_off: Share
        both_left_open: Share

    @dataclass(frozen=True, slots=True)
    class Apart:
        """They differ by more."""

        other_rate: Rate
        both_off: Share
        both_left_open: Share


def other_rows_left(*, rows_caught: Rows, drive_rows: Rows) -> SomeLeft | FewLeft:
    """Whether as many rows again can be caught. Common practice, no source."""
    return SomeLeft() if at_least(drive_rows, 2 * rows_caught) else FewLeft()


def compare_other_rows(
    *,
    other_weight: Mass,
    caught_rate: Rate,
    target_catch: Mass,
    ground_covered: Area,
    usual_row_cv: Share,
    rows_caught: Rows,
    drive_rows: Rows,
    one_row: Rows,
    sure: Share,
) -> OtherRows.Alike | OtherRows.Apart:
    """The seed (kg) of as many other rows, beside the rate of those before.

    Two means of as many rows differ by root 2 times the error of one. What all together leave open
    is that of twice the rows. Source: as `rows_left.rows_left_open`; from how many of these errors
    on they are called apart, common practice, no source.
    """
    other_rate = other_weight / ground_covered
    wanted = target_catch / ground_covered
    both_off = mean([other_rate, caught_rate]) / wanted - 1
    left = error_of_part(usual_row_cv, 2 * rows_caught / one_row, drive_rows / one_row)
    found = other_rate, both_off, normal_reach(float(sure)) * left
    differ = usual_row_cv * root(2 / (rows_caught / one_row))
    far = abs(other_rate - caught_rate) > APART * differ * caught_rate
    return OtherRows.Apart(*found) if far else OtherRows.Alike(*found)
