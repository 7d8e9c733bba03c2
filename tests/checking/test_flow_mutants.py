"""Mutants of the flow files each change something; that they are found out is for campaigns."""

import json
import subprocess
import sys
import tomllib

import pytest

from assistant.flow.place import flows_folder
from tests.campaigns.flow_mutants import SURVIVORS
from tests.campaigns.mutants import GONE, as_toml, edited, mutants
from tests.house.tree import ROOT, flow_files

CODE_SURVIVORS = tomllib.loads(
    (ROOT / "tests" / "campaigns" / "code_survivors.toml").read_text(encoding="utf-8")
)
QUICK = """
import json
from tests.campaigns.flow_mutants import quick
print(json.dumps(quick()))
"""


@pytest.mark.campaign
def test_a_mutant_of_nearly_each_kind_is_found_out() -> None:
    """In a process of its own: it forks one for each mutant, which must have no threads."""
    done = subprocess.run(
        [sys.executable, "-c", QUICK], cwd=ROOT, check=True, capture_output=True, text=True
    )
    found: dict[str, str] = json.loads(done.stdout)
    assert len(found) > 6
    assert {name for name, by in found.items() if by == "survived"} == set()


def test_mutants_have_names_of_their_own() -> None:
    names = [mutant.name for mutant in mutants(flows_folder())]
    assert len(names) == len(set(names)) > 1500


def test_each_mutant_changes_something() -> None:
    for mutant in mutants(flows_folder()):
        table = tomllib.loads((flows_folder() / mutant.file).read_text(encoding="utf-8"))
        assert edited(table, mutant.edits) != table, mutant.name


def test_a_table_is_written_as_it_was_read() -> None:
    for path in flow_files():
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        assert tomllib.loads(as_toml(table)) == table, path


def test_a_key_is_set_anew_and_taken_out() -> None:
    table = {"step": [{"id": "a", "next": {"x": "b"}}]}
    assert edited(table, ((("step", 0, "next", "x"), "c"),)) == {
        "step": [{"id": "a", "next": {"x": "c"}}]
    }
    assert edited(table, ((("step", 0, "next"), GONE),)) == {"step": [{"id": "a"}]}


def test_a_condition_is_turned_to_the_other_choices_where_there_are_any() -> None:
    turned = [m for m in mutants(flows_folder()) if m.operator == "negate_condition"]
    others = {mutant.where: mutant.edits[0][1] for mutant in turned if mutant.where != "series"}
    assert others["treated_seed"] == ["no"]
    assert others["page.block.1"] == ["one_catch"]
    assert "page.block.11" not in others


def test_each_survivor_that_is_listed_is_still_a_mutant_and_has_its_reason() -> None:
    assert set(SURVIVORS) <= {mutant.name for mutant in mutants(flows_folder())}
    for change, reason in {**SURVIVORS, **CODE_SURVIVORS}.items():
        assert len(reason) > 10, change


def test_each_survivor_of_the_code_is_still_in_its_file() -> None:
    for change in CODE_SURVIVORS:
        file, _, rest = change.partition(": ")
        old = rest.partition(" => ")[0]
        text = " ".join(line.strip() for line in (ROOT / file).read_text("utf-8").splitlines())
        assert old in text, change
