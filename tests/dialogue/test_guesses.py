"""A guess can't turn into a fact: a result is marked just where a guess went into it.

Each result names what it was worked out from. Followed down to what people told, it is a guess if
any of that is one. What a row holds was set or caught, so a guess in a row is not followed, but for
a choice that was taken over from it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest

from assistant.dialogue.advance import advance, begin
from assistant.dialogue.doubt import how_sure
from assistant.dialogue.events import OfferedCards, Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Review
from assistant.dialogue.review import label_of
from assistant.dialogue.situation import Open, Situation
from tests.dialogue.walks import answer, cards
from tests.stories.play import AGAIN, Played, job_named, play, played
from tests.stories.story import FOLDER, Story, read_story, stories

UNSURE = 8
"""So many conversations of a job in which about half of all answers are not known."""


def guesses_under(at: Situation, name: str) -> set[str]:
    """The guesses of people that a value rests on, or is."""
    known = at.known.get(name)
    if known is None:
        return set()
    if not known.inputs:
        return {name} if known.guess else set()
    return {each for read in known.inputs for each in guesses_under(at, read)}


def taken_over(at: Situation, name: str) -> bool:
    """Whether a result is a choice that was a guess in a row which it was worked out from."""
    known = at.known[name]
    rows = [row for read in known.inputs for row in at.rows.get(read, ())]
    held = [each for row in rows for each in row.values()]
    return isinstance(known.value, str) and any(e.guess and e.value == known.value for e in held)


def recorded(job: Job) -> set[str]:
    """The choices that an outcome of a calculation is kept as."""
    return {node.real(node.step.records) for node in job.graph.nodes.values() if node.step.records}


def results(job: Job, at: Situation) -> Iterator[str]:
    """What was worked out, but for outcomes that are kept as choices."""
    kept = recorded(job)
    yield from (name for name, known in at.known.items() if known.inputs and name not in kept)


def wrongly_marked(job: Job, at: Situation) -> list[str]:
    """Results that are marked and rest on no guess, or rest on one and are not marked."""
    return [
        name
        for name in results(job, at)
        if at.known[name].guess != (bool(guesses_under(at, name)) or taken_over(at, name))
    ]


@pytest.mark.parametrize("story", list(stories()), ids=lambda story: story.name)
def test_a_result_is_a_guess_just_where_one_went_into_it(story: Story) -> None:
    told = played(story)
    for state in told.states:
        assert wrongly_marked(told.sitting.job, state.situation) == [], state.situation.place


def not_sure(job: Job, state: State, open_: Open, chance: Random) -> str:
    """About every second answer is not known, where a guess would stand in for it."""
    policies = [job.fact(fact).unknown for fact in open_.facts]
    guessed = any(policy and policy.way == "guess" for policy in policies)
    unknown = open_.kind == "ask" and guessed and chance.random() < 1 / 2
    return "don't know" if unknown else answer(job, state, open_, chance)


def unsure(job: Job, seed: int, most: int = 45) -> Iterator[State]:
    """The states of a conversation with somebody who knows little."""
    chance, state = Random(f"{job.graph.job} {seed}"), begin(job)[0]
    for _ in range(most):
        open_ = state.situation.open
        if open_ is None or open_.kind == "ended":
            return
        if open_.kind == "fetch":
            state, _ = advance(job, state, OfferedCards(cards(job, state)))
        elif state.moment:
            state, _ = advance(job, state, Typed("1"))
        else:
            state, _ = advance(job, state, Typed(not_sure(job, state, open_, chance)))
        yield state


@pytest.mark.parametrize("name", ["air", "calibrate", "field"])
def test_so_it_is_with_somebody_who_knows_little(name: str) -> None:
    job, marked = job_named(name), set[str]()
    for seed in range(UNSURE):
        for state in unsure(job, seed):
            at = state.situation
            assert wrongly_marked(job, at) == [], (seed, at.place)
            marked |= {each for each in results(job, at) if at.known[each].guess}
    assert marked


def test_a_guess_that_is_known_after_all_is_none_any_more() -> None:
    story = read_story(FOLDER / "guessed_card.txt")
    changes = ((">", "change germination 92 %"), (">", "yes"))
    told = play(replace(story, moves=(*story.moves[:14], *changes)))
    before, after = (told.states[at].situation for at in (13, -1))
    marked = {name for name, known in before.known.items() if known.guess}
    assert {"germination", "bulk_rate", "target_catch"} <= marked
    assert after.known["germination"].value == pytest.approx(0.92)
    assert not any(after.known[name].guess for name in marked & after.known.keys())
    assert "target_catch" in after.known


# -- on the screen ----------------------------------------------------------------------------


def reviews(told: Played) -> Iterator[tuple[Review, State]]:
    """Each review that was put, with the state that it tells of."""
    typed = [said for text, said in told.exchanges[1:] if text not in AGAIN.values()]
    for said, state in zip(typed, told.states, strict=True):
        yield from ((each, state) for each in said if isinstance(each, Review))


WITH_GUESSES = [
    "careless_card",
    "demo_first_timer",
    "demo_new_lot",
    "dont_know_everywhere",
    "guessed_card",
    "recheck_guess",
]


def mains(job: Job, at: Situation) -> dict[str, str]:
    """The main results by their labels."""
    return {label_of(job, name): name for name in results(job, at) if job.fact(name).main}


def test_the_review_says_of_each_main_result_whether_it_rests_on_a_guess() -> None:
    words, met = {True: "rests on a guess", False: "worked out"}, set[bool]()
    for story in stories():
        told = played(story)
        for review, state in reviews(told):
            job, at = told.sitting.job, state.situation
            said = {each.label: each.origin for each in review.lines if not each.number}
            meant = {label: bool(guesses_under(at, name)) for label, name in mains(job, at).items()}
            assert said == {label: words[each] for label, each in meant.items()}, story.name
            met |= set(meant.values())
    assert met == {True, False}


def named(job: Job, state: State) -> tuple[list[str], set[str]]:
    """The main results that `how sure` tells, and the guesses that it names."""
    *told, end = how_sure(job, state).text.split("\n")
    by_label = mains(job, state.situation)
    labels = [line.partition(": about ")[0] for line in told if ": about " in line]
    start, *rest = end.split(": ")
    names = set(rest[0].rstrip(".").split(", ")) if start == GUESS else set()
    return [by_label[each] for each in labels], names


GUESS = "It rests on a guess"


@pytest.mark.parametrize("name", WITH_GUESSES)
def test_how_sure_names_just_the_guesses_that_its_results_rest_on(name: str) -> None:
    told = played(read_story(FOLDER / f"{name}.txt"))
    job = told.sitting.job
    for state in told.states:
        results, names = named(job, state)
        under = {each for main in results for each in guesses_under(state.situation, main)}
        assert names == {label_of(job, each) for each in under}, results


def test_an_outcome_that_is_kept_is_a_guess_where_one_went_into_it() -> None:
    for name in WITH_GUESSES:
        told = played(read_story(FOLDER / f"{name}.txt"))
        for state in told.states:
            at = state.situation
            for each in recorded(told.sitting.job) & at.known.keys():
                assert at.known[each].guess == bool(guesses_under(at, each)), (name, each)
