"""A backup, a restore or a salvage that is struck at any step leaves the old book or the new."""

from pathlib import Path

import pytest

from tests.book.acts_of_keeping import ACTS
from tests.book.faults import KINDS, NEEDS_SHIM, Act, strikes

STEP = 37


@NEEDS_SHIM
@pytest.mark.parametrize("kind", ["kill", "full"])
@pytest.mark.parametrize("act", ACTS, ids=lambda act: act.name)
def test_a_fault_here_and_there_leaves_the_old_or_the_new(
    tmp_path: Path, act: Act, kind: str
) -> None:
    first = 1 + KINDS.index(kind)  # so that the kinds meet different changes
    assert len(list(strikes(act, tmp_path, kind, first, STEP))) > 1


@NEEDS_SHIM
@pytest.mark.campaign
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("act", ACTS, ids=lambda act: act.name)
def test_a_fault_anywhere_leaves_the_old_or_the_new(tmp_path: Path, act: Act, kind: str) -> None:
    struck = [ran.fault for ran in strikes(act, tmp_path, kind, 1, 1)]
    assert len(struck) > 10
    assert {"rename", "renameat", "renameat2"} & set(struck)
