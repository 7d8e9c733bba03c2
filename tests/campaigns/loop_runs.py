"""Practice drills that a script sets, by the rule that ships and by two rules of thumb.

Each rule meets the same drills; the population is `assistant/practice/population.py`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cache, partial
from math import log
from multiprocessing import Pool
from random import Random
from statistics import fmean, stdev
from time import process_time
from typing import Any

from assistant.calc import deciding, judging, openings, outlook, turned
from assistant.calc.assumed import MOST_REPEATS
from assistant.calc.beliefs import Repeats, mixed, weighed
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.contract import Trial
from assistant.calc.turned_catches import Catches
from assistant.practice.drill import TOOLS, Yard, caught_rows, drawn
from assistant.practice.population import LEVELS, ROWS, RULER, WIDEST, Population
from assistant.quantities.settled import exact
from tests.stories.play import library

HOW_MANY, MOST_CATCHES, ROWS_CAUGHT = 2_000, 10, 6
NARROWEST, LIKELY = 0.003, 0.8
STEP = 0.01 * 0.45359237
SURE = float(exact("share", library().facts["chance_sure"].stands_at))
AS_QUICK = 0.74
"""So sure a rule has to be to stop as early, at the mean, as the plain one."""
USUAL_CV = float(exact("share", library().facts["usual_row_cv"].stands_at))
COVERS = 1.959964
"""So many standard deviations from a mean 95 in 100 of a normal law lie."""
PROCESSES = 2

SLIPS = {
    "a bag of four off": (-1 / 4,) * 2,
    "a bag of six off": (-1 / ROWS_CAUGHT,) * 2,
    "not primed": (-0.18, -0.08),
    "tub": (0.06, 0.26),
}
"""What a slip does to a catch, as a range of shares."""
SLIPPING = 0.05
FALLS, LEAST_FALLING = (0.01, 0.03, 0.06), 3
"""By how much a catch lacks more than the one before where the box runs empty; from so many on."""
PATTERN = CATALOGUE["row_pattern"]


@dataclass(frozen=True)
class Case:
    """What is wanted, of which drills; `may_miss` is what the program takes a first mark for.

    `repeats` is how many catches were made again in earlier years, so that a card tells of them;
    `first` is what slips at the very first catch. `sure` is the chance at which it stops. Rows are
    those that the plan asks for if they are to speak for all: by the usual spread, or by `own`.
    """

    name: str
    tolerance: float
    turns: int
    population: Population = LEVELS[2]
    may_miss: float = 0.5
    most: int = MOST_CATCHES
    slips: bool = False
    repeats: int = 0
    first: str = ""
    sure: float = SURE
    for_all: str = ""

    def rows(self, spread: float) -> int:
        """How many rows are caught, of a drill whose rows scatter by so much."""
        if not self.for_all:
            return ROWS_CAUGHT
        cv = USUAL_CV if self.for_all == "usual" else max(spread, USUAL_CV)
        asked = outlook.rows_for_all(
            drive_rows=float(ROWS),
            proposed_rows_caught=1.0,
            tolerance=self.tolerance,
            usual_row_cv=cv,
            one_row=1.0,
        )
        return int(asked.rows_for_all) if isinstance(asked, outlook.RowsForAll.More) else 1


USUAL = LEVELS[2]
GOOD = replace(USUAL, play=(0.00005, 0.00015), repeat=(0.005, 0.01), needed=(0.012, 0.03))
CASES = (
    Case("5 %", 0.05, 40),
    Case("5 %, start within 50", 0.05, 40, replace(USUAL, chart=(-0.5, 0.5))),
    Case("5 %, start by a card", 0.05, 40, replace(USUAL, chart=(-0.05, 0.05)), 0.1),
    Case("3 %", 0.03, 67),
    Case("3 %, five catches at most", 0.03, 67, most=5),
    Case("3 %, good drill, 100 turns", 0.03, 100, GOOD),
    Case("3 %, good drill, 100 turns, scatter from a card", 0.03, 100, GOOD, repeats=MOST_REPEATS),
    Case("3 %, good drill, scatter from a card", 0.03, 67, GOOD, repeats=MOST_REPEATS),
    Case("3 %, scatter from a card", 0.03, 67, repeats=6),
)
WITH_SLIPS = Case("3 % with slips", 0.03, 67, slips=True)
QUICK = Case("3 %, as quick as the plain rule", 0.03, 67, sure=AS_QUICK)
FOR_ALL = tuple(
    Case(f"{tolerance:.0%}, rows for all by the {of} spread", tolerance, turns, for_all=of)
    for tolerance, turns in ((0.05, 40), (0.03, 67))
    for of in ("usual", "own")
)


@dataclass(frozen=True)
class Ended:
    """How a run ended: whether it said "on target", after how many catches, and how far off.

    `whole` is the same of all rows of the drill. `stated` is, for each catch, the chance told then
    and whether it was so, `chance` the last of them, `inside` whether what the drill throws lies
    where 95 in 100 such drills throw; `held` is, for each move, whether the next catch came as
    foreseen; `slips` counts what slipped, and what of it was called
    odd, by name; `primed` is whether the rows were full at the first catch.
    """

    said: bool
    catches: int
    off: float
    whole: float
    chance: float
    inside: bool = True
    primed: bool = True
    stated: tuple[tuple[float, bool], ...] = ()
    held: tuple[bool, ...] = ()
    slips: Counter[str] = field(default_factory=Counter)


class Run:
    """One drill under one rule; each catch brings less than the one before by `falls`, a share."""

    def __init__(self, case: Case, seed: int, falls: float = 0.0) -> None:
        random, self.falls = Random(f"{case.name} {seed}"), falls
        self.yard = Yard(drawn(random, case.population), TOOLS["us"], random)
        self.case, self.rows = case, case.rows(_spread(self.yard.truth.rows))
        tools, truth = self.yard.tools, self.yard.truth
        self.ground = self.rows * tools.spacing_m * case.turns * truth.distance
        self.target = tools.rate * self.ground
        self.trials: tuple[Trial, ...] = ()
        self.slip = ""
        self.slipping = Random(seed)
        self.before = self.on_card(Random(f"before {seed}"))

    def on_card(self, random: Random) -> Repeats:
        """What the card of an earlier year tells of the scatter of this drill."""
        if not self.case.repeats:
            return Repeats(0, 0)
        truth, turns = self.yard.truth, self.case.turns
        each = [
            random.gauss(1, truth.repeat) * random.gauss(1, truth.pulse / turns)
            for _ in range(self.case.repeats + 1)
        ]
        return Repeats(round(stdev(map(log, each)), 3), self.case.repeats)

    def catch(self, opening: float) -> float:
        """Turn at an opening that is come to from the shut side, and weigh on the scale."""
        if opening != self.yard.set_at:
            self.yard.shut()
        if not self.trials:
            self.yard.primed_first = self.yard.random.random() > 0.1  # one in ten forgets
        seed = self.yard.turn(opening, self.case.turns, caught_rows(self.rows)) * self.slipped()
        seed *= (1 - self.falls) ** len(self.trials)
        weight = round(seed / STEP) * STEP
        self.trials = (*self.trials, Trial(opening=opening, catch_weight=weight))
        return weight / self.target

    def slipped(self) -> float:
        """What a slip makes of a catch, from the second one on."""
        wrong = self.case.slips and self.trials and self.slipping.random() < SLIPPING
        self.slip = self.slipping.choice(sorted(SLIPS)) if wrong else ""
        if not self.trials:
            self.slip = self.case.first
        return 1 + self.slipping.uniform(*SLIPS[self.slip]) if self.slip else 1

    def facts(self) -> Catches:
        """What the calculations take, from the catches so far."""
        return Catches(
            trials=self.trials,
            tare=0.0,
            catch_step=STEP,
            target_catch=self.target,
            turns=float(self.case.turns),
            tolerance=self.case.tolerance,
            start_may_miss=self.case.may_miss,
            chance_sure=self.case.sure,
            opening_step=RULER,
            widest_opening=WIDEST,
            narrowest_opening=NARROWEST,
            scatter_told=self.before.scatter,
            repeats_told=self.before.number,
            one_turn=1.0,
            one_mm=0.001,
        )

    def known(self) -> tuple[float, bool]:
        """Of 100 such drills, how many are within the tolerance as this one stands.

        And whether it throws what 95 of 100 such drills do.
        """
        told, case = self.facts().since_full.told, self.facts().case
        beliefs = deciding.heard(told, case).beliefs
        stands = mixed([(share, each.stands) for share, each in weighed(beliefs)])
        miss = log(self.yard.throws(self.rows)) - stands.mean
        inside = abs(miss) <= COVERS * stands.variance**0.5
        return deciding.chance_within(beliefs, case.wanted), inside

    def ended(self, *, said: bool) -> Ended:
        """How it ended."""
        off, whole = self.yard.throws(self.rows) - 1, self.yard.throws(ROWS) - 1
        return Ended(said, len(self.trials), off, whole, 0.0, primed=self.yard.primed_first)


def _spread(rows: tuple[float, ...]) -> float:
    """The coefficient of variation of these rows, with one less than their number."""
    return stdev(rows) / fmean(rows)


def moved(opening: float, ratio: float) -> float:
    """The opening in proportion, on a line of the ruler, and another than before."""
    new = round(opening / ratio / RULER) * RULER
    if abs(new - opening) < RULER / 2:
        new += RULER if ratio < 1 else -RULER
    return min(max(new, NARROWEST), WIDEST)


def plain(run: Run) -> Ended:
    """Catch once; within the tolerance is enough, else in proportion."""
    opening = run.yard.chart
    for _ in range(run.case.most):
        ratio = run.catch(opening)
        if abs(ratio - 1) <= run.case.tolerance:
            return run.ended(said=True)
        opening = moved(opening, ratio)
    return run.ended(said=False)


def careful(run: Run) -> Ended:
    """A catch within the tolerance is made again; both and their mean must be within it."""
    opening, ratios = run.yard.chart, list[float]()
    for _ in range(run.case.most):
        ratios.append(run.catch(opening))
        mean = fmean(ratios)
        if len(ratios) > 1 and max(abs(r - 1) for r in (*ratios, mean)) <= run.case.tolerance:
            return run.ended(said=True)
        if abs(ratios[-1] - 1) > run.case.tolerance or len(ratios) > 1:
            opening, ratios = moved(opening, mean), []
    return run.ended(said=False)


def shipped(run: Run) -> Ended:
    """The calculations of the main job."""
    opening, said, held = run.yard.chart, False, list[bool]()
    inside, stated = True, list[tuple[float, bool]]()
    slips: Counter[str] = Counter()
    foreseen: openings.Foreseen.SetNext | Any = None
    for _ in range(run.case.most):
        rate = run.catch(opening) * run.target / run.ground
        if foreseen and not run.slip:
            held.append(
                abs(log(rate / foreseen.foreseen_rate)) <= log(1 + foreseen.foreseen_within)
            )
        foreseen = None
        judged = turned.judge_opening(catches=run.facts(), ground_covered=run.ground)
        chance, inside = run.known()
        stated.append((chance, abs(run.yard.throws(run.rows) - 1) < run.case.tolerance))
        if isinstance(judged, turned.RunsEmpty):
            slips["falls"] += 1
            run.falls = 0.0  # looked, and filled up
        odd = isinstance(judged, turned.Sure.PutAside)
        slips[f"{run.slip or 'none'}, {'odd' if odd else 'taken'}"] += 1
        if said := isinstance(judged, turned.Sure.Proven):
            break
        if isinstance(judged, MOVES):
            aim = turned.aim_opening(catches=run.facts(), ground_covered=run.ground, sure=0.95)
            if isinstance(aim, openings.AsNear | openings.TooWide | openings.TooNarrow):
                break
            opening, foreseen = aim.next_opening, aim
            run.yard.shut()  # backed off, and set anew
    ended = run.ended(said=said)
    return replace(
        ended,
        chance=stated[-1][0],
        inside=inside,
        stated=tuple(stated),
        held=tuple(held),
        slips=slips,
    )


MOVES = (
    judging.Light,
    judging.Heavy,
    turned.Sure.NearLight,
    turned.Sure.NearHeavy,
    turned.Sure.SameMark,
)
RULES: dict[str, Callable[[Run], Ended]] = {
    "plain": plain,
    "careful": careful,
    "shipped": shipped,
}


def one(rule: str, case: Case, falls: float, seed: int) -> Ended:
    """One drill of a case under a rule."""
    return RULES[rule](Run(case, seed, falls))


@cache
def ends_of(rule: str, case: Case, how_many: int, falls: float = 0.0) -> list[Ended]:
    """So many drills under a rule, on the cores there are."""
    with Pool(PROCESSES) as pool:
        return pool.map(partial(one, rule, case, falls), range(how_many), chunksize=50)


def decision_times() -> list[float]:
    """Processor seconds of each decision with the next mark, as catches come in, on 40 drills."""
    times: list[float] = []
    for seed in range(40):
        run = Run(CASES[3], seed)
        opening = run.yard.chart
        for _ in range(5):
            run.catch(opening)
            catches, began = run.facts(), process_time()
            turned.judge_opening(catches=catches, ground_covered=run.ground)
            aim = turned.aim_opening(catches=catches, ground_covered=run.ground, sure=0.95)
            times.append(process_time() - began)
            opening = getattr(aim, "next_opening", opening)
    return times


def plugged_found(how_many: int) -> dict[str, int]:
    """What the weights of the rows of a first catch show where one row hardly runs."""
    found = Counter(
        type(PATTERN.run({**PATTERN.examples[0], "row_weights": rows})).__name__
        for rows in map(_plugged_rows, range(how_many))
    )
    return dict(found.most_common())


def _plugged_rows(seed: int) -> tuple[float, ...]:
    random = Random(f"plugged {seed}")
    yard = Yard(drawn(random, replace(USUAL, plugged=1.0)), TOOLS["us"], random)
    yard.turn(yard.chart, 40, caught_rows(ROWS_CAUGHT))
    return yard.catches[-1][1]
