"""Pictures in text, where people would rather look than read. The first one brings in rich."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.dialogue.job import Job
from assistant.dialogue.standing import known_fact
from assistant.dialogue.wording import shown_value
from assistant.sitting.sitting import Sitting
from assistant.terminal.screen import width
from assistant.terminal.tried import joined, tried_lines

if TYPE_CHECKING:
    from rich.text import Text

OFF, BAND, BY_ROW = "percent_off", "tolerance", "row_weights"
ODD = ("odd_rows", "light_rows")
WIDEST = 40
REACH = 4  # the line reaches so many times the band to each side
BAR = 20
MOST_ROWS = 12  # more bars than this leave no room for the question
MOST_LINES = 8  # of a picture of settings, with the bars above it


@dataclass(frozen=True, slots=True)
class Verdict:
    """The last catch of a half: how many there are, and how far off it was judged (a share).

    Rows that are looked at first leave their catch without a judgement.
    """

    catches: int
    off: float | None


def verdicts(sitting: Sitting) -> dict[str, Verdict]:
    """The last judgement of each half, by the prefix of its names."""
    at = sitting.state.situation
    found = {}
    for name, known in at.known.items():
        prefix, _, bare = name.rpartition(".")
        judged = bare == OFF and isinstance(known.value, float)
        if judged or (bare in ODD and prefix not in found):
            rows = [rows for series, rows in at.rows.items() if series.rpartition(".")[0] == prefix]
            off = known.value if judged and isinstance(known.value, float) else None
            found[prefix] = Verdict(max(map(len, rows), default=0), off)
    return found


def drawn(
    sitting: Sitting, before: Mapping[str, Verdict], *, colour: bool, settings: bool = True
) -> list[str]:
    """The pictures for a catch that was judged since `before`, as lines; empty when none was.

    Where `settings` are drawn against weight, that picture shows light and heavy too.
    """
    new = [prefix for prefix, verdict in verdicts(sitting).items() if before.get(prefix) != verdict]
    if not new:
        return []
    bars_of_rows = list(rows_picture(sitting, new[-1]))
    tried = tried_lines(sitting, new[-1], min(width(), WIDEST)) if settings else []
    if tried and len(bars_of_rows) + len(tried) <= MOST_LINES:
        return [*(rendered(bars_of_rows, colour=colour) if bars_of_rows else ()), *tried]
    return rendered([*bars_of_rows, *catch_picture(sitting, new[-1])], colour=colour)


def both_drawn(
    sitting: Sitting, before: Mapping[str, Verdict], *, colour: bool
) -> Iterator[list[str]]:
    """The same with settings and, drawn only for a screen with no room for that, without."""
    return (drawn(sitting, before, colour=colour, settings=each) for each in (True, False))


def rendered(texts: Sequence[Text], *, colour: bool) -> list[str]:
    """Rich texts as lines for this terminal."""
    from rich.console import Console

    console = Console(
        width=WIDEST,
        color_system="standard" if colour else None,
        force_terminal=colour,
        legacy_windows=False,
        highlight=False,
    )
    with console.capture() as captured:
        for text in texts:
            console.print(text, no_wrap=True, crop=True, overflow="crop")
    return captured.get().rstrip("\n").split("\n")


# -- the catch between light and heavy --------------------------------------------------------


def catch_picture(sitting: Sitting, prefix: str) -> Iterator[Text]:
    """The catch on a line from light to heavy, the near-enough band round the target."""
    from rich.text import Text

    job, at = sitting.job, sitting.state.situation
    band, off = known_fact(job, at, BAND), verdicts(sitting)[prefix].off
    if off is None or band is None or not isinstance(band.value, float):
        return
    light, heavy = job.word("picture.light"), job.word("picture.heavy")
    room = min(width(), WIDEST) - len(light) - len(heavy) - 2
    line = ruler(off, band.value, room)
    text = Text(f"{light} {line} {heavy}")
    text.stylize("bold", len(light) + 1 + line.index("x"), len(light) + 2 + line.index("x"))
    yield text
    yield Text(job.word("picture.legend"))


def ruler(off: float, band: float, room: int) -> str:
    """A line of `room` signs: `|` the target, `[` and `]` the band, `x` the catch.

    `off` and `band` are shares of the target, `band` above zero; a catch below the target stands on
    the left. The catch is inside the brackets exactly when it is inside the band. The line always
    reaches as far as `REACH` bands, so that two catches can be compared; what lies beyond stands at
    its end.
    """
    half = max(REACH, (room - 1) // 2)
    edge = round(half / REACH)
    place = round(abs(off) / band * half / REACH)
    place = min(place, edge - 1) if abs(off) <= band else min(half, max(place, edge + 1))
    line = ["-"] * (2 * half + 1)
    line[half - edge : half + edge + 1] = ["[", *"=" * (2 * edge - 1), "]"]
    line[half] = "|"
    line[half + (place if off > 0 else -place)] = "x"
    return "".join(line)


# -- rows beside each other -------------------------------------------------------------------


def rows_picture(sitting: Sitting, prefix: str) -> Iterator[Text]:
    """A bar for each row that was weighed by itself, the odd ones named."""
    from rich.text import Text

    job, weights = sitting.job, row_weights(sitting, prefix)
    if not 1 < len(weights) <= MOST_ROWS:
        return
    odd = marked_rows(sitting, prefix)
    texts = [shown_weight(sitting, prefix, weight) for weight in weights]
    for number, bar in enumerate(bars(weights), 1):
        label = f"{job.word('picture.row')} {number:>2} "
        tail = f" {job.word('picture.odd')}" if number in odd else ""
        yield Text(f"{label}{bar:<{BAR}} {texts[number - 1]}{tail}")


def marked_rows(sitting: Sitting, prefix: str) -> tuple[float, ...]:
    """The numbers of the rows to look at, from 1: odd ones, or the light ones of a pattern."""
    known = (sitting.state.situation.known.get(joined(prefix, name)) for name in ODD)
    return next((each.value for each in known if each and isinstance(each.value, tuple)), ())


def row_weights(sitting: Sitting, prefix: str) -> tuple[float, ...]:
    """The last catch of a half, row by row; empty when it was weighed together."""
    for series, rows in sitting.state.situation.rows.items():
        if series.rpartition(".")[0] == prefix and rows:
            known = rows[-1].get(joined(prefix, BY_ROW))
            if known and isinstance(known.value, tuple):
                return known.value
    return ()


def shown_weight(sitting: Sitting, prefix: str, weight: float) -> str:
    """One row's weight in the units of its fact."""
    job: Job = sitting.job
    state = sitting.state
    return shown_value(state.log, state.situation, job.fact(joined(prefix, BY_ROW)), weight)


def bars(weights: Sequence[float]) -> list[str]:
    """Bars from zero; the heaviest row has the longest."""
    most = max(weights) or 1.0
    return ["#" * round(weight / most * BAR) for weight in weights]
