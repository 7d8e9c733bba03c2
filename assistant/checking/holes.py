"""Names in braces stand only where something fills them."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.checking.flows import Flows
from assistant.checking.names import declared
from assistant.checking.said import said_in
from assistant.dialogue.wording import HOLE
from assistant.flowfile.findings import Finding

BY_CODE = ("questions/", "words.toml", "findings.toml", "card.toml")
"""Where the code fills them, or the names are judged by `names`."""
IN_FLOWS = {"say", "brief", "question"}
"""The texts of a step that are filled with facts."""


def hole_faults(flows: Flows) -> Iterator[Finding]:
    """Names in braces that nothing fills; of a fact's texts only its question is filled."""
    for each in said_in(flows.folder):
        file, key = str(each.where[0]), str(each.where[-1])
        if file.startswith(BY_CODE) or (file.startswith(("jobs/", "parts/")) and key in IN_FLOWS):
            continue
        for name in sorted(set(HOLE.findall(each.text))):
            if key == "ask":
                yield from declared(flows, each.where, each.name, name)
            else:
                yield flows.in_file("hole_not_filled", each.where, each.name, hole=name)
