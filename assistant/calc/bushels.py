"""Two bushels: what this lot weighs, and what the trade takes a bushel to weigh."""

from dataclasses import dataclass

from assistant.calc.contract import BulkDensity, BushelRate, Rate, Share
from assistant.calc.figures import at_most


@dataclass(frozen=True, slots=True)
class Same:
    """Both bushels give the same rate (kg/m2), within the agreement asked for."""

    rate_by_test_weight: Rate
    rate_by_trade_bushel: Rate


@dataclass(frozen=True, slots=True)
class Different:
    """The two bushels give two rates (kg/m2), and only the person knows which was meant."""

    rate_by_test_weight: Rate
    rate_by_trade_bushel: Rate


def compare_bushels(
    *,
    target_bushels: BushelRate,
    test_weight: BulkDensity,
    trade_bushel: BulkDensity,
    bushel_agreement: Share,
) -> Same | Different:
    """The rate by this lot's bushel and by the trade bushel.

    Bushels per area in m3/m2, the two bushels in kg/m3; the agreement is a share of the rate by the
    trade bushel, itself included. Source of the volume: 7 CFR 810.102. That a rate in bushels is
    often meant by the trade bushel: common practice, no source.
    """
    by_test_weight = target_bushels * test_weight
    by_trade_bushel = target_bushels * trade_bushel
    apart = abs(by_test_weight - by_trade_bushel)
    if at_most(apart, bushel_agreement * by_trade_bushel):
        return Same(by_test_weight, by_trade_bushel)
    return Different(by_test_weight, by_trade_bushel)
