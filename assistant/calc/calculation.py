"""A calculation as the rest of the house sees it: what goes in and what comes out."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from functools import cache
from typing import Annotated, Any, get_args, get_origin, get_type_hints

from assistant.calc.another_way import differing
from assistant.calc.contract import Row, Together

Value = float | str | tuple[float, ...] | tuple[str, ...] | tuple[Row, ...]
Inputs = Mapping[str, Value]
"""One value for each parameter, in SI units."""

ROWS = get_args(Row)
"""Every kind of row."""

TRIALS = "trials"
"""What stands in place of a kind for a series."""


@dataclass(frozen=True, slots=True)
class Calculation:
    """A function of the trade, its revision, and one example of inputs per outcome and branch.

    The revision goes up whenever the same inputs would give another result.
    """

    name: str
    function: Callable[..., Any]
    revision: int
    examples: tuple[Inputs, ...]

    @property
    def parameters(self) -> Mapping[str, str]:
        """The kind of each fact that it takes, by its name; `trials` for a series."""
        return _kinds(self.function)

    @property
    def hints(self) -> Mapping[str, Any]:
        """The annotation of each fact that it takes."""
        return _hints(self.function)

    @property
    def outcomes(self) -> Mapping[str, Mapping[str, str]]:
        """The facts that are known on each outcome, with their kinds."""
        return _outcomes(self.function)

    def run(self, inputs: Mapping[str, Any]) -> Any:
        """The outcome, from a value of each fact. Raises whatever the function raises."""
        given = dict(inputs)
        for name, bundle in _together(self.function).items():
            given[name] = bundle(**{each.name: given.pop(each.name) for each in fields(bundle)})
        return self.function(**given)

    def differing(self, inputs: Mapping[str, Any], result: Any) -> list[str]:
        """The facts of a result, of plain numbers, that come out otherwise by another way."""
        return differing(self.name, inputs, result)

    def converted(self, inputs: Inputs, make: Callable[[str, float], Any]) -> dict[str, Any]:
        """The inputs with each number replaced by `make(kind, number)`; choices stay."""
        kinds = self.parameters
        return {name: _converted(kinds[name], value, make) for name, value in inputs.items()}


@cache
def _hints(function: Callable[..., Any]) -> Mapping[str, Any]:
    hints = get_type_hints(function, include_extras=True)
    del hints["return"]
    for name, bundle in _together(function).items():
        del hints[name]
        hints |= get_type_hints(bundle, include_extras=True)
    return hints


@cache
def _together(function: Callable[..., Any]) -> Mapping[str, Any]:
    hints = get_type_hints(function).items()
    return {n: h for n, h in hints if isinstance(h, type) and issubclass(h, Together)}


@cache
def _kinds(function: Callable[..., Any]) -> Mapping[str, str]:
    return {name: kind_of(hint) for name, hint in _hints(function).items()}


@cache
def _outcomes(function: Callable[..., Any]) -> Mapping[str, Mapping[str, str]]:
    returned = get_type_hints(function)["return"]
    classes = (returned,) if isinstance(returned, type) else get_args(returned)
    return {outcome_name(each): kinds_of(each) for each in classes}


def outcome_name(outcome: type) -> str:
    """`OnTarget` is the outcome `on_target`."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", outcome.__name__).lower()


def kinds_of(record: type) -> dict[str, str]:
    """The kind of each field of an outcome or of a row."""
    hints = get_type_hints(record, include_extras=True)
    return {field.name: kind_of(hints[field.name]) for field in fields(record)}


def kind_of(hint: Any) -> str:
    """The kind that an annotation names. Raises ValueError for one that names none."""
    if get_origin(hint) is Annotated:
        return str(hint.__metadata__[0])
    inner = get_args(hint)
    if inner[:1] and inner[0] in ROWS:
        return TRIALS
    for each in inner:
        if get_origin(each) is Annotated:
            return kind_of(each)
    raise ValueError(hint)


def _converted(kind: str, value: Any, make: Callable[[str, float], Any]) -> Any:
    if isinstance(value, ROWS):
        row = type(value)
        kinds = kinds_of(row)
        return row(**{n: _converted(k, getattr(value, n), make) for n, k in kinds.items()})
    if isinstance(value, tuple):
        return tuple(_converted(kind, each, make) for each in value)
    return value if value is None or isinstance(value, str) else make(kind, value)
