"""What every calculation is written in: the kinds of its facts, and the rows of its series.

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
MassPerTurn = Annotated[float, "mass_per_turn"]
TurnsPerArea = Annotated[float, "turns_per_area"]
TurnsPerMass = Annotated[float, "turns_per_mass"]
PulsesPerMass = Annotated[float, "pulses_per_mass"]
PulsesPerTurn = Annotated[float, "pulses_per_turn"]
Time = Annotated[float, "time"]
Speed = Annotated[float, "speed"]
TurnRate = Annotated[float, "turn_rate"]
Share = Annotated[float, "share"]
Emergence = Annotated[float, "emergence"]
Rows = Annotated[float, "rows"]
Seeds = Annotated[float, "seeds"]
Turns = Annotated[float, "turns"]
Mark = Annotated[float, "mark"]
Ratio = Annotated[float, "ratio"]
Count = Annotated[float, "count"]
Choice = Annotated[str, "choice"]
Text = Annotated[str, "text"]

ManyMasses = Annotated[tuple[float, ...], "mass"]
ManySeeds = Annotated[tuple[float, ...], "seeds"]
ManyRows = Annotated[tuple[float, ...], "rows"]
ManyShares = Annotated[tuple[float, ...], "share"]
ManyRatios = Annotated[tuple[float, ...], "ratio"]
ManyCounts = Annotated[tuple[float, ...], "count"]
ManyRates = Annotated[tuple[float, ...], "rate"]
ManyLiveRates = Annotated[tuple[float, ...], "live_rate"]
ManySeedSizes = Annotated[tuple[float, ...], "seeds_per_weight"]
ManySeedsPerArea = Annotated[tuple[float, ...], "seeds_per_area"]
ManyLiveSeedsPerArea = Annotated[tuple[float, ...], "live_seeds_per_area"]
ManyChoices = Annotated[tuple[str, ...], "choice"]
ManyTexts = Annotated[tuple[str, ...], "text"]


class Together:
    """Facts that several calculations take together: a parameter of such a class names each."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Trial:
    """One catch: the setting that was made and what was weighed at it.

    A setting is an opening (m), a lever mark with the drive range where the drill has one, or the
    teeth of a sprocket.
    Exactly one catch is there: the weight (kg) of the seed alone, of seed and tub, or row by row,
    or the seeds that were counted, in all or row by row.
    """

    opening: Length | None = None
    lever_mark: Mark | None = None
    drive_range: Choice | None = None
    teeth: Count | None = None
    catch_weight: Mass | None = None
    gross_weight: Mass | None = None
    row_weights: ManyMasses | None = None
    seeds_caught: ManyCounts | None = None


@dataclass(frozen=True, slots=True)
class MeterCatch:
    """One catch under the meter of an air drill: its turns, and the seed in kg."""

    meter_turns: Turns
    meter_catch: Mass


@dataclass(frozen=True, slots=True)
class Roll:
    """One roll of a drill whose meter is driven from the ground.

    The gearbox mark where it has a scale, the turns of the meter shaft, and the distance in m.
    """

    shaft_turns: Turns
    shaft_distance: Length
    gear_mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class Run:
    """One run of a powered meter: what its screen showed and what was weighed, both in kg.

    The factor that was set is one of the three: kg a turn, pulses a kg, or turns a kg.
    """

    shown: Mass
    weighed: Mass
    set_weight_per_turn: MassPerTurn | None = None
    set_pulses_per_weight: PulsesPerMass | None = None
    set_turns_per_weight: TurnsPerMass | None = None


Row = Trial | MeterCatch | Roll | Run
"""A row of any series."""
