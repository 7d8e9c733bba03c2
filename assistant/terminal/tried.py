"""Setting against weight: the settings tried, what each gave, and the one to set next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from assistant.calc.catches import Scale, seed_caught
from assistant.calc.contract import Trial
from assistant.dialogue.situation import Known, Row
from assistant.dialogue.wording import shown as shown_as
from assistant.sitting.sitting import Sitting

SETTINGS = {"opening": "next_opening", "lever_mark": "next_lever_mark"}
"""The facts that are set, and the fact that says where each goes next."""
RANGE, TARGET = "drive_range", "target_catch"
TARE, STEP = "tare", "catch_step"
ALONE, COUNTED, SEEDS = "catch_weight", "seeds_caught", "expected_seeds"
MEASURED = (ALONE, "gross_weight", "row_weights", COUNTED)
"""What a catch is told by: one of these."""
FEWEST, MOST = 2, 5  # settings on their lines: below, two numbers say it; above, it takes too long


@dataclass(frozen=True, slots=True)
class Tried:
    """A setting, the weights that were caught at it (kg), in their order, and the last in words."""

    setting: float
    weights: tuple[float, ...]
    last: str


def tried_lines(sitting: Sitting, prefix: str, columns: int) -> list[str]:
    """A line for each setting tried and for the next one, lowest first, then what the signs mean.

    Empty while fewer than two settings were tried, and where no new one is next.
    """
    known = sitting.state.situation.known
    for name, following in SETTINGS.items():
        match [known.get(joined(prefix, each)) for each in (following, TARGET)]:
            case [Known(float(to_set)), Known(float(target))]:
                settings = tried(sitting, prefix, name)[-MOST:]
                rows = lines_of(sitting, prefix, following, settings, to_set)
                if len(rows) > len(settings) >= FEWEST:
                    return chart(rows, target, columns, sitting.job.word("picture.tried"))
    return []


def tried(sitting: Sitting, prefix: str, name: str) -> list[Tried]:
    """The settings tried, the one caught last at the end; of one drive range, the last one."""
    found: dict[float, tuple[float, ...]] = {}
    last: dict[float, str] = {}
    rows = last_rows(sitting, prefix)
    ranges = [row[joined(prefix, RANGE)].value for row in rows if joined(prefix, RANGE) in row]
    for row in rows:
        setting, weight = row.get(joined(prefix, name)), seed_weight(sitting, prefix, row)
        there = row.get(joined(prefix, RANGE))
        if setting is None or weight is None or (there and there.value != ranges[-1]):
            continue
        if isinstance(setting.value, float):
            found[setting.value] = (*found.pop(setting.value, ()), weight)
            last[setting.value] = shown_catch(sitting, prefix, row, weight)
    return [Tried(setting, weights, last[setting]) for setting, weights in found.items()]


def last_rows(sitting: Sitting, prefix: str) -> tuple[Row, ...]:
    """The catches of a half."""
    series = sitting.state.situation.rows
    return next((rows for name, rows in series.items() if name.rpartition(".")[0] == prefix), ())


def seed_weight(sitting: Sitting, prefix: str, row: Row) -> float | None:
    """What the seed of one catch weighed (kg), without its tub, or by its count."""
    told: dict[str, Any] = {
        name: row[joined(prefix, name)].value for name in MEASURED if joined(prefix, name) in row
    }
    scale = Scale(number(sitting, prefix, TARE), number(sitting, prefix, STEP))
    return seed_caught(Trial(**told), scale) if told else None


def shown_catch(sitting: Sitting, prefix: str, row: Row, weight: float) -> str:
    """A catch as it was measured: the seed by weight (kg), or the seeds that were counted."""
    match row.get(joined(prefix, COUNTED)):
        case Known(tuple(seeds)):
            return shown(sitting, joined(prefix, SEEDS), sum(seeds))
    return shown(sitting, joined(prefix, ALONE), weight)


def number(sitting: Sitting, prefix: str, name: str) -> float:
    """The value of a number; 0 where it is not known."""
    known = sitting.state.situation.known.get(joined(prefix, name))
    return known.value if known and isinstance(known.value, float) else 0.0


Line = tuple[str, tuple[float, ...], str]
"""A setting as it is shown, what was caught at it (kg), and what stands at the end."""


def lines_of(
    sitting: Sitting, prefix: str, following: str, settings: list[Tried], to_set: float
) -> list[Line]:
    """The lines, lowest setting first; the next one has none of its own where it was tried.

    Each setting is shown as `following` is, the fact that says what to set.
    """
    rows = {each.setting: (each.weights, each.last) for each in settings}
    rows.setdefault(to_set, ((), sitting.job.word("picture.next")))
    return [(shown(sitting, joined(prefix, following), at), *rows[at]) for at in sorted(rows)]


def chart(rows: list[Line], target: float, columns: int, legend: str) -> list[str]:
    """The picture, `columns` wide at most: dots on lines round the target (kg)."""
    weights = [target, *(weight for _, caught, _ in rows for weight in caught)]
    span = (min(weights), max(weights))
    wide, tail = (max(len(row[at]) for row in rows) for at in (0, 2))
    room = columns - wide - tail - 2
    lines = (
        f"{mark:<{wide}} {dots(caught, target, span, room)} {end}" for mark, caught, end in rows
    )
    return [*lines, legend]


def dots(weights: tuple[float, ...], target: float, span: tuple[float, float], room: int) -> str:
    """A line of `room` signs from the lightest to the heaviest: `o` a catch, `|` the target.

    A catch that is lighter than the target stands on its left, a heavier one on its right.
    """
    least, most = span
    inside = room - 3  # one sign at each end, so that a side of the target is never missing
    scale = inside / (most - least) if most > least else 0.0
    middle = 1 + round((target - least) * scale)
    line = ["-"] * room
    line[middle] = "|"
    for weight in weights:
        place = 1 + round((weight - least) * scale)
        if weight < target:
            place = min(place, middle - 1)
        if weight > target:
            place = max(place, middle + 1)
        line[place] = "o"
    return "".join(line)


def shown(sitting: Sitting, name: str, value: float) -> str:
    """A value as its fact is shown where it was worked out."""
    state = sitting.state
    return shown_as(sitting.job, state.log, state.situation, sitting.job.fact(name), Known(value))


def joined(prefix: str, name: str) -> str:
    """A fact's name in the half that a prefix names."""
    return f"{prefix}.{name}" if prefix else name
