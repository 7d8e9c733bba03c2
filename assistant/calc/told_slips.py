"""What a person was told, as the ratios and shares that a slip would leave in a rate.

Each stands at the value that rules its slip out (1, or 0) until it is known. Common practice, no
source.
"""

from dataclasses import dataclass
from math import log

from assistant.calc.chance import normal_reach
from assistant.calc.contract import BulkDensity, Count, Mass, Rate, Ratio, Rows, Share
from assistant.calc.figures import root


@dataclass(frozen=True, slots=True)
class Apart:
    """Got over wanted; the larger over the smaller; a weight in pounds, no tub in it so far."""

    found_ratio: Ratio
    times_off: Ratio
    told_pounds: Ratio
    tub_share: Ratio


@dataclass(frozen=True, slots=True)
class NothingGot:
    """No seed came, so that there is no ratio."""


class RatesApart:
    """Two rates."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """As for weights, with no weight and no tub."""

        found_ratio: Ratio
        times_off: Ratio
        told_pounds: Ratio
        tub_share: Ratio


@dataclass(frozen=True, slots=True)
class NoFault:
    """Got and wanted differ by no more than catches scatter."""


@dataclass(frozen=True, slots=True)
class Near:
    """A figure of the lot, or a row, may have made this."""


@dataclass(frozen=True, slots=True)
class TooFar:
    """No figure of a lot makes so much."""


@dataclass(frozen=True, slots=True)
class NearBy:
    """So far off as a setting may be."""


@dataclass(frozen=True, slots=True)
class Far:
    """So far off that a slip is likelier than the setting."""


class JobWeight:
    """The last catch of a job that waits."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """What it weighed, in kg."""

        job_weight: Mass


class Tub:
    """The empty tub."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Its weight over that of the seed told."""

        tub_share: Ratio


class RowShare:
    """The rows that fed the tubs."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """One row as a share of them."""

        row_share: Share


class RowsRatio:
    """The rows of the drill."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Over those that were caught."""

        rows_ratio: Ratio


class Sprouting:
    """Seed that can sprout."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Its share of all seeds."""

        germination_told: Share


class LiveTold:
    """Pure live seed."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """Its share of the bag, and the share that can sprout."""

        live_share_told: Share
        germination_told: Share


class BushelRatio:
    """Two bushels."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """The lot's own over the one that was reckoned with."""

        bushel_ratio: Ratio


def weights_apart(*, wanted_weight: Mass, got_weight: Mass, one_pound: Mass) -> Apart | NothingGot:
    """How far two weights (kg) lie apart; `wanted_weight` is over 0. Common practice, no source."""
    if got_weight <= 0:
        return NothingGot()
    ratio = got_weight / wanted_weight
    return Apart(ratio, max(ratio, 1 / ratio), got_weight / one_pound, ratio - ratio)


def rates_apart(*, wanted_rate: Rate, got_rate: Rate) -> RatesApart.Worked:
    """How far two rates (kg/m2, over 0) lie apart. Common practice, no source."""
    ratio = got_rate / wanted_rate
    return RatesApart.Worked(ratio, max(ratio, 1 / ratio), ratio - ratio, ratio - ratio)


def job_weight(*, job_off: Share, job_catch: Mass) -> JobWeight.Worked:
    """What a catch weighed (kg) that was off by a share (over -1) of `job_catch`, what was wanted.

    Common practice, no source.
    """
    return JobWeight.Worked(job_catch * (1 + job_off))


def share_apart(*, job_off: Share) -> RatesApart.Worked:
    """How far a rate lies from what was wanted, by its share off (over -1).

    Common practice, no source.
    """
    ratio = 1 + job_off
    return RatesApart.Worked(ratio, max(ratio, 1 / ratio), ratio - ratio, ratio - ratio)


def far_off(*, percent_off: Share, mix_up_from: Ratio) -> NearBy | Far:
    """Whether a catch is `mix_up_from` times over or under its target. Common practice, no source.

    `percent_off` as a share, over -1.
    """
    ratio = 1 + percent_off
    return Far() if max(ratio, 1 / ratio) >= mix_up_from else NearBy()


def how_far_apart(
    *,
    times_off: Ratio,
    lot_makes_most: Ratio,
    catches_made: Count,
    catch_scatter: Share,
    sure: Share,
) -> NoFault | Near | TooFar:
    """Whether chance, or else germination, purity or a bushel, can have made so much.

    `times_off` (1 or more) is of `catches_made` catches, each scattering by `catch_scatter`;
    `lot_makes_most` is the most that a lot makes. Common practice, no source.
    """
    if log(float(times_off)) <= scatter_reach(catches_made, catch_scatter, sure):
        return NoFault()
    return Near() if times_off <= lot_makes_most else TooFar()


def scatter_reach(catches_made: float, catch_scatter: float, sure: float) -> float:
    """How far the logarithm of a ratio of catches that scatter may lie from the true one.

    For a scatter that is small, as a share. Source: the normal law.
    """
    return float(normal_reach(float(sure)) * catch_scatter / root(catches_made))


def tub_told(*, empty_tub: Mass, got_weight: Mass) -> Tub.Worked:
    """The tub (kg) against the seed told (kg, over 0). Common practice, no source."""
    return Tub.Worked(empty_tub / got_weight)


def row_told(*, rows_in_tubs: Rows, one_row: Rows) -> RowShare.Worked:
    """What one row more or fewer makes. Common practice, no source."""
    return RowShare.Worked(one_row / rows_in_tubs)


def rows_compared(*, rows_in_tubs: Rows, rows_on_drill: Rows) -> RowsRatio.Worked:
    """What all rows told for those that were caught make. Common practice, no source."""
    return RowsRatio.Worked(rows_on_drill / rows_in_tubs)


def sprout_told(*, sprouting: Share) -> Sprouting.Worked:
    """Germination, as it was told. Common practice, no source."""
    return Sprouting.Worked(sprouting)


def live_told(*, pure_part: Share, sprouting: Share) -> LiveTold.Worked:
    """Germination, and purity times germination. Common practice, no source."""
    return LiveTold.Worked(pure_part * sprouting, sprouting)


def bushels_told(*, lot_bushel: BulkDensity, reckoned_bushel: BulkDensity) -> BushelRatio.Worked:
    """What one bushel for the other makes. Common practice, no source."""
    return BushelRatio.Worked(lot_bushel / reckoned_bushel)
