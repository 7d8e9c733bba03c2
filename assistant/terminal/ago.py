"""How long ago something was, in words."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime

MINUTE, HOUR, DAY = 60, 3600, 86_400
JUST_NOW = 90  # seconds
STEPS = (("days", DAY), ("hours", HOUR), ("minutes", MINUTE))


def ago(words: Mapping[str, str], then: str, now: datetime) -> str:
    """The time between a moment (ISO 8601) and now, in whole days, hours or minutes."""
    moment = datetime.fromisoformat(then)
    moment = moment if moment.tzinfo else moment.replace(tzinfo=UTC)
    seconds = (now - moment).total_seconds()
    if seconds < JUST_NOW:
        return words["ago.now"]
    name, length = next((n, s) for n, s in STEPS if seconds >= s)
    count = int(seconds // length)
    return (
        words[f"ago.one_{name}"]
        if count == 1
        else words[f"ago.{name}"].replace("{count}", str(count))
    )
