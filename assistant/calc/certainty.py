"""How sure it is that a setting is truly within the tolerance, from all catches so far."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import erf, exp, log

from assistant.calc.assumed import (
    CLEAR,
    DEAD_ZONES,
    FROM_MISS,
    LOST,
    NARROWEST,
    PLAYS,
    PULSE,
    REPEATS,
    SHORT,
    SHORT_BY,
    UNPRIMED,
    USUAL_DEAD_ZONE,
    USUAL_DEAD_ZONE_BY,
)
from assistant.calc.catches import Scale, same_setting, seed_caught
from assistant.calc.contract import Length, Mass, Share, Trial, Turns
from assistant.calc.figures import at_least, root


class Chance:
    """The share of such drills that are truly within the tolerance, as the lever stands."""

    @dataclass(frozen=True, slots=True)
    class Sure:
        """At least as many as make it sure."""

        on_target_chance: Share

    @dataclass(frozen=True, slots=True)
    class Likely:
        """Fewer, but at least as many as make it likely."""

        on_target_chance: Share

    @dataclass(frozen=True, slots=True)
    class Doubtful:
        """Fewer still."""

        on_target_chance: Share


@dataclass(frozen=True, slots=True)
class Told:
    """One catch: its opening (mm), ln(catch / target), whether the lever was set just before."""

    opening: float
    caught: float
    set_anew: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """One guess at a drill: dead zone and play in mm, scatter, a short first catch; its weight."""

    dead_zone: float
    repeat: float
    play: float
    short: bool
    weight: float


@dataclass(frozen=True, slots=True)
class Belief:
    """What a cell makes of the catches: ln(output / target) as the drill stands now."""

    log_weight: float
    mean: float
    variance: float


def chance_on_target(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    turns: Turns,
    tolerance: Share,
    start_may_miss: Share,
    chance_sure: Share,
    chance_likely: Share,
    one_turn: Turns,
    one_mm: Length,
) -> Chance.Sure | Chance.Likely | Chance.Doubtful:
    """How many of 100 such drills throw what is wanted to within the tolerance, by all catches.

    Catches in kg with their openings in m; those that brought nothing tell nothing. A first mark
    may miss by `start_may_miss`. The population of drills is assumed: a feed throws in proportion
    to its opening over a dead zone, a lever lands beside its mark once for each setting, a catch
    scatters; each as in `assumed`. In each cell the logarithm of output is normal, so that every
    catch moves a mean and a variance. Source: conformance probability, JCGM 106:2012, 7.2, and the
    recursive estimate of a normal mean, both from memory; the population, common practice, no
    source. `one_turn` and `one_mm` are 1, with their kinds. Raises IndexError without a catch.
    """
    told = _told(trials, Scale(tare, catch_step), target_catch, one_mm)
    made, step = float(turns / one_turn), float(catch_step / target_catch)
    noise = (PULSE / made) ** 2 + 2 * step**2 / (3 * 4) + LOST / made**2
    start = FROM_MISS * float(start_may_miss)
    beliefs = [_believed(cell, told, noise, start) for cell in _cells(told[0].opening)]
    chance = _within(beliefs, float(tolerance))
    if at_least(chance, chance_sure):
        return Chance.Sure(chance)
    return Chance.Likely(chance) if at_least(chance, chance_likely) else Chance.Doubtful(chance)


def _told(trials: Sequence[Trial], scale: Scale, target_catch: Mass, one_mm: Length) -> list[Told]:
    """The catches that brought seed."""
    told: list[Told] = []
    before: Trial | None = None
    for each in trials:
        seed = seed_caught(each, scale)
        if seed > 0 and each.opening is not None:
            anew = not told or before is None or not same_setting(each, before)
            ratio = float(seed / target_catch)
            told.append(Told(float(each.opening / one_mm), log(ratio), anew))
        before = each
    return told


def _cells(first: float) -> Iterator[Cell]:
    """The guesses that a first opening (mm) allows."""
    allowed = [each for each in DEAD_ZONES if each <= first - CLEAR] or DEAD_ZONES[:1]
    for dead_zone in allowed:
        far = (dead_zone - USUAL_DEAD_ZONE) / USUAL_DEAD_ZONE_BY
        for repeat in REPEATS:
            for play in PLAYS:
                for short, share in ((True, UNPRIMED), (False, 1 - UNPRIMED)):
                    yield Cell(dead_zone, repeat, play, short, exp(-(far**2) / 2) * share)


def _believed(cell: Cell, told: Sequence[Told], noise: float, start: float) -> Belief:
    """Each catch in turn: the height of the law, and what the drill throws as it stands."""
    law, law_variance = -log(max(told[0].opening - cell.dead_zone, NARROWEST)), start**2
    mean = variance = shared = 0.0
    log_weight, is_short = log(cell.weight), cell.short
    for each in told:
        if each.set_anew:  # it lands beside the mark in a new way
            open_by = max(each.opening - cell.dead_zone, NARROWEST)
            mean, variance = law + log(open_by), law_variance + (cell.play / open_by) ** 2
            shared = law_variance
        total = variance + cell.repeat**2 + noise + (SHORT_BY**2 if is_short else 0)
        miss = each.caught + (SHORT if is_short else 0) - mean
        log_weight -= (miss**2 / total + log(total)) / 2
        law, mean = law + shared / total * miss, mean + variance / total * miss
        law_variance -= shared**2 / total
        left = 1 - variance / total
        shared, variance, is_short = shared * left, variance * left, False
    return Belief(log_weight, mean, variance)


def _within(beliefs: Sequence[Belief], tolerance: float) -> float:
    """The share of all beliefs, by their weights, that lies within the tolerance of the target."""
    most = max(each.log_weight for each in beliefs)
    weights = [exp(each.log_weight - most) for each in beliefs]
    inside = [
        _under(log(1 + tolerance), each) - _under(log(1 - tolerance), each) for each in beliefs
    ]
    return sum(w * share for w, share in zip(weights, inside, strict=True)) / sum(weights)


def _under(limit: float, belief: Belief) -> float:
    """The share of a normal law under a limit."""
    return (1 + erf((limit - belief.mean) / root(2 * belief.variance))) / 2
