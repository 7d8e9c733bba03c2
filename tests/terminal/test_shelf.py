"""The book on the screen: lists, finding, notes, corrections, comparing, checking, erasing."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from assistant import __version__
from assistant.book.book import Book
from assistant.book.records import StoredCard
from assistant.book.rows import card_row
from assistant.book.schema import VERSION, made_in
from assistant.cli import main
from assistant.dialogue.events import Typed
from assistant.sitting.sitting import corrected
from assistant.terminal.book_commands import COMMANDS
from assistant.terminal.menu import HELP, MORE_LINES
from tests.book.samples import a_card, a_talk
from tests.script.running import BASE, CUP, calibrate, run, world
from tests.sitting.test_comparing import LIGHT_SEED, PLANTS
from tests.sitting.test_proving import spoil

Out = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def a_screen_of_40_columns(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("HOME", "XDG_DATA_HOME", "LOCALAPPDATA", "USERPROFILE"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    monkeypatch.setenv("DRILLSIDE_BOOK", str(tmp_path / "book.db"))
    monkeypatch.setenv("COLUMNS", "40")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    with Book.open(tmp_path / "book.db") as opened:
        yield opened


@pytest.fixture
def many(tmp_path: Path) -> None:
    """Thirty cards, twenty minutes apart, by two drills."""
    with Book.open(tmp_path / "book.db") as book:
        for number in range(30):
            talk = a_talk(20 * number)
            book.start(talk)
            book.finish(a_card(talk, drill=("old one", "Big Red")[number % 2], lot=f"L{number}"))


@pytest.fixture
def two(tmp_path: Path) -> tuple[StoredCard, StoredCard]:
    """Two cards of the real job, the older one first."""
    with Book.open(tmp_path / "book.db") as book:
        run(PLANTS, book=book)
        run(LIGHT_SEED, book=book)
        new, old = book.cards(include_scripted=True)
    return old, new


def said(capsys: Out, *argv: str) -> tuple[int, str]:
    """The exit code, and all that was written, folded lines joined."""
    code = main(["book", *argv])
    captured = capsys.readouterr()
    lines = (captured.out + captured.err).splitlines()
    assert max(map(len, lines), default=0) <= 40 or "/" in captured.out + captured.err
    return code, " ".join(" ".join(lines).split())


# -- lists ------------------------------------------------------------------------------------


@pytest.mark.usefixtures("many")
def test_a_list_has_twenty_cards_and_says_how_many_more(capsys: Out) -> None:
    code, out = said(capsys, "list")
    assert code == 0
    assert out.count("proven") == 20
    assert out.startswith("1 2031-04-02 Big Red, wheat L29: proven.")
    assert out.endswith("And 10 more. To see more: --last and a number.")
    assert said(capsys, "list", "--last", "30")[1].count("proven") == 30
    assert said(capsys, "list", "--last", "3", "--drill", "big red")[1].endswith(
        "And 12 more. To see more: --last and a number."
    )


def test_a_folded_line_is_set_in_so_that_cards_stand_apart(many: None, capsys: Out) -> None:
    assert many is None
    main(["book", "list", "--last", "2"])
    lines = capsys.readouterr().out.splitlines()
    assert [line[0] for line in lines[:4]] == ["1", " ", "2", " "]


@pytest.mark.usefixtures("many")
def test_the_numbers_of_a_part_of_the_list_are_those_of_the_whole(capsys: Out) -> None:
    _, out = said(capsys, "find", "L7")
    number = out.partition(" ")[0]
    assert int(number) > 1
    assert said(capsys, "show", number)[1].startswith(out.partition(" ")[2])
    assert said(capsys, "list", "--lot", "l7")[1] == out


@pytest.mark.usefixtures("many")
def test_part_of_a_name_leads_to_find(capsys: Out) -> None:
    _, out = said(capsys, "list", "--drill", "red")
    assert out == "No card is like that. To find it by a part of a name: drillside book find WORD."
    assert said(capsys, "find", "red")[1].count("Big Red") == 15
    assert said(capsys, "find", "zebra")[1] == "No card is like that."


@pytest.mark.parametrize(
    ("options", "count"),
    [
        (["--since", "2031-04-02"], 20),
        (["--since", "2031-04-03"], 0),
        (["--until", "2031-04-02"], 20),
        (["--until", "2031-04-01"], 0),
        (["--since", "2031-04-02", "--until", "2031-04-02", "--lot", "l7"], 1),
    ],
)
@pytest.mark.usefixtures("many")
def test_a_list_can_be_cut_down_by_day(options: list[str], count: int, capsys: Out) -> None:
    _, out = said(capsys, "list", *options)
    assert out.count("proven") == count
    assert count or out == "No card is like that."


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (["--since", "spring"], "I can't read 'spring' as a day. Like this: 2027-03-01."),
        (["--until", "2027-02-30"], "I can't read '2027-02-30' as a day."),
        (["--until", "9999-12-31"], "I can't read '9999-12-31' as a day."),
        (["--last", "few"], "I need a whole number after --last, not 'few'."),
        (["--last", "0"], "I need a whole number after --last, not '0'."),
    ],
)
def test_a_slip_in_a_list_is_told(options: list[str], sentence: str, capsys: Out) -> None:
    code, out = said(capsys, "list", *options)
    assert (code, sentence in out) == (2, True)


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("L7", 1),
        ("red wheat L7", 1),
        ("RED L6", 0),
        ("2031-04-02 L1", 11),
        ("proven L20", 1),
        ("one catch", 0),
        ("100% L7", 0),
        ("L_", 0),
        ("", 20),
    ],
)
@pytest.mark.usefixtures("many")
def test_a_card_is_found_by_words_wherever_they_stand(words: str, count: int, capsys: Out) -> None:
    code, out = said(capsys, "find", words)
    assert (code, out.count("proven")) == (0, count)


@pytest.mark.usefixtures("many")
def test_a_card_is_found_by_its_note_and_by_its_number(capsys: Out) -> None:
    assert said(capsys, "note", "3", "it", "rained 50% of the day")[1].startswith("Kept with ")
    for words in ("rained 50%", "RAINED L27"):
        assert said(capsys, "find", *words.split())[1].count("L27: proven") == 1
    out = said(capsys, "show", "3")[1]
    assert "L27" in out
    assert ": it rained 50% of the day" in out
    assert said(capsys, "show", "31") == (
        2,
        "The book knows no '31'. Type drillside book list.",
    )


# -- notes and corrections --------------------------------------------------------------------


@pytest.mark.usefixtures("many")
def test_a_note_is_kept_and_harmless(capsys: Out) -> None:
    said(capsys, "note", "1", "one\x1b[2J\n two")
    said(capsys, "note", "1", "three")
    out = said(capsys, "show", "1")[1]
    assert "\x1b" not in out
    assert out.index("[2J two") < out.index(": three")


@pytest.mark.parametrize(
    ("text", "sentence"),
    [("x" * 501, "That is 501 signs. A note can have 500."), ("  ", "There was nothing to keep.")],
)
@pytest.mark.usefixtures("many")
def test_a_note_that_cannot_be_kept_is_told(text: str, sentence: str, capsys: Out) -> None:
    assert said(capsys, "note", "1", text) == (2, sentence)
    assert "Note" not in said(capsys, "show", "1")[1]


def test_a_card_shows_what_it_corrects_and_what_corrects_it(book: Book, capsys: Out) -> None:
    run(BASE, book=book)
    (old,) = book.cards(include_scripted=True)
    talk = book.talk(old.talk)
    assert talk is not None
    sitting, _ = corrected(calibrate(), book, world(7777), talk)
    for line in ("change lot B2", "1", "yes", ""):
        sitting.hear(Typed(line))
    assert sitting.card
    book.close()
    newer = said(capsys, "show", sitting.id)[1]
    assert f"In place of {old.talk}. Lot now B2, was A1" in newer
    older = said(capsys, "show", old.talk)[1]
    assert f"Corrected by {sitting.id}. Lot now B2, was A1" in older
    assert f"Made by drillside {__version__}, job calibrate" in older


# -- comparing --------------------------------------------------------------------------------


def test_two_cards_are_compared_with_the_shares_of_each_change(
    two: tuple[StoredCard, StoredCard], capsys: Out
) -> None:
    old, new = two
    code, out = said(capsys, "compare", new.talk, old.talk)
    assert code == 0
    assert out.index(f"Then: 2026-04-14 the old one, wheat A1: proven. {old.talk}") == 0
    # 28 x 43,560 / (0.92 x 0.85) / 12,500 and / 15,000
    assert "Seed to drop now 104 lb/ac, was 125 lb/ac. That is 20.8 lb/ac less. Of this:" in out
    assert "- Seed size now 15,000 per lb, was 12,500 per lb: 20.8 lb/ac less" in out
    assert "Opening now 12 mm, was 14 mm. That is 2 mm less. Of this:" in out
    assert "- What falls at one opening (the drill and the seed, not the plan): 0.40" in out
    assert "Caught: 104 lb/ac at opening 12 mm, was 125 lb/ac at opening 14 mm." in out


def test_cards_of_two_kinds_stand_side_by_side(book: Book, capsys: Out) -> None:
    run(PLANTS, book=book)
    run({**CUP, "lot": "C9"}, book=book)
    ids = [card.talk for card in book.cards(include_scripted=True)]
    book.close()
    out = said(capsys, "compare", *ids)[1]
    assert "The two came about in different ways, so I can't say what made how much." in out
    assert "Also told otherwise:" in out
    assert "C9" in out
    assert "not told" in out


@pytest.mark.usefixtures("many")
def test_what_cannot_be_compared_is_told(capsys: Out) -> None:
    assert said(capsys, "compare", "1", "1") == (2, "That is one card twice. Name two.")
    assert said(capsys, "compare", "1", "99")[0] == 2
    assert said(capsys, "compare", "30") == (
        2,
        "The drill 'old one' has no earlier card. Name two cards.",
    )
    code, out = said(capsys, "compare")
    assert code == 0
    assert "L27" in out.split("Now:")[0]
    assert "L29" in out.split("Now:")[1]


# -- checking ---------------------------------------------------------------------------------


def test_a_sound_book_is_called_sound(two: tuple[StoredCard, StoredCard], capsys: Out) -> None:
    for named in ([], [two[0].talk]):
        code, out = said(capsys, "verify", *named)
        assert code == 0
        assert out.startswith("Every row of the book is as it was written.")
        assert out.endswith(f"Worked out again and the same: {2 - len(named)}")


def test_a_number_changed_by_hand_is_named(
    two: tuple[StoredCard, StoredCard], tmp_path: Path, capsys: Out
) -> None:
    guard = "card_unchanged"
    with closing(sqlite3.connect(tmp_path / "book.db")) as store, store:
        store.execute(f"DROP TRIGGER {guard}")
        changed = "replace(body, '12,500 per lb', '13,500 per lb')"
        store.execute(f"UPDATE card SET body = {changed} WHERE id = ?", (two[0].id,))
        store.execute(made_in(VERSION)[guard])
    code, out = said(capsys, "verify")
    assert code == 1
    assert f"Not as it was written: {two[0].id}" in out
    assert out.endswith("Worked out again and the same: 1 Damaged: 1")


def test_a_number_changed_with_its_hash_is_named_with_what_the_answers_give(
    book: Book, capsys: Out
) -> None:
    run(BASE, book=book)
    (card,) = book.cards(include_scripted=True)
    book.store.execute("DROP TRIGGER card_unchanged")
    spoil(book, str(card_row(card, 0)[-2]).replace("79.8 lb/ac", "89.8 lb/ac"))
    book.store.execute(made_in(VERSION)["card_unchanged"])
    book.close()
    code, out = said(capsys, "verify")
    assert code == 1
    assert out.startswith("Every row of the book is as it was written. Damaged, or the program")
    assert "- The drill drops: the card says 89.8 lb/ac, its answers give 79.8 lb/ac" in out
    assert "- line 14 of the card: the card says Drops: 89.8 lb/ac" in out


# -- erasing ----------------------------------------------------------------------------------


def test_a_card_is_erased_for_good_and_the_places_of_copies_are_named(
    two: tuple[StoredCard, StoredCard], tmp_path: Path, capsys: Out
) -> None:
    old, new = two
    code, out = said(capsys, "erase", old.talk, "--yes")
    assert code == 0
    assert "This goes for good: cards 1, jobs 1." in out
    assert "Jobs that stay and hold a line about a card that goes: 1." in out
    assert "Erased. Copies may still be in:" in out
    assert "backups" in out
    with Book.open(tmp_path / "book.db") as book:
        assert [card.id for card in book.cards(include_scripted=True)] == [new.id]


def test_all_about_a_drill_is_erased_with_what_was_left(tmp_path: Path, capsys: Out) -> None:
    with Book.open(tmp_path / "book.db") as book:
        run({**BASE, "drill": "keeper"}, book=book)
        run(BASE, book=book)
        run({"drill": "The Old One", "feed": "cup"}, book=book)
        run({"drill": "keeper", "feed": "cup"}, book=book)
        assert len(book.without_card()) == 2
    code, out = said(capsys, "erase", "--drill", "the OLD one", "--yes")
    assert code == 0
    assert "This goes for good: cards 1, jobs 2." in out
    with Book.open(tmp_path / "book.db") as book:
        assert [card.drill for card in book.cards(include_scripted=True)] == ["keeper"]
        assert len(book.without_card()) == 1
    assert b"old one" not in (tmp_path / "book.db").read_bytes().lower()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "Say what to erase: a card by its number, or --drill NAME."),
        (["1", "--drill", "x"], "Say what to erase"),
        (["--drill", "zebra"], "The book knows no 'zebra'. Nothing was erased."),
        (["06zz"], "The book knows no '06zz'."),
        (["1"], "Nobody is at the keyboard. To erase without being asked, add --yes."),
    ],
)
@pytest.mark.usefixtures("many")
def test_nothing_is_erased_without_a_clear_word(
    words: list[str], sentence: str, tmp_path: Path, capsys: Out
) -> None:
    code, out = said(capsys, "erase", *words)
    assert (code, sentence in out) == (2, True)
    with Book.open(tmp_path / "book.db") as book:
        assert len(book.cards(limit=99)) == 30


def test_the_menu_leads_to_commands_about_the_book() -> None:
    assert set(MORE_LINES) - {HELP} <= set(COMMANDS)
