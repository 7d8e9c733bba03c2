"""Numbers at the ends of their ranges fare as they were agreed to, question by question."""

from dataclasses import replace

from assistant.flow.load import load
from assistant.flow.model import Library, Span
from assistant.flow.place import flows_folder
from tests.bad_input.edges import faults

LIBRARY = load(flows_folder())


def test_each_end_is_taken_and_what_lies_beyond_is_not_and_units_are_as_agreed() -> None:
    assert faults(LIBRARY) == []


def with_span(name: str, key: str, *ends: str) -> Library:
    """The flows with one range moved."""
    fact, span = LIBRARY.facts[name], Span(*ends)
    fact = replace(fact, possible=span) if key == "possible" else replace(fact, usual=span)
    return replace(LIBRARY, facts={**LIBRARY.facts, name: fact})


def test_a_range_that_moved_by_one_step_is_found() -> None:
    assert faults(with_span("row_count", "possible", "1", "401")) == ["possible row_count 401"]
    assert faults(with_span("row_count", "usual", "5", "120")) == ["usual row_count 4"]
    assert faults(with_span("purity", "possible", "2 %", "100 %")) == ["possible purity 1 %"]


def test_a_limit_that_moved_is_found() -> None:
    moved = replace(LIBRARY.facts["tolerance"], stands_at="6 %")
    assert faults(replace(LIBRARY, facts={**LIBRARY.facts, "tolerance": moved})) == [
        "tolerance stands at 6 %"
    ]


def test_another_unit_is_found() -> None:
    spacing = LIBRARY.facts["row_spacing"]
    other = {**LIBRARY.facts, "row_spacing": replace(spacing, metric="mm", bare=("in", "mm"))}
    found = faults(replace(LIBRARY, facts=other))
    assert "row_spacing is shown as ('39.4 in', '1000 mm')" in found
    assert "row_spacing alone is ['in', 'mm']" in found
