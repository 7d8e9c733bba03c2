"""How long ago, in words."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from assistant.terminal.ago import ago
from tests.terminal.small import library

NOW = datetime(2026, 4, 14, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("before", "words"),
    [
        (timedelta(seconds=-5), "just now"),
        (timedelta(seconds=89), "just now"),
        (timedelta(seconds=90), "a minute ago"),
        (timedelta(minutes=59), "59 minutes ago"),
        (timedelta(hours=1), "an hour ago"),
        (timedelta(hours=23, minutes=59), "23 hours ago"),
        (timedelta(days=1), "a day ago"),
        (timedelta(days=40), "40 days ago"),
    ],
)
def test_the_time_since_is_told_in_whole_steps(before: timedelta, words: str) -> None:
    assert ago(library().words, (NOW - before).isoformat(), NOW) == words


def test_a_moment_without_a_zone_is_in_utc() -> None:
    assert ago(library().words, "2026-04-14T11:00:00", NOW) == "an hour ago"
