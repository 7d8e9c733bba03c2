"""Whatever was done in whatever order, the result is that of a fresh conversation (V11)."""

from __future__ import annotations

import pytest
from hypothesis import settings
from hypothesis.stateful import run_state_machine_as_test

from tests.histories import seeded
from tests.histories.machine import AirDrills, Faults, Fields, Histories, Mixes, Rechecks
from tests.histories.seeded import SLOW, run_seeded

FEW = settings(
    max_examples=7,
    stateful_step_count=20,
    deadline=None,
    derandomize=True,
    suppress_health_check=SLOW,
)
MANY = settings(seeded.MANY, max_examples=60, stateful_step_count=30)

MACHINES = (Histories, Rechecks, AirDrills, Faults, Fields, Mixes)


@pytest.mark.parametrize("machine", MACHINES)
def test_a_conversation_equals_a_fresh_one_with_the_final_answers(
    machine: type[Histories],
) -> None:
    run_state_machine_as_test(machine, settings=FEW)


@pytest.mark.campaign
@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("seed", range(100, 140))
def test_many_conversations_equal_fresh_ones(machine: type[Histories], seed: int) -> None:
    run_seeded(machine, seed, MANY)
