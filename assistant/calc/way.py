"""The way to catch: a wheel or a crank turned by hand, or a strip that is driven.

Distances are m per turn, spacings m per row, ground m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import (
    Area,
    Choice,
    DistancePerTurn,
    Mass,
    Ratio,
    Rows,
    RowSpacing,
    Turns,
)
from assistant.calc.figures import at_least, up_to_step
from assistant.calc.plan import Enough, FewMarks, TooFewMarks


@dataclass(frozen=True, slots=True)
class Wheel:
    """A wheel can be turned: the choice of `method`."""


@dataclass(frozen=True, slots=True)
class No:
    """No wheel is turned: the choice of `drive_halves`."""


class CrankTurn:
    """What one turn of a crank stands for."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m per turn, of the whole drill."""

        distance_per_turn: DistancePerTurn


class ProposedRows:
    """Rows to catch."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Whole rows."""

        proposed_rows_caught: Rows


def turned_by_hand(*, drive_halves: Choice) -> Wheel:  # noqa: ARG001  an answer says so
    """The drive wheel is turned by hand, since somebody saw what it turns."""
    return Wheel()


def no_halves(*, method: Choice) -> No:  # noqa: ARG001  an answer says so
    """No wheel is turned by hand, since another way to catch was told."""
    return No()


def crank_distance_per_turn(
    *, crank_turns: Turns, crank_area: Area, row_count: Rows, row_spacing: RowSpacing
) -> CrankTurn.Worked:
    """How far (m) the whole drill goes for one turn of its crank, all more than 0.

    So many turns are so much ground (m2), by the plate or the manual.
    Common practice, no source.
    """
    return CrankTurn.Worked(crank_area / crank_turns / (row_count * row_spacing))


def propose_rows(*, drive_rows: Rows, rows_wanted: Rows, one_row: Rows) -> ProposedRows.Worked:
    """Rows to catch: those wanted or a quarter of all, whichever is more, but not more than all.

    `one_row` is 1, with its kind. Common practice, no source.
    """
    quarter = up_to_step(drive_rows / 4, one_row)
    return ProposedRows.Worked(min(drive_rows, max(rows_wanted, quarter)))


def enough_marks(
    *, target_catch: Mass, scale_step: Mass, marks_wanted: Ratio, marks_least: Ratio
) -> Enough | FewMarks | TooFewMarks:
    """Whether a catch (kg) without turns is big enough for the scale.

    Source: as `enough_to_weigh`.
    """
    scale_marks = target_catch / scale_step
    if not at_least(scale_marks, marks_least):
        return TooFewMarks(scale_marks)
    if not at_least(scale_marks, marks_wanted):
        return FewMarks(scale_marks)
    return Enough(scale_marks)
