"""Main results by another way: a fault in either is found, and rounding is none."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from types import ModuleType
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calc import another_way, beliefs, catches, judging, turned
from assistant.calc.another_way import FACTS, WAYS, Exact
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.contract import Trial
from assistant.dialogue.job import WaysDifferError
from tests.stories.play import play
from tests.stories.story import FOLDER, read_story

EXAMPLES = [(name, given_) for name in WAYS for given_ in CATALOGUE[name].examples]
SEEDED = [1.000001, 1.01, 0.5, 10.0, 453.59237]
"""What a fault makes of a result: a slip of a digit, a lost half, a unit taken for another."""


def looked_at(result: Any) -> list[str]:
    """The main results of an outcome that are more than nothing."""
    return [fact for fact in FACTS if abs(getattr(result, fact, 0)) > 1e-9]


@pytest.mark.parametrize(("name", "given_"), EXAMPLES)
def test_both_ways_agree(name: str, given_: Mapping[str, Any]) -> None:
    calculation = CATALOGUE[name]
    assert calculation.differing(given_, calculation.run(given_)) == []


@pytest.mark.parametrize("times", SEEDED)
@pytest.mark.parametrize(("name", "given_"), EXAMPLES)
def test_a_fault_in_the_formula_is_found(
    name: str, given_: Mapping[str, Any], times: float
) -> None:
    """In every main result; a share that is off shows in the rate."""
    calculation = CATALOGUE[name]
    result = calculation.run(given_)
    for fact in looked_at(result):
        wrong = replace(result, **{fact: getattr(result, fact) * times})
        assert calculation.differing(given_, wrong)


@pytest.mark.parametrize("times", SEEDED)
@pytest.mark.parametrize(("name", "given_"), EXAMPLES)
def test_a_fault_in_the_other_way_is_found(
    name: str, given_: Mapping[str, Any], times: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    right, calculation = WAYS[name], CATALOGUE[name]

    def wrong(of: Exact) -> Exact:
        return {fact: value * Fraction(times) for fact, value in right(of).items()}

    monkeypatch.setattr(another_way, "WAYS", {**WAYS, name: wrong})
    result = calculation.run(given_)
    something = any(fact != "percent_off" for fact in looked_at(result))
    assert bool(calculation.differing(given_, result)) is something


@pytest.mark.parametrize(
    ("module", "function", "fault"),
    [
        (turned, "mean", lambda right: lambda each: 0.9 * right(each)),
        (turned, "mean", lambda _: lambda each: 0.4 * max(each) + 0.6 * min(each)),
        (judging, "mean", lambda right: lambda each: 0.9 * right(each)),
        (beliefs, "seed_caught", lambda right: lambda *of: right(*of) / 2.2046),
        (catches, "seed_caught", lambda right: lambda *of: right(*of) / 2.2046),
    ],
    ids=[
        "mean of a law",
        "between the lowest and the highest",
        "mean of two",
        "kilos for pounds of a law",
        "kilos for pounds of one",
    ],
)
def test_a_fault_before_the_rate_is_found(
    module: ModuleType, function: str, fault: Callable[[Any], Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is wrong with rate and share alike agrees with itself, and with no catch."""
    monkeypatch.setattr(module, function, fault(getattr(module, function)))
    names = {turned: "judge_opening", beliefs: "judge_opening", judging: "judge", catches: "judge"}
    calculation = CATALOGUE[names[module]]
    two = tuple(Trial(opening=0.014, catch_weight=seed) for seed in (0.25, 0.253))
    given_ = {**calculation.examples[0], "trials": two}
    assert calculation.differing(given_, calculation.run(given_)) == ["caught_rate"]


WHAT_CAME = st.sampled_from((0.0, 0.02, 0.5, 0.8, 0.99, 1.0, 1.01, 1.3, 20.0))


@given(st.lists(st.tuples(st.sampled_from((0.014, 0.02)), WHAT_CAME), min_size=1, max_size=6))
def test_whatever_was_caught_the_rate_is_one_that_the_last_setting_brought(
    catches: list[tuple[float, float]],
) -> None:
    """Found once: after a catch of nothing at a new opening the old one was still counted."""
    calculation = CATALOGUE["judge_opening"]
    base = calculation.examples[0]
    target = base["target_catch"]
    assert isinstance(target, float)
    trials = tuple(
        Trial(opening=opening, catch_weight=times * target) for opening, times in catches
    )
    given_ = {**base, "trials": trials}
    assert calculation.differing(given_, calculation.run(given_)) == []


@given(*[st.floats(1e-6, 1e6)] * 4)
def test_rounding_is_no_fault(rows: float, spacing: float, turns: float, around: float) -> None:
    inputs = {
        "rows_caught": rows,
        "row_spacing": spacing,
        "turns": turns,
        "distance_per_turn": around,
    }
    assert CATALOGUE["ground"].differing(inputs, CATALOGUE["ground"].run(inputs)) == []


@pytest.mark.parametrize("name", ["rate_from_seeds", "ground", "expected_catch", "judge_opening"])
def test_a_conversation_stops_at_a_fault(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A target in plants, to its card, with one formula a hundredth off."""
    old = CATALOGUE[name]

    def off(**given_: Any) -> Any:
        made = old.function(**given_)
        return replace(made, **{fact: getattr(made, fact) * 1.01 for fact in looked_at(made)[:1]})

    off.__annotations__ = dict(old.function.__annotations__)
    monkeypatch.setitem(CATALOGUE, name, replace(old, function=off))
    with pytest.raises(WaysDifferError, match=name):
        play(read_story(FOLDER / "fluted_plants.txt"))
