"""A whole practice: the same job, the drill beside it, and the truth at the end."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from assistant.book.nobook import NoBook
from assistant.cli import main
from assistant.dialogue.events import Typed
from assistant.dialogue.messages import Ask, Say
from assistant.practice.practicing import JOB, Practice, at_the_catch, begun
from assistant.practice.uncovering import uncovered
from assistant.sitting.sitting import open_sitting
from tests.practice.learner import practised, refused
from tests.stories.play import Played, job_named, world

TOLERANCE = 0.05
ACTS = {"prime", "turn", "look", "shut"}


def fresh(level: int = 1, seed: str = "7", system: str = "us") -> tuple[Practice, list[str]]:
    sitting, said = begun(job_named(JOB), NoBook(), world(), system=system, level=level, seed=seed)
    return sitting, [each.text for each in said if isinstance(each, Say)]


def practice_of(talk: Played) -> Practice:
    assert isinstance(talk.sitting, Practice)
    return talk.sitting


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("level", [1, 2, 3])
def test_what_can_be_seen_can_be_typed_to_the_end(level: int, system: str) -> None:
    for seed in "abcd":
        talk = practised(level, seed, system=system)
        assert [refused(said) for _, said in talk.exchanges if refused(said)] == []
        assert talk.sitting.finish


def test_the_job_knows_nothing_of_the_drill() -> None:
    """The same lines, without the acts, bring the same log in an ordinary conversation."""
    talk = practised(2, "b", looks=True)
    plain, _ = open_sitting(job_named(JOB), NoBook(), world())
    for typed, _ in talk.exchanges:
        if typed is not None and typed not in ACTS:
            plain.hear(Typed(typed))
    assert plain.state.log == talk.sitting.state.log
    assert plain.state.situation == talk.sitting.state.situation


def test_a_setting_that_is_proven_is_truly_near() -> None:
    """Good drills, primed and turned 40 times; `closed_loop` has the figures of thousands."""
    far = []
    for seed in range(40):
        sitting = practice_of(practised(1, f"{seed}", turns=40))
        if sitting.finish and sitting.finish.outcome == "proven":
            yard = sitting.yard
            of = tuple(yard.truth.rows[at] for at in (0, 5, 9, 14, 18, 23))
            far.append(abs(yard.truth.share(yard.stands_at, of) - 1))
    assert len(far) >= 35
    assert sum(off > TOLERANCE for off in far) <= 1
    assert max(far) < 1.5 * TOLERANCE


def test_acts_are_acts_only_where_a_catch_is_asked() -> None:
    sitting, _ = fresh()
    before = sitting.state
    said = sitting.hear(Typed("prime"))  # the name of a drill, as far as the job knows
    assert sitting.state != before
    assert not sitting.yard.primed_first
    assert isinstance(said[-1], Ask)


def test_another_opening_can_be_turned_and_one_that_is_none_is_told() -> None:
    sitting, _ = fresh()
    at_the_catch(sitting)
    assert sitting.at_catch
    (said,) = sitting.hear(Typed("turn 15 mm"))
    assert isinstance(said, Say)
    assert "At 15.0 mm" in said.text
    assert sitting.yard.set_at == pytest.approx(0.015)
    (said,) = sitting.hear(Typed("turn a lot"))
    assert isinstance(said, Say)
    assert said.text == "PRACTICE: I read 'a lot'. Like this: turn 15 mm"
    assert len(sitting.yard.catches) == 1


def test_tubs_can_be_looked_into_once_there_is_seed() -> None:
    sitting, _ = fresh(3, "a")
    at_the_catch(sitting)
    (said,) = sitting.hear(Typed("look"))
    assert isinstance(said, Say)
    assert "Nothing was caught yet" in said.text
    sitting.hear(Typed("turn"))
    (said,) = sitting.hear(Typed("look"))
    assert isinstance(said, Say)
    assert said.text.count(" lb") == sitting.number("rows_caught")


def test_who_primes_and_looks_is_told_so_and_who_does_not_is_told_why() -> None:
    good = uncovered(practice_of(practised(3, "a", looks=True)), level="3", seed="a")
    poor = uncovered(practice_of(practised(3, "a", primes=False)), level="3", seed="a")
    assert "Well done: you primed before the first catch." in good
    assert "Well done: you looked into each tub." in good
    assert any(line.startswith("Your first catch was not primed.") for line in poor)
    assert "Next time: prime before the first catch." in poor
    assert "Next time: look into each tub. A row that is off hides in the sum." in poor


def test_a_row_that_hardly_runs_is_found_by_its_tub_and_mended() -> None:
    """Level 3, seed 9: row 24 throws 15 in 100 of its seed, and is the sixth of those caught."""
    talk = practised(3, "9", looks=True)
    told = uncovered(practice_of(talk), level="3", seed="9")
    assert "Of the rows you caught, row 6 is far off: " in talk.transcript()
    assert "straw sits in a\n           tube. You clear it." in talk.transcript()
    assert "Tub 6 had a row that hardly ran." in told
    assert any(line.startswith("Its lever lies: you set ") for line in told)
    assert "Well done: you found the row that hardly ran, and mended it." in told
    blind = uncovered(practice_of(practised(3, "9")), level="3", seed="9")
    assert [line for line in blind if line.startswith("Next time: type the tubs one by one.")]


def test_who_brings_the_lever_down_to_a_mark_is_told_of_its_slack() -> None:
    """Level 3, seed 9 starts at 11 mm and is heavy there: the next mark is a smaller one."""
    good = uncovered(practice_of(practised(3, "9", looks=True)), level="3", seed="9")
    poor = uncovered(practice_of(practised(3, "9", looks=True, shuts=False)), level="3", seed="9")
    assert "Well done: you came to each mark from the shut side." in good
    assert any(line.startswith("Next time: type shut before a smaller mark") for line in poor)
    slack = practice_of(practised(3, "9")).yard.truth.slack
    assert any(line.startswith(f"It has {slack * 1000:.1f} mm of slack") for line in poor)
    assert not any("You brought the lever down to it." in line for line in good)


def test_where_the_lever_came_down_last_it_is_told_what_its_mark_throws_set_anew() -> None:
    met = 0
    for seed in range(12):
        sitting = practice_of(practised(3, f"{seed}", looks=True, shuts=False))
        told = uncovered(sitting, level="3", seed=f"{seed}")
        anew = any(line.startswith("Brought to that mark from the shut side") for line in told)
        assert anew == (sitting.yard.slack_in and bool(sitting.finish and sitting.finish.card))
        met += anew
    assert met > 0


def test_a_lever_can_be_shut() -> None:
    sitting, _ = fresh()
    at_the_catch(sitting)
    sitting.hear(Typed("turn"))
    assert sitting.yard.set_at is not None
    (said,) = sitting.hear(Typed("shut"))
    assert isinstance(said, Say)
    assert said.text.startswith("PRACTICE: The lever is shut.")
    assert sitting.yard.set_at is None


def test_other_rows_can_be_turned_too() -> None:
    talk = practised(1, "7")
    at = next(n for n, (typed, _) in enumerate(talk.exchanges) if typed == "done" and n > 20)
    again, _ = fresh()
    for typed, _ in talk.exchanges[1 : at - 1]:
        again.hear(Typed(typed or ""))
    assert "shut" not in again.acts  # the lever is left as it is
    again.hear(Typed("other rows"))
    assert "shut" not in again.acts
    (said,) = again.hear(Typed("turn"))
    assert isinstance(said, Say)
    assert "The scale shows" in said.text
    weight = said.text.rpartition(" shows ")[2].rstrip(".")
    told = again.hear(Typed(weight))
    assert any("hese rows drop" in each.text for each in told if isinstance(each, Say))
    assert again.yard.set_at == again.yard.catches[-1][0]


def test_where_no_row_is_plugged_a_look_finds_nothing() -> None:
    sitting, _ = fresh(2, "b")
    at_the_catch(sitting)
    assert sitting.yard.truth.plugged is None
    sitting.hear(Typed("0.40 0.40 0.40 0.40 0.30 0.40"))
    sitting.hear(Typed("key"))
    assert sitting.asked("rows_mended")
    assert sitting.sights()["rows_mended"] == "leave"
    sitting.hear(Typed("mended"))
    assert not sitting.yard.mended


def test_nothing_is_said_of_habits_before_a_catch() -> None:
    sitting, _ = fresh()
    told = uncovered(sitting, level="1", seed="7")
    assert not [line for line in told if line.startswith(("Well done", "Next time"))]
    assert told[-1] == "The same drill again: drillside practice --level 1 --seed 7"


def test_a_seed_brings_the_same_drill_again() -> None:
    one, other, third = fresh()[0], fresh()[0], fresh(seed="8")[0]
    assert one.yard.truth == other.yard.truth != third.yard.truth
    assert practised(2, "x").transcript() == practised(2, "x").transcript()


def test_what_is_told_says_that_it_is_practice() -> None:
    sitting, told = fresh()
    assert all(line.startswith("PRACTICE") for line in told)
    assert sitting.yard.catches == []


def test_no_book_is_made(tmp_path: Path) -> None:
    book, lines = tmp_path / "book.db", tmp_path / "lines.txt"
    lines.write_text("practice drill\nfluted\n", encoding="utf-8")
    command = [
        sys.executable,
        "-m",
        "assistant",
        "practice",
        "--seed",
        "7",
        "--answers",
        str(lines),
    ]
    done = subprocess.run(
        command,
        capture_output=True,
        text=True,
        check=False,
        env={"DRILLSIDE_BOOK": str(book), "PYTHONPATH": str(Path.cwd()), "PATH": ""},
    )
    assert "PRACTICE: This is the practice drill." in done.stdout
    assert "drillside practice --level 1 --seed 7" in done.stdout
    assert not book.exists()


def test_who_leaves_is_told_of_no_job_that_waits(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = tmp_path / "lines.txt"
    lines.write_text("9 lb\nyes\npause\n", encoding="utf-8")
    assert main(["practice", "--trials", "--seed", "7", "--answers", str(lines)]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "To look for it: type pause, then drillside fault." in told
    assert "> pause No book was open, so nothing is kept." in told
    assert "waits" not in told
    assert "resume" not in told
