"""A card proves itself: worked out again it is the same, and each digit changed is found."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice

import pytest

from assistant.book.book import Book
from assistant.book.nobook import NoBook
from assistant.book.problems import BookProblem
from assistant.book.records import StoredCard, StoredEvent
from assistant.book.rows import card_row
from assistant.book.sealing import seal
from assistant.book.verifying import verify
from assistant.calc import another_way
from assistant.calc.catalogue import CATALOGUE
from assistant.sitting import proving
from assistant.sitting.proving import Proof, prove
from tests.script.running import BASE, CUP, Facts, calibrate, run
from tests.script.test_facts_runs import HALVES
from tests.stories.play import played
from tests.stories.story import FOLDER, read_story

Change = Callable[[list[StoredEvent]], list[StoredEvent]]
PLANTS: Facts = {
    **BASE,
    "target": "28 plants per sq ft",
    "seeds_per_weight": "12,500",
    "germination": "92 %",
    "emergence": "85 %",
    "trials": [{"catch_weight": "2.18 lb"}, {"catch_weight": "2.20 lb"}],
}
STORIES = [
    "fluted_plants",
    "cup_other_range",
    "corrected_roll",
    "metric_throughout",
    "known_drill",
    "two_halves",
]


def card_of(facts: Facts) -> tuple[NoBook, StoredCard]:
    """A book with one card."""
    book = NoBook()
    ran = run(facts, book=book)
    (card,) = book.cards(include_scripted=True)
    assert ran.code == 0
    return book, card


@pytest.mark.parametrize("facts", [BASE, CUP, PLANTS], ids=["pounds", "cup", "plants"])
def test_a_card_worked_out_again_is_the_same(facts: Facts) -> None:
    book, card = card_of(facts)
    assert prove(calibrate(), book, card) == Proof("same")


@pytest.mark.parametrize("name", STORIES)
def test_the_cards_of_the_stories_prove_themselves(name: str) -> None:
    book = played(read_story(FOLDER / f"{name}.txt")).book
    proofs = [prove(calibrate(), book, card) for card in book.cards()]
    assert proofs
    assert set(proofs) == {Proof("same")}


def test_what_was_worked_out_names_its_formula_and_what_was_told_names_none() -> None:
    _, card = card_of(PLANTS)
    rate, rows = card.facts["bulk_rate"], card.facts["row_count"]
    assert isinstance(rate, dict)
    assert isinstance(rows, dict)
    assert (rate["by"], rate["revision"]) == ("rate_from_seeds", 1)
    assert {"by", "revision"} & set(rows) == set()
    worked = [fact for fact in card.facts.values() if "worked out" in str(fact)]
    assert all("by" in fact for fact in worked if isinstance(fact, dict))


# -- a digit changed by hand ------------------------------------------------------------------


def flipped(body: str) -> Iterator[tuple[int, str]]:
    """The text with each of its digits changed in turn."""
    for digit in re.finditer(r"\d", body):
        at = digit.start()
        yield at, f"{body[:at]}{(int(digit[0]) + 5) % 10}{body[at + 1 :]}"


def spoil(book: Book, body: str) -> None:
    """Put another body on the one card, and a hash that is right for it."""
    *columns, moment = book.store.execute(
        "SELECT id, talk, at, job, drill, crop, lot, outcome, scripted, moment FROM card"
    ).fetchone()
    before = book.store.execute("SELECT hash FROM event ORDER BY number DESC LIMIT 1").fetchone()[0]
    right = seal("card", [*columns, body, moment], before)
    book.store.execute("UPDATE card SET body = ?, hash = ?", (body, right))


@pytest.mark.parametrize(
    ("facts", "nth"),
    [
        pytest.param(BASE, 7, id="one half, each seventh digit"),
        pytest.param(BASE, 1, id="one half", marks=pytest.mark.campaign),
        pytest.param(HALVES, 1, id="two halves", marks=pytest.mark.campaign),
    ],
)
def test_every_digit_of_a_card_that_was_changed_is_found(facts: Facts, nth: int) -> None:
    book, card = card_of(facts)
    book.store.execute("DROP TRIGGER card_unchanged")
    body = str(card_row(card, 0)[-2])
    digits, grave = 0, 0
    for at, other in islice(flipped(body), 0, None, nth):
        spoil(book, other)
        digits += 1
        try:
            json.loads(other)
        except ValueError:
            with pytest.raises(BookProblem):
                book.card(card.id)
            grave += 1
            continue
        assert verify(book) == []  # the hash alone finds nothing
        spoiled = book.card(card.id)
        assert spoiled is not None
        proof = prove(calibrate(), book, spoiled)
        assert proof.verdict != "same", body[at - 30 : at + 10]
        assert proof.differences
        grave += proof.verdict == "damaged"
    assert digits > 400 / nth
    assert grave > 0.6 * digits  # else: past the ninth digit, or the number of a revision


# -- what has moved on since ------------------------------------------------------------------


def test_a_formula_that_moved_on_is_named_apart_with_both_revisions(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(another_way, "WAYS", {})  # they moved on with it
    book, card = card_of(BASE)
    old = CATALOGUE["ground"]

    def wider(**given: float) -> object:
        made = old.function(**given)
        return replace(made, ground_covered=made.ground_covered * 1.01)

    wider.__annotations__ = dict(old.function.__annotations__)
    moved = replace(old, function=wider, revision=2)
    monkeypatch.setitem(CATALOGUE, "ground", moved)
    proof = prove(calibrate(), book, card)
    assert proof.verdict == "moved_on"
    found = {each.fact: each for each in proof.differences if each.key == "value"}
    assert {"ground_covered", "target_catch", "caught_rate"} <= set(found)
    assert "bulk_rate" not in found
    for each in found.values():
        assert (each.formula, each.then_revision, each.now_revision) == ("ground", 1, 2)


def test_a_formula_that_changed_without_a_new_revision_is_a_fault(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(another_way, "WAYS", {})  # they changed with it
    book, card = card_of(BASE)
    old = CATALOGUE["expected_catch"]

    def heavier(**given: float) -> object:
        made = old.function(**given)
        return replace(made, target_catch=made.target_catch * 1.001)

    heavier.__annotations__ = dict(old.function.__annotations__)
    changed = replace(old, function=heavier)
    monkeypatch.setitem(CATALOGUE, "expected_catch", changed)
    assert prove(calibrate(), book, card).verdict == "damaged"


def test_other_words_are_no_damage_but_other_numbers_are(monkeypatch: pytest.MonkeyPatch) -> None:
    book, card = card_of(BASE)
    monkeypatch.setattr(proving, "words_of", lambda _library: "other words")
    lines = ["A CARD", *card.lines[1:]]
    assert prove(calibrate(), book, replace(card, lines=lines)).verdict == "changed"
    rate = {**card.facts["bulk_rate"], "value": 0.0091}  # type: ignore[dict-item]  # a dict
    spoiled = replace(card, facts={**card.facts, "bulk_rate": rate})
    assert prove(calibrate(), book, spoiled).verdict == "damaged"


def test_other_questions_are_no_damage(monkeypatch: pytest.MonkeyPatch) -> None:
    book, card = card_of(BASE)
    monkeypatch.setattr("assistant.sitting.replaying.shape_of", lambda _graph: "another shape")
    assert prove(calibrate(), book, card) == Proof("same")
    fewer = {name: fact for name, fact in card.facts.items() if name != "scale_marks"}
    assert prove(calibrate(), book, replace(card, facts=fewer)).verdict == "changed"
    rows = {**card.facts["row_count"], "value": 23.0}  # type: ignore[dict-item]  # a dict
    told = replace(card, facts={**card.facts, "row_count": rows})
    assert prove(calibrate(), book, told).verdict == "damaged"


def with_other_answers(book: Book, card: StoredCard, change: Change) -> NoBook:
    """A sound book with the same card, over a conversation whose events were changed."""
    talk = book.talk(card.talk)
    assert talk is not None
    other = NoBook()
    other.start(talk, change(book.events(talk.id)))
    other.finish(card)
    return other


def test_a_conversation_that_no_longer_comes_to_an_end_is_told_apart(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first, card = card_of(BASE)
    book = with_other_answers(first, card, lambda events: events[:-2])
    assert prove(calibrate(), book, card).verdict == "damaged"
    monkeypatch.setattr("assistant.sitting.replaying.shape_of", lambda _graph: "another shape")
    assert prove(calibrate(), book, card).verdict == "not_again"


def test_a_card_from_before_formulas_were_named_still_proves_itself() -> None:
    book, card = card_of(BASE)
    facts = {
        name: {key: value for key, value in fact.items() if key not in {"by", "revision"}}
        for name, fact in card.facts.items()
        if isinstance(fact, dict)
    }
    assert prove(calibrate(), book, replace(card, facts=facts)) == Proof("same")


def test_answers_that_are_no_answers_are_damage(monkeypatch: pytest.MonkeyPatch) -> None:
    def misspelled(events: list[StoredEvent]) -> list[StoredEvent]:
        return [
            replace(event, body=json.loads(json.dumps(event.body).replace("7.5 in", "7.5 inn")))
            for event in events
        ]

    first, card = card_of(BASE)
    book = with_other_answers(first, card, misspelled)
    assert prove(calibrate(), book, card) == Proof("damaged")
    monkeypatch.setattr(proving, "__version__", "9.9")
    assert prove(calibrate(), book, card) == Proof("not_again")


def test_answers_changed_by_hand_are_damage_to_any_version(monkeypatch: pytest.MonkeyPatch) -> None:
    book, card = card_of(BASE)
    book.store.execute("DROP TRIGGER event_unchanged")
    book.store.execute("UPDATE event SET body = replace(body, '7.5 in', '6.5 in')")
    monkeypatch.setattr(proving, "__version__", "9.9")
    assert prove(calibrate(), book, card) == Proof("damaged")
