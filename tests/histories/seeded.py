"""State machines that are run by a seed of their own, so that a failure can be seen again."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import RuleBasedStateMachine, run_state_machine_as_test

SLOW = [HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large]
MANY = settings(  # without shrinking, which takes ten times as long as to look at a failure
    phases=[Phase.generate],
    deadline=None,
    database=None,
    print_blob=True,
    suppress_health_check=SLOW,
)


def run_seeded(
    machine: type[RuleBasedStateMachine], seed: int, wanted: settings, **attributes: Any
) -> None:
    """Run a machine, with these attributes, on the histories of a seed."""
    own = {**attributes, "_hypothesis_internal_use_seed": seed}
    run_state_machine_as_test(type(machine.__name__, (machine,), own), settings=wanted)
