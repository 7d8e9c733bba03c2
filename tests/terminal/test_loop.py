"""The conversation from the keyboard's side, without a terminal."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.book.book import Book
from assistant.book.problems import BookProblem
from assistant.dialogue.messages import Ask, Message, Offer, Say, Trouble
from assistant.terminal.loop import converse, worth_mending
from tests.terminal.small import TypedLines, opened, screen

WHOLE = ["barn", "6", "left", "boots", "done"]
Out = pytest.CaptureFixture[str]


def talk(
    *lines: str | type[BaseException], keeps: bool = True, book: Book | None = None
) -> tuple[int, TypedLines]:
    sitting, said = opened(book)
    keys = TypedLines(lines)
    return converse(sitting, said, screen(), keys, keeps=keeps), keys


def test_a_whole_job_ends_with_its_last_words_and_0(capsys: Out) -> None:
    code, _ = talk(*WHOLE)
    assert code == 0
    assert capsys.readouterr().out.endswith("\n\nThe floor is clean.\n")


def test_a_refused_line_comes_back_to_be_mended(capsys: Out) -> None:
    _, keys = talk("barn", "dog", "6")
    assert keys.offered == ["", "", "dog", ""]
    assert "I read 'dog'." in capsys.readouterr().out


def test_a_refused_number_of_a_list_does_not_come_back() -> None:
    _, keys = talk("barn", "6", "12", "1")
    assert keys.offered == [""] * 5


@pytest.mark.parametrize(
    ("said", "back"),
    [
        ([Trouble("not_a_number", ""), Ask("How many?", ("tubs",))], True),
        ([Trouble("too_big", "")], True),
        ([Trouble("unused", ""), Ask("How many?", ("tubs",))], False),
        ([Trouble("many_lines", ""), Ask("How many?", ("tubs",))], False),
        ([Trouble("control", ""), Ask("How many?", ("tubs",))], False),
        ([Trouble("not_a_number", ""), Ask("How many?", ("tubs",), proposal="6")], False),
        ([Trouble("unknown_choice", ""), Ask("Which?", ("door",), choices=("Left",))], False),
        ([Trouble("too_big", ""), Offer("", ("Keep it",), "Which one?")], False),
        ([Say("OK."), Ask("How many?", ("tubs",))], False),
    ],
)
def test_only_free_text_comes_back(said: list[Message], back: bool) -> None:
    assert worth_mending(said) is back


def test_keys_typed_early_never_answer_a_stop() -> None:
    _, keys = talk("barn", "6", "left", "ok", "boots", "done")
    assert keys.forgotten_before == [3, 4]  # before each showing of the caution, nowhere else


def test_a_pasted_block_is_read_back_and_used_after_one_yes(capsys: Out) -> None:
    sitting, said = opened()
    converse(sitting, said, screen(), TypedLines(["barn\n6\r\nleft", "yes", "boots", "done"]))
    out = capsys.readouterr().out
    assert "I got these lines at once:\n- barn\n- 6\n- left\nUse them, one" in out
    assert sitting.finish


@pytest.mark.parametrize("said", ["no", "", "6", "what", "yes\nno"])
def test_a_pasted_block_is_not_used_without_a_yes(said: str, capsys: Out) -> None:
    sitting, first = opened()
    converse(sitting, first, screen(), TypedLines(["barn\n6", said]))
    assert not sitting.state.log.entries
    assert "Nothing was used.\nWhich shed?\n\nNothing to save yet." in capsys.readouterr().out


def test_signs_that_drive_a_terminal_are_dropped_from_a_paste_and_counted(capsys: Out) -> None:
    sitting, said = opened()
    pasted = "\x1b[200~barn\x07\x9b\u202e\n6\x1b[201~"
    converse(sitting, said, screen(), TypedLines([pasted, "yes"]))
    out = capsys.readouterr().out
    assert "left out: 3." in out
    assert [each.typed for each in sitting.state.log.entries] == ["barn", "6"]


def test_a_pasted_block_passes_no_caution_and_its_rest_is_told(capsys: Out) -> None:
    sitting, said = opened()
    lines = TypedLines(["barn\n6\nleft\nboots\ndone", "yes"])
    converse(sitting, said, screen(), lines)
    out = capsys.readouterr().out
    assert "Type boots when that is done." in out
    assert "Not used:\n- boots\n- done\n" in out
    assert lines.forgotten_before == [2]
    assert not sitting.finish


def test_a_pasted_block_ends_where_a_line_was_not_understood(capsys: Out) -> None:
    sitting, said = opened()
    converse(sitting, said, screen(), TypedLines(["barn\ndog\n6", "yes"]))
    assert "Not used:\n- 6\n" in capsys.readouterr().out
    assert [each.typed for each in sitting.state.log.entries] == ["barn"]


def test_a_block_too_long_to_look_over_is_not_used(capsys: Out) -> None:
    sitting, said = opened()
    converse(sitting, said, screen(), TypedLines(["barn\n" * 13]))
    assert "Paste 12 lines at most." in capsys.readouterr().out
    assert not sitting.state.log.entries


def test_ctrl_c_on_an_empty_line_saves_and_leaves_with_130(capsys: Out) -> None:
    code, _ = talk("barn", KeyboardInterrupt)
    assert code == 130
    assert "Saved. Type drillside resume" in capsys.readouterr().out


def test_ctrl_d_on_an_empty_line_pauses_with_0(capsys: Out) -> None:
    code, _ = talk("barn", EOFError)
    assert code == 0
    assert "Saved." in capsys.readouterr().out


def test_pause_by_word_leaves_with_0(capsys: Out) -> None:
    code, keys = talk("barn", "pause", "6")
    assert (code, len(keys.offered)) == (0, 2)
    assert "Saved." in capsys.readouterr().out


@pytest.mark.parametrize("leave", ["pause", EOFError, KeyboardInterrupt])
def test_nothing_is_called_saved_before_the_first_answer(
    leave: str | type[BaseException], capsys: Out
) -> None:
    talk(leave)
    out = capsys.readouterr().out
    assert "Nothing to save yet." in out
    assert "Saved" not in out


def test_nothing_is_called_saved_without_a_book(capsys: Out) -> None:
    talk("barn", "pause", keeps=False)
    out = capsys.readouterr().out
    assert "nothing is kept" in out
    assert "Saved" not in out


def test_an_answer_is_in_the_book_before_the_next_question_is_read(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    with Book.open(path) as book, Book.open(path) as other:
        talk("barn", "6", book=book)
        (left,) = other.unfinished()
        assert [event.kind for event in other.events(left.id)] == [
            "began",
            "answered",
            "answered",
        ]


def test_a_card_is_shown_as_it_was_made_and_how_to_see_it_again(capsys: Out) -> None:
    sitting, said = opened()
    sitting.card = "CARD FOR THE LID\nDrill: big red"
    converse(sitting, said, screen(), TypedLines(WHOLE))
    assert capsys.readouterr().out.endswith(
        "The floor is clean.\n\nCARD FOR THE LID\nDrill: big red\n"
        f"\nSee this card again: drillside book card {sitting.id}\n"
        f"Print it: drillside book card {sitting.id} --page card.html\n"
        f"Something wrong on it? Mend it: drillside resume {sitting.id}\n"
    )


def test_a_full_disk_ends_the_talk_with_what_came_before_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.db"
    with Book.open(path) as book:
        sitting, said = opened(book)
        converse(sitting, said, screen(), TypedLines(["barn"]))

        def full(*_: object) -> None:
            raise BookProblem("full", path)

        monkeypatch.setattr(book, "append", full)
        with pytest.raises(BookProblem):
            converse(sitting, (), screen(), TypedLines(["6"]))
        assert [each.kind for each in book.events(sitting.id)] == ["began", "answered"]
