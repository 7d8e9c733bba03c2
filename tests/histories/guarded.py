"""What a person may do in any order, under watch: no hazard without its caution (N10)."""

from __future__ import annotations

from datetime import timedelta
from random import Random

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from assistant.dialogue.job import Job
from assistant.dialogue.review import Target, targets
from tests.histories.lines import line_for, text_for
from tests.histories.talk import PAUSES, STARTS, Talk
from tests.histories.watch import Watch

CHANCE = st.randoms(use_true_random=False)


class Guarded(RuleBasedStateMachine):
    """Any history of one job, whose acts, ends and pauses are held to its cautions and lists."""

    job: Job
    watch: Watch

    @initialize(random=CHANCE, answered=st.integers(0, 40))
    def begin(self, random: Random, answered: int) -> None:
        """A job over an empty book or one with cards, and some answers at once."""
        self.watch = Watch(Talk(self.job, random.choice(STARTS[self.job.graph.job])))
        self.answer_on(random, answered)

    @property
    def free(self) -> bool:
        """Whether it goes on, and nothing is half-asked."""
        return self.going and self.watch.talk.state.moment is None

    @property
    def going(self) -> bool:
        return not self.watch.talk.ended

    @property
    def listed(self) -> list[tuple[int, Target]]:
        """What `change` lists, with its numbers."""
        talk = self.watch.talk
        return list(enumerate(targets(talk.job, talk.state.situation), 1))

    @property
    def ways_out(self) -> list[str]:
        """The words that leave the open question."""
        talk = self.watch.talk
        return list(talk.job.graph[talk.open.place].step.leave)

    @precondition(lambda self: self.going)
    @rule(random=CHANCE, times=st.integers(1, 8))
    def answer_on(self, random: Random, times: int) -> None:
        """What leads on: an answer, a word that passes a caution, a card that is taken."""
        for _ in range(times):
            if self.going:
                self.watch.type(line_for(self.watch.talk.job, self.watch.talk.state, random))

    @precondition(lambda self: self.free)
    @rule(times=st.integers(1, 3))
    def back(self, times: int) -> None:
        for _ in range(times):
            if self.free:
                self.watch.type("back")

    @rule(line=st.sampled_from(("later", "don't know", "review", "-3", "done")))
    def say(self, line: str) -> None:
        """What may lead on or not; after the end too."""
        self.watch.type(line)

    @precondition(lambda self: self.free and bool(self.ways_out))
    @rule(random=CHANCE)
    def leave(self, random: Random) -> None:
        self.watch.type(random.choice(self.ways_out))

    @precondition(lambda self: self.free and bool(self.listed))
    @rule(random=CHANCE, yes=st.sampled_from(("yes", "yes", "no")))
    def change(self, random: Random, yes: str) -> None:
        number, target = random.choice(self.listed)
        talk = self.watch.talk
        self.watch.type(
            f"change {number} {text_for(talk.job, talk.state, target.entry.fact, random)}"
        )
        self.settle(yes)

    @precondition(lambda self: self.free and any(each.series for _, each in self.listed))
    @rule(random=CHANCE)
    def drop(self, random: Random) -> None:
        number, _ = random.choice([each for each in self.listed if each[1].series])
        self.watch.type(f"change {number} drop it fell")
        self.settle("yes")

    def settle(self, yes: str) -> None:
        """Say yes or no to what is half-asked."""
        if self.watch.talk.state.moment:
            self.watch.type(yes)

    @precondition(lambda self: self.going)
    @rule(away=st.sampled_from(PAUSES))
    def pause(self, away: timedelta) -> None:
        self.watch.type("pause")
        self.watch.come_back(away)

    @precondition(lambda self: self.going)
    @rule()
    def crash(self) -> None:
        self.watch.come_back(timedelta())

    @invariant()
    def keeps_its_cautions(self) -> None:
        faults = self.watch.faults if hasattr(self, "watch") else []
        assert not faults, faults
