"""The flows that ship are sound, and the list of their hashes is true."""

import shutil
from pathlib import Path

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.shipped import as_shipped, shipped_sets, stamp
from assistant.flow.graph import facts_set
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from assistant.flowfile.gate import shape_faults
from tests.checking.judged_once import judged_once


def test_the_flows_that_ship_are_sound() -> None:
    assert shape_faults(flows_folder()) == []
    assert judged_once().faults == []


def test_the_hashes_that_ship_are_true() -> None:
    assert as_shipped(flows_folder()), "run python -m tests.stamp"


def test_what_calculations_set_ships_true() -> None:
    assert shipped_sets(flows_folder()) == facts_set(CATALOGUE)


def test_a_changed_a_new_and_a_missing_file_are_not_as_shipped(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(flows_folder(), tmp_path / "flows"))
    stamp(folder, {}, {})
    assert as_shipped(folder)
    words = folder / "words.toml"
    kept = words.read_bytes()
    words.write_bytes(kept + b"\n")
    assert not as_shipped(folder)
    words.write_bytes(kept)
    assert as_shipped(folder)
    extra = folder / "jobs" / "more.toml"
    extra.write_text("", encoding="utf-8")
    assert not as_shipped(folder)
    extra.unlink()
    (folder / "glossary.toml").unlink()
    assert not as_shipped(folder)


def test_a_folder_without_a_list_is_not_as_shipped(tmp_path: Path) -> None:
    assert not as_shipped(tmp_path)


def test_each_calculation_is_worked_out_by_some_step() -> None:
    library = load(flows_folder())
    parts = [*library.jobs.values(), *library.parts.values()]
    steps = [step for part in parts for step in part.steps]
    assert {step.what[0] for step in steps if step.kind == "work_out"} == set(CATALOGUE)
