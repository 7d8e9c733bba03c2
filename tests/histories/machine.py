"""What a person may do in any order, beside a small model of what must come of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from random import Random
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from assistant.dialogue.asking import LEAVE
from assistant.dialogue.changing import NEW_VALUE, UNDER
from assistant.dialogue.fold import replayed
from assistant.dialogue.foretelling import PREVIEW
from assistant.dialogue.job import State
from assistant.dialogue.log import Entry, fold, key
from assistant.dialogue.questions import proposals
from assistant.dialogue.review import Target, targets
from assistant.dialogue.situation import Known, Situation
from assistant.dialogue.trouble import DOUBT, UNUSUAL
from assistant.dialogue.walk import CARD, DONE
from assistant.flow.graph import Graph
from assistant.sitting.sitting import records_of
from tests.histories.lines import text_for, texts_for, word_for
from tests.histories.model import Final, Fresh, Model
from tests.histories.talk import PAUSES, STARTS, Talk, moved, talk_of
from tests.stories.play import book_after

CHANCE = st.randoms(use_true_random=False)

RUBBISH = ("qwxz", "12 furlongs", "-3", "1e99", "\x1b[2J")
ASIDES = (
    "why",
    "help",
    "review",
    "repeat",
    "what is tare",
    "how do i find the drive wheel?",
    "convert 19 cm to in",
    "what if 20",
    "what if I had 8 rows?",
    "suppose the wheel is 80 in",
    "last card",
)
EARLY = {"germination": "germination 88 %", "purity": "purity 96 %", "tare": "tub 0.3 lb"}


def plain(known: Known) -> tuple[Any, ...]:
    """What a known fact says; whether somebody stood by an odd value is no part of it."""
    return (known.value, known.settled, known.guess, known.origin)


def results(at: Situation) -> tuple[Any, ...]:
    """Everything that is known, and the rows."""
    rows = {
        name: tuple({member: plain(each) for member, each in row.items()} for row in laps)
        for name, laps in at.rows.items()
    }
    return {name: plain(each) for name, each in at.known.items()}, rows


class Histories(RuleBasedStateMachine):
    """Any history of one conversation."""

    job = "calibrate"
    talk: Talk

    @initialize(random=CHANCE, answered=st.integers(0, 25))
    def begin(self, random: Random, answered: int) -> None:
        """A job over an empty book or one with cards, and some answers at once."""
        self.talk = talk_of(self.job, random.choice(STARTS[self.job]))
        self.model = Model()
        for _ in range(answered):
            if not self.is_open("review", "ended"):
                self.go_on(random)

    # -- what is looked at ------------------------------------------------------------------

    @property
    def state(self) -> State:
        return self.talk.state

    def is_open(self, *kinds: str) -> bool:
        return self.talk.open.kind in kinds and self.state.moment is None

    @property
    def going(self) -> bool:
        return not self.talk.ended

    def fresh(self) -> Fresh:
        until = self.talk.open if self.is_open("caution", "guard") else None
        return Fresh(self.talk.job, book_after(self.talk.after), self.model, until)

    # -- answers ----------------------------------------------------------------------------

    def told(self, line: str, texts: dict[str, Final]) -> None:
        """Type an answer, stand by it if it is odd, and let the model take what it settled."""
        open_, before = self.talk.open, self.state.log
        self.talk.type(line)
        while self.state.moment and self.state.moment.kind in {UNUSUAL, DOUBT}:
            self.talk.type("yes" if len(self.state.moment.options) == 1 else "1")
        self.settle_with("no", "2")  # a text that fits another fact better is let go
        for entry in self.state.log.entries:
            here = (entry.place, entry.visit) == (open_.place, open_.visit)
            if here and entry.fact in {*open_.facts, *texts} and entry not in before.entries:
                self.model.answers[key(entry)] = self.final(entry, texts)
        for told in self.state.log.told:
            if told not in before.told:
                self.model.early[told.fact] = Final(told.variant or told.fact, told.settled)

    def final(self, entry: Entry, texts: dict[str, Final]) -> Final:
        """What was typed for a fact, as the variant that it was read for; else what Enter took.

        A guess that is offered again stays one.
        """
        told = texts.get(entry.fact)
        if told:
            return told if told.is_word else replace(told, fact=entry.variant or entry.fact)
        lately = self.model.lately.get(key(entry))
        if lately and lately.is_word:
            return lately
        return Final(entry.variant or entry.fact, entry.settled)

    def go_on(self, random: Random) -> None:
        """Whatever takes the conversation on."""
        if self.is_open("ask"):
            if random.random() < 0.4 and set(proposals(self.talk.job, self.state)) >= set(
                self.talk.open.facts
            ):
                self.enter()
            else:
                self.answer(random)
        else:
            self.pass_on(random)

    @precondition(lambda self: self.is_open("ask"))
    @rule(random=CHANCE)
    def answer(self, random: Random) -> None:
        open_ = self.talk.open
        texts = texts_for(self.talk.job, self.state, open_, random)
        self.told(", ".join(texts.values()), {n: Final(n, text) for n, text in texts.items()})

    @precondition(lambda self: self.going)
    @rule(random=CHANCE, times=st.integers(1, 6))
    def several(self, random: Random, times: int) -> None:
        for _ in range(times):
            if not self.is_open("review", "ended"):
                self.go_on(random)

    @precondition(
        lambda self: (
            self.is_open("ask")
            and set(proposals(self.talk.job, self.state)) >= set(self.talk.open.facts)
        )
    )
    @rule()
    def enter(self) -> None:
        self.told("", {})

    @precondition(lambda self: self.is_open("caution", "guard", "wait", "offer", "review"))
    @rule(random=CHANCE)
    def pass_on(self, random: Random) -> None:
        open_ = self.talk.open
        line = word_for(self.talk.job, self.state, open_)
        if open_.kind == "offer":
            line = random.choice((line, line, "2"))
        fact = {"offer": CARD, "wait": DONE}.get(open_.kind, "")
        if open_.hazard and not self.talk.job.caution(open_.hazard).only:
            nodes = self.talk.job.graph.nodes.items()
            self.model.raise_in(open_.place, {place for place, n in nodes if n.step.put_back})
        known, node = self.state.situation.known, self.talk.job.graph[open_.place]
        match = tuple((name, known[name].value) for name in map(node.real, node.step.match))
        self.told(line, {fact: Final(fact, line, is_word=True, matching=match)})

    @precondition(
        lambda self: (
            self.is_open("ask", "wait") and self.talk.job.graph[self.talk.open.place].step.leave
        )
    )
    @rule(random=CHANCE)
    def leave(self, random: Random) -> None:
        word = random.choice(list(self.talk.job.graph[self.talk.open.place].step.leave))
        self.told(word, {LEAVE: Final(LEAVE, word, is_word=True)})

    @precondition(lambda self: self.is_open("ask"))
    @rule(word=st.sampled_from(("don't know", "later")))
    def not_known(self, word: str) -> None:
        facts = self.talk.open.facts
        self.told(word, {name: Final(name, word, is_word=True) for name in facts})

    @precondition(lambda self: self.is_open("ask") and len(self.talk.open.facts) == 1)
    @rule(random=CHANCE, fact=st.sampled_from(sorted(EARLY)))
    def early(self, random: Random, fact: str) -> None:
        """An answer, and in the same line something that is asked later."""
        (name,) = self.talk.open.facts
        if name == fact or self.job in {"field", "mix"} or self.talk.job.fact(name).kind == "text":
            return
        text = text_for(self.talk.job, self.state, name, random)
        before = self.state
        self.told(f"{text}, {EARLY[fact]}", {name: Final(name, text)})
        if self.state.moment:  # it put an earlier answer right instead, and asks: leave that
            self.settle_with("no", "2")
        assert self.state.log.replaced == before.log.replaced

    # -- what leaves no trace ---------------------------------------------------------------

    def no_trace(self, line: str) -> None:
        before = self.state
        self.talk.type(line)
        if self.state.moment:
            self.settle_with("no", "2")
        assert self.state.log == before.log, line
        assert self.state.situation == before.situation, line

    @rule(line=st.sampled_from(ASIDES))
    def aside(self, line: str) -> None:
        if self.job in {"calibrate", "recheck"} or "wheel" not in line:  # else it is an answer
            self.no_trace(line)

    @precondition(
        lambda self: (
            self.is_open("ask", "caution", "guard", "wait", "review")
            and not any(self.talk.job.fact(n).kind == "text" for n in self.talk.open.facts)
        )
    )
    @rule(line=st.sampled_from(RUBBISH))
    def misread(self, line: str) -> None:
        self.no_trace(line)

    @precondition(lambda self: self.going)
    @rule(system=st.sampled_from(("us", "metric")))
    def units(self, system: str) -> None:
        before = self.state.situation
        self.talk.type(f"units {system}")
        assert results(self.state.situation) == results(before)

    # -- another shape ----------------------------------------------------------------------

    @precondition(lambda self: self.going)
    @rule()
    def back(self) -> None:
        asked = self.fresh().asked
        self.talk.type("back")
        self.model.back(asked)

    def settle_with(self, yes: str, rows: str) -> list[str]:
        """Answer what is half-asked; returns the kinds of what was asked."""
        kinds = []
        while self.state.moment:
            kinds.append(self.state.moment.kind)
            assert len(kinds) < 9, kinds
            line = {PREVIEW: yes, UNDER: rows, UNUSUAL: "1", DOUBT: "1"}.get(kinds[-1], "no")
            self.talk.type("no" if kinds[-1] == NEW_VALUE else line)
        return kinds

    @precondition(lambda self: self.going and bool(targets(self.talk.job, self.state.situation)))
    @rule(random=CHANCE, yes=st.sampled_from(("yes", "yes", "no")), rows=st.sampled_from("12"))
    def change(self, random: Random, yes: str, rows: str) -> None:
        listed = targets(self.talk.job, self.state.situation)
        number, target = random.choice(list(enumerate(listed, 1)))
        name = target.entry.fact
        text = text_for(self.talk.job, self.state, name, random)
        before = self.state
        self.talk.type(f"change {number} {text}")
        kinds = self.settle_with(yes, rows)
        if PREVIEW not in kinds or yes == "no":
            assert self.state.log == before.log
            return
        for part in (
            parts_under(before, self.talk.job.graph, name)
            if rows == "2" or UNDER not in kinds
            else ()
        ):
            self.model.drop(part)
        entry = next(e for e in self.state.log.entries if key(e) == key(target.entry))
        final = Final(entry.variant or name, text)
        if self.talk.job.graph[entry.place].step.quiet:  # never asked: as if it was told early
            self.model.early[name] = final
        else:
            self.model.change(key(entry), final)

    @precondition(lambda self: self.going and bool(rows_of(self)))
    @rule(random=CHANCE, yes=st.sampled_from(("yes", "yes", "no")))
    def strike(self, random: Random, yes: str) -> None:
        listed = targets(self.talk.job, self.state.situation)
        number, target = random.choice([(n, t) for n, t in enumerate(listed, 1) if t.series])
        self.talk.type(f"change {number} drop the bag fell off")
        assert self.settle_with(yes, "1") == [PREVIEW]
        if yes == "yes":
            self.model.strike(key(entry) for entry in target.entries)

    @precondition(lambda self: self.going)
    @rule(text=st.sampled_from(("2 %", "5 %", "9 %")), yes=st.sampled_from(("yes", "no")))
    def limit(self, text: str, yes: str) -> None:
        self.talk.type(f"change tolerance {text}")
        stands = self.model.limits.get("tolerance") == text
        assert PREVIEW in self.settle_with(yes, "1") or stands
        if yes == "yes":
            self.model.limits["tolerance"] = text

    # -- leaving and coming back ------------------------------------------------------------

    @precondition(lambda self: self.going)
    @rule(pause=st.sampled_from(PAUSES))
    def pause(self, pause: timedelta) -> None:
        self.talk.type("pause")
        assert self.state.left
        self.come_back(pause)

    @precondition(lambda self: self.going)
    @rule()
    def crash(self) -> None:
        self.come_back(timedelta())

    @precondition(lambda self: self.going and self.talk.sitting.kept)
    @rule()
    def merge(self) -> None:
        """The book is exported, merged into one of another machine, and the job taken up there."""
        self.talk.book = moved(self.talk.book)
        self.come_back(timedelta())

    def come_back(self, away: timedelta) -> None:
        before = set(self.state.log.again)
        self.talk.come_back(away)
        if not self.talk.sitting.kept:
            self.model = Model()
            return
        for stale in set(self.state.log.again) - before:
            self.model.take_back([stale])
            self.model.early.pop(stale[2], None)
            self.model.own.add(stale[2])

    # -- what must hold ---------------------------------------------------------------------

    @invariant()
    def lets_go_of_cards(self) -> None:
        if hasattr(self, "talk"):
            self.model.let_go({n: k.value for n, k in self.state.situation.known.items()})

    @invariant()
    def stands_where_its_log_stands(self) -> None:
        kept = self.talk.sitting.kept
        log = fold(records_of(self.talk.book, self.talk.sitting.id)) if kept else self.state.log
        assert log == self.state.log
        again = replayed(self.talk.job, log)[0].situation
        here = self.state.situation
        assert (again.open, again.visits, again.pool) == (here.open, here.visits, here.pool)
        assert (again.known, again.rows) == (here.known, here.rows)

    @invariant()
    def equals_a_fresh_conversation(self) -> None:
        if not hasattr(self, "talk") or self.state.moment:
            return
        fresh, here = self.fresh().state.situation, self.state.situation
        apart = differences(fresh, here)
        assert not apart, (self.talk.after, self.talk.typed, apart, self.model)
        if self.talk.open.kind not in {"guard", "ended"} and not self.owes_a_list(fresh):
            assert fresh.open == here.open, (fresh.open, here.open, self.talk.typed)

    def owes_a_list(self, fresh: Situation) -> bool:
        """Whether only a list to put back holds it up: its caution was passed, then left again."""
        open_ = self.talk.open
        last = fresh.open is not None and fresh.open.kind in {"review", "ended"}
        return last and open_.kind == "wait" and self.talk.job.graph[open_.place].step.put_back


def differences(fresh: Situation, here: Situation) -> list[tuple[str, object, object]]:
    """What a fresh conversation and one with a history do not have in common."""
    (known, rows), (others, other_rows) = results(fresh), results(here)
    names = [n for n in {**known, **others} if known.get(n) != others.get(n)]
    found = [(n, known.get(n), others.get(n)) for n in names]
    return found + ([("rows", rows, other_rows)] if rows != other_rows else [])


def parts_under(state: State, graph: Graph, name: str) -> set[str]:
    """The parts whose rows were made under a fact."""
    return {
        home_of(graph, series, lap[-1].place)
        for series, laps in state.situation.laps.items()
        for lap in laps
        if name in graph.series[series].under
    }


def home_of(graph: Graph, series: str, place: str) -> str:
    """The part that gathers a series, on the way to a place where one of its rows was made."""
    while not any(n.part == place and n.series == series for n in graph.nodes.values()):
        place = place.rpartition("/")[0]
    return place


def rows_of(machine: Histories) -> list[Target]:
    """The rows that can be dropped."""
    listed = targets(machine.talk.job, machine.state.situation)
    return [each for each in listed if each.series]


class Rechecks(Histories):
    """Any history of a check over a book."""

    job = "recheck"


class AirDrills(Histories):
    """Any history of an air drill."""

    job = "air"


class Fields(Histories):
    """Any history of the check of a field."""

    job = "field"


class Mixes(Histories):
    """Any history of a seed mix."""

    job = "mix"


class Faults(Histories):
    """Any history of a search for a fault."""

    job = "fault"
