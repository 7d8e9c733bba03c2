"""Random inputs for any calculation: its own examples, moved within what their facts can hold."""

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from math import exp, log
from random import Random
from typing import Any

from assistant.calc.calculation import ROWS, Calculation, Inputs, kinds_of
from assistant.flow.load import load
from assistant.flow.model import Fact
from assistant.flow.place import flows_folder
from assistant.quantities.kinds import KINDS
from assistant.quantities.settled import exact

FIXED = {"one_mm", "one_pound", "one_row", "one_seed", "one_to_one", "one_turn", "no_tub"}
"""Numbers that only carry their kind."""
IN_ALL = {"outlet_towers", "repeats_told"}
"""Counts of whole things; their kind takes parts of one too."""
READ = {"told_pounds": (10, 16, 100)}
"""Parts of one that a scale may show: only such weights can be read as ounces."""
SETTINGS = {"length", "mark", "mass_per_turn", "pulses_per_mass", "turns_per_mass"}
"""Kinds whose equal values stay equal: two catches at one opening are a repeat."""
REACHES = (0.001, 0.02, 0.2, 1.5)
"""How far the logarithm of a number moves, all over: some slips are small, some wild."""
ANYWHERE = 0.1
"""How often a number lies anywhere in its range; and how often one that may be nothing is so."""
MOST_ROWS = 6
"""Long enough to come back to a setting twice."""

Move = Callable[[str, str, float], float]
"""Another value for a fact, by its name, its kind, and the value that an example has."""


def random_inputs(calculation: Calculation, seed: int) -> dict[str, Any]:
    """One of its examples with its numbers moved; half of the series are made of other rows."""
    chance = Random(seed)
    example: dict[str, Any] = dict(chance.choice(calculation.examples))
    for name, value in example.items():
        if _is_series(value) and chance.random() < 0.5:
            rows = _rows_like(calculation, name, value[-1])
            example[name] = tuple(chance.choices(rows, k=chance.randint(1, MOST_ROWS)))
    return moved(calculation, example, _mover(chance))


def _is_series(value: Any) -> bool:
    return isinstance(value, tuple) and bool(value) and isinstance(value[0], ROWS)


def _rows_like(calculation: Calculation, name: str, row: Any) -> list[Any]:
    """Every row of all examples that holds the same facts as a row does."""
    series = [each[name] for each in calculation.examples]
    rows = [each for rows in series if isinstance(rows, tuple) for each in rows]
    return [each for each in rows if _holds(each) == _holds(row)]


def _holds(row: Any) -> list[str]:
    return [name for name in kinds_of(type(row)) if getattr(row, name) is not None]


def moved(calculation: Calculation, inputs: Inputs, move: Move) -> dict[str, Any]:
    """The inputs with each number put elsewhere."""
    kinds = calculation.parameters
    return {name: _moved(name, kinds[name], value, move) for name, value in inputs.items()}


def nudged(calculation: Calculation, inputs: Inputs) -> Iterator[dict[str, Any]]:
    """The inputs with one number, wherever it stands, a hair more or less."""
    numbers: dict[float, None] = {}

    def seen(_name: str, _kind: str, value: float) -> float:
        numbers[value] = None
        return value

    moved(calculation, inputs, seen)
    for number in numbers:
        for times in (1 - 2e-9, 1 + 2e-9):
            yield moved(calculation, inputs, _one_moved(number, times))


def _one_moved(number: float, times: float) -> Move:
    return lambda _name, _kind, value: value * times if value == number else value


def _moved(name: str, kind: str, value: Any, move: Move) -> Any:
    if isinstance(value, ROWS):
        kinds = kinds_of(type(value))
        return type(value)(**{n: _moved(n, k, getattr(value, n), move) for n, k in kinds.items()})
    if isinstance(value, tuple):
        return tuple(_moved(name, kind, each, move) for each in value)
    return value if value is None or isinstance(value, str) else move(name, kind, float(value))


def _mover(chance: Random) -> Move:
    reach = chance.choice(REACHES)
    settings: dict[tuple[str, float], float] = {}

    def move(name: str, kind: str, value: float) -> float:
        if name in FIXED or chance.random() < ANYWHERE:
            return value
        if kind not in SETTINGS:
            return _elsewhere(chance, reach, name, kind, value)
        place = (kind, value)
        if place not in settings:
            settings[place] = _elsewhere(chance, reach, name, kind, value)
        return settings[place]

    return move


def _elsewhere(chance: Random, reach: float, name: str, kind: str, value: float) -> float:
    least, most = _range(name, kind)
    if chance.random() < ANYWHERE and name in _facts() and _facts()[name].possible:
        if least == 0 and chance.random() < ANYWHERE:
            return 0.0
        low = least or most / 1e6
        found = exp(chance.uniform(log(low), log(most)))
    else:
        found = value * exp(chance.uniform(-reach, reach))
    found = min(max(found, least), most)
    if name in READ:
        parts = chance.choice(READ[name])
        return round(found * parts) / parts
    in_all = name in IN_ALL or (KINDS[kind].whole and value == round(value))
    return float(round(found)) if in_all else found


@cache
def _facts() -> dict[str, Fact]:
    return dict(load(flows_folder()).facts)


@cache
def _range(name: str, kind: str) -> tuple[float, float]:
    """What a fact can hold, in SI: what is worked out anything, but for a share."""
    fact = _facts().get(name)
    if fact and fact.possible:
        ends: tuple[Fraction, Fraction] = (
            exact(fact.kind, fact.possible.least),
            exact(fact.kind, fact.possible.most),
        )
        return float(ends[0]), float(ends[1])
    return (-0.999, 1.0) if kind == "share" else (-float("inf"), float("inf"))
