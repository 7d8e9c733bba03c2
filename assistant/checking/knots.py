"""The knots of a graph: places that all lead to one another. Each by itself where none does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

Place = TypeVar("Place")


def knots(onward: Mapping[Place, Iterable[Place]]) -> Iterator[list[Place]]:
    """The strongly connected parts of a graph, each after those that lead to it.

    Kosaraju's two passes, each by a loop of its own: a thousand steps would be too deep to recurse.
    """
    back, seen = turned_round(onward), set[Place]()
    for place in reversed(finished(onward)):
        if place not in seen:
            yield _all_from(place, back, seen)


def turned_round(onward: Mapping[Place, Iterable[Place]]) -> dict[Place, list[Place]]:
    """The same graph with every way the other way round: what leads to each place."""
    back: dict[Place, list[Place]] = {place: [] for place in onward}
    for place, found in onward.items():
        for to in found:
            back[to].append(place)
    return back


def finished(onward: Mapping[Place, Iterable[Place]]) -> list[Place]:
    """All places in the order in which a walk in depth is done with them."""
    done, seen = list[Place](), set[Place]()
    for first in onward:
        road = [] if first in seen else [(first, iter(onward[first]))]
        seen.add(first)
        while road:
            place, left = road[-1]
            to = next((each for each in left if each not in seen), None)
            if to is None:
                done.append(place)
                road.pop()
            else:
                seen.add(to)
                road.append((to, iter(onward[to])))
    return done


def _all_from(
    first: Place, onward: Mapping[Place, Iterable[Place]], seen: set[Place]
) -> list[Place]:
    """Everything not seen yet that is reached from a place; it is seen from then on."""
    found, front = list[Place](), [first]
    seen.add(first)
    while front:
        place = front.pop()
        found.append(place)
        new = [to for to in dict.fromkeys(onward[place]) if to not in seen]
        seen.update(new)
        front += new
    return found
