"""What a job takes, for those who write a facts file."""

from pathlib import Path

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.takes import facts_taken
from assistant.dialogue.job import Job, job_of
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from tests.flowfile.small import CALCULATIONS, spoil, written


def small_job(folder: Path) -> Job:
    """The small job."""
    return job_of(load(folder), "plot", CALCULATIONS)


def test_facts_come_in_the_order_of_the_road_and_limits_that_have_a_name_last(
    tmp_path: Path,
) -> None:
    folder = written(tmp_path)
    spoil(folder, "limits.toml", 'label = "Catch wanted"', 'label = "Wanted"\nnames = ["wanted"]')
    names = [fact["name"] for fact in facts_taken(small_job(folder))]
    assert set(names[:3]) == {"plot", "crop", "treated"}
    assert set(names[3:6]) == {"paces", "width", "length"}
    assert names[6:] == [
        *("dose", "dose_weight", "dose_seeds", "remark", "opening", "catch_weight", "wanted"),
    ]


def test_a_fact_is_told_with_all_that_a_writer_needs(tmp_path: Path) -> None:
    taken = {fact["name"]: fact for fact in facts_taken(small_job(written(tmp_path)))}
    assert taken["treated"] == {
        "name": "treated",
        "kind": "choice",
        "unit": "",
        "choices": ["yes", "no"],
        "needed": True,
        "example": "yes",
        "unknown": "stop",
    }
    assert taken["width"]["unit"] == "ft"
    assert taken["catch_weight"]["unit"] == "kg"


def test_what_has_a_guess_a_proposal_or_may_be_left_out_is_not_needed(tmp_path: Path) -> None:
    taken = {fact["name"]: fact["needed"] for fact in facts_taken(small_job(written(tmp_path)))}
    needed = {"treated", "length", "paces", "dose", "catch_weight"}
    assert {name for name, is_needed in taken.items() if is_needed} == needed


def test_a_fact_asked_quietly_first_is_needed_where_it_is_asked_aloud() -> None:
    job = job_of(load(flows_folder()), "calibrate", CATALOGUE)
    taken = {fact["name"]: fact for fact in facts_taken(job)}
    assert taken["purity"]["needed"]
    assert taken["seeds_per_weight"]["unknown"] == "part"


def test_the_other_half_is_told_by_its_prefix_and_each_fact_once() -> None:
    job = job_of(load(flows_folder()), "calibrate", CATALOGUE)
    names = [fact["name"] for fact in facts_taken(job)]
    assert {"catch_weight", "other_half.catch_weight", "other_half.turns"} <= set(names)
    assert len(names) == len(set(names))
