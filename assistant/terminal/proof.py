"""The book checked: every row as it was written, and every card worked out again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from assistant.terminal.desk import Desk
from assistant.terminal.history import label
from assistant.terminal.leaving import TROUBLE
from assistant.terminal.safety import say
from assistant.terminal.shelf import card_line, show, sought_in, unknown

if TYPE_CHECKING:
    from assistant.book.book import Book
    from assistant.book.records import StoredCard
    from assistant.sitting.proving import Difference, Proof

MOST_NAMED = 10


def book_verify(desk: Desk) -> int:
    """Check every row, then the card that was named, or all of them; 1 when anything is damaged."""
    from assistant.book.verifying import verify

    book = desk.open_book()
    ids = book.card_ids()
    if desk.options.id:
        card = sought_in(book, desk.options.id)
        if card is None:
            return unknown(desk)
        ids = [card.id]
    changed = verify(book)
    rows = [say(desk, "verify.row", id=each) for each in changed]
    show(rows or [say(desk, "verify.rows")])
    counted: Counter[str] = Counter()
    for card_id in ids:
        verdict, lines = proved(desk, book, card_id)
        counted[verdict] += 1
        show(lines)
    show(
        say(desk, f"verify.count_{name}", count=counted[name]) for name in COUNTED if counted[name]
    )
    return TROUBLE if changed or counted["damaged"] else 0


COUNTED = ("same", "rounding", "changed", "moved_on", "not_again", "damaged")


def proved(desk: Desk, book: Book, card_id: str) -> tuple[str, list[str]]:
    """The verdict on a card, and what there is to say of it; nothing when it is the same."""
    from assistant.book.problems import BookProblem
    from assistant.sitting.proving import Proof, prove

    try:
        card = book.card(card_id)
    except BookProblem:
        return "damaged", [say(desk, "verify.unreadable", id=card_id)]
    if card is None:
        return "damaged", [say(desk, "verify.unreadable", id=card_id)]
    known = card.job in desk.library.jobs
    proof = prove(desk.job(card.job), book, card) if known else Proof("not_again")
    return proof.verdict, list(proof_lines(desk, card, proof))


def proof_lines(desk: Desk, card: StoredCard, proof: Proof) -> Iterator[str]:
    """What a card holds otherwise than its answers give; the first of many."""
    if proof.verdict in {"same", "changed"}:
        return
    yield say(desk, f"verify.{proof.verdict}", line=card_line(desk.library, card))
    told = worth_telling(proof)
    yield from (difference_line(desk, each) for each in told[:MOST_NAMED])
    if len(told) > MOST_NAMED:
        yield say(desk, "restore.more", count=len(told) - MOST_NAMED)


def worth_telling(proof: Proof) -> list[Difference]:
    """One difference for each fact, of those that the verdict comes from; its number if need be."""
    chosen: dict[tuple[str, str], Difference] = {}
    for each in proof.differences:
        if each.verdict == proof.verdict:
            chosen.setdefault((each.fact, each.key if each.fact == "line" else ""), each)
    return list(chosen.values())


def difference_line(desk: Desk, difference: Difference) -> str:
    """What the card says, and what its answers give today."""
    none = desk.library.words["compare.none"]
    name = label(desk.library, difference.fact)
    if difference.fact == "line":
        name = say(desk, "verify.line", number=difference.key)
    holes = {"name": name, "held": difference.held or none, "now": difference.now or none}
    if difference.formula:
        holes |= {
            "formula": difference.formula,
            "then": str(difference.then_revision),
            "today": str(difference.now_revision),
        }
        return say(desk, "verify.formula", **holes)
    return say(desk, "verify.difference", **holes)
