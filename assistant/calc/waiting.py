"""Calculations that no flow uses yet: each moves to the catalogue with the flow that takes it."""

from collections.abc import Callable, Mapping
from typing import Any

from assistant.calc import (
    crank,
    fault_examples,
    meter_examples,
    method_examples,
    mix_examples,
    rows_examples,
    steps,
    strip,
    weigh_out,
)
from assistant.calc.calculation import Calculation

__all__ = ["WAITING"]

REVISIONS: Mapping[Callable[..., Any], int] = {
    strip.distance_for_ground: 1,
    crank.turns_by_plate: 1,
    crank.turns_by_distance: 1,
    crank.turns_for_ground: 1,
    crank.turns_to_weigh: 1,
    crank.ground_of_turns: 1,
    weigh_out.ground_for_seed: 1,
    steps.ratio_by_teeth: 1,
    steps.nearest_sprockets: 1,
}
"""Each with its revision, as in the catalogue."""

_EXAMPLES = {
    **fault_examples.EXAMPLES,
    **meter_examples.EXAMPLES,
    **method_examples.EXAMPLES,
    **mix_examples.EXAMPLES,
    **rows_examples.EXAMPLES,
}

WAITING: dict[str, Calculation] = {
    function.__name__: Calculation(
        function.__name__, function, revision, _EXAMPLES[function.__name__]
    )
    for function, revision in REVISIONS.items()
}
"""Each by its name; tests hold these to all that they hold the catalogue to."""
