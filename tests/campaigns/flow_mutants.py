"""Mutants of the flow files, judged: `python -m tests.campaigns.flow_mutants [HOW_MANY]`.

Without a number, as many of each operator as the figures were made from. Writes the figures.
"""

from __future__ import annotations

import json
import random
import sys
import time
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import Any

from assistant.flow.graph import shape_of
from assistant.flow.place import flows_folder
from tests.campaigns.killers import SURVIVED, apart, jobs_by_file, killer, uses
from tests.campaigns.mutants import TEXTS, Mutant, mutants
from tests.stories.play import job_named, library

FIGURES = Path(__file__).with_name("flow_figures.json")
SURVIVORS: Mapping[str, str] = tomllib.loads(
    Path(__file__).with_name("flow_survivors.toml").read_text(encoding="utf-8")
)
"""Each mutant that is known to survive, with the reason why that does no harm."""

SEED, QUICK_SEED = 5, 3
EACH, TEXTS_EACH = 14, 6
"""How many mutants of each operator are tried; a text that is swapped is slow to judge."""

LEAST = 0.95
"""The share of mutants that must be killed; texts are counted apart."""


def sample(each: int, seed: int = SEED) -> list[Mutant]:
    """So many mutants of each operator, the same for the same seed."""
    chance = random.Random(seed)
    kinds: dict[str, list[Mutant]] = {}
    for mutant in mutants(flows_folder()):
        kinds.setdefault(mutant.operator, []).append(mutant)
    many = {operator: min(each, len(of)) for operator, of in kinds.items()}
    many[TEXTS] = min(each, TEXTS_EACH)
    return [m for operator, of in kinds.items() for m in chance.sample(of, many[operator])]


def judged(tried: Iterable[Mutant]) -> Iterator[tuple[Mutant, str]]:
    """Each mutant with what kills it."""
    jobs, used = apart(jobs_by_file), apart(uses)
    for mutant in tried:
        yield mutant, apart(partial(killer, mutant, jobs, used))


def quick() -> dict[str, str]:
    """One mutant of each operator but that of texts, by name, with what kills it."""
    tried = [m for m in sample(1, QUICK_SEED) if m.operator != TEXTS and m.name not in SURVIVORS]
    jobs = apart(jobs_by_file)
    return {m.name: apart(partial(killer, m, jobs, {})) for m in tried}


def share_killed(found: Mapping[str, str]) -> float:
    """The share of mutants that are killed, by their names."""
    return 1 - list(found.values()).count(SURVIVED) / len(found)


def figures(found: Mapping[Mutant, str], seconds: float) -> dict[str, Any]:
    """What the campaign measured: by operator, by who killed, and who survived."""
    rows = {}
    for operator in dict.fromkeys(mutant.operator for mutant in found):
        of = {mutant: by for mutant, by in found.items() if mutant.operator == operator}
        rows[operator] = {"tried": len(of)} | Counter(by.partition(":")[0] for by in of.values())
    plain = {m.name: by for m, by in found.items() if m.operator != TEXTS}
    return {
        "flows": {name: shape_of(job_named(name).graph) for name in library().jobs},
        "there": len(mutants(flows_folder())),
        "seed": SEED,
        "tried": len(plain),
        "killed": sum(by != SURVIVED for by in plain.values()),
        "texts_tried": len(found) - len(plain),
        "texts_killed": sum(by != SURVIVED for m, by in found.items() if m.operator == TEXTS),
        "by_operator": rows,
        "survived": sorted(m.name for m, by in found.items() if by == SURVIVED),
        "seconds": round(seconds),
    }


def main() -> None:
    """Judge a sample, tell each survivor, and write the figures."""
    each = int(sys.argv[1]) if len(sys.argv) > 1 else EACH
    began, found = time.monotonic(), {}
    for mutant, by in judged(sample(each)):
        found[mutant] = by
        print(f"{by:40} {mutant.name}", flush=True)
    told = figures(found, time.monotonic() - began)
    FIGURES.write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")
    print(json.dumps(told, indent=1))


if __name__ == "__main__":
    main()
