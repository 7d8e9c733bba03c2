"""Seeds per weight where the tag has none: count some and weigh them."""

from dataclasses import dataclass

from assistant.calc.contract import ManyMasses, ManySeeds, SeedsPerWeight, Share
from assistant.calc.figures import at_most, relative_spread


@dataclass(frozen=True, slots=True)
class OneCount:
    """One count, so nothing is known of how counts differ. In seeds per kg."""

    seeds_per_weight: SeedsPerWeight


@dataclass(frozen=True, slots=True)
class Agree:
    """The counts lie close together. In seeds per kg, and a share."""

    seeds_per_weight: SeedsPerWeight
    count_spread: Share


@dataclass(frozen=True, slots=True)
class Apart:
    """The counts lie too far apart. In seeds per kg, and a share."""

    seeds_per_weight: SeedsPerWeight
    count_spread: Share


@dataclass(frozen=True, slots=True)
class NotPaired:
    """It is not clear which weight belongs to which count."""


def counted_seeds(
    *, seeds_counted: ManySeeds, counted_weight: ManyMasses, count_spread_most: Share
) -> OneCount | Agree | Apart | NotPaired:
    """Seeds per kg from counts of seeds and their weights in kg, in the same order.

    All seeds over all weight: a bigger sample counts for more. With equal weights this is the mean
    of the counts, as in the 20 g rule of University of Kentucky Cooperative Extension (count 20 g
    three times). A single weight stands for each of the counts.

    Two counts or more are judged by the rule for thousand-seed weight of the ISTA rules (from
    memory: 8 x 100 seeds, coefficient of variation of the weights at most 4 %, for chaffy grasses
    6 %, divisor n - 1), used here on any number of counts: the coefficient of variation of the
    weight of one seed, at most `count_spread_most`.
    """
    counts = len(seeds_counted)
    weights = counted_weight * counts if len(counted_weight) <= 1 else counted_weight
    if not counts <= len(weights) <= counts:
        return NotPaired()
    seeds_per_weight = sum(seeds_counted) / sum(weights)
    if counts <= 1:
        return OneCount(seeds_per_weight)
    seed_weights = [w / n for n, w in zip(seeds_counted, weights, strict=True)]
    count_spread = relative_spread(seed_weights)
    if at_most(count_spread, count_spread_most):
        return Agree(seeds_per_weight, count_spread)
    return Apart(seeds_per_weight, count_spread)
