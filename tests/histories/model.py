"""A small model of a conversation: its final answers, and a fresh conversation of these alone.

The model knows nothing of the log. It keeps what was typed for each fact, by the place and visit of
the question, what was told early and which limits were changed; a change, a step back or a dropped
row alters these answers, and nothing else is kept of how they came about.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from assistant.answers.expect import Doubt, Refusal, Settled
from assistant.answers.read import read
from assistant.book.book import Book
from assistant.dialogue.advance import advance, begin
from assistant.dialogue.answering import entry_of, expect_of, told_of
from assistant.dialogue.asking import LEAVE
from assistant.dialogue.events import ChangeTo, Event, OfferedCards, Supplied, Typed
from assistant.dialogue.fold import applied
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import LATER, Answered, CardOffer, GivenEarly, Record, Resumed
from assistant.dialogue.log import key as key_of
from assistant.dialogue.messages import Fetch, Message
from assistant.dialogue.questions import caution_word, proposals
from assistant.dialogue.situation import Open
from assistant.dialogue.trouble import DOUBT
from assistant.dialogue.unknowing import unknown_fact
from assistant.dialogue.walk import CARD, DONE
from assistant.sitting.remembering import offers

Key = tuple[str, int, str]
"""Place, visit, and the fact, or what else was answered there: a card, a way out, a list done."""

MOST_STEPS, MOST_SITTINGS = 400, 6


@dataclass(frozen=True)
class Final:
    """A final answer: the text and the fact that it is read for, or a word of the machine.

    A card that was taken had to match these values, by fact.
    """

    fact: str
    text: str
    is_word: bool = False
    matching: tuple[tuple[str, object], ...] = ()


@dataclass
class Model:
    """The final answers.

    `lately` are those taken back, whose values are offered again; `own` are the facts that a card
    lent or that were told early, and that the person has changed since.
    """

    answers: dict[Key, Final] = field(default_factory=dict)
    lately: dict[Key, Final] = field(default_factory=dict)
    early: dict[str, Final] = field(default_factory=dict)
    limits: dict[str, str] = field(default_factory=dict)
    own: set[str] = field(default_factory=set)

    def change(self, key: Key, final: Final) -> None:
        """An answer is another now, whoever gave it."""
        if key not in self.answers:
            self.own.add(key[2])
            self.early.pop(key[2], None)
        self.answers[key] = final

    def take_back(self, keys: Iterable[Key]) -> None:
        """These answers are no more, and offered again."""
        for key in [each for each in keys if each in self.answers]:
            self.lately[key] = self.answers.pop(key)

    def back(self, asked: Iterable[Key]) -> None:
        """The question that was answered last, of those asked on the way, is open again."""
        seen = [key for key in asked if key in self.answers and key[2] != DONE]
        if seen:
            self.take_back([key for key in self.answers if key[:2] == seen[-1][:2]])

    def raise_in(self, place: str, lists: Collection[str]) -> None:
        """The drill is raised again in the part of a place: what was put back there counts not."""
        part, _, _ = place.partition("/")
        for key in [each for each in self.answers if each[0] in lists and each[2] == DONE]:
            if key[0].startswith(f"{part}/"):
                del self.answers[key]

    def let_go(self, known: Mapping[str, object]) -> None:
        """A card goes once what it had to match is another; who comes back is offered it anew."""
        for key, final in list(self.answers.items()):
            if any(known.get(fact, value) != value for fact, value in final.matching):
                del self.answers[key]

    def drop(self, part: str) -> None:
        """The rows of a part were made otherwise: they go, with all that was answered there."""
        for key in [each for each in self.answers if each[0].startswith(f"{part}/")]:
            if key[2] != DONE:
                del self.answers[key]

    def strike(self, row: Iterable[Key]) -> None:
        """A row goes; the later visits of its places move up."""
        gone = list(row)
        for key in gone:
            self.answers.pop(key, None)
        for place in {key[0] for key in gone}:
            here = [key for key in self.answers if key[0] == place]
            order = {visit: n for n, visit in enumerate(sorted({key[1] for key in here}), 1)}
            moved = {(place, order[key[1]], key[2]): self.answers.pop(key) for key in here}
            self.answers |= moved


@dataclass
class Fresh:
    """A conversation that is told the final answers and nothing else, as a script would tell it.

    It passes every caution but the one that it is held `until`. Where that came again in another
    sitting, before answers that were given already, it goes through other sittings too.
    """

    job: Job
    book: Book
    model: Model
    until: Open | None = None
    state: State = field(init=False)
    asked: list[Key] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.state, reply = begin(self.job)
        self.fetched(reply.messages)
        facts = [told_of(self.job, e.fact, self.read(e), e.text) for e in self.model.early.values()]
        if facts:
            self.keep(GivenEarly(tuple(facts)))
        for fact, text in self.model.limits.items():
            self.hear(ChangeTo(fact, text))
        self.go_on()
        for _ in range(MOST_SITTINGS if self.until else 0):
            if not self.is_held:
                self.keep(Resumed())
                self.go_on()
        used = {key_of(entry) for entry in self.state.situation.used}
        self.asked = [each for each in self.asked if each in used]

    @property
    def is_held(self) -> bool:
        """Whether the caution is open that it is held at."""
        open_ = self.state.situation.open
        assert open_ is not None
        return self.until is not None and (open_.place, open_.visit) == (
            self.until.place,
            self.until.visit,
        )

    def go_on(self) -> None:
        """Answer until the model has no answer."""
        for _ in range(MOST_STEPS):
            if not self.step():
                return
        raise AssertionError(self.state.situation.open)

    def hear(self, event: Event) -> None:
        """One event, and what it fetches."""
        self.state, reply = advance(self.job, self.state, event)
        self.fetched(reply.messages)

    def keep(self, record: Record) -> None:
        """One record, and what it fetches."""
        self.state, said, _ = applied(self.job, self.state, [record])
        self.fetched(said)

    def fetched(self, messages: tuple[Message, ...]) -> None:
        """Answer a fetch from the book."""
        for each in messages:
            if isinstance(each, Fetch):
                cards = offers(self.job, self.book, each, scripted=False)
                self.hear(OfferedCards(tuple(map(self.without_own, cards))))

    def without_own(self, card: CardOffer) -> CardOffer:
        """A card without what the person told in its place, or took back and is asked again."""
        nodes = self.job.graph.nodes
        once = {f for n in nodes.values() if not n.step.again and not n.step.quiet for f in n.facts}
        told = {*self.model.answers, *self.model.lately}
        first = {f for place, _, f in told if not nodes[place].step.again or f not in once}
        own = self.model.own | first
        return replace(card, facts=tuple(told for told in card.facts if told.fact not in own))

    def read(self, final: Final) -> Settled:
        """What a text settles."""
        found = self.found(final)
        assert isinstance(found, Settled), (final, found)
        return found

    def found(self, final: Final) -> Settled | Doubt | Refusal:
        """What a text is read as."""
        return read(expect_of(self.job, self.state, final.fact), final.text)

    def step(self) -> bool:
        """Answer the open question; False where the model has no answer to it."""
        open_ = self.state.situation.open
        assert open_ is not None
        if open_.kind in {"caution", "guard"}:
            if self.is_held:
                return False
            self.hear(Typed(caution_word(self.job, self.state, open_)))
            return True
        told = dict(self.told(open_))
        self.asked += [(open_.place, open_.visit, fact) for fact in told]
        if told:
            self.answer(open_, told)
        return bool(told) and self.state.situation.open != open_  # else it can't be taken now

    def told(self, open_: Open) -> Iterator[tuple[str, Final]]:
        """What the model holds for the open question; a word comes alone.

        Who left a question in the middle had answered a part of it first.
        """
        before = False
        for fact in (CARD, DONE, *open_.facts, LEAVE):
            final = self.model.answers.get((open_.place, open_.visit, fact))
            if final and not (final.is_word and before):
                yield fact, final
                before = True
            if final and final.is_word:
                return

    def answer(self, open_: Open, told: Mapping[str, Final]) -> None:
        """Answer by a word, by Enter, by name, or one fact of a question alone."""
        fact, first = next(iter(told.items()))
        if first.is_word and fact in open_.facts:
            origin = LATER if first.text == "later" else ""
            for record in unknown_fact(self.job, self.state, fact, origin).records:
                self.keep(record)
        elif first.is_word:
            self.hear(Typed(first.text))
        elif set(told) != set(open_.facts):
            self.answer_alone(told)
        elif self.proposed(told):
            self.hear(Typed(""))
        else:
            self.hear(Supplied({each.fact: each.text for each in told.values()}))
            while self.state.moment and self.state.moment.kind == DOUBT:
                self.hear(Typed("1"))  # a settled text may say less than what was typed
            if self.state.situation.open == open_:  # one of them can't be taken now
                self.answer_alone(told)

    def answer_alone(self, told: Mapping[str, Final]) -> None:
        """Answer with each fact that can be taken, without the others of its question."""
        found = {fact: self.found(final) for fact, final in told.items()}
        entries = [
            entry_of(self.job, self.state, fact, each, told[fact].text)
            for fact, each in found.items()
            if isinstance(each, Settled)
        ]
        if entries:
            self.keep(Answered(tuple(entries)))

    def proposed(self, told: Mapping[str, Final]) -> bool:
        """Whether just this is proposed, so that Enter takes it."""
        taken = proposals(self.job, self.state)
        return {fact: (t[0], t[2] or fact) for fact, t in taken.items()} == {
            fact: (each.text, each.fact) for fact, each in told.items()
        }
