"""What a conversation knows, as data for scripts, cards and other programs."""

from __future__ import annotations

from typing import Any

from assistant.dialogue.job import Job, State
from assistant.dialogue.review import origin_words
from assistant.dialogue.situation import Known, never_asked
from assistant.dialogue.wording import shown, told_as
from assistant.quantities.kinds import KINDS

Data = dict[str, Any]  # an object of JSON


def facts_of(job: Job, state: State) -> Data:
    """Every fact that is known: value in SI, its unit, how it is shown, where it came from.

    One that was asked and is not known is there too; one that nobody was asked for is not.
    """
    return {
        name: fact_data(job, state, name, known)
        for name, known in state.situation.known.items()
        if name in job.graph.facts and not never_asked(known)
    }


def fact_data(job: Job, state: State, name: str, known: Known) -> Data:
    """One fact as data; a fact that is not known has a value of null."""
    fact = told_as(job, state.situation, name)
    origin = known.origin
    if known.inputs:
        origin = "worked_out_guess" if known.guess else "worked_out"
    data: Data = {
        "value": list(known.value) if isinstance(known.value, tuple) else known.value,
        "unit": KINDS[fact.kind].json_unit if fact.kind in KINDS else "",
        "shown": shown(job, state.log, state.situation, fact, known),
        "from": origin_words(job, origin),
    }
    if known.settled and known.value is not None:
        data["settled"] = known.settled
    if known.sure:
        data["unusual"] = True
    if known.guess:
        data["guess"] = True
    return data


def series_of(job: Job, state: State) -> dict[str, list[Data]]:
    """The rows of each series; a row has the same shape as `facts_of`."""
    return {
        name: [
            {
                job.graph.declared.get(member, member): fact_data(job, state, member, known)
                for member, known in row.items()
                if not job.fact(member).variants and not member.endswith("_kind")
            }
            for row in rows
        ]
        for name, rows in state.situation.rows.items()
    }


def judgement_of(state: State) -> str | None:
    """The last judgement, of the half that was caught last."""
    known = state.situation.known
    names = [n for n in known if n.rsplit(".")[-1] == "judgement"]
    return str(known[names[-1]].value) if names else None
