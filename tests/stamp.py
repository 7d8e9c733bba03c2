"""Judge the flow files and, when they are sound, write the hashes that ship with them.

Beside them stands what a start need not work out: what calculations set, and the usual prompts.

`python -m tests.stamp`, after every change in `flows/`.
"""

from __future__ import annotations

import sys

from assistant.calc.catalogue import CATALOGUE
from assistant.checking.judge import faults
from assistant.checking.report import usual_prompts
from assistant.checking.shipped import stamp
from assistant.flow.graph import facts_set
from assistant.flow.place import flows_folder


def main() -> int:
    """Write the hashes, or the faults."""
    folder = flows_folder()
    found = faults(folder)
    for fault in found:
        print(fault, file=sys.stderr)
    if not found:
        stamp(folder, facts_set(CATALOGUE), usual_prompts(folder))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
