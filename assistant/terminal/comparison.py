"""Two cards side by side: what changed, and how much of it each input made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from assistant.terminal.commands import amiss
from assistant.terminal.desk import Desk
from assistant.terminal.history import label, shown, told_otherwise
from assistant.terminal.screen import filled
from assistant.terminal.shelf import card_line, show, sought_in, unknown

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import StoredCard
    from assistant.flow.model import Library
    from assistant.sitting.comparing import Change, Pair, Share, Side

SETTINGS = ("final_opening", "final_lever_mark")


def book_compare(desk: Desk) -> int:
    """Why one card differs from another: two that are named, else the newest and the one before."""
    from assistant.sitting.comparing import Pair

    book = desk.open_book()
    named = desk.options.ids[:2] or ("1",)
    cards = []
    for sought in named:
        card = sought_in(book, sought)
        if card is None:
            return amiss(desk, "shelf.empty") if not desk.options.ids else unknown(desk, sought)
        cards.append(card)
    if len(cards) == 1:
        before = one_before(book, cards[0])
        if before is None:
            return amiss(desk, "compare.only_one", drill=cards[0].drill)
        cards.append(before)
    if cards[0].id == cards[1].id:
        return amiss(desk, "compare.itself")
    old, new = sorted(cards, key=lambda card: book.card_ids().index(card.id))
    show(compare_lines(desk.library, Pair(side(desk, book, old), side(desk, book, new))))
    return 0


def one_before(book: Book, card: StoredCard) -> StoredCard | None:
    """The card of the same drill that was made before."""
    from assistant.book.wanted import Wanted

    wanted = Wanted(drill=card.drill, before=card.at, scripted=card.scripted)
    return next((each for each in book.find(wanted, 2) if each.id != card.id), None)


def side(desk: Desk, book: Book, card: StoredCard) -> Side:
    """A card with its conversation worked out again, where that can be done."""
    from assistant.sitting.comparing import Side
    from assistant.sitting.replaying import UNREADABLE, replay

    talk = book.talk(card.talk)
    if talk is None or talk.job not in desk.library.jobs:
        return Side(card, None)
    try:
        return Side(card, replay(desk.job(talk.job), book, talk))
    except UNREADABLE:
        return Side(card, None)


def compare_lines(library: Library, pair: Pair) -> Iterator[str]:
    """The two cards, each result with its shares, what else was told, and what was caught."""
    words = library.words
    for name, card in (("then", pair.old.card), ("now", pair.new.card)):
        yield filled(words[f"compare.{name}"], line=card_line(library, card))
    changes = list(pair.changes())
    for change in changes:
        yield from change_lines(library, pair, change)
    named = {share.fact for change in changes for share in change.shares}
    named |= {change.result for change in changes}
    told = [
        name
        for name in told_otherwise(library, pair.old.card, pair.new.card)
        if name not in named and not pair.gathered(name)
    ]
    if told:
        yield words["compare.else"]
        yield from (f"- {side_by_side(library, pair, name)}" for name in told)
    yield from caught_lines(library, pair)
    if not (changes or told):
        yield words["compare.same"]


def change_lines(library: Library, pair: Pair, change: Change) -> Iterator[str]:
    """One result that changed, and what made how much of it."""
    words = library.words
    went = side_by_side(library, pair, change.result)
    if not change.shares:
        possible = pair.old.again and pair.new.again
        why = words["compare.apart" if possible else "compare.not_again"]
        yield f"{went}. {why}"
        return
    whole = by_how_much(library, pair, change, change.new - change.old)
    yield filled(words["compare.went"], what=went, amount=whole)
    for share in change.shares:
        yield share_line(library, pair, change, share)


def share_line(library: Library, pair: Pair, change: Change, share: Share) -> str:
    """What one input made of a change."""
    from assistant.sitting.comparing import FLOW, NEARNESS

    own = {FLOW: "compare.flow", NEARNESS: "compare.nearness"}
    what = (
        library.words[own[share.fact]]
        if share.fact in own
        else side_by_side(library, pair, share.fact)
    )
    amount = by_how_much(library, pair, change, share.amount)
    return filled(library.words["compare.share"], what=what, amount=amount)


def by_how_much(library: Library, pair: Pair, change: Change, difference: float) -> str:
    """An amount with its direction: never a bare sign."""
    name = "compare.more" if difference > 0 else "compare.less"
    return filled(library.words[name], amount=pair.amount(change.result, difference))


def side_by_side(library: Library, pair: Pair, name: str) -> str:
    """A fact as the newer card and the older one show it."""
    none = library.words["compare.none"]
    new, old = (shown(each.card, name) or none for each in (pair.new, pair.old))
    return filled(library.words["compare.line"], name=label(library, name), new=new, old=old)


def caught_lines(library: Library, pair: Pair) -> Iterator[str]:
    """What fell at which setting: measured, so the plan has no part in it."""
    caught = [
        (shown(each.card, "caught_rate"), setting(library, each.card))
        for each in (pair.old, pair.new)
    ]
    if caught[0] != caught[1] and all(all(each) for each in caught):
        (old, at), (new, now_at) = caught
        holes = {"old": old, "old_setting": at, "new": new, "new_setting": now_at}
        yield filled(library.words["compare.caught"], **holes)


def setting(library: Library, card: StoredCard) -> str:
    """What the drill was set to in the end."""
    names: Iterable[str] = (name for name in SETTINGS if shown(card, name))
    return next((f"{label(library, name).lower()} {shown(card, name)}" for name in names), "")
