"""A fault of each class, planted in a copy of the flows that ship, is found out."""

import re
import shutil
import tomllib
from pathlib import Path

import pytest

from assistant.checking.judge import findings
from assistant.flow.place import flows_folder
from tests.flowfile.spoiled import Spoiled, cases, name_of, read_cases

PLANTED = Path(__file__).parent / "planted"
FINDINGS = flows_folder() / "findings.toml"


def found_out(case: Spoiled, folder: Path) -> None:
    """Assert that a fault planted in a copy of the flows is found, with what it brings along."""
    flows = Path(shutil.copytree(flows_folder(), folder / "flows"))
    where = case.apply(flows)
    found = findings(flows)
    assert any(case.is_that(where, each) for each in found), (where, found)
    assert {each.code for each in found} == {case.code, *case.also}


def every_second(found: list[Spoiled]) -> list[object]:
    """The cases, of which the suite takes every second one; the rest are run with the campaigns."""
    marks: list[list[pytest.MarkDecorator]] = [[], [pytest.mark.campaign]]
    return [pytest.param(c, id=name_of(c), marks=marks[n % 2]) for n, c in enumerate(found)]


@pytest.mark.parametrize("case", every_second(read_cases(PLANTED / "flows.txt")))
def test_a_fault_planted_in_the_flows_that_ship_is_found(case: Spoiled, tmp_path: Path) -> None:
    found_out(case, tmp_path)


@pytest.mark.campaign
@pytest.mark.parametrize("case", read_cases(PLANTED / "more.txt"), ids=name_of)
def test_one_of_many_planted_faults_is_found(case: Spoiled, tmp_path: Path) -> None:
    found_out(case, tmp_path)


def test_each_planted_fault_can_be_planted(tmp_path: Path) -> None:
    """Those that only the campaign looks for too, so that none outlives what it spoils."""
    for case in cases(PLANTED):
        case.apply(Path(shutil.copytree(flows_folder(), tmp_path / "flows")))
        shutil.rmtree(tmp_path / "flows")


def classes() -> dict[str, set[str]]:
    """The codes of each class of faults, as findings.toml groups them."""
    _, *groups = re.split(r"^# -- (.+)$", FINDINGS.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return {
        name: {*tomllib.loads(text)} for name, text in zip(groups[::2], groups[1::2], strict=True)
    }


def test_a_fault_of_each_class_is_planted() -> None:
    planted = {case.code for case in cases(PLANTED)}
    assert len(classes()) > 8
    assert [name for name, codes in classes().items() if not codes & planted] == []
