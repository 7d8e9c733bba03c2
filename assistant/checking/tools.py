"""What is to be brought is named as words.toml names it, and nothing stands there in vain."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.checking.flows import Flows, near
from assistant.flow.tools import known_tools
from assistant.flowfile.findings import Finding


def tool_faults(flows: Flows) -> Iterator[Finding]:
    """Tools that words.toml does not name, and names of tools that nothing brings."""
    known, brought = known_tools(flows.library.words), set[str]()
    for name, fact in flows.library.facts.items():
        brought |= set(fact.bring)
        for tool in sorted(set(fact.bring) - set(known)):
            yield flows.in_fact("unknown_tool", name, "bring", tool=tool, near=near(tool, known))
    for name, caution in flows.library.cautions.items():
        brought |= set(caution.bring)
        for tool in sorted(set(caution.bring) - set(known)):
            about = {"tool": tool, "near": near(tool, known)}
            yield flows.in_file("unknown_tool", ("cautions.toml", name, "bring"), name, **about)
    for tool in known:
        if tool not in brought:
            yield flows.in_file("unused_tool", ("words.toml", "tools", tool), tool=tool)
