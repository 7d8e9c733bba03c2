"""What is noted of a story that is told: the words that it looks up, how its sums come out."""

from assistant.calc.catalogue import CATALOGUE
from tests.stories.covered import TALKED, Covered, noting
from tests.stories.play import library, play
from tests.stories.story import FOLDER, read_story


def test_words_and_results_of_a_story_are_noted() -> None:
    with noting() as notes:
        play(read_story(FOLDER / "fluted_pounds.txt")).transcript()
    assert {("review.title",), ("ask.pick",), ("from.worked_out",)} <= notes.words.asked
    assert ("practice.hello",) not in notes.words.asked
    assert ("ground", "worked") in notes.worked
    assert ("axle_distance_per_turn", "worked") not in notes.worked
    assert notes.worked <= {(n, outcome) for n in CATALOGUE for outcome in CATALOGUE[n].outcomes}


def test_the_words_of_a_conversation_are_tables_that_are_there() -> None:
    assert {name.partition(".")[0] for name in library().words} >= TALKED


def test_what_is_left_is_told_and_counted() -> None:
    covered = Covered({("a", "b"), ("a", "c"), ("d",)}, {("a", "c"), ("e",)})
    assert str(covered) == "1 of 3"
    assert covered.left == ["a b", "d"]
