"""Ratio suspects: slips that leave just the ratio found between got and wanted.

Names in order, not words: each suspect is tested against the numbers of the catch itself.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import floor, log

from assistant.calc.contract import Choice, Count, ManyChoices, ManyTexts, Ratio, Share
from assistant.calc.figures import DUST, at_most, same, to_step
from assistant.calc.suspect_ratios import DECIMALS, FIXED, OUNCES
from assistant.calc.told_slips import scatter_reach


@dataclass(frozen=True, slots=True)
class OneSuspect:
    """One slip fits best; how many are shown; and all others that fit, nearest first."""

    suspects_shown: ManyChoices
    suspects_listed: Count
    suspects_left: ManyTexts


@dataclass(frozen=True, slots=True)
class Tied:
    """Several slips fit alike: the catch can't tell them apart. Else as before."""

    suspects_shown: ManyChoices
    suspects_listed: Count
    suspects_left: ManyTexts


@dataclass(frozen=True, slots=True)
class NoSuspect:
    """No slip leaves such a ratio."""


@dataclass(frozen=True, slots=True)
class MoreSuspects:
    """Those that fit less well, nearest first, and how many they are."""

    suspects_shown: ManyChoices
    suspects_listed: Count


@dataclass(frozen=True, slots=True)
class NoneLeft:
    """Every suspect was looked at."""


@dataclass(frozen=True, slots=True)
class Named:
    """The slip that a person found."""

    found_slip: Choice


def ratio_suspects(
    *,
    found_ratio: Ratio,
    told_pounds: Ratio,
    tub_share: Ratio,
    rows_ratio: Ratio,
    row_share: Share,
    germination_told: Share,
    live_share_told: Share,
    bushel_ratio: Ratio,
    catches_made: Count,
    catch_scatter: Share,
    suspects_within: Share,
    sure: Share,
) -> OneSuspect | Tied | NoSuspect:
    """The slips that would turn what was wanted into what was got, likeliest first.

    `found_ratio` (over 0) is of `catches_made` catches, each scattering by `catch_scatter`. A
    suspect's ratio may lie `suspects_within` of it, as the setting itself may be off, or as far as
    the scatter reaches at `sure`; `how_far_apart` says first whether that is all. Nearest first.
    What the scatter alone may have brought about is tied with the nearest, and so is what lies no
    further from it than the scatter reaches: the catch can't tell them apart. `told_pounds` is the
    seed of one catch as it was told, `tub_share` its tub over that, `rows_ratio` the rows of the
    drill over those caught, `row_share` one row of those. What can't have gone wrong leaves its
    suspect out: a ratio or share of 1, a `tub_share`, `row_share` or `told_pounds` of 0.

    Source: the size of units, NIST Handbook 44, appendix C, from memory; ranges by the normal law;
    the list of slips, common practice, no source.
    """
    found = log(float(found_ratio))
    reach = scatter_reach(catches_made, catch_scatter, sure)
    own = {
        "rows_for_rows": _both_ways(rows_ratio),
        "one_row_off": (1 + row_share, 1 - row_share),
        "germination_twice": _both_ways(germination_told),
        "live_share_twice": _both_ways(live_share_told),
        "other_bushel": _both_ways(bushel_ratio),
        "tub": _with_or_without(tub_share),
        "ounces_as_decimal": tuple(_ounces_as_decimal(float(told_pounds))),
    }
    fixed = {name: _both_ways(ratio) for name, ratio in FIXED.items()}
    fits = _fits({**fixed, **own}, found, max(reach, log(1 + float(suspects_within))))
    if not fits:
        return NoSuspect()
    tied = _tied(fits, found, reach)
    left = tuple(name for name in fits if name not in tied)
    listed = float(len(tied))
    return (Tied if listed > 1 else OneSuspect)(tied, listed, left)


def _tied(fits: Mapping[str, float], found: float, reach: float) -> tuple[str, ...]:
    """Those of the ratios (logarithms, nearest first) that the catch can't tell from the first."""
    nearest = next(iter(fits.values()))
    alike = max(reach, abs(nearest - found))
    return tuple(
        name
        for name, each in fits.items()
        if at_most(abs(each - found), alike) or at_most(abs(each - nearest), reach)
    )


def next_suspects(*, suspects_left: ManyTexts) -> MoreSuspects | NoneLeft:
    """What is left once the first are ruled out. Common practice, no source."""
    if not suspects_left:
        return NoneLeft()
    return MoreSuspects(suspects_left, float(len(suspects_left)))


def suspect_named(*, suspects_shown: ManyChoices, suspect_number: Count) -> Named:
    """The suspect with a number, from 1 to that of the last shown. Common practice, no source."""
    return Named(dict(enumerate(suspects_shown, 1))[int(suspect_number)])


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


def _fits(
    suspects: Mapping[str, tuple[float, ...]], found: float, within: float
) -> dict[str, float]:
    """The ratio of each suspect that lies near enough to the one found, as logarithms.

    Nearest first.
    """
    fits = {}
    for name, ratios in suspects.items():
        logs = [log(float(ratio)) for ratio in ratios if ratio > 0 and not same(float(ratio), 1.0)]
        near = min(logs, key=lambda each: abs(each - found), default=None)
        if near is not None and at_most(abs(near - found), within):
            fits[name] = near
    return dict(sorted(fits.items(), key=lambda fit: abs(fit[1] - found)))
