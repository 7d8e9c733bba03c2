"""A value in another unit: by the international foot and pound, exactly, shown to three digits."""

import pytest

from assistant.answers.convert import Converted, converted


@pytest.mark.parametrize(
    ("typed", "given", "shown"),
    [
        ("cuánto es 7 1/2 pulgadas en cm?", "7.5 in", "19.1 cm"),  # 7.5 x 2.54 = 19.05
        ("convert 19 cm to in", "19 cm", "7.48 in"),  # 19 / 2.54
        ("19 cm in inches", "19 cm", "7.48 in"),
        ("19 in to cm", "19 in", "48.3 cm"),  # 19 x 2.54
        ("what is 80 kg/ha in lb/ac?", "80 kg/ha", "71.4 lb/ac"),  # x 0.40468564 / 0.45359237
        ("how many inches is 19 cm", "19 cm", "7.48 in"),
        ("6 ft 9 1/2 in in cm", "81.5 in", "207 cm"),
        ("10 acres in ha", "10 ac", "4.05 ha"),
        ("2.1 lb to g", "2.1 lb", "953 g"),
        ("12500 seeds per lb in g per 1000", "12,500 per lb", "36.3 g per 1,000 seeds"),
    ],
)
def test_a_value_is_shown_in_the_unit_wished_for(typed: str, given: str, shown: str) -> None:
    assert converted(typed) == Converted(given, shown)


@pytest.mark.parametrize(
    "typed", ["convert 3 kg to acres", "convert 5 gal to lb", "convert 19 to in"]
)
def test_what_can_not_be_had_so_is_told(typed: str) -> None:
    found = converted(typed)
    assert found
    assert not found.shown


@pytest.mark.parametrize(
    "answer",
    [
        *(
            "7.5 in",
            "24 at 7 1/2",
            "24 rows 7.5 in",
            "7 in rows",
            "66 ft in 10 turns",
            "6 1/2 ft in",
        ),
        *("10 turns in 66 ft", "60 to 80 lb", "80 lb to the acre", "10 turns = 66' 3\"", "in", ""),
        *("30 lb per ac", "2.1 full 1.4 empty", "wheat 80 lb 24 at 7 1/2", "what is 5 in", "\x00"),
    ],
)
def test_an_answer_is_no_wish(answer: str) -> None:
    assert converted(answer) is None
