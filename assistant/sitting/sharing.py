"""How a change is shared out among the inputs that changed.

Each input gets what it adds when the inputs are taken from the new side one by one, as the mean
over every order in which that can be done: Shapley 1953, "A value for n-person games", from memory.
So the shares add up to the whole change, no order is preferred, and what changes nothing gets
nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations
from math import factorial

Worth = Callable[[frozenset[str]], float]
"""The result when these inputs are taken from the new side and all others from the old."""


def shares(inputs: Sequence[str], worth: Worth) -> dict[str, float]:
    """The share of each input in `worth(all) - worth(none)`, in the unit of `worth`.

    `worth` is called once for each set of inputs, which doubles with every input.
    """
    worths = {taken: worth(taken) for taken in sets_of(inputs)}
    weights = {taken: weight(len(taken), len(inputs)) for taken in worths}
    return {
        each: sum(
            weights[taken] * (worths[taken | {each}] - worths[taken])
            for taken in worths
            if each not in taken
        )
        for each in inputs
    }


def sets_of(inputs: Sequence[str]) -> list[frozenset[str]]:
    """Every set of the inputs, the empty one first."""
    sizes = range(len(inputs) + 1)
    return [frozenset(taken) for size in sizes for taken in combinations(inputs, size)]


def weight(before: int, count: int) -> float:
    """In what part of all orders of `count` inputs just a given set of `before` comes before one.

    `before` is 0 to `count`; with all of them there is nothing left to come, and the part is 0.
    """
    after = count - before - 1
    return factorial(before) * factorial(after) / factorial(count) if after >= 0 else 0.0
