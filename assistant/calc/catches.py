"""What the rows of a series tell: the seed of each catch, and which catches share one setting."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from assistant.calc.contract import Mass, Trial
from assistant.calc.figures import at_most, mean, same


@dataclass(frozen=True, slots=True)
class Scale:
    """What a catch is weighed with: the empty tub, and the smallest step, both in kg.

    Where seed is counted, nothing is in a tub and the step is one seed.
    """

    tare: Mass
    step: Mass


def seed_caught(trial: Trial, scale: Scale) -> float:
    """The seed alone, in kg: weighed so, or less the tub, or the sum of the rows, or counted.

    Raises ValueError for a trial that holds no catch.
    """
    if trial.catch_weight is not None:
        return trial.catch_weight
    if trial.gross_weight is not None:
        return trial.gross_weight - scale.tare
    if trial.row_weights is not None:
        return sum(trial.row_weights)
    if trial.seeds_caught is not None:
        return sum(trial.seeds_caught) * scale.step
    raise ValueError(trial)


def same_setting(one: Trial, other: Trial) -> bool:
    """Whether two catches were made at the same opening, mark and range, or sprocket."""
    return (
        same(one.opening, other.opening)
        and same(one.lever_mark, other.lever_mark)
        and same(one.drive_range, other.drive_range)
        and same(one.teeth, other.teeth)
    )


def caught_in_this_stay(trials: Sequence[Trial], scale: Scale) -> tuple[float, ...]:
    """The seed (kg) of the latest catches that were made with nothing moved in between.

    In the order of the catches. A catch that brought nothing tells of a drive that was out or a
    gate that was shut, not of the setting: what was before it does not count.
    """
    catches: list[float] = []
    for trial in reversed(trials):
        seed = seed_caught(trial, scale)
        if seed <= 0 or not same_setting(trial, trials[-1]):
            break
        catches.insert(0, seed)
    return tuple(catches)


def agree(one: float, other: float, repeat_tolerance: float) -> bool:
    """Whether two catches (kg) differ by no more than the repeat tolerance, a share, of their mean.

    Common practice, no source.
    """
    return at_most(abs(one - other), repeat_tolerance * mean([one, other]))


def agreeing(catches: Sequence[float], repeat_tolerance: float) -> list[float]:
    """The last of the catches (kg), and before it those that agree with it."""
    *before, last = catches
    return [*(each for each in before if agree(each, last, repeat_tolerance)), last]


@dataclass(frozen=True, slots=True)
class Tried:
    """A setting that was tried in the present drive range.

    The seed caught there (kg), how often one came to it from another setting, and how many catches
    were made there in all.
    """

    setting: float
    seed: float
    visits: int
    catches: int


def settings_tried(
    trials: Sequence[Trial],
    scale: Scale,
    setting_of: Callable[[Trial], float | None],
    repeat_tolerance: float,
) -> tuple[Tried, ...]:
    """Each setting with what it brought, the present one last.

    Only catches that brought seed, in the drive range of the last catch. A setting brought the mean
    of its catches; the present one of those in this stay that agree, as `judge` takes them, or of
    all in this stay. Raises ValueError when the last catch has no such setting or brought nothing.
    """
    stays: list[tuple[float, list[float]]] = []
    for trial in trials:
        setting, seed = setting_of(trial), seed_caught(trial, scale)
        if setting is None or seed <= 0 or not same(trial.drive_range, trials[-1].drive_range):
            continue
        if stays and same(stays[-1][0], setting):
            stays[-1][1].append(seed)
        else:
            stays.append((setting, [seed]))
    present = setting_of(trials[-1]) if trials else None
    if present is None or not stays or not same(stays[-1][0], present):
        raise ValueError(trials)
    *others, last = _by_setting(stays)
    stay = caught_in_this_stay(trials, scale)
    judged = agreeing(stay, repeat_tolerance)
    return (*others, replace(last, seed=mean(judged if len(judged) > 1 else stay)))


def _by_setting(stays: Sequence[tuple[float, list[float]]]) -> list[Tried]:
    found: list[Tried] = []
    for setting, _ in reversed(stays):
        if any(same(setting, each.setting) for each in found):
            continue
        here = [catches for other, catches in stays if same(setting, other)]
        seeds = [seed for catches in here for seed in catches]
        found.insert(0, Tried(setting, mean(seeds), len(here), len(seeds)))
    return found
