"""The seed in each catch, and which catches belong to one setting, once more."""

from collections.abc import Sequence
from fractions import Fraction

from assistant.calc.contract import Trial
from tests.calc.second.exact import Given, not_over, same


def seed_of(trial: Trial, of: Given) -> Fraction:
    """The seed (kg) in a catch. Raises ValueError where nothing was weighed or counted."""
    if trial.seeds_caught is not None:
        return Fraction(sum(trial.seeds_caught)) * Fraction(of["catch_step"])
    if trial.row_weights is not None:
        return Fraction(sum(trial.row_weights))
    if trial.gross_weight is not None:
        return Fraction(trial.gross_weight) - Fraction(of["tare"])
    if trial.catch_weight is not None:
        return Fraction(trial.catch_weight)
    raise ValueError(trial)


def alike(one: Trial, other: Trial) -> bool:
    """Whether nothing was set differently between two catches."""
    pairs = [
        (getattr(one, each), getattr(other, each)) for each in ("opening", "lever_mark", "teeth")
    ]
    return one.drive_range == other.drive_range and all(
        a is b if a is None or b is None else same(a, b) for a, b in pairs
    )


def this_stay(of: Given) -> list[Fraction]:
    """The seed of each catch since the setting was last moved, or since nothing came.

    Raises IndexError without a catch.
    """
    last = of["trials"][-1]
    found: list[Fraction] = []
    for trial in reversed(of["trials"]):
        seed = seed_of(trial, of)
        if not alike(trial, last) or seed <= 0:
            break
        found.insert(0, seed)
    return found


def agree(one: Fraction, other: Fraction, of: Given) -> bool:
    """Whether two amounts differ by no more than the repeat tolerance of their mean."""
    return not_over(abs(one - other), of["repeat_tolerance"] * (one + other) / 2)


def with_last(amounts: Sequence[Fraction], of: Given) -> list[Fraction]:
    """Those that agree with the last, and the last."""
    return [each for each in amounts[:-1] if agree(each, amounts[-1], of)] + [amounts[-1]]


def mean(amounts: Sequence[Fraction]) -> Fraction:
    """What each would be if all were the same."""
    return sum(amounts, Fraction(0)) / len(amounts)


def side(amount: Fraction, wanted: Fraction, tolerance: Fraction) -> str:
    """`light`, `near` or `heavy`."""
    if not_over(abs(amount - wanted), wanted * tolerance):
        return "near"
    return "light" if amount < wanted else "heavy"
