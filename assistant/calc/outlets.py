"""What came at the outlets of an air drill, fan on: each against the others."""

from dataclasses import dataclass

from assistant.calc.contract import ManyMasses, Mass, Share
from assistant.calc.figures import at_most, relative_spread

OUTLETS_LEAST = 3
"""Two outlets show no spread worth the name."""


@dataclass(frozen=True, slots=True)
class Even:
    """They differ little. The spread as a share of the mean; the lightest and heaviest, in kg."""

    outlet_cv: Share
    outlet_least: Mass
    outlet_most: Mass


@dataclass(frozen=True, slots=True)
class Uneven:
    """They differ much."""

    outlet_cv: Share
    outlet_least: Mass
    outlet_most: Mass


@dataclass(frozen=True, slots=True)
class TooFew:
    """Under three outlets, or no seed at all: nothing can be said."""


def compare_outlets(
    *, outlet_weights: ManyMasses, outlet_spread_most: Share
) -> Even | Uneven | TooFew:
    """Whether outlets (kg each) get seed alike: their coefficient of variation, divisor n - 1.

    Source: ISO 7256-2, drills compared by the variation between outlets, from memory. The limit, a
    spread of 10 % or less that has been called very good, is common practice, no source.
    """
    if len(outlet_weights) < OUTLETS_LEAST or max(outlet_weights) <= 0:
        return TooFew()
    cv = relative_spread(outlet_weights)
    alike = Even if at_most(cv, outlet_spread_most) else Uneven
    return alike(cv, min(outlet_weights), max(outlet_weights))
