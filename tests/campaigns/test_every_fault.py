"""Every write, sync and rename of every act fails in every way, one after the other."""

from pathlib import Path

import pytest

from tests.book.acts import ACTS
from tests.book.faults import KINDS, NEEDS_SHIM, Act, strikes


@NEEDS_SHIM
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("act", ACTS, ids=lambda act: act.name)
def test_a_fault_anywhere_loses_nothing(tmp_path: Path, act: Act, kind: str) -> None:
    struck = {ran.fault.removesuffix("64") for ran in strikes(act, tmp_path, kind, 1, 1)}
    assert {"open", "pwrite", "fdatasync", "unlink"} <= struck
