"""How much is said. The questions, the answers that they take and the record are the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from assistant.dialogue.job import Job
from assistant.dialogue.messages import Ask, Message, Review, Say, Todo, Trouble, Work
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

    def switched(self, text: str) -> tuple[Message, ...]:
        """What is said to a word that sets the level: what waits, again. Empty for other lines."""
        plain = " ".join(text.split()).strip(" .!").lower()
        words = self.job.library.commands
        level = next((each for each in LEVELS if plain in words[each]), "")
        if not level:
            return ()
        self.level = level
        return (Say(say(self.job, f"say.{level}")), *self._told(self.put))

    def begun(self, level: str, messages: tuple[Message, ...]) -> tuple[Message, ...]:
        """What was said so far at the level that it began with, at another one from here on."""
        self.level = level
        return self.told(messages)

    def told(self, messages: tuple[Message, ...]) -> tuple[Message, ...]:
        """The messages at this level. Cautions are never cut: each comes as the machine changed."""
        if messages and not isinstance(messages[-1], Trouble):  # after trouble the same waits
            asks_of_review = len(messages) > 1 and isinstance(messages[-2], Review)
            self.put = messages[-2:] if asks_of_review else messages[-1:]
        return self._told(messages)

    def _told(self, messages: tuple[Message, ...]) -> tuple[Message, ...]:
        if self.level == NORMAL:
            return messages
        if self.level == TEACH:
            return tuple(each for message in messages for each in self._teach(message))
        return tuple(each for message in messages for each in self._short(message))

    def _short(self, message: Message) -> Iterator[Message]:
        match message:
            case Work():
                if message.brief:
                    yield replace(message, text=message.brief)
            case Say() | Todo():
                yield replace(message, text=message.brief or message.text)
            case Ask():
                yield replace(message, text=message.brief or self._labels(message))
            case _:
                yield message

    def _labels(self, message: Ask) -> str:
        facts = [self.job.fact(name) for name in message.facts]
        labels = ", ".join(fact.brief or fact.label for fact in facts)
        return say(self.job, "say.ask", labels=labels)

    def _teach(self, message: Message) -> Iterator[Message]:
        """What goes wrong and how to measure, once for each fact, before its question."""
        names = message.facts if isinstance(message, Ask) else ()
        facts = [self.job.fact(name) for name in names]
        new = [fact for fact in facts if fact.name not in self.taught]
        self.taught |= {fact.name for fact in new}
        lines = dict.fromkeys(line for fact in new for line in (fact.why, fact.help) if line)
        if lines:
            yield Say("\n".join(lines))
        yield message
