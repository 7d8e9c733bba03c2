"""Nothing is left undone in the files, and names say what a thing is for."""

import re

import pytest

from tests.house.tree import FLOWS, flow_files, modules, project_texts

# Written in pieces, so that this file does not hold what it looks for.
UNDONE = re.compile(
    r"\b(?:" + "|".join(("TO" + "DO", "FIX" + "ME", "XX" + "X", "(?i:lorem" + " ipsum)")) + r")\b"
)
EMPTY_NAMES = re.compile(r"(?:^|_)(?:utils?|helpers?|common|managers?|handlers?|misc)(?:_|$)")
CLASSES = re.compile(r"^ *class (\w*(?:Utils?|Helper|Manager|Handler)\w*)", re.MULTILINE)


def test_nothing_is_left_undone() -> None:
    assert [name for name, text in project_texts() if UNDONE.search(text)] == []


def test_there_are_texts_to_look_at() -> None:
    assert flow_files(FLOWS)


def test_names_say_what_a_thing_is_for() -> None:
    for module in modules():
        named = module.relative_to(module.anchor).parts[-2:]
        assert [part for part in named if EMPTY_NAMES.search(part.removesuffix(".py"))] == []
        assert CLASSES.findall(module.read_text(encoding="utf-8")) == [], module


@pytest.mark.parametrize("name", ["utils", "unit_helpers", "common", "task_manager"])
def test_a_planted_empty_name_is_found(name: str) -> None:
    assert EMPTY_NAMES.search(name)
