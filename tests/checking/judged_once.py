"""The flows that ship, judged once for all tests of a worker."""

from __future__ import annotations

from functools import cache

from assistant.checking.check import Judged
from assistant.checking.judge import lines_for, whole
from assistant.flow.place import flows_folder


@cache
def judged_once() -> Judged:
    """The judgement of the flows that ship, with the roads of each job."""
    found = whole(flows_folder())
    assert isinstance(found, Judged), lines_for(found)
    return found
