"""Ids that sort by the time they were made and never meet, on one machine or on two.

48 bits of milliseconds, then 52 bits of chance, in 20 signs that are hard to mistake.
"""

from datetime import UTC, datetime, timedelta

# Crockford's base 32 leaves out i, l, o and u.
SIGNS = "0123456789abcdefghjkmnpqrstvwxyz"
LENGTH = 20
BITS_PER_SIGN = 5
CHANCE_BITS = 52
CHANCE_BYTES = 7
SHORTEST_PREFIX = 4

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
LOOKALIKES = str.maketrans("ilo", "110")


def milliseconds(at: str) -> int:
    """Whole milliseconds from 1970 to an ISO 8601 moment; without a zone it is in UTC.

    Raises ValueError for a text that is no moment.
    """
    moment = datetime.fromisoformat(at)
    return since_1970(moment if moment.tzinfo else moment.replace(tzinfo=UTC))


def as_moment(ticks: int) -> str:
    """The ISO 8601 moment so many milliseconds after 1970, in UTC."""
    return (EPOCH + timedelta(milliseconds=ticks)).isoformat(timespec="milliseconds")


def since_1970(moment: datetime) -> int:
    """Whole milliseconds from 1970 to `moment`, which must have a zone."""
    return (moment - EPOCH) // timedelta(milliseconds=1)


def new_id(now: datetime, random_bytes: bytes) -> str:
    """An id of 20 signs for the time `now` (1970 or later, with a zone).

    Raises ValueError when there are fewer than 7 random bytes or the time is out of range.
    """
    ticks = since_1970(now)
    if len(random_bytes) < CHANCE_BYTES or not 0 <= ticks < 1 << 48:
        raise ValueError(now, random_bytes)
    chance = int.from_bytes(random_bytes[:CHANCE_BYTES], "big") % (1 << CHANCE_BITS)
    number = ticks << CHANCE_BITS | chance
    places = range((LENGTH - 1) * BITS_PER_SIGN, -1, -BITS_PER_SIGN)
    return "".join(SIGNS[number >> place & 31] for place in places)


def as_typed(text: str) -> str:
    """An id, or its beginning, as a person may have typed it: capitals, o for 0, l for 1."""
    return text.strip().lower().replace("-", "").translate(LOOKALIKES)


def span(text: str) -> tuple[str, str] | None:
    """Between which two texts all ids lie that start so; none for fewer than 4 signs."""
    start = as_typed(text)
    if len(start) < SHORTEST_PREFIX or not set(start) <= set(SIGNS):
        return None
    return start, start + "~"
