"""A corpus of text that would drive a terminal."""

from __future__ import annotations

from collections.abc import Iterator


def sequences() -> Iterator[str]:
    """Some 200 control sequences, as CWE-150 and reports about it describe them, written anew."""
    esc, bell, end = "\x1b", "\x07", "\x1b\\"
    yield from map(chr, (*range(1, 10), *range(11, 32), *range(127, 160)))  # C0, DEL, C1
    yield from map(chr, (0x61C, 0x200E, 0x200F, *range(0x2028, 0x202F), *range(0x2066, 0x206A)))
    yield from (f"{esc}[{number}m" for number in range(0, 50, 5))
    yield from (f"{esc}[{final}" for final in "ABCDEFGHJKLMPSTXZcdfghlnrsu")
    yield from (f"{esc}[?{mode}{final}" for mode in (25, 47, 1000, 1049, 2004) for final in "hl")
    yield from (f"\x9b{number}{final}" for number in (2, 31) for final in "JKmH")
    osc = ("0;title", "2;title", "4;1;?", "7;file:x", "8;;x:y", "9;note", "10;?", "52;c;ZXZpbA==")
    yield from (
        f"{start}{text}{stop}"
        for start in (f"{esc}]", "\x9d")
        for text in osc
        for stop in (bell, end, "\x9c")
    )
    yield from (
        f"{start}{text}{end}"
        for start in (f"{esc}P", "\x90", f"{esc}_", f"{esc}^", f"{esc}X")
        for text in ('$q"p', "+q544e", "1;1|17/ab")
    )
    yield from (f"{esc}{letter}" for letter in "78=>DEHMNOZcno|}~")
    yield from (
        "\r\x1b[Kgone",
        "\x08" * 9 + "over",
        f"{esc}[1A{esc}[2K",
        "\x0e\x0f",
        "a\u202eb\u202c",
    )


SEQUENCES = list(dict.fromkeys(sequences()))
CHUNKS = ["".join(SEQUENCES[start : start + 20]) for start in range(0, len(SEQUENCES), 20)]
"""Twenty at once, to keep the tests short: the filter looks at one sign at a time."""

RAW = {sign for each in SEQUENCES for sign in each if not sign.isprintable()}


def harmless(text: str) -> bool:
    """Whether a text holds nothing but signs that show, and ends of lines."""
    return not RAW & set(text) and all(sign == "\n" or sign.isprintable() for sign in text)
