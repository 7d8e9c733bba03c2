"""A script sets thousands of practice drills, by the rule that ships and by two rules of thumb.

`python -m tests.campaigns.closed_loop [HOW_MANY]`. Each rule meets the same drills; the population
is `assistant/practice/population.py`. "True" is a drill that was said to be on target and whose
caught rows, as the lever stands, throw what was planned to within the tolerance.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from random import Random
from statistics import fmean, quantiles

from assistant.calc import certainty, judging, openings
from assistant.calc.contract import Trial
from assistant.practice.drill import TOOLS, Yard, drawn
from assistant.practice.population import RULER, WIDEST

BANDS = (0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 0.99, 1.01)
HOW_MANY, MOST_CATCHES, ROWS_CAUGHT = 2_000, 10, 6
NARROWEST, REPEAT = 0.003, 0.025
STEP = 0.01 * 0.45359237


@dataclass(frozen=True)
class Ended:
    """How a run ended: whether it said "on target", after how many catches, and how far off.

    `chance` is what the program states for the catches of the run.
    """

    said: bool
    catches: int
    off: float
    chance: float


class Run:
    """One drill under one rule."""

    def __init__(self, level: int, seed: int, turns: int) -> None:
        random = Random(f"{level} {seed}")
        self.yard = Yard(drawn(random, level), TOOLS["us"], random)
        self.turns = turns
        tools, truth = self.yard.tools, self.yard.truth
        self.ground = ROWS_CAUGHT * tools.spacing_m * turns * truth.distance
        self.target = tools.rate * self.ground
        self.trials: tuple[Trial, ...] = ()

    def catch(self, opening: float) -> float:
        """Turn at an opening, and weigh on the scale."""
        if not self.trials:
            self.yard.primed_first = self.yard.random.random() > 0.1  # one in ten forgets
        seed = self.yard.turn(opening, self.turns, ROWS_CAUGHT)
        weight = round(seed / STEP) * STEP
        self.trials = (*self.trials, Trial(opening=opening, catch_weight=weight))
        return weight / self.target

    def chance(self, tolerance: float) -> float:
        """What the program states: of 100 such drills, how many are within the tolerance."""
        return certainty.chance_on_target(
            trials=self.trials,
            tare=0.0,
            catch_step=STEP,
            target_catch=self.target,
            turns=float(self.turns),
            tolerance=tolerance,
            start_may_miss=0.2,
            chance_sure=0.99,
            chance_likely=0.9,
            one_turn=1.0,
            one_mm=0.001,
        ).on_target_chance

    def ended(self, said: bool, tolerance: float) -> Ended:
        """How it ended."""
        off = self.yard.throws(ROWS_CAUGHT) - 1
        return Ended(said, len(self.trials), off, self.chance(tolerance))


def moved(opening: float, ratio: float) -> float:
    """The opening in proportion, on a line of the ruler, and another than before."""
    new = round(opening / ratio / RULER) * RULER
    if abs(new - opening) < RULER / 2:
        new += RULER if ratio < 1 else -RULER
    return min(max(new, NARROWEST), WIDEST)


def plain(run: Run, tolerance: float) -> Ended:
    """Catch once; within the tolerance is enough, else in proportion."""
    opening = run.yard.chart
    for _ in range(MOST_CATCHES):
        ratio = run.catch(opening)
        if abs(ratio - 1) <= tolerance:
            return run.ended(True, tolerance)
        opening = moved(opening, ratio)
    return run.ended(False, tolerance)


def careful(run: Run, tolerance: float) -> Ended:
    """A catch within the tolerance is made again; both and their mean must be within it."""
    opening, ratios = run.yard.chart, list[float]()
    for _ in range(MOST_CATCHES):
        ratios.append(run.catch(opening))
        mean = fmean(ratios)
        if len(ratios) > 1 and max(abs(r - 1) for r in (*ratios, mean)) <= tolerance:
            return run.ended(True, tolerance)
        if abs(ratios[-1] - 1) > tolerance or len(ratios) > 1:
            opening, ratios = moved(opening, mean), []
    return run.ended(False, tolerance)


def shipped(run: Run, tolerance: float) -> Ended:
    """The calculations of the main job."""
    opening = run.yard.chart
    for _ in range(MOST_CATCHES):
        run.catch(opening)
        judged = judging.judge(
            trials=run.trials,
            tare=0.0,
            catch_step=STEP,
            target_catch=run.target,
            ground_covered=run.ground,
            tolerance=tolerance,
            repeat_tolerance=REPEAT,
        )
        if isinstance(judged, judging.Proven):
            return run.ended(True, tolerance)
        if isinstance(judged, judging.Light | judging.Heavy):
            aim = openings.next_opening(
                trials=run.trials,
                tare=0.0,
                catch_step=STEP,
                target_catch=run.target,
                opening_step=RULER,
                widest_opening=WIDEST,
                narrowest_opening=NARROWEST,
                repeat_tolerance=REPEAT,
            )
            if not isinstance(aim, openings.SetNext | openings.SetAgain):
                return run.ended(False, tolerance)
            opening = aim.next_opening
    return run.ended(False, tolerance)


RULES: dict[str, Callable[[Run, float], Ended]] = {
    "plain": plain,
    "careful": careful,
    "shipped": shipped,
}


def stated(how_many: int, level: int, tolerance: float, turns: int) -> Iterator[str]:
    """Of the drills that ship as proven: the chance that was stated, in bands, beside the truth."""
    ends = [shipped(Run(level, seed, turns), tolerance) for seed in range(how_many)]
    for low, high in pairwise(BANDS):
        here = [each for each in ends if each.said and low <= each.chance < high]
        if here:
            true = fmean(abs(each.off) < tolerance for each in here)
            said = fmean(each.chance for each in here)
            yield f"stated {low:.0%} to {high:.0%}: {len(here)} drills, {said:.1%}, true {true:.1%}"


def figures(how_many: int, level: int, tolerance: float, turns: int) -> Iterator[str]:
    """A line for each rule over the same drills."""
    for name, rule in RULES.items():
        ends = [rule(Run(level, seed, turns), tolerance) for seed in range(how_many)]
        said = [each for each in ends if each.said]
        true = sum(abs(each.off) < tolerance for each in said) / len(said)
        far = sum(abs(each.off) > 1.5 * tolerance for each in said) / len(said)
        catches = [each.catches if each.said else MOST_CATCHES + 1 for each in ends]
        at = quantiles(catches, n=100, method="inclusive")
        mean = fmean(min(each, MOST_CATCHES) for each in catches)
        yield (
            f"{tolerance:.0%} {turns} turns, {name}: said {len(said) / how_many:.1%}, "
            f"true {true:.1%}, off by half more {far:.2%}, "
            f"catches {at[49]:.0f} / {at[94]:.0f}, {mean:.2f}"
        )


def main() -> None:
    """The figures of usual drills, level 2."""
    how_many = int(sys.argv[1]) if sys.argv[1:] else HOW_MANY
    for tolerance, turns in ((0.05, 20), (0.05, 40), (0.03, 67)):
        for line in figures(how_many, 2, tolerance, turns):
            print(line, flush=True)
        for line in stated(how_many, 2, tolerance, turns):
            print(line, flush=True)


if __name__ == "__main__":
    main()
