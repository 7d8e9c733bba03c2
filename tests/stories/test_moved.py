"""A limit that is changed moves the results of stories, and just these are told."""

import shutil
from pathlib import Path

from assistant.flow.place import flows_folder
from tests.flowfile.small import spoil
from tests.stories.moved import moved, results
from tests.stories.story import FOLDER, read_story

NAMES = ("fluted_pounds", "mix_by_weight")
MOVED = """\
fluted_pounds
  proposed_turns: from 40 to 25
  rows_for_all: from 9 to not there
  reading_low: from 1.34 lb to 1.30 lb
  reading_high: from 1.47 lb to 1.51 lb
  on_target_chance: from 99.6 in 100 to 100 in 100"""
"""By hand: of 24 rows 1 / ((0.32 x 8 / 5.6) squared + 1 / 24) = 4 speak for all.

1.4032 lb less 5 and less 8 in 100 is 1.333 and 1.291, on the scale 1.34 and 1.30; and more 1.473
and 1.515, on the scale 1.47 and 1.51.

A wider tolerance is surer: the chance is that of `test_turned.py`.
"""


def test_the_results_that_a_changed_limit_moves_are_told(tmp_path: Path) -> None:
    told = [read_story(FOLDER / f"{name}.txt") for name in NAMES]
    before = results(flows_folder(), told)
    assert list(moved(before, results(flows_folder(), told))) == []
    changed = Path(shutil.copytree(flows_folder(), tmp_path / "flows"))
    near = 'label = "Near enough"\nstands_at = '
    spoil(changed, "limits.toml", f'{near}"5 %"', f'{near}"8 %"')
    assert list(moved(before, results(changed, told))) == [MOVED]
