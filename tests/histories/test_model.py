"""Whatever was done in whatever order, the result is that of a fresh conversation (V11)."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.histories.machine import AirDrills, Faults, Fields, Histories, Mixes, Rechecks

SLOW = [HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large]
FEW = settings(max_examples=7, stateful_step_count=20, deadline=None, derandomize=True)
MANY = settings(  # without shrinking, which takes ten times as long as to look at a failure
    phases=[Phase.generate],
    max_examples=60,
    stateful_step_count=30,
    deadline=None,
    database=None,
    print_blob=True,
    suppress_health_check=SLOW,
)

MACHINES = (Histories, Rechecks, AirDrills, Faults, Fields, Mixes)


@pytest.mark.parametrize("machine", MACHINES)
def test_a_conversation_equals_a_fresh_one_with_the_final_answers(
    machine: type[Histories],
) -> None:
    run_state_machine_as_test(machine, settings=settings(FEW, suppress_health_check=SLOW))


@pytest.mark.campaign
@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("seed", range(100, 140))
def test_many_conversations_equal_fresh_ones(machine: type[Histories], seed: int) -> None:
    seeded = type(machine.__name__, (machine,), {"_hypothesis_internal_use_seed": seed})
    run_state_machine_as_test(seeded, settings=MANY)
