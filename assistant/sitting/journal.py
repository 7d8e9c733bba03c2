"""Records of the dialogue as stored events, and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from assistant.dialogue.log import (
    Answered,
    Began,
    CardOffer,
    Changed,
    Entry,
    FlowChanged,
    GivenEarly,
    Offered,
    Record,
    Resumed,
    Struck,
    Told,
    UnitsSet,
    WentBack,
    WentStale,
)

KINDS: dict[str, type[Record]] = {
    "began": Began,
    "flow_changed": FlowChanged,
    "answered": Answered,
    "given_early": GivenEarly,
    "offered": Offered,
    "went_back": WentBack,
    "changed": Changed,
    "struck": Struck,
    "went_stale": WentStale,
    "resumed": Resumed,
    "units_set": UnitsSet,
}
NAMES = {kind: name for name, kind in KINDS.items()}

Body = Mapping[str, Any]  # what JSON holds


def stored(record: Record) -> tuple[str, dict[str, Any]]:
    """A record as the kind and the body of an event."""
    return NAMES[type(record)], asdict(record)


def record_of(kind: str, body: Body) -> Record:
    """The record of a stored event. Raises KeyError or TypeError for one that is not ours."""
    match kind:
        case "answered":
            return Answered(entries(body["entries"]))
        case "flow_changed":
            return FlowChanged(entries(body["gone"]))
        case "given_early":
            return GivenEarly(told(body["facts"]))
        case "offered":
            cards = tuple(
                CardOffer(each["id"], each["line"], told(each["facts"])) for each in body["cards"]
            )
            return Offered(body["place"], body["visit"], cards, tuple(body.get("match", ())))
        case "changed":
            reason = body.get("reason", "")
            return Changed(Entry(**body["entry"]), entries(body["fresh"]), reason)
        case "went_stale":
            return WentStale(entries(body["entries"]))
        case "struck":
            return Struck(entries(body["entries"]), body["reason"])
    return KINDS[kind](**body)


def entries(bodies: list[Body]) -> tuple[Entry, ...]:
    """Stored entries."""
    return tuple(Entry(**each) for each in bodies)


def told(bodies: list[Body]) -> tuple[Told, ...]:
    """Stored facts told early."""
    return tuple(Told(**each) for each in bodies)
