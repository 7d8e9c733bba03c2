"""The walk over all roads at once: what it knows, how far it reaches, and how it names a road."""

from pathlib import Path

import pytest

from assistant.checking.check import check, ground_of
from assistant.checking.flows import Flows, opened
from assistant.checking.knowledge import Knowledge, Way
from assistant.checking.roads import Roads, State, begun, excused, road_to, roads_of
from assistant.checking.ways_out import loops
from tests.checking.judged_once import judged_once
from tests.flowfile.small import CALCULATIONS, written


@pytest.fixture
def flows(tmp_path: Path) -> Flows:
    """The small flows."""
    return opened(written(tmp_path), CALCULATIONS)


@pytest.fixture
def roads(flows: Flows) -> Roads:
    """Every road of the small job."""
    return roads_of(ground_of(flows, "plot"))


def known_at(roads: Roads, place: str) -> dict[tuple[tuple[str, str], ...], set[str]]:
    """The facts that are known at a place on every road, by the choices made."""
    return {
        state.choices: {name for name, held in known.held.items() if held.sure}
        for state, known in roads.known.items()
        if state.place == place
    }


def test_every_place_of_the_small_job_is_reached(roads: Roads) -> None:
    assert {state.place for state in roads.known} == set(roads.ground.graph.nodes)


def test_what_one_road_alone_makes_known_is_not_known_where_roads_meet(roads: Roads) -> None:
    assert "paces" not in set[str]().union(*known_at(roads, "size/sum").values())
    assert all("dose_weight" in known for known in known_at(roads, "by_weight").values())
    assert all("dose_weight" not in known for known in known_at(roads, "remark").values())


def test_a_choice_is_kept_while_a_condition_still_looks_at_it(roads: Roads) -> None:
    assert set(known_at(roads, "dose")) == {(("treated", "yes"),), (("treated", "no"),)}
    assert set(known_at(roads, "tidy")) == {()}


def test_a_member_counts_only_under_its_choice(roads: Roads) -> None:
    known = known_at(roads, "catches/judge")
    assert "opening" in known[("treated", "no"),]
    assert "opening" not in known[("treated", "yes"),]


def test_a_caution_guards_its_part_from_then_on(roads: Roads) -> None:
    at = {state: known.guarded for state, known in roads.known.items()}
    assert {
        g for s, g in at.items() if s.place == "ready" and s.choices == (("treated", "no"),)
    } == {frozenset({("dust", "")})}
    assert all(("spinning", "") in g for s, g in at.items() if s.place == "catches/lap")


def test_a_caution_that_goes_by_a_choice_is_excused_or_due_anew_when_it_is_made(
    roads: Roads,
) -> None:
    ground, passed, excused_now = roads.ground, ("spinning", "catches"), ("dust", "")
    assert begun(ground).guarded == {excused_now}
    nothing = Knowledge(guarded=frozenset({passed, excused_now}))
    treated, plain = nothing.with_choice("treated", "yes"), nothing.with_choice("treated", "no")
    assert excused(ground, nothing, treated) == {passed}
    assert excused(ground, nothing, plain) == {passed, excused_now}
    treated.guarded = frozenset({passed})
    assert excused(ground, plain, treated) == {passed}
    assert excused(ground, treated, plain) == {passed, excused_now}
    assert excused(ground, treated, treated) == {passed}


def test_where_roads_meet_a_part_is_guarded_if_each_guards_it_or_one_around_it() -> None:
    def met(one: set[tuple[str, str]], other: set[tuple[str, str]]) -> set[tuple[str, str]]:
        here, there = Knowledge(guarded=frozenset(one)), Knowledge(guarded=frozenset(other))
        assert here.joined(there).guarded == there.joined(here).guarded
        return {*here.joined(there).guarded}

    assert met({("dust", "")}, {("dust", "catches")}) == {("dust", "catches")}
    assert met({("dust", "catches")}, {("dust", "catches/lap")}) == {("dust", "catches/lap")}
    assert met({("dust", "catches")}, {("dust", "other")}) == set()
    assert met({("dust", "")}, {("spinning", "")}) == set()


def test_the_job_ends_at_its_finishes_alone(roads: Roads) -> None:
    assert {state.place for state in roads.ends()} == {"done", "gave_up"}


def test_a_road_is_told_by_its_answers_and_outcomes(roads: Roads) -> None:
    road = road_to(roads, lambda state, _: state.place == "catches/less", lambda _: None)
    assert road == "treated = no, size/sum = small, dose = weight, catches/judge = little"


def test_a_road_names_the_very_answers_that_lead_along_it() -> None:
    shipped = judged_once().roads["recheck"]

    def not_sure(state: State, known: Knowledge) -> bool:
        return state.place == "treated_care" and known.choices.get("treated") == "not_sure"

    road = road_to(shipped, not_sure, lambda known: known.choices.get("treated"))
    assert "tag = not_sure" in road.split(", ")
    assert "care = not_sure" in road.split(", ")


def test_a_road_without_a_branch_and_one_that_is_not_there_are_a_dash(roads: Roads) -> None:
    assert road_to(roads, lambda state, _: state.place == "treated", lambda _: None) == "-"
    assert road_to(roads, lambda state, _: state.place == "nowhere", lambda _: None) == "-"


# -- what is known ------------------------------------------------------------------------------


def test_what_was_worked_out_from_a_fact_is_forgotten_when_it_is_answered_anew() -> None:
    known = Knowledge()
    known.learn("width", Way("a"))
    known.learn("area", Way("b", frozenset({"width"})))
    known.learn("rate", Way("c", frozenset({"area"})))
    known.learn("width", Way("d"))
    assert set(known.held) == {"width"}


def test_what_came_another_way_too_is_only_not_sure_any_more() -> None:
    worked, told = Knowledge(), Knowledge()
    worked.learn("area", Way("a", frozenset({"width"})))
    told.learn("area", Way("b"))
    known = worked.joined(told)
    assert known.is_sure("area")
    known.forget_after("width")
    assert not known.is_sure("area")
    assert known.ways("area") == {Way("b")}


def test_where_roads_meet_only_what_all_know_is_sure() -> None:
    one, other = Knowledge(), Knowledge()
    one.learn("width", Way("a"))
    for each in (one, other):
        each.learn("length", Way("a"))
    for met in (one.joined(other), other.joined(one)):
        assert (met.is_sure("width"), met.is_sure("length")) == (False, True)
        assert met.ways("width") == {Way("a")}


def test_what_rests_on_two_forgotten_results_is_forgotten_once() -> None:
    known = Knowledge()
    known.learn("area", Way("a", frozenset({"width"})))
    known.learn("rate", Way("b", frozenset({"width", "area"})))
    known.forget_after("width")
    assert known.held == {}


def test_asked_and_not_known_is_no_value() -> None:
    known = Knowledge()
    known.learn("lot", Way("a", has_value=False))
    assert not known.is_sure("lot")
    assert known.may_lack_value("lot")


# -- size ---------------------------------------------------------------------------------------


def long_job(folder: Path, steps: int) -> Path:
    """The small flows with a job of many steps in one row."""
    rows = "".join(f'[[step]]\nid = "s{n}"\nsay = "On."\n\n' for n in range(steps))
    end = '[[step]]\nid = "done"\nfinish = "over"\n'
    path = folder / "jobs" / "long.toml"
    path.write_text(f'[part]\ntitle = "Long"\n\n{rows}{end}', encoding="utf-8")
    return folder


def test_a_job_of_three_thousand_steps_is_judged_without_running_deep(tmp_path: Path) -> None:
    assert check(long_job(written(tmp_path), 3000), CALCULATIONS) == []


def test_a_loop_of_three_thousand_steps_is_one_finding(tmp_path: Path) -> None:
    folder = long_job(written(tmp_path), 3000)
    path = folder / "jobs" / "long.toml"
    text = path.read_text(encoding="utf-8")
    last = 'id = "s2999"\nsay = "On."\n'
    path.write_text(text.replace(last, f'{last}next = "s0"\n'), encoding="utf-8")
    codes = [each.code for each in check(folder, CALCULATIONS)]
    assert codes.count("loop_without_question") == 1
    assert set(codes) == {"loop_without_question", "no_way_out", "unreachable"}


@pytest.mark.parametrize(
    ("onward", "found"),
    [
        ({"a": "b", "b": "c", "c": ""}, []),
        ({"a": "a", "b": ""}, ["a"]),
        ({"a": "b", "b": "a", "c": "ad", "d": "c"}, ["ab", "cd"]),
        ({"a": "bc", "b": "d", "c": "d", "d": ""}, []),
        ({"a": "b", "b": "c", "c": "bd", "d": "e", "e": "d"}, ["bc", "de"]),
    ],
)
def test_loops_are_found_each_once(onward: dict[str, str], found: list[str]) -> None:
    graph = {State(name): [State(to) for to in after] for name, after in onward.items()}
    named = ["".join(sorted(state.place for state in loop)) for loop in loops(graph)]
    assert sorted(named) == found
