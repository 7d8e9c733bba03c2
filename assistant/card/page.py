"""The card as a page to print: one side of paper, read at arm's length, from a card of the book."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

from assistant.book.records import StoredCard
from assistant.card.ending import ending
from assistant.dialogue.wording import HOLE, fill
from assistant.flow.model import Block, Fact, Library, PageLayout
from assistant.quantities.kinds import KINDS
from assistant.quantities.show import show

STYLE = Path(__file__).with_name("page.css")
OTHER = "other_half."
MUCH = 1550  # signs; more fit on one side only in smaller letters, as tried in a browser
TAG = re.compile(r"<[^>]*>")
OF_US = re.compile(r"\b(?:in|ft|lb|oz|ac|bu)\b")
NOTHING_FROM_OUTSIDE = "default-src 'none'; style-src 'unsafe-inline'"

Data = Mapping[str, Any]  # a fact as the book keeps it: what JSON holds


def page_text(library: Library, card: StoredCard, *, follows: str = "") -> str:
    """The whole page as one HTML file; `follows` is the number that this card stands in place of.

    Every value is escaped. Control characters are left to the one filter at the way out.
    """
    layout, kept = library.card.page, Kept(library, card, stamps(library, card, follows))
    title = plain_line(kept, layout.title) or card.talk
    head = [
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{NOTHING_FROM_OUTSIDE}">',
        '<meta name="viewport" content="width=device-width">',
        element("title", title),
        element("style", "\n" + STYLE.read_text(encoding="utf-8")),
    ]
    shown = below([element("h1", plain_line(kept, layout.name) or title), *blocks(kept, layout)])
    look = "long" if len(TAG.sub("", shown)) > MUCH else ""
    page = element("head", below(head)) + "\n" + element("body", element("main", shown, look))
    return f'<!doctype html>\n<html lang="{escape(layout.lang)}">\n{page}\n</html>\n'


def stamps(library: Library, card: StoredCard, follows: str) -> dict[str, str]:
    """What the book knows a card by, where there is something to say."""
    outcome = library.card.outcomes.get(ending(card.outcome, card.facts), "")
    told = {"date": card.at[:10], "id": card.talk, "outcome": outcome, "follows": follows}
    return {name: text for name, text in told.items() if text}


@dataclass(frozen=True, slots=True)
class Kept:
    """What the book keeps of a card, as the page can tell it."""

    library: Library
    card: StoredCard
    stamps: Mapping[str, str]

    def fact(self, name: str) -> Data:
        """A fact of the card; empty where it was never asked."""
        found = self.card.facts.get(name)
        return found if isinstance(found, Mapping) else {}

    def text(self, name: str) -> str | None:
        """A value as it was shown then, a measure in both systems; None where never asked."""
        told = self.fact(name)
        if "shown" not in told:
            return self.stamps.get(name)
        shown = str(told["shown"])
        other = in_other_system(self.declared(name), told.get("value"), shown)
        return f"{shown} ({other})" if other else shown

    def declared(self, name: str) -> Fact | None:
        """The fact that a value is of; of a one-of fact, the variant that was told."""
        fact = self.library.facts.get(name.rpartition(".")[2])
        if fact and fact.variants:
            kind = str(self.fact(f"{name}_kind").get("value"))
            return self.library.facts.get(fact.variants.get(kind, ""))
        return fact

    def holds(self, only: Mapping[str, tuple[str, ...]]) -> bool:
        """Whether the choices, or the outcome, are among those named."""
        stood = {name: str(self.fact(name).get("value")) for name in only}
        stood["outcome"] = self.card.outcome
        return all(stood[name] in names for name, names in only.items())


def in_other_system(fact: Fact | None, value: object, shown: str) -> str:
    """A measure in the system of units that it is not shown in; empty for what has but one."""
    if fact is None or fact.signed or fact.kind not in KINDS or not isinstance(value, float):
        return ""
    us, metric = (
        show(fact.kind, value, system, unit=unit or None)
        for system, unit in (("us", fact.us), ("metric", fact.metric))
    )
    if us == metric:
        return ""
    return metric if OF_US.search(shown) else us


# -- the markup -------------------------------------------------------------------------------


def element(name: str, inner: str, look: str = "") -> str:
    """One element of HTML."""
    return f'<{name} class="{look}">{inner}</{name}>' if look else f"<{name}>{inner}</{name}>"


def below(each: Iterable[str]) -> str:
    """Elements below one another, so that the file can be read too."""
    return "\n" + "\n".join(each) + "\n"


def blocks(kept: Kept, layout: PageLayout) -> Iterator[str]:
    """Each block that has a line to show; one of a half is there for both where both were set."""
    two = any(name.startswith(OTHER) for name in kept.card.facts)
    for block in layout.blocks:
        inner = halves(kept, layout, block) if block.half and two else listed(kept, block)
        if inner and kept.holds(block.only):
            title = element("h2", escape(block.title)) if block.title else ""
            yield element("section", title + inner, block.look)


def halves(kept: Kept, layout: PageLayout, block: Block) -> str:
    """A block for each half, side by side."""
    sides = {"": layout.first_half, OTHER: layout.other_half}
    each = (
        element("div", element("h3", escape(side)) + listed(kept, block, prefix))
        for prefix, side in sides.items()
    )
    return element("div", below(each), "halves")


def listed(kept: Kept, block: Block, prefix: str = "") -> str:
    """The lines of a block as a list; one whose facts were never asked is left out."""
    found = [marked_line(kept, line, prefix) for line in block.lines]
    items = [element("li", line) for line in found if line is not None]
    return element("ul", below(items)) if items else ""


def plain_line(kept: Kept, line: str) -> str | None:
    """A line with its values, escaped; None where one was never asked."""
    values = {name: kept.text(name) for name in HOLE.findall(line)}
    told = {name: escape(text) for name, text in values.items() if text is not None}
    return fill(escape(line), told) if len(told) == len(values) else None


def marked_line(kept: Kept, line: str, prefix: str) -> str | None:
    """A line with its values made to stand out; it says so where one rests on a guess."""
    names = {hole: hole if hole in kept.stamps else prefix + hole for hole in HOLE.findall(line)}
    values = {}
    for hole, name in names.items():
        text = kept.text(name)
        if text is None:
            return None
        unknown = kept.fact(name).get("value", "") is None
        values[hole] = element("i" if unknown else "b", escape(text))
    filled = fill(escape(line), values)
    if any(kept.fact(name).get("guess") for name in names.values()):
        return fill(escape(kept.library.card.page.guess), {"line": filled})
    return filled
