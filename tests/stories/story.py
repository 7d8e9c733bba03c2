"""A story file: why it exists, what is typed, and what must come of it.

# Fluted drill, told in pounds
job: recheck                 the job (left out: calibrate)
after: first_spring          the book of another story (left out: an empty book)
like: fluted_pounds 9        its first nine lines come first, so that a story tells its own alone
> 24 at 7 1/2                one typed line; ">" alone is Enter
say: short                   how much is said (left out: normal)
! closed                     the window is killed here, and the job resumed
! corrected                  the finished job is opened again, at its review
finish: proven               the outcome, or "open" for a conversation left before its end
prompts: 22                  what waited for Enter, this story's own number
hand: target_catch = 0.62 lb   worked out by hand; holds within half of the last digit
edge: catch/trials/judge light   a branch that this story must walk
says: One catch, not proven      words that must have been on the screen
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent


@dataclass(frozen=True)
class Story:
    """One story as it is written."""

    name: str
    title: str
    job: str = "calibrate"
    after: str = ""
    units: str = "us"
    say: str = "normal"
    moves: tuple[tuple[str, str], ...] = ()
    finish: str = ""
    prompts: int = 0
    hand: tuple[tuple[str, str], ...] = ()
    edges: tuple[tuple[str, str], ...] = ()
    says: tuple[str, ...] = ()
    snapshot: bool = False
    demo: bool = False


@dataclass
class _Draft:
    path: Path
    values: dict[str, str] = field(default_factory=dict)
    moves: list[tuple[str, str]] = field(default_factory=list)
    lists: dict[str, list[str]] = field(default_factory=dict)


def read_story(path: Path) -> Story:
    """One story file. Raises ValueError for a line that means nothing."""
    title, *lines = path.read_text(encoding="utf-8").splitlines()
    draft = _Draft(path)
    for line in lines:
        _take(draft, line)
    lists, values = draft.lists, draft.values
    return Story(
        name=path.stem,
        title=title.removeprefix("# "),
        job=values.get("job", "calibrate"),
        after=values.get("after", ""),
        units=values.get("units", "us"),
        say=values.get("say", "normal"),
        moves=tuple(draft.moves),
        finish=values["finish"],
        prompts=int(values.get("prompts", "0")),
        hand=tuple(_pair(each, " = ") for each in lists.get("hand", ())),
        edges=tuple(_pair(each, " ") for each in lists.get("edge", ())),
        says=tuple(lists.get("says", ())),
        snapshot=values.get("snapshot") == "yes",
        demo=values.get("demo") == "yes",
    )


def _take(draft: _Draft, line: str) -> None:
    if line.startswith((">", "!")):
        draft.moves.append((line[0], line[1:].removeprefix(" ")))
        return
    if not line.strip() or line.startswith("#"):
        return
    name, colon, value = line.partition(": ")
    if not colon:
        raise ValueError(draft.path.name, line)
    if name == "like":
        other, _, count = value.partition(" ")
        draft.moves += read_story(draft.path.with_stem(other)).moves[: int(count)]
    elif name in {"hand", "edge", "says"}:
        draft.lists.setdefault(name, []).append(value)
    else:
        draft.values[name] = value


def _pair(text: str, mark: str) -> tuple[str, str]:
    left, _, right = text.partition(mark)
    return left.strip(), right.strip()


def stories() -> Iterator[Story]:
    """Every story, by name."""
    for path in sorted(FOLDER.glob("*.txt")):
        yield read_story(path)


def sampled(told: Sequence[Story], every: int) -> list[object]:
    """Stories for a slow test: those that a snapshot keeps, and of so many others one.

    The rest are run with the campaigns.
    """
    kept = {story.name for story in told[::every]} | {s.name for s in told if s.snapshot}
    marks = {True: [], False: [pytest.mark.campaign]}
    return [pytest.param(story, id=story.name, marks=marks[story.name in kept]) for story in told]
