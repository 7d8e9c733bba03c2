"""What every calculation is written in: the kinds of its facts, and a row of trials.

A parameter or field is annotated with its kind. At run time it is a plain float in the SI unit of
that kind; when dimensions are checked, the same function runs on quantities.
"""

from dataclasses import dataclass
from typing import Annotated

Length = Annotated[float, "length"]
RowSpacing = Annotated[float, "row_spacing"]
DistancePerTurn = Annotated[float, "distance_per_turn"]
Mass = Annotated[float, "mass"]
MassPerRow = Annotated[float, "mass_per_row"]
Area = Annotated[float, "area"]
Rate = Annotated[float, "rate"]
LiveRate = Annotated[float, "live_rate"]
SeedsPerWeight = Annotated[float, "seeds_per_weight"]
SeedsPerArea = Annotated[float, "seeds_per_area"]
LiveSeedsPerArea = Annotated[float, "live_seeds_per_area"]
PlantsPerArea = Annotated[float, "plants_per_area"]
SeedsPerRowLength = Annotated[float, "seeds_per_row_length"]
PlantsPerRowLength = Annotated[float, "plants_per_row_length"]
BulkDensity = Annotated[float, "bulk_density"]
BushelRate = Annotated[float, "bushel_rate"]
Share = Annotated[float, "share"]
Emergence = Annotated[float, "emergence"]
Rows = Annotated[float, "rows"]
Turns = Annotated[float, "turns"]
Mark = Annotated[float, "mark"]
Ratio = Annotated[float, "ratio"]
Choice = Annotated[str, "choice"]
Text = Annotated[str, "text"]

ManyMasses = Annotated[tuple[float, ...], "mass"]
ManySeeds = Annotated[tuple[float, ...], "seeds"]
ManyRows = Annotated[tuple[float, ...], "rows"]


@dataclass(frozen=True, slots=True)
class Trial:
    """One catch: the setting that was made and what was weighed at it.

    A setting is an opening (m) or a lever mark, and the drive range where the drill has one.
    Exactly one of the three weights (kg) is there: seed alone, seed and tub, or row by row.
    """

    opening: Length | None = None
    lever_mark: Mark | None = None
    drive_range: Choice | None = None
    catch_weight: Mass | None = None
    gross_weight: Mass | None = None
    row_weights: ManyMasses | None = None
