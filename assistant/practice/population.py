"""What practice drills are like: ranges that each drill is drawn from, by level.

All of it is assumed: common practice, no source. It stays as it is in a commit that changes how
catches are judged, so that a rule is never fitted to the drills that it is tried on.
"""

from __future__ import annotations

from dataclasses import dataclass

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Population:
    """Ranges, each even from its least to its most; lengths in m, shares as fractions of 1.

    A feed throws (opening - dead zone) ** power. Its lever lands beside a mark by `play`, once for
    each setting, and further open by its `slack` where it came down to it; a catch scatters by
    `repeat`, and by `pulse` over the turns. `chart` is how far off the start on the lid is, `short`
    what the first catch lacks where nobody primed, `rows` how much rows differ and `squat` how much
    less far a loaded tyre rolls. In `plugged` of drills one row that is caught hardly runs, and in
    `lost` of catches a turn is miscounted. The lever's scale tells `lies` more than the cups are
    open.
    """

    power: Range = (0.9, 1.1)
    dead_zone: Range = (-0.001, 0.003)
    needed: Range = (0.008, 0.030)
    play: Range = (0.00005, 0.0003)
    slack: Range = (0.0002, 0.0006)
    repeat: Range = (0.005, 0.02)
    chart: Range = (-0.2, 0.2)
    short: Range = (0.03, 0.15)
    rows: Range = (0.02, 0.08)
    squat: Range = (0.01, 0.04)
    pulse: float = 0.5
    lost: float = 0.02
    plugged: float = 0.0
    lies: Range = (0.0, 0.0)


LEVELS = {
    1: Population(
        play=(0.00005, 0.0001),
        slack=(0.0001, 0.0002),
        repeat=(0.005, 0.01),
        chart=(-0.1, 0.1),
        rows=(0.01, 0.03),
        lost=0.0,
    ),
    2: Population(),
    3: Population(
        play=(0.0002, 0.0003),
        slack=(0.0006, 0.0012),
        chart=(-0.5, 0.5),
        plugged=0.7,
        lies=(-0.003, 0.003),
    ),
}
"""A good drill that is nearly right, a usual one, and one that has something wrong."""

ROWS = 24
WIDEST, TOP_MARK = 0.040, 10
"""The opening (m) with the lever all the way open, and the mark there."""
RULER = 0.0005
"""What a ruler at the cup can tell, in m."""
WHEEL = (1.9, 2.4)
"""Once round the drive wheel, in m."""
PLUGGED = 0.15
"""What a plugged row still throws of its seed."""
