"""The judgement of the latest catch, and of the rows in it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from assistant.calc.catches import Scale, agree, agreeing, caught_in_this_stay, seed_caught
from assistant.calc.contract import (
    Area,
    ManyMasses,
    Mass,
    Rate,
    Share,
    Trial,
)
from assistant.calc.figures import at_most, mean

"""Of two rows none can be called the odd one."""


@dataclass(frozen=True, slots=True)
class Light:
    """Under the target by more than the tolerance. In kg/m2, and a share under 0."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Heavy:
    """Over the target by more than the tolerance. In kg/m2, and a share over 0."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class NotSure:
    """One step of the scale more or less would change the judgement. In kg/m2, and a share."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class OnTarget:
    """Near enough, but one catch only. In kg/m2, and a share."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Proven:
    """Catches that agree, and their mean is near enough. In kg/m2, and a share, of the mean."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Spread:
    """Catches at one setting that do not agree. In kg/m2, and a share, of the last."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class NothingCaught:
    """No seed came. In kg/m2, and a share; less than none when the scale showed under the tub."""

    caught_rate: Rate
    percent_off: Share


Judgement = Light | Heavy | NotSure | OnTarget | Proven | Spread | NothingCaught


def judge(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    ground_covered: Area,
    tolerance: Share,
    repeat_tolerance: Share,
) -> Light | Heavy | NotSure | OnTarget | Proven | Spread | NothingCaught:
    """What the last catch means, with those made just before it at the same setting.

    Weights in kg, ground in m2 and more than 0, both tolerances shares over 0. Raises IndexError
    without a trial, ValueError for one that holds no weight.

    The rule: no seed is `nothing_caught`. The first catch at a setting is `light`, `heavy` or
    `on_target` by the tolerance, or `not_sure` when a step of the scale either way would change
    that. From the second on, the mean of the last catch and of those that differ from it by no more
    than the repeat tolerance of their mean decides: `proven`, `light` or `heavy`. An outlier among
    three is so left out. If none agrees with the last, but all lie on one side, they are `light` or
    `heavy` without another; else `spread`, which asks for one more.

    So every repeat is a step to an end. The scale is doubted once for a setting. Each further catch
    must lie more than the repeat tolerance from all before it to be `spread` again, and there is
    room for few of these between the smallest and the largest; moving the setting starts afresh.

    Source: two catches that agree, common practice, no source; the step of a scale as a bound on
    what it can miss, GUM (JCGM 100:2008), F.2.2.1, from memory.
    """
    scale = Scale(tare, catch_step)
    stay = caught_in_this_stay(trials, scale)
    agreed = agreeing(stay or [seed_caught(trials[-1], scale)], repeat_tolerance)
    last, weighed = agreed[-1], mean(agreed)
    verdict = partial(_verdict, target_catch=target_catch, tolerance=tolerance)
    if not stay:
        outcome: type[Judgement] = NothingCaught
    elif len(agreed) > 1:
        outcome = verdict([weighed], near=Proven, split=Proven)
    elif len(stay) > 1:
        outcome = verdict(stay, near=Spread, split=Spread)
    else:
        outcome = verdict(
            [last - catch_step, last, last + catch_step], near=OnTarget, split=NotSure
        )
    return outcome(weighed / ground_covered, weighed / target_catch - 1)


def _verdict(
    catches: Sequence[float],
    *,
    target_catch: float,
    tolerance: float,
    near: type[Judgement],
    split: type[Judgement],
) -> type[Judgement]:
    """Light, near or heavy if all catches say so; `split` if they do not say the same."""
    sides = {_side(catch, target_catch, tolerance) for catch in catches}
    verdicts: dict[int, type[Judgement]] = {-1: Light, 0: near, 1: Heavy}
    return verdicts[sides.pop()] if len(sides) <= 1 else split


def _side(catch: float, target_catch: float, tolerance: float) -> int:
    """-1 for light, 0 for near enough, 1 for heavy."""
    off = catch / target_catch - 1
    if at_most(abs(off), tolerance):
        return 0
    return 1 if off > 0 else -1


def _lately(trials: Sequence[Trial], scale: Scale) -> Sequence[float]:
    """The seed (kg) of each catch of this stay, or of the last alone where it brought nothing."""
    return caught_in_this_stay(trials, scale) or (seed_caught(trials[-1], scale),)


@dataclass(frozen=True, slots=True)
class AllAgree:
    """Every catch in this stay agrees with the last."""


@dataclass(frozen=True, slots=True)
class OneOdd:
    """One catch does not agree with the last. In kg of seed."""

    odd_catch: Mass


@dataclass(frozen=True, slots=True)
class SomeOdd:
    """Several catches do not agree with the last. In kg of seed."""

    odd_catches: ManyMasses


def catches_apart(
    *, trials: tuple[Trial, ...], tare: Mass, catch_step: Mass, repeat_tolerance: Share
) -> AllAgree | OneOdd | SomeOdd:
    """The catches in this stay (kg) that do not agree with the last, so that `judge` left them out.

    Raises IndexError without a trial. Common practice, no source.
    """
    scale = Scale(tare, catch_step)
    *before, last = _lately(trials, scale)
    odd = tuple(each for each in before if not agree(each, last, repeat_tolerance))
    if not odd:
        return AllAgree()
    return SomeOdd(odd) if len(odd) > 1 else OneOdd(odd[0])


@dataclass(frozen=True, slots=True)
class OneCatch:
    """The catches as it stands are near enough for a card that says so. In kg/m2, and a share."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class OffTarget:
    """They are not near enough for a card. In kg/m2, and a share."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class NoCatch:
    """Nothing was caught yet."""


def early_card(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    target_catch: Mass,
    ground_covered: Area,
    tolerance: Share,
    repeat_tolerance: Share,
) -> OneCatch | OffTarget | NoCatch:
    """Whether a card can be made now, marked as not proven.

    By the last catch (kg) and those of this stay that agree with it; a mean just at the tolerance
    is near enough. Common practice, no source.
    """
    if not trials:
        return NoCatch()
    scale = Scale(tare, catch_step)
    caught = mean(agreeing(_lately(trials, scale), repeat_tolerance))
    found = caught / ground_covered, caught / target_catch - 1
    return OffTarget(*found) if _side(caught, target_catch, tolerance) else OneCatch(*found)
