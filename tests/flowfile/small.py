"""A small set of flows that is sound, written into a folder, and its calculations.

Each test spoils one thing in it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from assistant.calc.calculation import Calculation
from assistant.calc.contract import Area, Length, Mass, Ratio, Trial

Ours = Annotated[str, "choice"]

FILES: Mapping[str, str] = {
    "facts/plot.toml": """\
[plot]
kind = "text"
label = "Plot"
ask = "What do you call this plot?"
why = "The book keeps it under this name."
help = "Any name will do."
example = "by the oak"
accepts = ["by the oak"]
refuses = ["yes"]
unknown = { guess = "our plot" }

[crop]
kind = "text"
label = "Crop"
ask = "Which crop?"
why = "It tells what is usual."
help = "As the tag says."
example = "wheat"
accepts = ["wheat"]
refuses = ["yes"]
known_words = "crops"
unknown = { guess = "seed" }

[treated]
kind = "choice"
label = "Treated"
ask = "Is the seed treated?"
why = "It can harm you."
help = "Look at the tag."
example = "2"
accepts = ["yes"]
refuses = ["3"]
choices = [{ name = "yes", label = "Yes" }, { name = "no", label = "No", words = ["plain"] }]
unknown = "stop"

[width]
kind = "length"
label = "Width"
ask = "How wide is it?"
why = "It goes into the area."
help = "Lay a tape."
example = "12 ft"
bring = ["tape"]
us = "ft"
metric = "m"
bare = ["ft"]
usual_by = "crop"
table = "widths"
possible = ["1 ft", "900 ft"]
usual = ["2 ft", "300 ft"]
misses_by = "1 in"
recall = "use"
unknown = "stop"
accepts = ["12 ft", "4 m"]
refuses = ["12 lb"]

[length]
kind = "length"
label = "Length"
ask = "How long is it?"
why = "It goes into the area."
help = "Lay a tape."
example = "20 ft"
accepts = ["20 ft"]
refuses = ["20 lb"]
us = "ft"
metric = "m"
bare = ["ft"]
possible = ["1 ft", "900 ft"]
usual = ["3 ft", "400 ft"]
unknown = { part = "pacing" }

[paces]
kind = "ratio"
label = "Paces"
ask = "How many paces?"
why = "They stand for the length."
help = "Walk at ease."
usual = ["2", "400"]
example = "30"
accepts = ["30"]
refuses = ["30 lb"]
unknown = "stop"

[area]
kind = "area"
label = "Area"
main = true

[remark]
kind = "text"
label = "Remark"
ask = "Anything to note?"
why = "It goes on the card."
help = "A few words."
example = "wet corner"
accepts = ["wet corner"]
refuses = ["yes"]
unknown = "go_without"

[dose]
kind = "one_of"
label = "Seed"
ask = "How much seed?"
why = "It is what you want."
help = "A weight or a count."
example = "2 lb"
accepts = ["2 lb", "400 seeds"]
refuses = ["2 ft"]
variants = { weight = "dose_weight", seeds = "dose_seeds" }
unknown = "stop"

[dose_kind]
kind = "choice"
label = "Kind of seed"
choices = [{ name = "weight", label = "Weight" }, { name = "seeds", label = "Seeds" }]

[dose_weight]
kind = "mass"
label = "Seed by weight"
example = "2 lb"
bare = ["lb"]
usual = ["0.1 lb", "9 lb"]

[dose_seeds]
kind = "seeds"
label = "Seeds by count"
example = "400"
usual = ["10", "4000"]

[opening]
kind = "length"
label = "Opening"
ask = "Which opening?"
why = "The next one rests on it."
help = "By the ruler."
example = "12 mm"
accepts = ["12 mm"]
refuses = ["12 oz"]
bare = ["mm"]
at_most = "widest"
unknown = "stop"

[catch_weight]
kind = "mass"
label = "Catch"
ask = "What does the scale show?"
why = "It is judged."
help = "All tubs together."
example = "0.6 lb"
accepts = ["0.6 lb"]
refuses = ["0.6 ft"]
bare = ["lb"]
usual = ["0.1 lb", "9 lb"]
unknown = "stop"

[caught]
kind = "mass"
label = "Caught in all"

[verdict]
kind = "choice"
label = "Verdict"
choices = [{ name = "plenty", label = "Plenty" }, { name = "little", label = "Little" }]
for_scripts = true
""",
    "limits.toml": """\
[enough]
kind = "area"
label = "A large plot"
stands_at = "200 ft^2"
basis = "our own"
possible = ["10 ft^2", "9000 ft^2"]

[wanted]
kind = "mass"
label = "Catch wanted"
stands_at = "1 lb"

[pace]
kind = "length"
label = "One pace"
stands_at = "30 in"

[widest]
kind = "length"
label = "Widest opening"
stands_at = "40 mm"
""",
    "cautions.toml": """\
[dust]
grade = "mind"
only = { treated = ["yes"] }
text = "Dust harms. Keep it down."
short = "Dust kept down?"
not_sure = "Ask the seller."
bring = ["broom"]
source = "our own"

[spinning]
grade = "stop"
words = ["fingers"]
text = "STOP. Keep your fingers out."
short = "Fingers out?"
not_sure = "Do not turn."
source = "our own"
""",
    "words.toml": """\
read_back = "OK: {value}."

[ask]
done = "Type done when it is."

[tools]
tape = "tape"
broom = "broom"

[commands]
why = ["why"]
do_not_know = ["idk", "no idea"]
pause = ["pause", "stop"]
change = ["change"]
units_us = ["us"]
""",
    "glossary.toml": 'plot = "A piece of ground."\n',
    "asking.toml": """\
opens = ["what"]
inside = ["do i"]
elsewhere = ["price"]
vague = ["what now"]

[same]
plot = ["ground"]
""",
    "plain.toml": """\
avoid = ["utilize", "please"]

[at_most]
grade = 6
ungraded = 12
sentence = 20
question = 15
line = 3

[one_name]
plot = ["parcel"]

[leave]
please = ["Type please."]
""",
    "questions/ground.toml": """\
[where]
about = "Which plot"
asked = ["which plot is it", "where do i go"]
answer = "Any plot will do."
basis = "our own"
""",
    "card.toml": """\
title = "CARD"
proven = "Proven."
one_catch = "One catch."
worked_out = "Worked out."
dated = "Made {date}, {id}"
half = "OTHER HALF"
lines = ["Plot: {plot}", "Remark: {remark}"]
half_lines = ["Area: {area}"]
shared_lines = ["Treated: {treated}"]
after = ["Look at it again."]

[page]
lang = "en"
title = "{plot}"
name = "{plot}"
guess = "{line} A guess."
first_half = "This half"
other_half = "That half"

[[page.block]]
look = "plain"
only = { treated = ["yes"] }
lines = ["Area: {area}, {date}"]
""",
    "tables/crops.toml": 'wheat = { words = ["winter wheat"] }\n',
    "tables/widths.toml": 'wheat = { least = "3 ft", most = "300 ft", tape = "50 ft" }\n',
    "jobs/plot.toml": """\
[part]
title = "A plot"

[[step]]
id = "name"
ask = ["plot", "crop"]
question = "What do you call it, and which crop?"

[[step]]
id = "old"
recall = ["width"]
match = ["plot"]

[[step]]
id = "treated"
ask = "treated"
next = { yes = "care", no = "size" }

[[step]]
id = "care"
caution = "dust"
next = "size"

[[step]]
id = "size"
use = "sizing"

[[step]]
id = "dose"
ask = "dose"
next = { weight = "by_weight", seeds = "by_seeds" }

[[step]]
id = "by_weight"
say = "{dose_weight} on {area}."
next = "remark"

[[step]]
id = "by_seeds"
say = "{dose_seeds} on {area}."
next = "remark"

[[step]]
id = "remark"
ask = "remark"

[[step]]
id = "ready"
caution = "spinning"

[[step]]
id = "catches"
use = "catches"
next = { proven = "tidy", given_up = "tidy_none" }

[[step]]
id = "tidy"
use = "tidy"
next = "done"

[[step]]
id = "tidy_none"
use = "tidy"
next = "gave_up"

[[step]]
id = "done"
finish = "proven"
card = true
say = "All done: {caught}."

[[step]]
id = "gave_up"
finish = "given_up"
say = "Nothing came of it."
""",
    "parts/sizing.toml": """\
[part]
title = "The size"
gives = { worked = ["area"] }

[[step]]
id = "sides"
ask = ["width", "length"]
propose = { width = ["table:tape"] }
question = "Enter takes {proposal}. How wide, and how long?"

[[step]]
id = "sum"
work_out = "plot_area"
say = "{width} by {length} = {area}."
next = { small = "small", large = "large" }

[[step]]
id = "small"
say = "A small one."
next = "done"

[[step]]
id = "large"
say = "Over {enough}: a large one."
next = "done"

[[step]]
id = "done"
finish = "worked"
""",
    "parts/pacing.toml": """\
[part]
title = "Pacing"
gives = { worked = ["length"] }

[[step]]
id = "pace"
ask = "paces"

[[step]]
id = "sum"
work_out = "paced"

[[step]]
id = "done"
finish = "worked"
""",
    "parts/catches.toml": """\
[part]
title = "The catches"
state = "The drill stands raised."
gives = { proven = ["caught"], given_up = [] }

[series]
name = "trials"
members = ["opening", "catch_weight"]
last = ["catch_weight"]
under = ["crop"]

[series.only]
opening = { treated = ["no"] }

[[step]]
id = "lap"
ask = ["opening", "catch_weight"]
propose = { opening = ["opening", "widest"] }
exposes = ["spinning", "dust"]
leave = { "give up" = "stopped" }
question = "Which opening, and what does the scale show?"

[[step]]
id = "judge"
work_out = "weigh_up"
records = "verdict"
next = { plenty = "good", little = "less" }

[[step]]
id = "less"
say = "{caught} is too little."
next = "lap"

[[step]]
id = "good"
finish = "proven"

[[step]]
id = "stopped"
finish = "given_up"
""",
    "parts/tidy.toml": """\
[part]
title = "Tidy up"
gives = { done = [] }

[[step]]
id = "list"
wait = true
put_back = true
say = "Put all back."

[[step]]
id = "done"
finish = "done"
""",
}


@dataclass(frozen=True, slots=True)
class Small:
    """A plot under the limit."""

    area: Area


@dataclass(frozen=True, slots=True)
class Large:
    """A plot at the limit or over it."""

    area: Area


@dataclass(frozen=True, slots=True)
class Worked:
    """The length, in m."""

    length: Length


@dataclass(frozen=True, slots=True)
class Plenty:
    """At least what is wanted, in kg."""

    caught: Mass


@dataclass(frozen=True, slots=True)
class Little:
    """Less than what is wanted, in kg."""

    caught: Mass


def plot_area(*, width: Length, length: Length, enough: Area) -> Small | Large:
    """The area of a plot."""
    area = width * length
    return Small(area) if area < enough else Large(area)


def paced(*, paces: Ratio, pace: Length) -> Worked:
    """The length of so many paces."""
    return Worked(paces * pace)


def weigh_up(*, trials: tuple[Trial, ...], wanted: Mass) -> Plenty | Little:
    """What was caught in all."""
    caught = sum(trial.catch_weight or 0 for trial in trials)
    return Plenty(caught) if caught >= wanted else Little(caught)


CALCULATIONS: Mapping[str, Calculation] = {
    "plot_area": Calculation(
        "plot_area",
        plot_area,
        1,
        (
            {"width": 2.0, "length": 3.0, "enough": 10.0},
            {"width": 4.0, "length": 3.0, "enough": 10.0},
        ),
    ),
    "paced": Calculation("paced", paced, 1, ({"paces": 30.0, "pace": 0.7},)),
    "weigh_up": Calculation(
        "weigh_up",
        weigh_up,
        1,
        (
            {"trials": (Trial(opening=0.01, catch_weight=0.3),), "wanted": 0.2},
            {"trials": (Trial(opening=0.01, catch_weight=0.1),), "wanted": 0.2},
        ),
    ),
}


def written(folder: Path) -> Path:
    """The small flows as files below a folder."""
    for name, text in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def spoil(folder: Path, file: str, old: str, new: str) -> None:
    """Replace the one place where a text stands in a file."""
    text = (folder / file).read_text(encoding="utf-8")
    assert text.count(old) == 1, (file, old, text.count(old))
    (folder / file).write_text(text.replace(old, new), encoding="utf-8")


def line_with(folder: Path, file: str, anchor: str) -> int:
    """The number of the one line that holds a text."""
    lines = (folder / file).read_text(encoding="utf-8").splitlines()
    found = [number for number, line in enumerate(lines, 1) if anchor in line]
    assert len(found) == 1, (file, anchor, found)
    return found[0]
