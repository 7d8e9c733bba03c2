"""How a card ended, as people are told."""

from __future__ import annotations

from collections.abc import Container

WORKED_OUT, WORKED_OUT_RATE = "worked_out", "expected_rate"
"""How a card ends whose setting was not caught at, and the fact that tells it."""


def ending(outcome: str, facts: Container[str]) -> str:
    """Its outcome, or that its setting was worked out and not caught."""
    return WORKED_OUT if WORKED_OUT_RATE in facts else outcome
