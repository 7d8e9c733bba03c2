"""A driven strip: the ground that a catch stands for.

Lengths in m, spacings m per row, ground m2.
"""

from dataclasses import dataclass

from assistant.calc.contract import Length, Rows, RowSpacing
from assistant.calc.plan import Ground


class Width:
    """How wide the drill seeds."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In m: rows x spacing, not the frame."""

        working_width: Length


def width_by_rows(*, row_count: Rows, row_spacing: RowSpacing) -> Width.Worked:
    """The width (m) that so many rows seed, so that passes stand one spacing apart.

    Common practice, no source.
    """
    return Width.Worked(row_count * row_spacing)


def strip_ground(
    *, rows_caught: Rows, row_spacing: RowSpacing, strip_distance: Length
) -> Ground.Worked:
    """The ground that the catch of a strip stands for: of the rows caught, not of the whole drill.

    Source: Southeast Farm Press, cover crop mixtures need a calibrated drill: 43,560 x fraction /
    width is how far to drive.
    """
    return Ground.Worked(rows_caught * row_spacing * strip_distance)
