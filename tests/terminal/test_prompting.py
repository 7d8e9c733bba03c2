"""The prompt, fed through a pipe: what each key does."""

from __future__ import annotations

import pytest
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from assistant.terminal.leaving import Ended
from assistant.terminal.reading import PromptReader
from tests.terminal.small import screen

CTRL_C, CTRL_D, ENTER, UP, LEFT, BACKSPACE = "\x03", "\x04", "\r", "\x1b[A", "\x1b[D", "\x7f"
PASTE, PASTED = "\x1b[200~", "\x1b[201~"


def reader(source: PipeInput) -> PromptReader:
    return PromptReader(screen(), source=source, sink=DummyOutput())


def read(keys: str, again: str = "") -> str:
    with create_pipe_input() as source:
        source.send_text(keys)
        return reader(source).read(again)


def test_a_line_is_what_was_typed() -> None:
    assert read("24 at 7 1/2" + ENTER) == "24 at 7 1/2"


def test_ctrl_c_clears_a_line_with_text() -> None:
    assert read("dog" + CTRL_C + "24" + ENTER) == "24"


def test_ctrl_c_on_an_empty_line_leaves() -> None:
    with pytest.raises(KeyboardInterrupt):
        read(CTRL_C)


def test_ctrl_d_on_an_empty_line_pauses() -> None:
    with pytest.raises(EOFError):
        read(CTRL_D)


def test_ctrl_d_on_a_line_with_text_does_not() -> None:
    assert read("24" + LEFT + CTRL_D + ENTER) == "2"


def test_a_keyboard_that_is_gone_is_a_hang_up() -> None:
    with create_pipe_input() as source:
        source.close()
        with pytest.raises(Ended) as ended:
            reader(source).read()
    assert ended.value.code == 129


@pytest.mark.parametrize(
    ("keys", "line"),
    [
        (ENTER, "24 dog"),
        ("26" + ENTER, "26"),
        (BACKSPACE + "26" + ENTER, "26"),
        (LEFT + LEFT + BACKSPACE + ENTER, "24 og"),
        (PASTE + "26" + PASTED + ENTER, "26"),
        (CTRL_C + "26" + ENTER, "26"),
    ],
    ids=[
        "enter",
        "typing replaces",
        "backspace clears",
        "arrows mend",
        "pasting replaces",
        "ctrl-c",
    ],
)
def test_a_refused_line_stands_there_to_be_mended(keys: str, line: str) -> None:
    assert read(keys, again="24 dog") == line


def test_a_pasted_block_comes_as_one_text_and_waits_for_enter() -> None:
    assert read(PASTE + "24\r\n25\r26\n" + PASTED + ENTER) == "24\n25\n26"


def test_no_answer_is_offered_at_another_question() -> None:
    with create_pipe_input() as source:
        keys = reader(source)
        source.send_text("big red" + ENTER)
        assert keys.read() == "big red"
        source.send_text(UP + UP + "24" + ENTER)
        assert keys.read() == "24"


def test_keys_read_ahead_are_kept_for_a_question_and_thrown_away_before_a_stop() -> None:
    with create_pipe_input() as source:
        source.send_text("one" + ENTER + "tw")
        keys = reader(source)
        assert keys.read() == "one"
        source.send_text("o" + ENTER + "thr")
        assert keys.read() == "two"
        keys.forget_keys()
        source.send_text("four" + ENTER)
        assert keys.read() == "four"


def test_whole_lines_that_come_in_one_go_are_a_paste_without_its_marks() -> None:
    with create_pipe_input() as source:
        source.send_text("one" + ENTER + "two\x1b[A" + ENTER + "\n" + "three")
        keys = reader(source)
        assert keys.read() == "one\ntwo\x1b[A\n"
        source.send_text(ENTER)
        assert keys.read() == "three"


def test_a_cleared_line_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    read("dog" + CTRL_C + "24" + ENTER)
    assert capsys.readouterr().out == "Line cleared. Ctrl-C once more saves and leaves.\n"


def test_one_prompt_serves_the_whole_run() -> None:
    with create_pipe_input() as source:
        keys = reader(source)
        source.send_text("one" + ENTER)
        keys.read()
        first = keys._session
        source.send_text("two" + ENTER)
        keys.read()
        assert keys._session is first


def test_trouble_inside_a_key_comes_out_of_the_prompt(monkeypatch: pytest.MonkeyPatch) -> None:
    def burst(_event: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("assistant.terminal.prompting.paste", burst)
    with pytest.raises(ZeroDivisionError):
        read(PASTE + "24" + PASTED + ENTER)
