"""What the settings tried so far tell about a goal."""

import pytest

from assistant.calc.aiming import nearest_to
from assistant.calc.catches import Tried


@pytest.mark.parametrize(("goal", "found"), [(4.0, True), (4.2, True), (4.25, False), (3.7, False)])
def test_a_setting_stands_for_a_goal_less_than_half_a_step_away(goal: float, found: bool) -> None:
    tried = Tried(4.0, 80.0, 1, 1)
    assert nearest_to(goal, [tried], 0.5) == (tried if found else None)
