"""Nothing is left undone in the files, and the screen keeps to plain words."""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house.tree import FLOWS, flow_files, modules, name_of, project_texts

# Written in pieces, so that this file does not hold what it looks for.
UNDONE = re.compile(
    r"\b(?:" + "|".join(("TO" + "DO", "FIX" + "ME", "XX" + "X", "(?i:lorem" + " ipsum)")) + r")\b"
)
BLAMING = re.compile(r"\b(?:invalid|errors?|please|sorry|oops|illegal|failed)\b", re.IGNORECASE)
EMPTY_NAMES = re.compile(r"(?:^|_)(?:utils?|helpers?|common|managers?|handlers?|misc)(?:_|$)")
CLASSES = re.compile(r"^ *class (\w*(?:Utils?|Helper|Manager|Handler)\w*)", re.MULTILINE)

# Texts that a fact must refuse, and words that people may type, are not said by the assistant.
TYPED_BY_PEOPLE = {"accept", "accepted", "accepts", "refuse", "refuses", "words", "commands"} | {
    *("asked", "opens", "inside", "elsewhere", "same")
}


def said(value: object) -> Iterator[str]:
    """Every text in parsed TOML that the assistant may say."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for item in value:
            yield from said(item)
    elif isinstance(value, dict):
        for key, item in value.items():
            if key not in TYPED_BY_PEOPLE:
                yield from said(item)


def test_nothing_is_left_undone() -> None:
    assert [name for name, text in project_texts() if UNDONE.search(text)] == []


def test_there_are_texts_to_look_at() -> None:
    assert flow_files(FLOWS)


@pytest.mark.parametrize("path", flow_files(), ids=name_of)
def test_the_assistant_blames_and_begs_nobody(path: Path) -> None:
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    table.pop("mending", None)  # what people type, not what is said to them
    table.pop("meant", None)  # the same
    texts = said(table)
    assert [text for text in texts if BLAMING.search(text)] == []


@pytest.mark.parametrize("module", modules(), ids=name_of)
def test_names_say_what_a_thing_is_for(module: Path) -> None:
    named = module.relative_to(module.anchor).parts[-2:]
    assert [part for part in named if EMPTY_NAMES.search(part.removesuffix(".py"))] == []
    assert CLASSES.findall(module.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("text", ["That is invalid.", "Error 4", "Please weigh it", "Oops!"])
def test_a_planted_word_is_found(text: str) -> None:
    assert BLAMING.search(text)


def test_words_that_people_type_are_theirs() -> None:
    assert list(said({"words": ["oops"], "say": ["Weigh it."], "deep": {"refuse": "error"}})) == [
        "Weigh it."
    ]


@pytest.mark.parametrize("name", ["utils", "unit_helpers", "common", "task_manager"])
def test_a_planted_empty_name_is_found(name: str) -> None:
    assert EMPTY_NAMES.search(name)
