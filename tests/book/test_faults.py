"""A write, a sync or a rename that fails, or is the last one, loses nothing that was confirmed.

A sample of the changes that an act makes; the campaign takes every one of them.
"""

from pathlib import Path

import pytest

from tests.book.acts import ACTS
from tests.book.faults import KINDS, NEEDS_SHIM, Act, strike, strikes

STEP = 17


@NEEDS_SHIM
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("act", ACTS, ids=lambda act: act.name)
def test_a_fault_here_and_there_loses_nothing(tmp_path: Path, act: Act, kind: str) -> None:
    first = 1 + KINDS.index(kind)  # so that the kinds meet different changes
    assert len(list(strikes(act, tmp_path, kind, first, STEP))) > 1


@NEEDS_SHIM
def test_the_fault_strikes_the_change_that_was_named(tmp_path: Path) -> None:
    act = ACTS[0]
    made = strike(act, tmp_path / "made", 1, "full_once")
    assert (made.fault, made.said) == ("open64", ["problem full"])
    assert strike(act, tmp_path / "whole", 10_000, "kill").said[-1] == "kept card"
