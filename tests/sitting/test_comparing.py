"""Why a card differs from another: shares through the real job, on made-up pairs of cards."""

from __future__ import annotations

import math
from functools import cache
from itertools import combinations
from random import Random

import pytest

from assistant.book.nobook import NoBook
from assistant.sitting.comparing import FLOW, NEARNESS, Change, Pair, Side
from assistant.sitting.replaying import replay
from tests.script.running import BASE, CUP, Facts, calibrate, run

PLANTS: Facts = {
    **BASE,
    "target": "28 plants per sq ft",
    "seeds_per_weight": "12,500",
    "germination": "92 %",
    "emergence": "85 %",
    "trials": [{"catch_weight": "2.18 lb"}, {"catch_weight": "2.20 lb"}],
}
LIGHT_SEED: Facts = {
    **PLANTS,
    "seeds_per_weight": "15,000",
    "trials": [
        {"opening": "12 mm", "catch_weight": "1.82 lb"},
        {"opening": "12 mm", "catch_weight": "1.82 lb"},
    ],
}
PAIRS = 200


def side(facts: Facts) -> Side:
    """The card that comes of some facts, and its replay."""
    book = NoBook()
    ran = run(facts, book=book)
    assert ran.code == 0, ran.out
    (card,) = book.cards(include_scripted=True)
    talk = book.talk(card.talk)
    assert talk is not None
    return Side(card, replay(calibrate(), book, talk))


def changes(old: Facts, new: Facts) -> dict[str, Change]:
    """The results that changed, by their names."""
    return {each.result: each for each in Pair(side(old), side(new)).changes()}


def told(change: Change) -> dict[str, float]:
    """The shares of a change by the facts."""
    return {share.fact: share.amount for share in change.shares}


CHOICES = {
    "plants": (28.0, 21.5, 33.0),
    "size": (12_500, 15_200, 10_400),
    "germination": (92, 85, 97),
    "emergence": (85, 76, 93),
    "inches": (7.5, 6.0, 10.0),
    "turns": (50, 45, 60),
    "distance": (81.5, 77.25, 88.0),
    "rows": (6, 4, 8),
    "opening": (14, 11, 17),
    "near": (1.0, 0.99, 1.012),
}


@cache
def made_up() -> list[Side]:
    """Cards of made-up lots and drills, all for plants, caught near enough."""
    chance = Random(8)
    usual = [2, 1, 1]
    return [
        side(facts_for(**{n: chance.choices(of, usual)[0] for n, of in CHOICES.items()}))
        for _ in range(33)
    ]


def facts_for(
    *,
    plants: float,
    size: float,
    germination: float,
    emergence: float,
    inches: float,
    turns: float,
    distance: float,
    rows: float,
    opening: float,
    near: float,
) -> Facts:
    """A whole story whose two catches come `near` times to what is wanted."""
    rate = plants * 43_560 / (germination * emergence / 1e4) / size  # lb/ac
    catch = rate * rows * inches * turns * distance / 144 / 43_560  # lb
    trial = {"opening": f"{opening} mm", "catch_weight": f"{catch * near:.2f} lb"}
    return {
        **BASE,
        "target": f"{plants} plants per sq ft",
        "seeds_per_weight": f"{size:,}",
        "germination": f"{germination} %",
        "emergence": f"{emergence} %",
        "row_spacing": f"{inches} in",
        "turns": turns,
        "distance_per_turn": f"{distance} in",
        "rows_caught": rows,
        "start_opening": f"{opening} mm",
        "trials": [trial] * 4,
    }


def test_the_shares_of_200_made_up_pairs_add_up() -> None:
    pairs = [Pair(*two) for two in combinations(made_up(), 2)][:PAIRS]
    assert len(pairs) == PAIRS
    shared = 0
    for pair in pairs:
        for change in pair.changes():
            found = told(change)
            whole = change.new - change.old
            assert math.fsum(found.values()) == pytest.approx(whole, abs=1e-9 * change.old)
            same = {name for name in found if pair.old.held(name) == pair.new.held(name)}
            assert same <= {NEARNESS, FLOW}  # these two stand on no card
            shared += 1
    assert shared > 2 * PAIRS


def test_a_change_of_one_input_is_all_its_own() -> None:
    found = changes(PLANTS, LIGHT_SEED)
    for result in ("bulk_rate", "target_catch"):
        assert told(found[result]) == pytest.approx(
            {"seeds_per_weight": found[result].new - found[result].old}, rel=1e-9
        )


def test_an_opening_tells_the_plan_from_the_drill_and_the_seed() -> None:
    found = told(changes(PLANTS, LIGHT_SEED)["final_opening"])
    assert set(found) == {"seeds_per_weight", NEARNESS, FLOW}
    # A sixth of the seed less wants a sixth of 14 mm less; what it moved less is drill and seed.
    assert found["seeds_per_weight"] == pytest.approx(-0.014 / 6, rel=0.05)
    assert math.fsum(found.values()) == pytest.approx(-0.002, rel=1e-9)


def test_the_same_again_has_no_change() -> None:
    assert changes(PLANTS, PLANTS) == {}


def test_another_kind_of_target_is_not_shared_out_but_what_comes_after_is() -> None:
    found = changes(PLANTS, BASE)
    assert found["bulk_rate"].shares == ()
    assert set(told(found["target_catch"])) == {"bulk_rate"}


def test_another_way_to_the_same_fact_is_one_input() -> None:
    rolled = {
        **{name: value for name, value in BASE.items() if name != "distance_per_turn"},
        "wheel_method": "rolled",
        "rolled_turns": "10",
        "rolled_distance": "68 ft 9 in",
        "trials": [{"catch_weight": "1.42 lb"}, {"catch_weight": "1.43 lb"}],
    }
    found = told(changes(BASE, rolled)["target_catch"])
    assert set(found) == {"distance_per_turn"}


def test_a_lever_mark_is_no_length_and_is_not_shared_out() -> None:
    later = {
        **CUP,
        "start_mark": "5.5",
        "trials": [{"lever_mark": "5.5", "drive_range": "low", "catch_weight": "1.40 lb"}] * 2,
    }
    pair = Pair(side(CUP), side(later))
    assert list(pair.changes()) == []
    assert pair.gathered("lever_mark")
    assert not pair.gathered("final_lever_mark")


def test_a_card_that_cannot_be_worked_out_again_is_not_shared_out() -> None:
    old, new = side(PLANTS), side(LIGHT_SEED)
    pair = Pair(Side(old.card, None), new)
    assert [each.shares for each in pair.changes()] == [(), (), ()]
