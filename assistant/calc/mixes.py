"""Seed mixes: the total, the shares by weight, and what each species puts on the ground.

Lists run side by side, one place for each species. Rates kg/m2, seeds per kg and per m2, weights
kg, shares between 0 and 1.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from assistant.calc.chance import chi_square_reach
from assistant.calc.contract import (
    Count,
    ManyCounts,
    ManyLiveRates,
    ManyLiveSeedsPerArea,
    ManyMasses,
    ManyRates,
    ManySeedSizes,
    ManySeedsPerArea,
    ManyShares,
    Rate,
    Seeds,
    Share,
)
from assistant.calc.figures import at_least, to_step

KINDS_LEAST = 2
"""Species in a mix."""


class Mix:
    """The mix as it sits in the bag."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2, and each species' share of the weight."""

        bulk_rate: Rate
        species_shares: ManyShares

    @dataclass(frozen=True, slots=True)
    class Several:
        """Two kinds or more are told."""

    @dataclass(frozen=True, slots=True)
    class OneKind:
        """One figure alone is no mix."""


class MixSeeds:
    """What each species puts on the ground."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Seeds and pure live seeds per m2, of each species; seeds per kg that these rest on."""

        species_seeds: ManySeedsPerArea
        species_live_seeds: ManyLiveSeedsPerArea
        mixed_seed_sizes: ManySeedSizes


class MixBulk:
    """What to drop of each species."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2 out of the bag."""

        species_rates: ManyRates


class Sorting:
    """A sample from a full box against one from near its end."""

    @dataclass(frozen=True, slots=True)
    class AsMixed:
        """No share moved by more than chance, or by enough to matter. Second over first, less 1."""

        species_moved: ManyShares

    @dataclass(frozen=True, slots=True)
    class Sorted:
        """The mix sorts: the species that moved most by number, from 1, and its share in each."""

        species_moved: ManyShares
        most_moved: Count
        share_at_first: Share
        share_then: Share

    @dataclass(frozen=True, slots=True)
    class TooSmall:
        """A species has so few seeds in the samples that nothing can be said."""


class MixLive:
    """How much of each species is pure and alive."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """A share of each."""

        species_live_shares: ManyShares


class MixParts:
    """A mix told in parts of its weight."""

    @dataclass(frozen=True, slots=True)
    class NotAll:
        """The parts are not those of one whole; what they come to."""

        parts_in_all: Share


class Boxes:
    """One mix from two boxes of a drill."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """In kg/m2: what each box drops, and the small box's share of the weight."""

        big_box_rate: Rate
        small_box_rate: Rate
        small_box_share: Share

    @dataclass(frozen=True, slots=True)
    class NoSuch:
        """A number that stands for no species, or stands there twice."""

    @dataclass(frozen=True, slots=True)
    class OneBox:
        """None is left for the big box."""


@dataclass(frozen=True, slots=True)
class NotPaired:
    """It is not clear which number belongs to which species."""


def mix_total(*, species_rates: ManyRates) -> Mix.Worked | Mix.OneKind:
    """The total of a mix and its shares by weight, rates over 0. Common practice, no source."""
    if len(species_rates) < KINDS_LEAST:
        return Mix.OneKind()
    total = sum(species_rates)
    return Mix.Worked(total, tuple(each / total for each in species_rates))


def live_kinds(*, species_live_rates: ManyLiveRates) -> Mix.Several | Mix.OneKind:
    """Whether rates in pure live seed are those of a mix. Common practice, no source."""
    return Mix.Several() if len(species_live_rates) >= KINDS_LEAST else Mix.OneKind()


def mix_seeds(
    *, species_rates: ManyRates, species_seed_sizes: ManySeedSizes, species_live_shares: ManyShares
) -> MixSeeds.Worked | NotPaired:
    """Seeds and pure live seeds of each species, from its rate, seeds per kg and live share.

    Seeds per kg as they lie in the bag, coated where it is coated; live shares of what is counted.

    Source: as `seeds_from_rate` and `live_share`, for each species by itself.
    """
    if not paired(species_rates, species_seed_sizes, species_live_shares):
        return NotPaired()
    seeds = [r * s for r, s in zip(species_rates, species_seed_sizes, strict=True)]
    live = [n * share for n, share in zip(seeds, species_live_shares, strict=True)]
    return MixSeeds.Worked(tuple(seeds), tuple(live), tuple(species_seed_sizes))


def mix_live_shares(
    *, species_purity: ManyShares, species_germination: ManyShares
) -> MixLive.Worked | NotPaired:
    """Purity times germination of each species, hard seed counted in. Source: as `live_share`."""
    if not paired(species_purity, species_germination):
        return NotPaired()
    pairs = zip(species_purity, species_germination, strict=True)
    return MixLive.Worked(tuple(purity * germination for purity, germination in pairs))


def two_boxes(
    *, species_rates: ManyRates, small_box_species: ManyCounts
) -> Boxes.Worked | Boxes.NoSuch | Boxes.OneBox:
    """What each of two boxes drops, from the numbers (from 1) of the species in the small one.

    Each box is set by itself, and the rates add. Common practice, no source.
    """
    numbers = [int(to_step(float(each), 1)) for each in small_box_species]
    if len(set(numbers)) < len(numbers) or not set(numbers) <= set(_places(species_rates)):
        return Boxes.NoSuch()
    if len(numbers) >= len(species_rates):
        return Boxes.OneBox()
    total, small = sum(species_rates), sum(species_rates[each - 1] for each in numbers)
    return Boxes.Worked(total - small, small, small / total)


def paired(*lists: Sequence[float]) -> bool:
    """Whether all are as long, and not empty."""
    lengths = {len(each) for each in lists}
    return len(lengths) <= 1 and min(lengths) > 0


def _places(species: Sequence[float]) -> range:
    """The numbers that stand for species."""
    return range(1, len(species) + 1)


def mix_from_live(
    *, species_live_rates: ManyLiveRates, species_live_shares: ManyShares
) -> MixBulk.Worked | NotPaired:
    """What to drop of each species for its pure live seed by weight: each over its own live share.

    Shares more than 0. Source: as `rate_from_live_weight`, for each species by itself.
    """
    if not paired(species_live_rates, species_live_shares):
        return NotPaired()
    pairs = zip(species_live_rates, species_live_shares, strict=True)
    return MixBulk.Worked(tuple(rate / share for rate, share in pairs))


def mix_from_parts(
    *, species_parts: ManyShares, mix_in_all: Rate, parts_within: Share
) -> MixBulk.Worked | MixParts.NotAll:
    """What to drop of each species for its part of the mix by weight, as a share of all parts.

    Parts over 0 that come to 1 within `parts_within`, as rounded percents do. Common
    practice, no source.
    """
    parts = sum(species_parts)
    if abs(parts - 1) > parts_within:
        return MixParts.NotAll(parts)
    return MixBulk.Worked(tuple(mix_in_all * each / parts for each in species_parts))


def mix_sorting(
    *,
    first_sample: ManyMasses,
    second_sample: ManyMasses,
    species_seed_sizes: ManySeedSizes,
    sorting_least: Share,
    sorting_sure: Share,
    seeds_least: Seeds,
    one_seed: Seeds,
) -> Sorting.AsMixed | Sorting.Sorted | Sorting.TooSmall | NotPaired:
    """Whether a mix sorts: two hand-sorted samples, each species weighed (kg).

    Weights are turned into counts by seeds per kg, so that chance can be told from sorting. The mix
    sorts if the counts of both samples differ by more than chance brings in `sorting_sure` of
    cases, and a share by weight moved by at least `sorting_least` of itself. No expected count may
    lie under `seeds_least`. `one_seed` is 1, with its kind. Source: chi-square for the
    homogeneity of two samples, and five as the least expected count (Snedecor and Cochran,
    Statistical Methods, from memory); how large a move matters, common practice, no source.
    """
    if not paired(first_sample, second_sample, species_seed_sizes) or len(first_sample) <= 1:
        return NotPaired()
    counts = [
        [float(w * size / one_seed) for w, size in zip(sample, species_seed_sizes, strict=True)]
        for sample in (first_sample, second_sample)
    ]
    expected = _expected(counts)
    if not expected or not at_least(min(map(min, expected)) * one_seed, seeds_least):
        return Sorting.TooSmall()
    chi_square = sum(
        (seen - hoped) ** 2 / hoped
        for row, hopes in zip(counts, expected, strict=True)
        for seen, hoped in zip(row, hopes, strict=True)
    )
    moved = _moved(first_sample, second_sample)
    most = max(range(len(moved)), key=lambda place: abs(moved[place]))
    chance = chi_square_reach(float(sorting_sure), len(moved) - 1)
    if chi_square <= chance or not at_least(abs(moved[most]), sorting_least):
        return Sorting.AsMixed(moved)
    shares = [sample[most] / sum(sample) for sample in (first_sample, second_sample)]
    return Sorting.Sorted(moved, most + 1.0, *shares)


def _expected(counts: Sequence[Sequence[float]]) -> list[list[float]]:
    """The counts of both samples if both had the same shares; none where a sample is empty."""
    totals = [sum(row) for row in counts]
    if min(totals) <= 0:
        return []
    species = [sum(column) for column in zip(*counts, strict=True)]
    return [[total * each / sum(totals) for each in species] for total in totals]


def _moved(first: Sequence[float], second: Sequence[float]) -> tuple[float, ...]:
    """Each share by weight of the second sample over that of the first, less 1.

    A species that the first has nothing of came new: all of it is taken as moved, 1.
    """
    whole = sum(second) / sum(first)
    return tuple(
        new / old / whole - 1 if old > 0 else float(new > 0)
        for old, new in zip(first, second, strict=True)
    )
