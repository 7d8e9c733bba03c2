"""The flows that ship, judged once for all tests of a worker."""

from __future__ import annotations

from functools import cache

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.check import Judged, judged
from assistant.flow.place import flows_folder


@cache
def judged_once() -> Judged:
    """The judgement of the flows that ship, with the roads of each job."""
    return judged(flows_folder(), CATALOGUE)
