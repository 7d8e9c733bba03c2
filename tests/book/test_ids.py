"""Ids sort by time, hold chance, and forgive how they are typed."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.book.ids import EPOCH, LENGTH, SIGNS, as_typed, milliseconds, new_id, span

TIMES = st.datetimes(
    min_value=datetime(1970, 1, 1),  # noqa: DTZ001  hypothesis adds the zone
    timezones=st.just(UTC),
)
CHANCE = st.binary(min_size=7, max_size=7)


def test_an_id_is_time_then_chance() -> None:
    assert new_id(EPOCH, bytes(7)) == "0" * 20
    assert new_id(EPOCH, b"\xff" * 7) == "0" * 9 + "3" + "z" * 10
    assert new_id(EPOCH + timedelta(milliseconds=1), bytes(7)) == "0" * 9 + "4" + "0" * 10
    assert new_id(EPOCH + timedelta(milliseconds=8), bytes(7)) == "0" * 8 + "10" + "0" * 10


@given(TIMES, CHANCE, TIMES, CHANCE)
def test_ids_sort_by_the_time_they_were_made(
    first: datetime, chance: bytes, second: datetime, other: bytes
) -> None:
    one, two = new_id(first, chance), new_id(second, other)
    earlier = (first - EPOCH) // timedelta(milliseconds=1)
    later = (second - EPOCH) // timedelta(milliseconds=1)
    if earlier != later:
        assert (one < two) is (earlier < later)
    assert len(one) == LENGTH
    assert set(one) <= set(SIGNS)


@given(TIMES, CHANCE)
def test_an_id_read_aloud_and_typed_again_is_the_same(now: datetime, chance: bytes) -> None:
    made = new_id(now, chance)
    heard = made.upper().replace("0", "O").replace("1", "l")
    assert as_typed(f" {heard[:5]}-{heard[5:]} ") == made


@pytest.mark.parametrize(
    ("now", "chance"),
    [(EPOCH, b"short"), (EPOCH - timedelta(days=1), bytes(7)), (EPOCH, b"")],
)
def test_too_little_chance_or_a_time_before_1970_is_refused(now: datetime, chance: bytes) -> None:
    with pytest.raises(ValueError, match="datetime"):
        new_id(now, chance)


@pytest.mark.parametrize("text", ["abc", "", "ab-c", "abcu", "ab%c", "été1"])
def test_what_is_too_short_or_no_id_spans_nothing(text: str) -> None:
    assert span(text) is None


@given(TIMES, CHANCE, st.integers(min_value=4, max_value=20))
def test_the_beginning_of_an_id_spans_it(now: datetime, chance: bytes, signs: int) -> None:
    made = new_id(now, chance)
    ends = span(made[:signs])
    assert ends is not None
    assert ends[0] <= made < ends[1]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1970-01-01T00:00:00Z", 0),
        ("1970-01-02", 86_400_000),
        ("1970-01-01T01:00:00.0019+01:00", 1),
        ("1969-12-31T23:59:59.999", -1),
    ],
)
def test_a_moment_is_milliseconds_from_1970_in_utc(text: str, expected: int) -> None:
    assert milliseconds(text) == expected


@given(
    st.datetimes(
        timezones=st.builds(timezone, st.timedeltas(timedelta(hours=-23), timedelta(hours=23)))
    )
)
def test_a_moment_in_any_zone_is_the_same_moment(moment: datetime) -> None:
    assert milliseconds(moment.isoformat()) == (moment - EPOCH) // timedelta(milliseconds=1)


@pytest.mark.parametrize("text", ["", "today", "2031-13-01"])
def test_a_text_that_is_no_moment_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"isoformat|month"):
        milliseconds(text)
