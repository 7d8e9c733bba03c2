"""One practice drill: what is hidden in it, and what comes out when somebody turns its wheel."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from random import Random

from assistant.practice.population import (
    PLUGGED,
    ROWS,
    RULER,
    TOP_MARK,
    WHEEL,
    WIDEST,
    Population,
)

DRAWN = ("power", "dead_zone", "needed", "play", "repeat", "short", "chart", "squat")
"""What is one number for a drill, drawn from the range of the same name."""


@dataclass(frozen=True, slots=True)
class Tools:
    """What lies ready, as people say it, by system of units: the plan, the tag and the scale."""

    target: str
    rate: float  # kg/m2
    spacing: str
    spacing_m: float
    step: str
    tape: str
    tape_m: float


TOOLS = {
    "us": Tools(
        *("90 lb/ac", 90 * 0.45359237 / 4046.8564224),
        *("7 1/2 in", 7.5 * 0.0254),
        "0.01 lb",
        *("in", 0.0254 / 8),
    ),
    "metric": Tools(*("100 kg/ha", 0.01), *("19 cm", 0.19), "1 g", *("cm", 0.001)),
}


@dataclass(frozen=True, slots=True)
class Truth:
    """What nobody sees, in m and shares. `rows` is what each row throws over the middle of all."""

    power: float
    dead_zone: float
    needed: float
    play: float
    repeat: float
    pulse: float
    lost: float
    short: float
    chart: float
    squat: float
    distance: float
    rows: tuple[float, ...]
    plugged: int | None
    lies: float = 0.0
    slack: float = 0.0

    def share(self, opening: float, rows: tuple[float, ...] | None = None) -> float:
        """What these rows throw at an opening (m), over what was planned for them."""
        open_by = max(opening - self.dead_zone, 0.0) / (self.needed - self.dead_zone)
        each = rows or self.rows
        return float(open_by**self.power * sum(each) / len(each))


def drawn(random: Random, of: Population) -> Truth:
    """A drill of a population."""
    spread = random.uniform(*of.rows)
    rows = [max(random.gauss(1, spread), 0.5) for _ in range(ROWS)]
    middle = sum(rows) / ROWS
    plugged = random.choice((0, ROWS - 1)) if random.random() < of.plugged else None
    return Truth(
        **{name: random.uniform(*getattr(of, name)) for name in DRAWN},
        pulse=of.pulse,
        lost=of.lost,
        distance=random.uniform(*WHEEL),
        rows=tuple(
            each / middle * (PLUGGED if at == plugged else 1) for at, each in enumerate(rows)
        ),
        plugged=plugged,
        lies=random.uniform(*of.lies) if any(of.lies) else 0.0,
        slack=random.uniform(*of.slack),
    )


def caught_rows(count: int) -> list[int]:
    """The rows that are caught, from 0: both ends and what lies evenly between."""
    gaps = min(count, ROWS) - 1
    return [round(at * (ROWS - 1) / gaps) for at in range(gaps + 1)] if gaps > 0 else [0]


def other_rows(count: int) -> list[int]:
    """As many rows that are not among these, as far as there are, from 0."""
    caught = caught_rows(count)
    return [row for row in range(ROWS) if row not in caught][:: max(ROWS // count - 1, 1)][:count]


@dataclass(slots=True)
class Yard:
    """A drill on its stands, and what was done with it so far.

    `catches` are those turned: the opening that was set (m), and each row's seed (kg). `came_down`
    counts the times that the lever came to an opening from a wider one, with its slack not taken
    out; `slack_in` tells whether it did so last. A lever that is set at nothing is shut.
    """

    truth: Truth
    tools: Tools
    random: Random
    set_at: float | None = None
    stands_at: float = 0.0
    came_down: int = 0
    slack_in: bool = False
    primed_first: bool = False
    looked: bool = False
    mended: bool = False
    catches: list[tuple[float, tuple[float, ...]]] = field(default_factory=list)

    @property
    def chart(self) -> float:
        """The start that the chart on the lid tells, in m, on a line of the ruler."""
        told = self.truth.needed * (1 + self.truth.chart)
        return min(max(round(told / RULER) * RULER, 0.004), WIDEST)

    @property
    def by_scale(self) -> float:
        """How far it is open by the lever's own scale, in m."""
        return max((self.set_at or 0) + self.truth.lies, 0.0)

    @property
    def mark(self) -> float:
        """The mark that the lever stands at."""
        return TOP_MARK * self.by_scale / WIDEST

    @property
    def rows(self) -> tuple[float, ...]:
        """What each row throws over the middle of all, as it is now."""
        truth = self.truth
        if truth.plugged is None or not self.mended:
            return truth.rows
        cleared = truth.rows[truth.plugged] / PLUGGED
        return (*truth.rows[: truth.plugged], cleared, *truth.rows[truth.plugged + 1 :])

    @property
    def went_down(self) -> bool:
        """Whether a catch was made at a smaller opening than the one before."""
        return any(after < before for (before, _), (after, _) in pairwise(self.catches))

    def hides(self, rows: int) -> bool:
        """Whether one of so many rows that are caught hardly runs."""
        return not self.mended and self.truth.plugged in caught_rows(rows)

    def mend(self, rows: int) -> None:
        """Clear the row that hardly runs, if it is one of so many that are caught."""
        self.mended = self.mended or self.hides(rows)

    def shut(self) -> None:
        """Shut the lever: from there it comes up to an opening, and its slack is out."""
        self.set_at = None

    def bring_to(self, opening: float) -> None:
        """Bring the lever to an opening (m), where it does not stand there already."""
        before, truth = self.set_at, self.truth
        if before is not None and abs(opening - before) <= RULER / 10:
            return
        self.set_at, self.slack_in = opening, before is not None and opening < before
        self.came_down += self.slack_in
        slack = truth.slack if self.slack_in else 0
        self.stands_at = self.random.gauss(opening, truth.play) + slack

    def prime(self) -> None:
        """Turn till every row runs, and empty the tubs."""
        self.primed_first = self.primed_first or not self.catches

    def throws(self, rows: int) -> float:
        """What so many rows truly throw as the drill stands, over what was planned for them."""
        of = tuple(self.rows[at] for at in caught_rows(rows))
        return self.truth.share(self.stands_at, of)

    def anew(self, rows: int) -> float:
        """What so many rows throw once the lever comes to its mark from the shut side."""
        of = tuple(self.rows[at] for at in caught_rows(rows))
        return self.truth.share(self.set_at or 0, of)

    def turn(self, opening: float, turns: float, rows: list[int]) -> float:
        """Set the opening (m), turn, and weigh: the seed of these rows, in kg."""
        truth, random = self.truth, self.random
        self.bring_to(opening)
        of = [self.rows[at] for at in rows]
        planned = self.tools.rate * self.tools.spacing_m * truth.distance
        made = turns + (random.choice((-1, 1)) if random.random() < truth.lost else 0)
        scatter = random.gauss(1, truth.repeat) * random.gauss(1, truth.pulse / max(turns, 1))
        filled = 1.0 if self.primed_first or self.catches else 1 - truth.short
        open_by = truth.share(self.stands_at, (1.0,)) * scatter * filled * made * planned
        self.catches.append((opening, tuple(open_by * row for row in of)))
        return sum(self.catches[-1][1])
