"""One of a list by its number."""

LONGEST = 4  # digits: no list is longer, and a very long number is no number for Python


def by_number(text: str, most: int) -> int | None:
    """The place in a list of `most`, counted from 0, that a typed number names; None if none."""
    if not text.isdecimal() or len(text) > LONGEST:
        return None
    number = int(text)
    return number - 1 if 1 <= number <= most else None
