"""A search for pairs of outcomes that were not walked yet: it starts behind the first of them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from random import Random

from assistant.book.book import Book
from assistant.dialogue.advance import advance, begin
from assistant.dialogue.events import Event, OfferedCards, Reply, Typed
from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Fetch
from assistant.dialogue.questions import ends_row
from assistant.dialogue.review import targets
from assistant.dialogue.situation import Open
from assistant.sitting.remembering import offers
from tests.histories.lines import line_for, text_for
from tests.histories.pairs import Folded, Outcome, Pair
from tests.stories.play import book_after, job_named, played
from tests.stories.story import stories

KEPT_EACH, FEW, MANY = 30, 4, 14
ANEW = 0.15
"""How often the search begins a job anew, over the book of some story."""
EARLY = (
    "seeds 15200",
    "germ 92 %",
    "purity 97 %",
    "purity 88 %",
    "test weight 57 lb",
    "crop oats",
)
"""What a tag may hold, told before it is asked."""
CHANGED = 0.06


@dataclass
class Search:
    """The states found so far, by the outcomes that they stand behind."""

    name: str
    random: Random
    walked: set[Pair] = field(default_factory=set)
    behind: dict[Outcome, list[tuple[State, Book]]] = field(default_factory=dict)
    tried: Counter[Pair] = field(default_factory=Counter)
    books: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.job: Job = job_named(self.name)
        self.folded = Folded(self.job.graph)
        self.books = [each.name for each in stories() if played(each).sitting.card]
        for story in stories():
            if story.job == self.name:
                book = book_after(story.after)
                for state in played(story).states:
                    self.look(state, book)

    def look(self, state: State, book: Book) -> None:
        """Keep what a state walked, and the state with what it stands behind."""
        last: dict[str, Outcome | None] = {}
        self.walked |= self.folded.walked(state.situation.trail, last)
        open_ = state.situation.open
        if open_ is None or open_.kind == "ended" or state.moment or state.left:
            return
        for outcome in filter(None, last.values()):
            here = self.behind.setdefault(outcome, [])
            if len(here) < KEPT_EACH:
                here.append((state, book))
            else:
                here[self.random.randrange(KEPT_EACH)] = (state, book)

    def seek(self, wanted: set[Pair], tries: int) -> None:
        """Go on at random from behind the first outcome of a pair that was sought least so far."""
        for _ in range(tries):
            left = [pair for pair in wanted - self.walked if pair[0] in self.behind]
            if not left:
                return
            pair = min(left, key=lambda each: (self.tried[each], each))
            self.tried[pair] += 1
            if self.random.random() < ANEW:
                self.go_on(*self.anew(), 2 * MANY)
            else:
                state, book = self.random.choice(self.behind[pair[0]])
                self.go_on(state, book, self.random.randint(FEW, MANY))

    def anew(self) -> tuple[State, Book]:
        """The job over the book of some story that ended with a card."""
        book = book_after(self.random.choice(self.books))
        state, reply = begin(self.job)
        return self.fetched(state, reply, book), book

    def go_on(self, state: State, book: Book, lines: int) -> None:
        """Some lines more, each a possible answer."""
        for _ in range(lines):
            open_ = state.situation.open
            if open_ is None or open_.kind == "ended" or state.left:
                return
            state = self.heard(state, book, Typed(self.line(state)))
            self.look(state, book)

    def line(self, state: State) -> str:
        """What takes the open question on, or one of the other ways out of it."""
        open_ = state.situation.open
        assert open_ is not None
        leave = self.job.graph[open_.place].step.leave
        chance = self.random.random()
        if not state.moment and leave and chance < 0.3:
            return self.random.choice(list(leave))
        if not state.moment and open_.kind == "ask" and chance < 0.4:
            return "don't know"
        if not state.moment and open_.kind == "offer" and chance < 0.4:
            return "2"
        listed = targets(self.job, state.situation)
        if not state.moment and listed and chance > 1 - CHANGED:
            number, target = self.random.choice(list(enumerate(listed, 1)))
            text = text_for(self.job, state, target.entry.fact, self.random)
            return f"change {number} {text}"
        if not state.moment and any(ends_row(self.job, each) for each in open_.facts[-1:]):
            return self.caught(state, open_)
        line = line_for(self.job, state, self.random)
        early = not state.moment and open_.kind == "ask" and 0.4 < chance < 0.5
        return f"{line}, {self.random.choice(EARLY)}" if early else line

    def caught(self, state: State, open_: Open) -> str:
        """A catch at the setting that is proposed, at the last one again, or at any."""
        *setting, name = open_.facts
        rows = next(
            (rows for rows in state.situation.rows.values() if rows and name in rows[-1]), ()
        )
        chance, weight = self.random.random(), text_for(self.job, state, name, self.random)
        if chance < 0.5:
            return weight
        if rows and chance < 0.8 and all(rows[-1].get(fact) for fact in setting):
            return ", ".join([*(rows[-1][fact].settled for fact in setting), weight])
        return ", ".join([*(text_for(self.job, state, n, self.random) for n in setting), weight])

    def heard(self, state: State, book: Book, event: Event) -> State:
        """The state after an event, its fetches answered from the book."""
        return self.fetched(*advance(self.job, state, event), book)

    def fetched(self, state: State, reply: Reply, book: Book) -> State:
        """The state once what it asks of the book is answered."""
        for each in reply.messages:
            if isinstance(each, Fetch):
                cards = offers(self.job, book, each, scripted=False)
                state = self.heard(state, book, OfferedCards(cards))
        return state
