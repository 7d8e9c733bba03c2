"""Setting against weight: dots on lines, the target between light and heavy, the next mark."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.dialogue.messages import Ask, Say
from assistant.dialogue.situation import Known, Row
from assistant.dialogue.wording import shown_fact
from assistant.sitting.sitting import Sitting
from assistant.terminal.pictures import MOST_LINES, drawn
from assistant.terminal.tried import dots, tried_lines
from tests.stories.play import Played, play
from tests.stories.story import FOLDER, read_story
from tests.terminal.small import screen
from tests.terminal.test_pictures import calibrate, judged, weighed

GRAM, MM = 0.001, 0.001
LEGEND = "o caught, | target, next: to set"


def at_opening(mm: float, grams: float, prefix: str = "") -> Row:
    """A catch at an opening."""
    return {
        f"{prefix}opening": Known(mm * MM),
        f"{prefix}catch_weight": Known(grams * GRAM),
    }


def sought(*catches: Row, following: float, target: float = 600, prefix: str = "") -> Sitting:
    """A conversation with these catches, a target in grams and the next opening in mm."""
    sitting = judged(-0.1, *catches, prefix=prefix)
    at = sitting.state.situation.copy()
    at.known[f"{prefix}target_catch"] = Known(target * GRAM)
    at.known[f"{prefix}next_opening"] = Known(following * MM, inputs=(f"{prefix}trials",))
    sitting.state = replace(sitting.state, situation=at)
    return sitting


def middle(sitting: Sitting, prefix: str = "") -> list[str]:
    """The picture at 40 columns."""
    return tried_lines(sitting, prefix, 40)


def test_two_settings_and_the_next_one_stand_in_their_order() -> None:
    lines = middle(sought(at_opening(16, 700), at_opening(12, 500), following=14))
    assert [line.split()[0] for line in lines[:3]] == ["12", "14", "16"]
    assert lines[1].endswith("next")
    assert "o" not in lines[1].removesuffix("next")
    assert lines[3] == LEGEND
    assert max(map(len, lines)) <= 40
    low, high = lines[0], lines[2]
    assert low.index("o") < low.index("|") == high.index("|") < high.index("o")


def test_catches_at_one_setting_share_a_line_and_the_last_is_weighed() -> None:
    catches = (at_opening(12, 500), at_opening(16, 700), at_opening(12, 520))
    lines = middle(sought(*catches, following=14))
    assert len(lines) == 4
    assert lines[0].count("o") == 2
    assert lines[0].endswith("1.15 lb")  # 520 g / 453.59237 g in a pound = 1.146


@pytest.mark.parametrize(
    ("catches", "following"),
    [
        ((at_opening(12, 500),), 14.0),
        ((at_opening(12, 500), at_opening(12, 505)), 14.0),
        ((at_opening(12, 500), at_opening(16, 700)), 12.0),
    ],
    ids=["one catch", "one setting", "nothing new is next"],
)
def test_where_it_would_not_help_nothing_is_drawn(
    catches: tuple[Row, ...], following: float
) -> None:
    assert middle(sought(*catches, following=following)) == []


def test_a_tub_on_the_scale_is_taken_off_and_rows_are_added_up() -> None:
    with_tub = {"opening": Known(12 * MM), "gross_weight": Known(0.9)}
    by_row = {"opening": Known(16 * MM), **weighed(200, 250, 250)}
    sitting = sought(with_tub, by_row, following=14)
    sitting.state.situation.known["tare"] = Known(0.4)
    lines = middle(sitting)
    assert lines[0].endswith("1.1 lb")  # 500 g
    assert lines[2].endswith("1.54 lb")  # 700 g


def at_mark(at: float, grams: float, drive: str = "low") -> Row:
    """A catch at a mark of the lever, in a drive range."""
    marked = {"lever_mark": Known(at), "drive_range": Known(drive)}
    return {**marked, "catch_weight": Known(grams * GRAM)}


def sought_mark(*catches: Row, following: float) -> Sitting:
    """A conversation with these catches and the next mark."""
    sitting = sought(*catches, following=1)
    del sitting.state.situation.known["next_opening"]
    sitting.state.situation.known["next_lever_mark"] = Known(following)
    return sitting


def test_a_setting_keeps_all_its_digits_as_where_one_is_told_to_set_it() -> None:
    openings = middle(sought(at_opening(12, 500), at_opening(16.75, 700), following=14.25))
    assert [line[:8].strip() for line in openings[:3]] == ["12 mm", "14.25 mm", "16.75 mm"]
    assert max(map(len, openings)) <= 40
    marks = middle(sought_mark(at_mark(12.0, 500), at_mark(16.75, 700), following=14.25))
    assert [line.split()[0] for line in marks[:3]] == ["12", "14.25", "16.75"]


@pytest.mark.parametrize(
    ("name", "value", "told"),
    [("next_opening", 16.75 * MM, "16.75 mm"), ("next_lever_mark", 16.75, "16.75")],
)
def test_where_one_is_told_to_set_it_it_stands_with_the_same_digits(
    name: str, value: float, told: str
) -> None:
    state, job = sought(following=16).state, calibrate()
    state.situation.known[name] = Known(value)
    assert shown_fact(job, state.log, state.situation, name) == told


def test_a_catch_in_another_drive_range_is_left_out() -> None:
    catches = (at_mark(9.0, 300), at_mark(4.0, 500, "high"), at_mark(6.0, 700, "high"))
    sitting = sought_mark(*catches, following=5.0)
    assert [line.split()[0] for line in middle(sitting)[:-1]] == ["4", "5", "6"]


def test_the_other_half_has_its_own() -> None:
    half = "other_half."
    catches = (at_opening(12, 500, half), at_opening(16, 700, half))
    sitting = sought(*catches, following=14, prefix=half)
    assert middle(sitting) == []
    assert len(middle(sitting, "other_half")) == 4


def test_many_settings_take_eight_lines_at_most() -> None:
    catches = [at_opening(10 + n, 400 + 20 * n) for n in range(12)]
    lines = middle(sought(*catches, following=30))
    assert len(lines) <= MOST_LINES
    assert lines[0].startswith("17 mm")  # the latest five are kept


def test_it_takes_the_place_of_the_line_from_light_to_heavy(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    sitting = sought(at_opening(12, 500), at_opening(16, 700), following=14)
    assert drawn(sitting, {}, colour=False) == middle(sitting)


@given(st.lists(st.floats(0, 5), min_size=1, max_size=6), st.floats(0.001, 5), st.integers(12, 60))
def test_a_dot_stands_on_its_side_of_the_target(
    weights: list[float], target: float, room: int
) -> None:
    span = (min(*weights, target), max(*weights, target))
    for weight in weights:
        line = dots((weight,), target, span, room)
        assert len(line) == room
        assert line.isascii()
        if weight < target:
            assert line.index("o") < line.index("|")
        if weight > target:
            assert line.index("o") > line.index("|")


def pictures(told: Played) -> list[list[str]]:
    """Every picture of settings in a story."""
    found = []
    for state in told.states:
        told.sitting.state = state
        found.append(middle(told.sitting))
    return found


@pytest.mark.parametrize("name", ["cup_probe", "demo_first_timer", "recheck_cup_move"])
def test_the_stories_that_try_two_settings_see_it(name: str) -> None:
    seen = [lines for lines in pictures(play(read_story(FOLDER / f"{name}.txt"))) if lines]
    assert seen
    assert all(len(lines) <= MOST_LINES and max(map(len, lines)) <= 40 for lines in seen)


@pytest.mark.parametrize(("lines", "seen"), [(9, True), (8, False)])
def test_a_picture_that_would_push_words_off_the_screen_is_left_out(
    lines: int,
    seen: bool,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setenv("LINES", str(lines))
    screen().show([Say("Too light."), Ask("How many tubs?", ("tubs",))], [["#"] * 4])
    out = capsys.readouterr().out
    assert ("#" in out) is seen
    assert out.startswith("Too light.\n")
    assert out.endswith("How many tubs?\n")


@pytest.mark.parametrize(("lines", "signs"), [(9, "####"), (8, "##"), (6, "")])
def test_a_smaller_picture_stands_where_there_is_no_room_for_the_larger(
    lines: int, signs: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("LINES", str(lines))
    screen().show([Say("Too light."), Ask("How many tubs?", ("tubs",))], [["#"] * 4, ["#"] * 2])
    assert capsys.readouterr().out.count("#") == len(signs)


def test_a_count_stands_there_as_seeds() -> None:
    story = read_story(FOLDER / "counted.txt")
    moves = (*story.moves[:-6], (">", "248 255 251 246"), (">", "300 300 302 298"))
    lines = tried_lines(play(replace(story, moves=moves)).sitting, "", 60)
    assert [line.rsplit(" ", 1)[-1] for line in lines] == ["1000", "next", "1200", "set"]
