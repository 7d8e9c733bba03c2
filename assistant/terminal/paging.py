"""A review in pages, so that what waits for an answer stands on the screen with its last lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from assistant.answers.yes_no import yes_no
from assistant.dialogue.messages import Message, Review, Todo
from assistant.sitting.plain_text import texts_of
from assistant.terminal.screen import Screen, height

TYPED = 1  # the row that is typed in
APART = 1  # the empty row above what is set apart


@dataclass(slots=True)
class Pages:
    """The pages that are still to come. The conversation hears nothing of the Enters between."""

    screen: Screen
    rest: list[Sequence[Message]] = field(default_factory=list)

    def cut(self, said: Sequence[Message]) -> Sequence[Message]:
        """The messages, if they fit; else their first page, up to the middle of a review."""
        self.rest = []
        at = next((n for n, each in enumerate(said) if isinstance(each, Review)), None)
        if at is None or self.screen.rows(said) + APART + TYPED <= height():
            return said
        first, *self.rest = self._pages(said[:at], said[at], said[at + 1 :])
        return first

    def due(self) -> Sequence[Message]:
        """The next page."""
        return self.rest.pop(0)

    def goes_on(self, typed: str) -> bool:
        """Whether a typed line takes on to the next page: Enter or a yes; all else is an answer."""
        if typed.strip() and not yes_no(typed):
            self.rest = []
        return bool(self.rest)

    def _pages(
        self, before: Sequence[Message], review: Message, after: Sequence[Message]
    ) -> Iterator[Sequence[Message]]:
        *firsts, last = self._shared_out(before, review, after)
        more = self.screen.word("review.more")
        for number, text in enumerate(firsts):
            yield (*(before if number == 0 else ()), Todo(text, more))
        yield (Todo(last), *after)

    def _shared_out(
        self, before: Sequence[Message], review: Message, after: Sequence[Message]
    ) -> list[str]:
        """The text of each page, filled from the last one, which has to hold the question."""
        room = height() - TYPED - APART
        left = room - self.screen.rows(after) - APART
        pages, full = [""], room - self.screen.rows([Todo("", self.screen.word("review.more"))])
        for text in reversed(list(texts_of(self.screen.library, review))):
            page = f"{text}\n{pages[0]}".strip("\n")
            if self.screen.rows([Todo(page)]) <= left or not pages[0]:
                pages[0] = page
            else:
                pages.insert(0, text)
                left = full
        if before and self.screen.rows([*before, Todo(pages[0])]) > full:
            pages.insert(0, "")
        return pages if len(pages) > 1 else ["", *pages]
