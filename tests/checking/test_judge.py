"""The whole judgement: shape first, then meaning, as lines ready to print."""

from pathlib import Path

from assistant.checking.judge import faults
from tests.flowfile.small import spoil, written


def test_faults_of_shape_come_alone_and_all_at_once(tmp_path: Path) -> None:
    folder = written(tmp_path)
    spoil(folder, "jobs/plot.toml", 'ask = "remark"', 'ask = "remarks"')
    spoil(folder, "parts/tidy.toml", "wait = true", "wait = 1")
    spoil(folder, "parts/tidy.toml", "put_back", "put_bac")
    spoil(folder, "cautions.toml", 'grade = "mind"', 'grade = "high"')
    assert faults(folder) == [
        (
            "cautions.toml:2: dust: 'grade' must be one of 'stop' or 'mind'. Write one of these. "
            "[not_one_of]"
        ),
        (
            "parts/tidy.toml:7: list: 'wait' must be true or false. Write it without quotes. "
            "[not_true_or_false]"
        ),
        (
            "parts/tidy.toml:8: list: 'put_bac' is no key of this table. Did you mean 'put_back'? "
            "[unknown_key]"
        ),
    ]


def test_faults_of_meaning_name_file_line_step_and_cure(tmp_path: Path) -> None:
    folder = written(tmp_path)
    spoil(folder, "jobs/plot.toml", 'ask = "remark"', 'ask = "remarks"')
    found = faults(folder)
    told = "jobs/plot.toml:45: remark: No fact is called 'remarks'. Did you mean 'remark'?"
    expected = f"{told} [unknown_fact]"
    assert expected in found
