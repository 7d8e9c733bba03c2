"""What comes into a sitting from outside."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any


def no_proof(_job: str) -> Mapping[str, Any]:
    """What is known of a job's check where none shipped."""
    return {}


@dataclass(frozen=True, slots=True)
class World:
    """What comes from outside: the clock, chance for ids, and how a job was checked as it shipped.

    `proof` gives nothing where the flow files are not those that shipped.
    """

    clock: Callable[[], datetime]
    chance: Callable[[int], bytes]
    proof: Callable[[str], Mapping[str, Any]] = no_proof

    def now(self) -> str:
        """This moment in UTC, to the second."""
        return self.clock().astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
