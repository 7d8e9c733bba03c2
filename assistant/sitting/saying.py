"""How much is said. The questions, the answers that they take and the record are the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from assistant.dialogue.job import Job, State
from assistant.dialogue.messages import Ask, Message, Review, Say, Todo, Trouble, Warn, Work
from assistant.dialogue.review import of_use
from assistant.dialogue.wording import say

SHORT, NORMAL, TEACH = "short", "normal", "teach"
LEVELS = (SHORT, NORMAL, TEACH)


@dataclass(slots=True)
class Saying:
    """One of the levels, and what a person was taught already.

    `put` is what waits for an answer, as it was before anything was cut or added.
    """

    job: Job
    level: str = NORMAL
    taught: set[str] = field(default_factory=set)
    put: tuple[Message, ...] = ()

    def switched(self, state: State, text: str) -> tuple[Message, ...]:
        """What is said to a word that sets the level: what waits, again. Empty for other lines."""
        plain = " ".join(text.split()).strip(" .!").lower()
        words = self.job.library.commands
        level = next((each for each in LEVELS if plain in words[each]), "")
        if not level:
            return ()
        self.level = level
        return (Say(say(self.job, f"say.{level}")), *self._told(state, self.put))

    def begun(
        self, state: State, level: str, messages: tuple[Message, ...]
    ) -> tuple[Message, ...]:
        """What was said so far at the level that it began with, at another one from here on."""
        self.level = level
        return self.told(state, messages)

    def told(self, state: State, messages: tuple[Message, ...]) -> tuple[Message, ...]:
        """The messages at this level."""
        if messages and not isinstance(messages[-1], Trouble):  # after trouble the same waits
            asks_of_review = len(messages) > 1 and isinstance(messages[-2], Review)
            self.put = messages[-2:] if asks_of_review else messages[-1:]
        return self._told(state, messages)

    def _told(self, state: State, messages: tuple[Message, ...]) -> tuple[Message, ...]:
        if self.level == NORMAL:
            return messages
        at_level = self._short if self.level == SHORT else self._teach
        return tuple(each for message in messages for each in at_level(state, message))

    def _short(self, state: State, message: Message) -> Iterator[Message]:
        match message:
            case Work():
                if message.brief:
                    yield replace(message, text=message.brief)
            case Say() | Todo():
                yield replace(message, text=message.brief or message.text)
            case Ask():
                yield replace(message, text=message.brief or self._labels(message))
            case Warn():
                yield replace(message, text=self._warned(state, message))
            case _:
                yield message

    def _labels(self, message: Ask) -> str:
        facts = [(name, self.job.fact(name)) for name in message.facts]
        labels = [of_use(self.job, name, fact.brief or fact.label) for name, fact in facts]
        return say(self.job, "say.ask", labels=", ".join(labels))

    def _warned(self, state: State, message: Warn) -> str:
        """A caution in full until it was acknowledged in this sitting, then its short line."""
        sitting = state.log.sitting
        before = any(e.fact == message.hazard and e.sitting == sitting for e in state.situation.used)
        caution = self.job.caution(message.hazard)
        return message.text.replace(caution.text, caution.short) if before else message.text

    def _teach(self, state: State, message: Message) -> Iterator[Message]:
        """What goes wrong and how to measure, once for each fact, before its question."""
        if isinstance(message, Ask):
            for name in message.facts:
                fact = self.job.fact(name)
                text = "\n".join(filter(None, (fact.why, fact.help)))
                if text and fact.name not in self.taught:
                    self.taught.add(fact.name)
                    yield Say(text)
        yield message
