"""A sample of the mutants of the code: nearly all are found out, the others have a reason."""

import tomllib
from pathlib import Path

import pytest

from tests.campaigns.code_mutants import LEAST, TESTS, campaign

SURVIVORS = tomllib.loads(
    Path(__file__).with_name("code_survivors.toml").read_text(encoding="utf-8")
)
HOW_MANY = 100


@pytest.mark.parametrize("folder", TESTS)
def test_nearly_every_mutant_of_the_code_is_found_out(folder: str) -> None:
    pytest.importorskip("mutmut", reason="comes with the extra `campaign`")
    found = campaign(folder, HOW_MANY)
    assert found["not_run"] == 0
    met = found["tried"] - len(found["no_tests"])
    assert found["killed"] + found["hung"] >= LEAST * met
    assert set(found["survived"]) <= set(SURVIVORS)
