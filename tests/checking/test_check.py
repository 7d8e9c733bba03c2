"""One bad flow file per rule: its code, its file, its line, its step, and nothing else."""

from pathlib import Path

import pytest

from assistant.checking.check import check
from assistant.flowfile.gate import shape_faults
from tests.flowfile.small import CALCULATIONS, written
from tests.flowfile.spoiled import Spoiled, cases, name_of

CASES = cases(Path(__file__).parent / "bad")


def test_the_small_flows_are_sound(tmp_path: Path) -> None:
    folder = written(tmp_path)
    assert shape_faults(folder) == []
    assert check(folder, CALCULATIONS) == []


@pytest.mark.parametrize("case", CASES, ids=name_of)
def test_a_spoiled_flow_is_found_out(case: Spoiled, tmp_path: Path) -> None:
    folder = written(tmp_path)
    where = case.apply(folder)
    assert shape_faults(folder) == []
    case.is_found(where, check(folder, CALCULATIONS))


@pytest.mark.parametrize("case", cases(Path(__file__).parent / "sound"), ids=name_of)
def test_what_is_sound_is_left_alone(case: Spoiled, tmp_path: Path) -> None:
    folder = written(tmp_path)
    case.apply(folder)
    assert shape_faults(folder) == []
    assert check(folder, CALCULATIONS) == []
