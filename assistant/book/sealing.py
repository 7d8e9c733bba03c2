"""The hash that each row carries: over its own columns and the hash of the row before it.

An event follows the event before it, the first one its conversation, a card the last event, a note
its card.
"""

import hashlib
import json
from collections.abc import Sequence

Value = str | int | None


def compact(value: object) -> str:
    """JSON in ASCII without spaces, in the order given; raises ValueError for what it can't hold.

    Text that is no Unicode, as an odd terminal may send it, comes back as it was.
    """
    return json.dumps(value, separators=(",", ":"), allow_nan=False)


def seal(table: str, values: Sequence[Value], before: str) -> str:
    """SHA-256, as 64 hex digits, of a row of `table` that follows the row sealed `before`."""
    return hashlib.sha256(compact([table, *values, before]).encode("ascii")).hexdigest()


def intact(table: str, row: Sequence[Value]) -> bool:
    """Whether a row of `table` is as it was written: its columns, its hash, the hash before it."""
    *values, written, before = row
    try:
        return seal(table, values, str(before)) == written
    except (TypeError, ValueError):  # bytes or infinity: damage, for nobody writes them here
        return False
