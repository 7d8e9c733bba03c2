"""A slip on the command line, told in one sentence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from assistant.terminal.screen import filled

Words = Mapping[str, str]

SURELY = 0.75
"""How alike a command of elsewhere must look: one of here is likelier meant."""


class Misuse(Exception):  # noqa: N818  a slip on the command line
    """A piece of the command line that is not known, or after which something is missing.

    `known` is what could stand there; `further` what stands elsewhere, as it is typed there.
    """

    def __init__(
        self, heard: str, known: Iterable[str] | None = None, further: Words | None = None
    ) -> None:
        super().__init__(heard)
        self.heard, self.known, self.further = heard, known, further or {}

    def sentence(self, words: Words) -> str:
        """What was not understood, and what is near it."""
        if self.known is None:
            return filled(words["cli.lacks"], heard=self.heard)
        if self.heard.removeprefix("--") in self.known:
            return filled(words["cli.elsewhere"], heard=self.heard)
        near = self.near()
        name = "cli.near" if near else "cli.unknown"
        return filled(words[name], heard=self.heard, near=words["cli.or"].join(near))

    def near(self) -> list[str]:
        """What may have been meant, the nearest first."""
        from difflib import get_close_matches

        if self.heard in self.further:
            return [self.further[self.heard]]
        marks = "--" if self.heard.startswith("--") else ""
        near = get_close_matches(self.heard.removeprefix(marks), list(self.known or ()), n=3)
        elsewhere = get_close_matches(self.heard, list(self.further), n=3, cutoff=SURELY)
        return [marks + each for each in near] or [self.further[each] for each in elsewhere]
