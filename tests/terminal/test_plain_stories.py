"""Every story told on the screen: the same words and the same record, plain or not.

The plain one is heard through a stand-in for a screen reader.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

import pytest

from assistant.sitting.sitting import Sitting, open_sitting
from assistant.terminal.loop import converse
from assistant.terminal.reading import MARK
from assistant.terminal.screen import Screen
from tests.stories.play import _springs, book_after, job_named, library, play, played, world
from tests.stories.story import Story, sampled, stories
from tests.terminal.screen_reader import ALONE, collapsed, listened
from tests.terminal.small import TypedLines

STORIES = [story for story in stories() if all(kind == ">" for kind, _ in story.moves)]
STYLE = re.compile(r"\x1b\[[0-9;]*m")
PHONE = re.compile(r"[0-9a-zA-Z ./-]*")
Out = pytest.CaptureFixture[str]


@dataclass
class Echo(TypedLines):
    """A keyboard whose lines stand on the screen, as on a terminal."""

    def read(self, again: str = "") -> str:
        """The next line."""
        print(MARK, end="")
        line = super().read(again)
        print(line)
        return line


def bright(story: Story) -> Sitting:
    """A story on a screen with color, with a keyboard that types it; the screen is captured."""
    sitting, said = open_sitting(
        job_named(story.job), book_after(story.after), world(_springs(story)), system=story.units
    )
    screen = Screen(library(), colour=True)
    converse(sitting, said, screen, Echo([text for _, text in story.moves]))
    return sitting


@pytest.mark.parametrize("story", sampled(STORIES, 12))
def test_a_story_is_told_in_plain_lines_with_the_same_words_and_record(
    story: Story, capsys: Out, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LINES", "99")  # the review on one page
    plain = listened(story)
    assert [turn.heard for turn in plain.turns if not turn.answerable] == []
    assert [t.heard for t in plain.turns if t.asks_alone and t.words > ALONE] == []
    typed_lines = [len(f"{MARK}{text}") for _, text in story.moves]
    assert max(map(len, plain.text.split("\n"))) <= max(72, *typed_lines, 0)
    assert plain.sitting.state.log == played(story).sitting.state.log
    words = collapsed(plain.text)
    for typed, said in played(story).exchanges[1:]:
        assert collapsed(f"{MARK}{typed}") in words, said
    if not story.snapshot:  # a few will do for what the other screen shows
        return
    assert bright(story).state.log == plain.sitting.state.log
    shown = STYLE.sub("", capsys.readouterr().out)
    assert without_pictures(collapsed(shown), words) == words


def without_pictures(bright: str, plain: str) -> str:
    """The words of the bright screen that the plain one has too, in their order."""
    wanted = plain.split()
    at, kept = 0, list[str]()
    for word in bright.split():
        if at < len(wanted) and word == wanted[at]:
            kept.append(word)
            at += 1
    return " ".join(kept)


def by_phone(text: str) -> str:
    """A line with the signs that a phone hides written out."""
    text = re.sub(r"(?<=\d),(?=\d{3})", "", text)
    for sign, word in (("'", " ft "), ('"', " in"), ("%", " percent"), ("=", " "), (",", " ")):
        text = text.replace(sign, word)
    return text


@pytest.mark.parametrize("name", ["fluted_pounds", "fluted_plants", "recheck_plants"])
def test_a_whole_job_needs_no_more_than_the_keys_of_a_phone(name: str) -> None:
    story = next(each for each in STORIES if each.name == name)
    lines = tuple((kind, by_phone(text)) for kind, text in story.moves)
    assert all(PHONE.fullmatch(text) for _, text in lines), lines
    phoned, written = play(replace(story, moves=lines)), played(story)
    assert phoned.sitting.finish == written.sitting.finish
    assert phoned.sitting.state.situation.known == written.sitting.state.situation.known


def test_each_question_with_its_choices_fits_a_small_screen(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    screen = Screen(library())
    for story in STORIES:
        for _, said in played(story).exchanges:
            screen.show(said)
            assert len(screen.question) < 20, (story.name, screen.question)
            assert max(map(len, screen.question), default=0) <= 40, story.name
