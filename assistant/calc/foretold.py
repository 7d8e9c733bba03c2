"""Whether the first catch of a recheck came as it was foretold. Rates in kg/m2, weights in kg."""

from dataclasses import dataclass

from assistant.calc.catches import Scale, seed_caught
from assistant.calc.contract import Area, Length, Mark, Mass, Rate, Share, Trial
from assistant.calc.figures import at_most, same


@dataclass(frozen=True, slots=True)
class Near:
    """As foretold, or nothing was foretold for this setting: a small move will do."""


@dataclass(frozen=True, slots=True)
class Far:
    """So far from what was foretold, as a share, that more than the seed must have changed."""

    foretold_miss: Share


def opening_as_foretold(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    ground_covered: Area,
    foretold_rate: Rate,
    last_opening: Length,
    full_job_over: Share,
) -> Near | Far:
    """The last catch against the old rate of the new seed, in proportion to the opening (m).

    Raises IndexError without a trial, ValueError where it has no opening. `full_job_over` is a
    share of what was foretold, itself still near. Common practice, no source.
    """
    opening = trials[-1].opening
    if opening is None:
        raise ValueError(trials)
    foretold = foretold_rate * opening / last_opening
    caught = seed_caught(trials[-1], Scale(tare, catch_step))
    return _judged(caught / ground_covered / foretold - 1, full_job_over)


def mark_as_foretold(
    *,
    trials: tuple[Trial, ...],
    tare: Mass,
    catch_step: Mass,
    ground_covered: Area,
    foretold_rate: Rate,
    last_mark: Mark,
    full_job_over: Share,
) -> Near | Far:
    """The last catch at the old mark against the old rate of the new seed.

    At another mark nothing was foretold. Raises IndexError without a trial.

    Common practice, no source.
    """
    if not same(trials[-1].lever_mark, last_mark):
        return Near()
    caught = seed_caught(trials[-1], Scale(tare, catch_step))
    return _judged(caught / ground_covered / foretold_rate - 1, full_job_over)


def _judged(miss: float, full_job_over: float) -> Near | Far:
    return Near() if at_most(abs(miss), full_job_over) else Far(miss)
