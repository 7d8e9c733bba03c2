"""Every search walks an index: a book of many years answers like a new one."""

from itertools import combinations

import pytest

from assistant.book import searching
from assistant.book.nobook import NoBook
from assistant.book.searching import Search
from assistant.book.wanted import Wanted
from tests.book.samples import at, fill, made_id

COLUMNS = ("drill", "crop", "lot")
WANTED = [names for size in range(4) for names in combinations(COLUMNS, size)]


@pytest.fixture(scope="module")
def filled() -> NoBook:
    """A book with a few cards."""
    book = NoBook()
    fill(book, 12)
    return book


def plan(book: NoBook, search: Search) -> list[str]:
    """What SQLite means to do, one act a line; the hash before each row comes last."""
    found = book.store.execute(f"EXPLAIN QUERY PLAN {search.sql}", search.values)
    return [row[-1] for row in found]


BEFORE = [
    "CORRELATED SCALAR SUBQUERY 1",
    "SEARCH event USING PRIMARY KEY (talk=?)",  # from its end
    "CORRELATED SCALAR SUBQUERY 2",
    "SEARCH talk USING PRIMARY KEY (id=?)",
]


@pytest.mark.parametrize("scripted", [False, True])
@pytest.mark.parametrize("since", [None, at(30)])
@pytest.mark.parametrize("names", WANTED, ids="-".join)
def test_a_search_for_cards_neither_scans_nor_sorts(
    filled: NoBook, names: tuple[str, ...], since: str | None, scripted: bool
) -> None:
    drill, crop, lot = ("x" if name in names else None for name in COLUMNS)
    wanted = Wanted(drill, crop, lot, since, scripted=scripted)
    act, *before = plan(filled, searching.cards_like(wanted, 20))
    assert before == BEFORE
    if names:
        assert act.startswith(tuple(f"SEARCH card USING INDEX card_by_{name} (" for name in names))
    elif since:
        assert act.startswith("SEARCH card USING INDEX card_by_moment (moment>?")
    else:
        assert act == "SCAN card USING INDEX card_by_moment"  # in its order, up to the limit


def test_cards_are_numbered_along_an_index(filled: NoBook) -> None:
    assert plan(filled, searching.LISTED) == ["SCAN card USING INDEX card_by_moment"]


STARTING = [searching.talks_starting("abcd"), searching.cards_starting("abcd")]
FOUND_BY_ID = [
    searching.talk_by_id("x"),
    searching.events_of("x"),
    searching.card_by_id("id", "x"),
    searching.card_by_id("talk", "x"),
    Search(searching.LAST_EVENT, ("x",)),
    Search(searching.TALK_HASH, ("x",)),
    Search(searching.CARD_HASH, ("x",)),
    Search(searching.HOLDER, ("x",)),
    searching.notes_of("x"),
    *(search for search in STARTING if search),
]


@pytest.mark.parametrize("search", FOUND_BY_ID)
def test_what_has_an_id_is_found_by_it(filled: NoBook, search: Search) -> None:
    acts = plan(filled, search)
    assert [act for act in acts if act.startswith("SCAN")] == []
    assert [act for act in acts if act.startswith("SEARCH")]


@pytest.mark.parametrize("column", COLUMNS)
def test_spellings_are_compared_between_the_index_and_the_table(
    filled: NoBook, column: str
) -> None:
    assert plan(filled, searching.spelled_otherwise(column)) == [
        f"SCAN listed USING COVERING INDEX card_by_{column}",
        "SEARCH card USING PRIMARY KEY (id=?)",
    ]


def test_what_was_left_is_found_without_a_walk_through_events_or_cards(filled: NoBook) -> None:
    acts = plan(filled, searching.unfinished_talks(scripted=False))
    assert [act for act in acts if act.startswith("SCAN")] == ["SCAN talk"]
    assert any("event_that_ends" in act for act in acts)


def test_the_names_of_drills_are_read_from_an_index(filled: NoBook) -> None:
    acts = plan(filled, searching.last_of_each_drill(scripted=True))
    assert [act for act in acts if act.startswith("SCAN")] == ["SCAN names", "SCAN names"]
    assert sum("card_by_drill (drill>?)" in act for act in acts) == 2
    assert sum("card_by_drill (drill=?)" in act for act in acts) == 1


def test_the_newest_row_is_found_at_the_end_of_four_indexes(filled: NoBook) -> None:
    acts = plan(filled, Search(searching.NEWEST))
    ends = [act for act in acts if act.startswith("SEARCH")]
    assert len(ends) == 4
    assert all("_by_moment" in act for act in ends)


def test_a_search_of_the_filled_book_finds_something(filled: NoBook) -> None:
    assert len(filled.cards(drill="old green", since=at(30), limit=5)) == 5
    assert filled.talk(made_id(20)) is not None
