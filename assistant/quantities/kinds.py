"""The kinds that a fact can have: plain data, no pint.

A value is held as a float in the unit `si` of its kind. `plain` is the unit that people write:
the kind itself supplies "per row" and "per turn". Counts keep their own dimension inside and are
dropped in `json_unit`, so that any reader of the output understands the unit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

Form = Literal["unit", "percent", "number", "words"]
"""How a value is written: number and unit, number and %, number alone, or words."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What a fact is: its units, how it is written, and what no drill could ever have.

    `us` and `metric` are the units shown, largest first, each from the value beside it (SI) on.
    `least` and `most` (SI) tell apart readings of one typed number; they judge no answer.
    """

    name: str
    si: str
    json_unit: str
    plain: str = ""
    form: Form = "unit"
    us: tuple[tuple[str, float], ...] = ()
    metric: tuple[tuple[str, float], ...] = ()
    noun: str = ""
    per: str = ""
    live: bool = False
    whole: bool = False
    zero: bool = False
    counted: bool = False
    least: Fraction | None = None
    most: Fraction | None = None


_LENGTH_US = (("ft", 3.048), ("in", 0.0))
_LENGTH_METRIC = (("m", 1.0), ("cm", 0.1), ("mm", 0.0))
_MASS_US = (("lb", 0.045359237), ("oz", 0.0))
_MASS_METRIC = (("kg", 1.0), ("g", 0.0))
_RATE_US = (("lb/ac", 0.0),)
_RATE_METRIC = (("kg/ha", 0.0),)


def _per_area(name: str, noun: str, *, live: bool = False) -> Kind:
    """Seeds or plants per area: by the square foot when dense enough, else by the acre."""
    return Kind(
        name,
        f"{noun}/m^2",
        "1/m^2",
        plain=f"{noun}/m^2",
        us=((f"{noun}/ft^2", 10.76), (f"{noun}/ac", 0.0)),
        metric=((f"{noun}/m^2", 1.0), (f"{noun}/ha", 0.0)),
        noun=noun,
        live=live,
        counted=True,
        least=Fraction(1, 4),
        most=Fraction(100_000),
    )


def _per_row_length(name: str, noun: str) -> Kind:
    return Kind(
        name,
        f"{noun}/(m*row)",
        "1/m",
        plain=f"{noun}/m",
        us=((f"{noun}/ft", 0.0),),
        metric=((f"{noun}/m", 0.0),),
        noun=noun,
    )


def _per_mass(name: str, noun: str) -> Kind:
    """What an air drill counts for one weight of seed."""
    return Kind(
        name,
        f"{noun}/kg",
        "1/kg",
        plain=f"{noun}/kg",
        us=((f"{noun}/lb", 0.0),),
        metric=((f"{noun}/kg", 0.0),),
        noun=noun,
    )


def _rate(name: str, *, live: bool = False) -> Kind:
    return Kind(
        name,
        "kg/m^2",
        "kg/m^2",
        plain="kg/m^2",
        us=_RATE_US,
        metric=_RATE_METRIC,
        live=live,
        least=Fraction(1, 1_000_000),
        most=Fraction(1),
    )


def _number(name: str, si: str, *, whole: bool = False, zero: bool = False) -> Kind:
    return Kind(name, si, "", plain=si, form="number", whole=whole, zero=zero, counted=whole)


_ALL = (
    Kind("length", "m", "m", "m", us=_LENGTH_US, metric=_LENGTH_METRIC),
    Kind(
        "row_spacing",
        "m/row",
        "m",
        "m",
        us=(("in", 0.0),),
        metric=(("cm", 0.0),),
        per="row",
    ),
    Kind(
        "distance_per_turn",
        "m/turn",
        "m",
        "m",
        us=(("in", 0.0),),
        metric=(("m", 1.0), ("cm", 0.0)),
        per="turn",
    ),
    Kind("mass", "kg", "kg", "kg", us=_MASS_US, metric=_MASS_METRIC, zero=True),
    Kind(
        "mass_per_row", "kg/row", "kg", "kg", us=_MASS_US, metric=_MASS_METRIC, per="row", zero=True
    ),
    Kind(
        "area",
        "m^2",
        "m^2",
        "m^2",
        us=(("ac", 404.68), ("ft^2", 0.0)),
        metric=(("ha", 1000.0), ("m^2", 0.0)),
    ),
    Kind("mass_per_turn", "kg/turn", "kg", "kg", us=_MASS_US, metric=_MASS_METRIC, per="turn"),
    Kind(
        "turns_per_area",
        "turn/m^2",
        "1/m^2",
        "turn/m^2",
        us=(("turn/ac", 0.0),),
        metric=(("turn/ha", 0.0),),
        noun="turn",
    ),
    _per_mass("turns_per_mass", "turn"),
    _per_mass("pulses_per_mass", "pulse"),
    Kind(
        "pulses_per_turn",
        "pulse/turn",
        "",
        "pulse",
        us=(("pulse", 0.0),),
        metric=(("pulse", 0.0),),
        noun="pulse",
        per="turn",
    ),
    Kind(
        "time", "s", "s", "s", us=(("min", 120.0), ("s", 0.0)), metric=(("min", 120.0), ("s", 0.0))
    ),
    Kind("speed", "m/s", "m/s", "m/s", us=(("mi/h", 0.0),), metric=(("km/h", 0.0),)),
    Kind(
        "turn_rate",
        "turn/s",
        "1/s",
        "turn/s",
        us=(("turn/min", 0.0),),
        metric=(("turn/min", 0.0),),
        noun="turn",
    ),
    _rate("rate"),
    _rate("live_rate", live=True),
    Kind(
        "seeds_per_weight",
        "seed/kg",
        "1/kg",
        "seed/kg",
        us=(("seed/lb", 0.0),),
        metric=(("seed/kg", 0.0),),
        noun="seed",
        counted=True,
        least=Fraction(500),
        most=Fraction(20_000_000),
    ),
    _per_area("seeds_per_area", "seed"),
    _per_area("plants_per_area", "plant"),
    _per_area("live_seeds_per_area", "seed", live=True),
    _per_row_length("seeds_per_row_length", "seed"),
    _per_row_length("plants_per_row_length", "plant"),
    Kind(
        "bulk_density",
        "kg/m^3",
        "kg/m^3",
        "kg/m^3",
        us=(("lb/bu", 0.0),),
        metric=(("kg/hL", 0.0),),
    ),
    Kind("bushel_rate", "m", "m", "m", us=(("bu/ac", 0.0),), metric=(("bu/ac", 0.0),)),
    Kind("share", "1", "", form="percent", zero=True),
    Kind("emergence", "plant/seed", "", form="percent"),
    _number("seeds", "seed", whole=True),
    _number("rows", "row", whole=True),
    _number("turns", "turn"),
    _number("count", "1", zero=True),
    _number("mark", "mark", zero=True),
    _number("ratio", "1", zero=True),
    Kind("text", "", "", form="words"),
    Kind("choice", "", "", form="words"),
)

KINDS: Mapping[str, Kind] = MappingProxyType({kind.name: kind for kind in _ALL})
"""Every kind by its name."""
