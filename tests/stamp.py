"""Judge the flow files and, when they are sound, write the hashes that ship with them.

Beside them stands what a start need not work out: what calculations set, what the check found of
each job; and how many mutants the last campaign tried and killed.

`python -m tests.stamp`, after every change in `flows/`.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.judge import lines_for, whole
from assistant.checking.report import proven, report
from assistant.checking.shipped import stamp
from assistant.flow.graph import facts_set
from assistant.flow.load import load
from assistant.flow.place import flows_folder

FIGURES = Path(__file__).parent / "campaigns" / "flow_figures.json"


def mutants() -> dict[str, Any]:
    """The mutants tried and killed, and the flows they changed, as the campaign wrote them."""
    figures = json.loads(FIGURES.read_text(encoding="utf-8"))
    return {key: figures[key] for key in ("tried", "killed", "flows")}


def main() -> int:
    """Write the hashes and say so, or the faults: both in the words of `drillside flows check`."""
    folder = flows_folder()
    found = whole(folder)
    if isinstance(found, list):
        for fault in lines_for(found):
            print(fault, file=sys.stderr)
        return 1
    stamp(folder, facts_set(CATALOGUE), proven(report(found)), mutants())
    print(load(folder).words["cli.sound"])
    return 0


if __name__ == "__main__":
    sys.exit(main())
