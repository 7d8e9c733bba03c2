"""Ratio suspects: slips that leave just the ratio found between got and wanted.

Names in order, not words: each suspect is tested against the numbers of the catch itself.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import floor, log

from assistant.calc.chance import normal_reach
from assistant.calc.contract import (
    BulkDensity,
    Choice,
    Count,
    ManyChoices,
    ManyCounts,
    Mass,
    Rate,
    Ratio,
    Rows,
    Share,
)
from assistant.calc.figures import DUST, at_most, root, same, to_step
from assistant.calc.suspect_ratios import DECIMALS, FIXED, OUNCES


@dataclass(frozen=True, slots=True)
class OneSuspect:
    """One slip fits best. Got over wanted; all suspects in order, and the number of each's tie."""

    found_ratio: Ratio
    first_suspect: Choice
    suspects: ManyChoices
    suspect_ties: ManyCounts


@dataclass(frozen=True, slots=True)
class Tied:
    """Several slips fit alike: nearer to each other than the catch can tell. Else as before."""

    found_ratio: Ratio
    first_suspects: ManyChoices
    suspects: ManyChoices
    suspect_ties: ManyCounts


@dataclass(frozen=True, slots=True)
class NoSuspect:
    """No slip leaves such a ratio."""

    found_ratio: Ratio


@dataclass(frozen=True, slots=True)
class NoFault:
    """Got and wanted differ by no more than catches scatter."""

    found_ratio: Ratio


@dataclass(frozen=True, slots=True)
class NothingCaught:
    """No seed came, so that there is no ratio."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A suspect, its ratio as a logarithm, and how far that lies from the one found."""

    name: str
    ratio: float
    away: float


def ratio_suspects(
    *,
    caught_rate: Rate,
    bulk_rate: Rate,
    told_weight: Mass,
    tare: Mass,
    rows_caught: Rows,
    rows_planned: Rows,
    row_count: Rows,
    germination: Share,
    live_seed_share: Share,
    test_weight: BulkDensity,
    trade_bushel: BulkDensity,
    catches_made: Count,
    catch_scatter: Share,
    suspects_within: Share,
    sure: Share,
    one_row: Rows,
    one_pound: Mass,
) -> OneSuspect | Tied | NoSuspect | NoFault | NothingCaught:
    """The slips that would turn what was wanted into what was got, likeliest first.

    `caught_rate` is of `catches_made` catches, each scattering by `catch_scatter`; `told_weight` is
    the seed of one as it was told. A suspect's ratio may lie `suspects_within` of the one found,
    as the setting itself may be off, or as far as the scatter reaches at `sure`. Nearest first.
    Two that are nearer to each other than twice that reach (their ranges touch) are one tie, with
    the first of it. A number that can't be wrong leaves its suspect out: a share of 1, no tub, two
    bushels alike. Rates, weights, rows and shares over 0, but for `tare`; `caught_rate` may be 0.

    Source: the size of units, NIST Handbook 44, appendix C, from memory; ranges by the normal law;
    the list of slips, common practice, no source.
    """
    if caught_rate <= 0:
        return NothingCaught()
    found = float(caught_rate / bulk_rate)
    reach = float(normal_reach(float(sure)) * catch_scatter / root(catches_made))
    if abs(log(found)) <= reach:
        return NoFault(found)
    planned = rows_planned / rows_caught
    own = {
        "rows_for_rows": (*_both_ways(row_count / rows_caught), *_both_ways(planned)),
        "one_row_off": (1 + one_row / rows_caught, 1 - one_row / rows_caught),
        "germination_twice": _both_ways(germination),
        "live_share_twice": _both_ways(live_seed_share),
        "other_bushel": _both_ways(test_weight / trade_bushel),
        "tub": _with_or_without(tare / told_weight),
        "ounces_as_decimal": tuple(_ounces_as_decimal(float(told_weight / one_pound))),
    }
    fixed = {name: _both_ways(ratio) for name, ratio in FIXED.items()}
    fits = _fits({**fixed, **own}, log(found), max(reach, log(1 + float(suspects_within))))
    return _ranked(found, fits, 2 * reach)


def _both_ways(ratio: float) -> tuple[float, float]:
    return ratio, 1 / ratio


def _with_or_without(tub: float) -> tuple[float, ...]:
    """What the seed told would be over the true one, with the tub left in or taken off twice.

    The tub as a share of the seed told; a lighter seed than its tub had it not left in.
    """
    taken_twice = 1 / (1 + tub)
    return (1 / (1 - tub), taken_twice) if tub < 1 else (taken_twice,)


def _ounces_as_decimal(pounds: float) -> Iterator[float]:
    """What the weight told would be over the true one, if ounces stood behind the point.

    Told 1.3 lb, meant 1 lb 3 oz; or told 1 lb 3 oz, meant 1.3 lb.
    """
    whole = floor(pounds + DUST)
    rest = pounds - whole
    for tens in DECIMALS:
        ounces = rest * tens
        if whole and _is_whole_ounce(ounces):
            yield pounds / (whole + ounces / OUNCES)
    if whole and _is_whole_ounce(rest * OUNCES):
        for tens in DECIMALS:
            if rest * OUNCES < tens:
                yield pounds / (whole + rest * OUNCES / tens)


def _is_whole_ounce(ounces: float) -> bool:
    """Whether it is a whole number of ounces, at least one, and less than a pound."""
    return at_most(1, ounces) and ounces < OUNCES and same(ounces, to_step(ounces, 1))


def _fits(suspects: Mapping[str, tuple[float, ...]], found: float, within: float) -> list[Fit]:
    """The suspects that lie near enough, each by the nearest of its ratios; nearest first."""
    fits = []
    for name, ratios in suspects.items():
        logs = [log(float(ratio)) for ratio in ratios if ratio > 0 and not same(float(ratio), 1.0)]
        nearest = min(logs, key=lambda each: abs(each - found), default=None)
        if nearest is not None and at_most(abs(nearest - found), within):
            fits.append(Fit(name, nearest, abs(nearest - found)))
    return sorted(fits, key=lambda fit: fit.away)


def _ranked(found: float, fits: list[Fit], apart: float) -> OneSuspect | Tied | NoSuspect:
    """The fits as ties: each tie holds what lies near its first, likeliest, one."""
    tie_of: dict[str, float] = {}
    ties = 0
    for first in fits:
        if first.name in tie_of:
            continue
        ties += 1
        for fit in fits:
            if fit.name not in tie_of and at_most(abs(fit.ratio - first.ratio), apart):
                tie_of[fit.name] = float(ties)
    if not tie_of:
        return NoSuspect(found)
    names = tuple(sorted(tie_of, key=lambda name: tie_of[name]))
    numbers = tuple(tie_of[name] for name in names)
    tied = tuple(name for name in names if at_most(tie_of[name], 1))
    if len(tied) > 1:
        return Tied(found, tied, names, numbers)
    return OneSuspect(found, tied[0], names, numbers)
