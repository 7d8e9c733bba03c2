"""What a calculation tells of itself: kinds in and out, examples, revision."""

from collections import Counter
from collections.abc import Mapping
from typing import Annotated

import pytest

from assistant.calc.calculation import TRIALS, Calculation, Inputs, kind_of, kinds_of, outcome_name
from assistant.calc.catalogue import CATALOGUE
from assistant.calc.contract import ManyMasses, Mass, Trial
from assistant.calc.live_seed import Over_100
from assistant.quantities.kinds import KINDS

LISTED = CATALOGUE
ALL = pytest.mark.parametrize("calculation", LISTED.values(), ids=LISTED)


@ALL
def test_every_kind_is_one_of_the_house(calculation: Calculation) -> None:
    known = {*KINDS, TRIALS}
    assert set(calculation.parameters.values()) <= known
    for facts in calculation.outcomes.values():
        assert set(facts.values()) <= set(KINDS)


@ALL
def test_an_example_gives_every_parameter_and_no_other(calculation: Calculation) -> None:
    for inputs in calculation.examples:
        assert set(inputs) == set(calculation.parameters)


@ALL
def test_the_examples_reach_every_outcome(calculation: Calculation) -> None:
    reached = {outcome_name(type(calculation.run(inputs))) for inputs in calculation.examples}
    assert reached == set(calculation.outcomes)


@ALL
def test_a_calculation_never_sets_a_fact_that_it_reads(calculation: Calculation) -> None:
    set_facts = {fact for facts in calculation.outcomes.values() for fact in facts}
    assert set_facts & set(calculation.parameters) == set()


@ALL
def test_one_fact_has_one_kind_everywhere(calculation: Calculation) -> None:
    seen: dict[str, set[str]] = {}
    for each in (calculation, *LISTED.values()):
        for facts in (each.parameters, *each.outcomes.values()):
            for name, kind in facts.items():
                seen.setdefault(name, set()).add(kind)
    mine: Mapping[str, str] = calculation.parameters
    assert all(seen[name] == {kind} for name, kind in mine.items())


def test_a_calculation_goes_by_the_name_of_its_function() -> None:
    assert all(name == each.function.__name__ == each.name for name, each in LISTED.items())
    assert all(each.revision >= 1 for each in LISTED.values())
    assert max(Counter(each.function for each in LISTED.values()).values()) == 1


def test_parameters_and_outcomes_are_read_from_the_signature() -> None:
    judge = CATALOGUE["judge"]
    assert judge.parameters == {
        "trials": TRIALS,
        "tare": "mass",
        "target_catch": "mass",
        "ground_covered": "area",
        "tolerance": "share",
        "repeat_tolerance": "share",
        "catch_step": "mass",
    }
    assert set(judge.outcomes) == {
        "light",
        "heavy",
        "not_sure",
        "on_target",
        "proven",
        "spread",
        "nothing_caught",
    }
    assert set(map(tuple, judge.outcomes.values())) == {("caught_rate", "percent_off")}
    assert CATALOGUE["ground"].outcomes == {"worked": {"ground_covered": "area"}}


def test_the_outcome_is_the_name_of_its_class_in_small_letters() -> None:
    assert outcome_name(Over_100) == "over_100"
    assert set(CATALOGUE["live_share"].outcomes) == {"worked", "over_100", "nothing_live"}


def test_the_members_of_a_trial_have_kinds() -> None:
    assert kinds_of(Trial) == {
        "opening": "length",
        "lever_mark": "mark",
        "drive_range": "choice",
        "teeth": "count",
        "catch_weight": "mass",
        "gross_weight": "mass",
        "row_weights": "mass",
        "seeds_caught": "count",
    }


def test_a_kind_is_found_inside_what_may_be_missing() -> None:
    assert kind_of(Mass) == kind_of(ManyMasses | None) == "mass"
    assert kind_of(tuple[Trial, ...]) == TRIALS
    assert kind_of(Annotated[float, "mark"]) == "mark"


@pytest.mark.parametrize("hint", [float, float | None, tuple[float, ...]])
def test_an_annotation_without_a_kind_is_refused(hint: object) -> None:
    with pytest.raises(ValueError, match=r"float"):
        kind_of(hint)


def test_numbers_are_converted_and_choices_stay() -> None:
    calculation = CATALOGUE["next_lever_mark"]
    row = Trial(lever_mark=4.0, drive_range="low", row_weights=(1.0, 2.0))
    inputs: Inputs = {"trials": (row,), "tare": 0.5, "lever_opens": "higher"}
    doubled = calculation.converted(inputs, lambda kind, number: (kind, number))
    assert doubled["tare"] == ("mass", 0.5)
    assert doubled["lever_opens"] == "higher"
    (converted,) = doubled["trials"]
    assert converted.lever_mark == ("mark", 4.0)
    assert converted.row_weights == (("mass", 1.0), ("mass", 2.0))
    assert converted.drive_range == "low"
    assert converted.opening is None
