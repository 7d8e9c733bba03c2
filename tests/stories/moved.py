"""The stories whose results move from one folder of flow files to another, with both numbers.

`python -m tests.stories.moved OLD [NEW]`: NEW is the flows of this checkout where it is left out.
`drillside flows diff OLD NEW` tells what was changed; this tells what comes of it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from unittest.mock import patch

from assistant.flow.place import flows_folder
from assistant.sitting.saying import SHORT
from assistant.sitting.values import facts_of
from tests.stories import play
from tests.stories.story import Story, stories

Results = Mapping[str, str]


def results(folder: Path, told: list[Story]) -> dict[str, Results]:
    """What is known at the end of each story, as it is shown, played with the flows of a folder."""
    kept = (play.library, play.job_named, play.played)
    for each in kept:
        each.cache_clear()
    try:
        with patch.object(play, "flows_folder", lambda: folder):
            return {story.name: _known(play.play(story, say=SHORT)) for story in told}
    finally:
        for each in kept:
            each.cache_clear()


def _known(told: play.Played) -> Results:
    facts = facts_of(told.sitting.job, told.sitting.state)
    ended = told.sitting.finish
    outcome = {"(how it ended)": ended.outcome if ended else "open"}
    return outcome | {name: str(fact.get("shown", "")) for name, fact in facts.items()}


def moved(before: Mapping[str, Results], now: Mapping[str, Results]) -> Iterator[str]:
    """Each story with what moved in it, a line each: the fact, and both its values."""
    for name, old in before.items():
        new = now[name]
        lines = [
            f"  {fact}: from {old.get(fact, 'not there')} to {new.get(fact, 'not there')}"
            for fact in dict.fromkeys((*old, *new))
            if old.get(fact) != new.get(fact)
        ]
        if lines:
            yield "\n".join([name, *lines])


def main(folders: list[str]) -> None:
    """Tell the stories that moved."""
    old, new = [*map(Path, folders), flows_folder()][:2]
    told = list(stories())
    lines = list(moved(results(old, told), results(new, told)))
    print(*lines, f"{len(lines)} of {len(told)} stories moved.", sep="\n")


if __name__ == "__main__":
    main(sys.argv[1:])
