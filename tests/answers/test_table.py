"""What people type, and what it must become: common practice, no source.

A row is a question, what is typed, and what comes of it: a settled spelling; a spelling with "~"
for one that is worth a read-back; a set of spellings that are asked about; or ("refused", code).
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from assistant.answers.expect import Doubt, Expect, Line, Reading, Refusal, Settled, Unusual
from assistant.answers.line import read_line
from assistant.answers.read import judge, read
from assistant.answers.yes_no import is_done, yes_no
from tests.answers import questions as q

Row = tuple[Expect, str, object]


def refused(code: str) -> tuple[str, str]:
    return ("refused", code)


def outcome(reading: Reading) -> object:
    match reading:
        case Settled(_, settled, _, clear):
            return settled if clear else f"~{settled}"
        case Doubt(readings):
            return {each.settled for each in readings}
        case Refusal(code):
            return refused(code)


def several(*rows: tuple[Expect, tuple[str, ...], object]) -> list[Row]:
    return [(question, typed, becomes) for question, texts, becomes in rows for typed in texts]


LENGTHS = several(
    (
        q.ONE_TURN,
        ("6' 9 1/2\"", "6’9½”", "6′ 9.5″", "6 ft 9.5 in", "6ft 9.5", "6' 9½''"),
        "81.5 in",
    ),
    (q.ONE_TURN, ("6-9.5", "6-9 1/2", "6 9 1/2", "6 9.5"), "~81.5 in"),
    (q.WALK, ("6-9.5",), "~81.5 in"),
    (q.OPENING, ("6-9.5", "1-1.5 in", "1 to 1.5 in", "between 1 and 1.5"), refused("range")),
    (q.ONE_TURN, ("6.10", "6.10 ft"), {"6.1 ft", "82 in"}),
    (q.ONE_TURN, ("6.9 ft",), "6.9 ft"),
    (q.ONE_TURN, ("6'10",), "82 in"),
    (q.ONE_TURN, ("81.5 in", '81.5"', "81.5in.", "81 1/2", "81,5", "81½ pulgadas"), "81.5 in"),
    (q.ONE_TURN, ("2.07 m", "2,07 m", "2.07 metros"), "2.07 m"),
    (q.ONE_TURN, ("207 cm", "207 centímetros"), "207 cm"),
    (q.ONE_TURN, ("2070 mm",), "2070 mm"),
    (q.ONE_TURN_ANY, ("207",), {"207 in", "207 cm"}),
    (q.WALK, ("8",), {"8 ft", "8 m"}),
    (q.WALK, ("8 feet", "8 foot", "ocho pies", "eight ft"), "8 ft"),
    (q.SPACING, ("7.5", "7½", "7 1/2", "7-1/2", "7,5", "seven and a half", "７.５"), "7.5 in"),
    (q.SPACING, ("0.625 ft",), "0.625 ft"),
    (q.SPACING_EITHER, ("19",), {"19 in", "19 cm"}),
    (q.SPACING_EITHER, ("19 cm",), "19 cm"),
    (q.SPACING_CM, ("17.5 cm", "17,5"), "17.5 cm"),
    (q.OPENING_MM, ("14 1/2 mm", "14.5mm", "14,5"), "14.5 mm"),
    (q.OPENING, ("3/8", '3/8"', ".375", "three eighths"), "0.375 in"),
    (q.OPENING, ("5/8 open", "5/8 abierto"), refused("part_of_full")),
    (q.STRIP, ("100'", "100 ft", "100 feets", "100"), "100 ft"),
    (q.STRIP, ("1/4 mile", ".25 mi", "quarter mile"), "0.25 mi"),
    (q.STRIP, ("50 mts", "50m", "50 metros"), "50 m"),
    (q.WIDTH, ("30ft drill", "30 pies", "30'"), "30 ft"),
    (q.ONE_TURN, ("6’9½ in.", "6 ft, 9 1/2 in", "6 pies 9 1/2 pulgadas"), "81.5 in"),
    (q.ONE_TURN, ("2 m 7 cm",), "207 cm"),
    (q.ONE_TURN, ("6 ft 14 in",), "~86 in"),
)

WEIGHTS = several(
    (q.CATCH, ("0.73 lb", ".73 lbs", ".73#", "0,73 lb", ".73", "0.73 libras"), "0.73 lb"),
    (q.CATCH, ("11.7 oz", "11,7 oz", "11.7 ounces", "11.7 onzas"), "11.7 oz"),
    (q.CATCH, ("11.7 fl oz", "1 cup", "a coffee can", "2 scoops"), refused("volume")),
    (q.CATCH, ("1 lb 3 oz", "1lb3oz", "1:3", "1 lb 3"), "19 oz"),
    (q.CATCH, ("1-3",), "~19 oz"),
    (q.CATCH, ("1.3", "1.3 lb"), {"1.3 lb", "19 oz"}),
    (q.CATCH, ("1:12.4",), "28.4 oz"),
    (q.CATCH, ("3-1",), {"49 oz", "2 lb"}),
    (q.CATCH, ("331 g", "331 gramos", "331 gm"), "331 g"),
    (q.CATCH, ("331 gr",), "~331 g"),
    (q.CATCH_KG, (".331 kg", "0,331 kg", "0.331"), "0.331 kg"),
    (q.CATCH_G, ("331",), "331 g"),
    (q.CATCH_NO_UNIT, ("331",), refused("no_unit")),
    (q.ROW_WEIGHTS, ("65.1", "65,1"), "65.1 g;"),
    (q.ROW_WEIGHTS, ("65g each",), "65 g;"),
    (q.ROW_WEIGHTS, ("54/57/49", "54 / 57 / 49"), "54 g; 57 g; 49 g"),
    (q.ROW_WEIGHTS, ("1/2 lb, 5/8 lb",), "0.5 lb; 0.625 lb"),
    (
        q.ROW_WEIGHTS,
        (
            *("54 57 49 56 31 55", "54/57/49/56/31/55", "54+57+49+56+31+55", "54,57,49,56,31,55 g"),
            *("54 and 57 and 49 and 56 and 31 and 55", "54, 57, 49, 56, 31 and 55 g"),
            "row 1 54, row 2: 57, row 3 = 49, row 4 gave 56, row 5 31, row 6 55",
        ),
        "54 g; 57 g; 49 g; 56 g; 31 g; 55 g",
    ),
    (
        q.EACH_SEEDS,
        (
            *("14000/lb 230000/lb", "14000 seeds/lb, 230000", "14000 per lb and 230000 per lb"),
            *("14000 seeds/lb 230000 seeds/lb", "14000 230000"),
        ),
        "14000 seed/lb; 230000 seed/lb",
    ),
    (q.ROW_WEIGHTS, ("about 54 57 49", "roughly 54, 57, 49 g"), "~54 g; 57 g; 49 g"),
    (q.ROW_WEIGHTS, ("row 2 54, row 1 57, row 3 49",), refused("two_numbers")),
    (q.ROW_WEIGHTS, ("54,57",), {"54 g; 57 g", "54.57 g;"}),
    (q.CATCH_G, ("54 57 49",), refused("list")),
    (q.CATCH, ("bucket 2.1 full, 1.4 empty", "2.1 full 1.4 empty", "2.1-1.4"), "~0.7 lb"),
    (q.CATCH, ("1 kg full, 400 g empty",), "~0.6 kg"),
    (q.CATCH, ("2.5 lb full 1.1 empty",), "~1.4 lb"),
    (q.CATCH_G, ("331 g tared", "331 zeroed", "331 ya con tara", "331 g net"), "331 g"),
    (q.CATCH, ("0", "nothing", "nada"), "0 lb"),
    (q.BAG, ("50", "50# bag", "50 lb", "bag of 50"), "50 lb"),
    (q.BAG_KG, ("saco de 25",), "25 kg"),
    (q.BAG, ("1,250 lb", "1.250 lb"), {"1250 lb", "1.25 lb"}),
    (q.BAG, ("1250",), "1250 lb"),
    (q.BAG, ("1 ton", "1 tonne", "1 tonelada"), {"1 short_ton", "1 t"}),
    (q.BAG, ("20 bu", "20 bushels"), refused("bushels")),
    (q.BAG, ("2 sacks", "dos costales", "una bolsa"), refused("bags")),
)

COUNTS = several(
    (q.RATE, ("80", "80 lb", "80 lb/ac", "80 lbs per acre", "80#", "ochenta libras"), "80 lb/ac"),
    (q.RATE, ("80 kg", "80 kg/ha", "80 kilos"), "80 kg/ha"),
    (q.RATE, ("1.3 bu", "bushel and a half"), refused("bushels")),
    (q.RATE, ("2 quintales",), refused("unit_varies")),
    (q.PER_ACRE, ("650k", "650 K", "650,000", "650 mil", "650 thousand"), "650000 seed/ac"),
    (q.PER_ACRE, ("650.000",), "~650000 seed/ac"),
    (q.PER_ACRE, ("1.1 mil", "1.1 mil."), {"1100 seed/ac", "1100000 seed/ac"}),
    (q.SEEDS_PER_LB, ("12,500", "12500 seeds/lb", "12.5k", "12500"), "12500 seed/lb"),
    (q.SEEDS_PER_LB, ("12.500",), "~12500 seed/lb"),
    (q.WHEAT, ("12.5",), "~12500 seed/lb"),
    (q.SEEDS_PER_LB, ("12.5",), {"12500 seed/lb", "12.5 g"}),
    (q.SEEDS_PER_LB, ("about 20k", "~20000", "aprox 20 mil"), "~20000 seed/lb"),
    (q.SEEDS_PER_LB, ("15-16k",), refused("range")),
    (q.SEEDS_PER_LB, ("220k",), "220000 seed/lb"),
    (q.ALFALFA, ("220",), "~220000 seed/lb"),
    (q.SEEDS_PER_LB, ("30 (TKW)", "30 g", "PMG 30", "TKW 30", "30 g per 1000 seeds"), "30 g"),
    (q.SEEDS_PER_LB, ("30",), {"30000 seed/lb", "30 g"}),
    (q.WHEAT, ("30",), "~30 g"),
    (q.TARGET, ("25 plants",), {"25 plant/ft^2", "25 plant/ft"}),
    (q.TARGET, ("270 pl/m²", "270 plants/m2", "270 plantas por metro cuadrado"), "270 plant/m^2"),
)

SHARES = several(
    (q.GERM, ("90 %", "90", "90 pct", "90 por ciento", "ninety percent", "90 of 100"), "90 %"),
    (q.GERM, (".9", "0.9", "0,9"), "~90 %"),
    (q.GERM, ("9",), "9 %"),
    (q.GERM, ("1",), {"1 %", "100 %"}),
    (q.GERM, ("110 %", "900", "1e3"), refused("percent_over_100")),
    (q.GERM, ("-5 %",), refused("negative")),
    (q.GERM, ("98/85",), refused("two_numbers")),
    (q.OFF_TARGET, ("-5 %",), "-5 %"),
    (q.OFF_TARGET, ("5 less", "5 menos"), "~-5 %"),
    (q.EMERGENCE, ("15 % loss",), {"85 %", "15 %"}),
    (q.usual(q.EMERGENCE, "30 %", "98 %"), ("0.85 survive",), "~85 %"),
)

REST = several(
    (q.FIELD, ("1/10 acre", "a tenth of an acre", "one tenth acre", "0.1 ac"), "0.1 ac"),
    (q.FIELD, ("a twentieth of an acre", "1/20 of an acre"), "0.05 ac"),
    (q.FIELD, ("160", "160 ac", "quarter section", "160 acres"), "160 ac"),
    (q.FIELD, ("a quarter",), {"160 ac", "0.25 ac"}),
    (q.FIELD, ("1/20", "1/20 ac", ".05"), "0.05 ac"),
    (q.FIELD, ("200 m2", "200 sq m"), "200 m^2"),
    (q.FIELD, ("65 ha", "65 hectareas", "65 hectáreas"), "65 ha"),
    (q.GROUND, ("1/50 ha", "1/50"), "0.02 ha"),
    (q.GROUND, ("1/3 ha",), "1/3 ha"),
    (q.TURNS, ("30 turns", "30x", "30 vueltas", "treinta", "30"), "30"),
    (q.TURNS, ("29.5", "29 1/2", "29 and a half", "29 y media"), "29.5"),
    (q.TURNS, ("30ish", "about 30", "unas 30", "~30"), refused("about")),
    (q.SPEED, ("5 mph", "5", "5 miles per hour", "5 mi/h", "5 millas por hora"), "5 mi/h"),
    (q.SPEED, ("8 km/h", "8 kph", "8 km per hour", "8 kilometers an hour"), "8 km/h"),
    (
        q.PULSES,
        ("360 ppr", "360 pulses", "360 p/v", "360 pulses/rev", "360", "360 pulsos"),
        "360 pulse",
    ),
    (q.PER_TURN, (".62 lb/rev", "0,62", ".62", "0.62 lb per turn", "0.62 lb"), "0.62 lb"),
    (q.PER_TURN, ("281 g/vuelta", "281 g per revolution"), "281 g"),
    (q.FACTOR, ("580.6 pulses/lb", "580.6 pulses per pound", "580.6"), "580.6 pulse/lb"),
    (q.FACTOR, ("1280 pulses per kg", "1280 pulsos/kg"), "1280 pulse/kg"),
    (q.TURN_FACTOR, ("1.6 turns per lb", "1.6 revs/lb", "1.6"), "1.6 turn/lb"),
    (
        q.SHAFT,
        ("52 rpm", "52 turns per minute", "52 revs/min", "52 vueltas por minuto"),
        "52 turn/min",
    ),
    (q.PLATE, ("335 turns/ha", "335 turns per hectare"), "335 turn/ha"),
    (q.TIMED, ("27 s", "27 sec", "27 seconds", "27", "27s", "27 segundos"), "27 s"),
    (q.TIMED, ("1.5 min", "1 1/2 minutes"), "1.5 min"),
    (q.SPEED, ("5 lb", "5 miles"), refused("unit_of_another_kind")),
    (q.FACTOR, ("1.6 turns per lb",), refused("unit_of_another_kind")),
    (q.TURN_FACTOR, ("580 pulses/lb", "1.6 rpm"), refused("unit_of_another_kind")),
    (q.RATE, ("one eighty",), "~180 lb/ac"),
    (q.RATE, ("ciento ochenta", "hundred and eighty"), "180 lb/ac"),
    (q.CATCH, ("O.73", "l.2"), refused("letter_in_number")),
    (q.CATCH, ("7,,5", "7..5"), refused("doubled_mark")),
    (q.CATCH, ("", "   "), refused("empty")),
    (q.TURNS, ("1/0",), refused("division_by_zero")),
    (q.TURNS, ("0", "0 turns"), refused("zero")),
    (q.ROWS, ("0 rows", "cero"), refused("zero")),
    (q.CATCH, ("1e99",), refused("too_big")),
    (q.CATCH, ("-3", "minus 3"), refused("negative")),
    (q.STRIP, ("9" * 16 + " ft", "9" * 16 + " ft 3 in"), refused("too_big")),
    (q.CATCH, ("1e-99",), refused("too_small")),
    (q.CATCH, ("1,25.5", "1.2.3"), refused("doubled_mark")),
    (q.ROW_WEIGHTS, ("1 " * 65,), refused("too_many")),
    (q.CATCH, ("3 1/4 1/2",), refused("two_numbers")),
    (q.CATCH, ("12/5/24",), refused("date")),
    (q.ROWS, ("24.5", "24 1/2"), refused("not_whole")),
    (q.ROWS, ("24 rows", "24 hileras", "twenty-four"), "24"),
    (q.CATCH, ("nan", "inf lb", "infinity"), refused("not_finite")),
    (q.CATCH, ("\x1b[31m0.73", "0.73\x00", "0.73 \u202elb"), refused("control")),
    (q.CATCH, ("7" * 10_000,), refused("too_long")),
    (q.CATCH, ("0.73 lb\n0.74 lb",), refused("many_lines")),
    (q.CATCH, ("lb",), refused("no_number")),
    (q.CATCH, ("heavy",), refused("not_a_number")),
    (q.SPEED, ("8 kmh/h", "8 kmh per hour"), refused("unit_of_another_kind")),
    (q.SHAFT, ("52/rpm", "52a rpm"), refused("unit_of_another_kind")),
    (q.SPACING, ("7½5", "7½5 in", "½5", "5²0"), refused("two_numbers")),
    (q.SPACING, ("5²", "5² in"), refused("unknown_unit")),
    (q.PER_ACRE, ("1.2 × 10⁶", "1.2x10⁶"), "1200000 seed/ac"),
    (q.CATCH, ("7 smoots",), refused("unknown_unit")),
    (q.CATCH, ("7 ft",), refused("unit_of_another_kind")),
    (q.TEST_WEIGHT, ("58", "58 lb", "58 lb/bu"), "58 lb/bu"),
    (q.TEST_WEIGHT, ("76 kg/hl", "76 kg"), "76 kg/hL"),
)

TARGETS = several(
    (q.TARGET, ("80", "80 lb", "80 lb/ac", "80#"), "target_weight 80 lb/ac"),
    (q.TARGET, ("80 kg/ha",), "target_weight 80 kg/ha"),
    (q.TARGET, ("1.5 bu", "bushel and a half"), "target_bushels 1.5 bu/ac"),
    (q.TARGET, ("650k",), "target_seeds 650000 seed/ac"),
    (q.TARGET, ("1.1M",), "target_seeds 1100000 seed/ac"),
    (q.TARGET, ("1.2 million seeds",), "target_seeds 1200000 seed/ac"),
    (q.TARGET, ("28 plants per sq ft", "28 plants/sq ft"), "target_plants 28 plant/ft^2"),
    (q.TARGET, ("25 per foot",), "target_row_seeds 25 seed/ft | target_row_plants 25 plant/ft"),
    (
        q.TARGET,
        ("25/ft2", "25 per sq ft"),
        "target_seeds 25 seed/ft^2 | target_plants 25 plant/ft^2",
    ),
    (q.TARGET, ("270/m2",), "target_seeds 270 seed/m^2 | target_plants 270 plant/m^2"),
    (q.TARGET, ("17 per foot",), "target_row_seeds 17 seed/ft | target_row_plants 17 plant/ft"),
    (q.TARGET, ("25 plants per foot",), "target_row_plants 25 plant/ft"),
    (q.TARGET, ("17 seeds per foot of row",), "target_row_seeds 17 seed/ft"),
    (q.TARGET, ("10 lb PLS/ac", "10 lb PLS an acre", "10 lb PLS"), "target_live_weight 10 lb/ac"),
    (q.TARGET, ("30 PLS/ft2", "30 live seeds per sq ft"), "target_live_seeds 30 seed/ft^2"),
)

TABLE = [*LENGTHS, *WEIGHTS, *COUNTS, *SHARES, *REST]

NOT_OF_THIS_PROGRAM = {
    "back": "a word of the conversation, not an answer",
    "help": "a word of the conversation, not an answer",
}


def _id(row: Row) -> str:
    return f"{row[0].fact}: {row[1][:24]!r}"


@pytest.mark.parametrize("row", TABLE, ids=_id)
def test_what_is_typed_becomes_what_it_means(row: Row) -> None:
    question, typed, becomes = row
    assert outcome(read(question, typed)) == becomes


@pytest.mark.parametrize("row", TARGETS, ids=_id)
def test_the_unit_tells_the_kind_of_target(row: Row) -> None:
    question, typed, becomes = row
    reading = read(question, typed)
    assert not isinstance(reading, Refusal), reading
    readings = reading.readings if isinstance(reading, Doubt) else (reading,)
    assert " | ".join(f"{each.fact} {each.settled}" for each in readings) == becomes


@pytest.mark.parametrize("typed", ["1.1M", "1.1 million", "1,1 M", "1100k", "1.1 millones"])
def test_millions_are_read_in_every_spelling(typed: str) -> None:
    assert outcome(read(q.PER_ACRE, typed)) == "1100000 seed/ac"


@pytest.mark.parametrize("typed", ["1.2e6", "1.2 x 10^6", "1.2*10^6", "1'200,000", "1 200k"])
def test_powers_and_the_apostrophe_of_millions_are_read(typed: str) -> None:
    becomes = refused("two_numbers") if typed == "1 200k" else "1200000 seed/ac"
    assert outcome(read(q.PER_ACRE, typed)) == becomes


@pytest.mark.parametrize(
    ("question", "typed", "likely"),
    [
        (q.SPACING, "75", "7.5 in"),
        (q.GERM, "9", "90 %"),
        (q.usual(q.CATCH, "0.1 lb", "1 lb"), "73 lb", "0.73 lb"),
        (q.ONE_TURN, "2.07 in", "2.07 m"),
        (q.CATCH_USUAL, "15000 g", "1500 g"),
        (q.usual(q.ROWS, "4", "120"), "240", "24"),
    ],
)
def test_an_unusual_value_is_settled_and_judged_with_its_likely_slip(
    question: Expect, typed: str, likely: str
) -> None:
    told = read(question, typed)
    assert isinstance(told, Settled)
    judged = judge(question, told)
    assert isinstance(judged, Unusual)
    assert judged.likely is not None
    assert judged.likely.settled == likely


def told(found: Mapping[str, Settled]) -> dict[str, str]:
    return {fact: outcome(each) for fact, each in found.items()}  # type: ignore[misc]  # all settled


@pytest.mark.parametrize(
    "typed", ["24 @ 7.5", "24x7.5", "24 rows 7 1/2", "24 at 7 1/2", "24, 7.5", "7.5 in 24 rows"]
)
def test_rows_and_spacing_are_told_in_one_line(typed: str) -> None:
    line = read_line((q.ROWS, q.SPACING), typed)
    assert told(line.found) == {"row_count": "24", "row_spacing": "7.5 in"}
    assert not line.unused


@pytest.mark.parametrize(
    ("typed", "distance"),
    [("10 turns = 66' 3\"", "795 in"), ("66-3 for 10", "~795 in"), ("10 66.25", "66.25 ft")],
)
def test_turns_and_distance_are_told_in_one_line(typed: str, distance: str) -> None:
    line = read_line((q.ROLLED, q.STRIP), typed)
    assert told(line.found) == {"rolled_turns": "10", "rolled_distance": distance}


@pytest.mark.parametrize("typed", ["85+7 hard", "85 + 7 dura"])
def test_hard_seed_beside_germination_is_told_early(typed: str) -> None:
    line = read_line((q.GERM,), typed, (q.HARD, q.PURITY))
    assert (told(line.found), told(line.early)) == ({"germination": "85 %"}, {"hard_seed": "7 %"})


def test_purity_and_germination_with_a_slash_are_two_shares_worth_a_read_back() -> None:
    line = read_line((q.PURITY, q.GERM), "98/85")
    assert told(line.found) == {"purity": "~98 %", "germination": "~85 %"}


def test_of_three_answers_at_once_the_one_by_a_unit_of_length_alone_is_handed_back() -> None:
    line = read_line((q.TARGET,), "80lb 7.5in 24row", (q.ROWS, q.SPACING, q.OPENING))
    assert (told(line.found), told(line.early)) == ({"target": "80 lb/ac"}, {"row_count": "24"})
    assert line.unused == "7.5in"


def test_spacing_on_a_width_is_no_single_answer() -> None:
    line = read_line((q.SPACING,), "7.5\" on 15'")
    assert isinstance(line, Line)
    assert line.refused["row_spacing"].code == "two_numbers"


def test_a_weight_from_some_rows_is_told_with_the_rows() -> None:
    line = read_line((q.CATCH,), "73 lb from 6 rows", (q.CAUGHT,))
    assert told(line.found) == {"catch_weight": "73 lb"}
    assert line.unused == "from 6 rows".removeprefix("from ")


@pytest.mark.parametrize(
    "typed", ["y", "yep", "sí", "si", "ok", "listo", "done", "👍", "👍🏽", "Yes."]
)
def test_yes_is_yes(typed: str) -> None:
    assert yes_no(typed) is True


@pytest.mark.parametrize("typed", ["n", "nope", "no", "NO!", "👎"])
def test_no_is_no(typed: str) -> None:
    assert yes_no(typed) is False


@pytest.mark.parametrize("typed", ["no sé", "idk", "?", "skip", "not sure", "", "\x1b", "no idea"])
def test_not_sure_is_neither_yes_nor_no(typed: str) -> None:
    assert yes_no(typed) is None


@pytest.mark.parametrize(
    "typed",
    ["I'm done", "im done", "i turned it", "It's done.", "finished", "done", "ok", "lo hice"],
)
def test_done_is_done(typed: str) -> None:
    assert is_done(typed)


@pytest.mark.parametrize(
    "typed",
    ["im not done", "almost done", "not yet", "i havent turned it", "is it done", "", "\x1b"],
)
def test_not_yet_is_not_done(typed: str) -> None:
    assert not is_done(typed)


@pytest.mark.parametrize("typed", ["im done", "i turned it", "its done", "finished"])
def test_done_says_yes_to_nothing_but_a_list(typed: str) -> None:
    assert yes_no(typed) is None


def test_what_this_program_does_not_ask_is_listed_with_its_reason() -> None:
    for typed, reason in NOT_OF_THIS_PROGRAM.items():
        assert reason
        assert isinstance(read(q.CATCH, typed), Refusal)
