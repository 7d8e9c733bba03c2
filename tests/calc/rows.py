"""Rows of trials for the tests: settings and seed, short to write."""

from dataclasses import replace

from assistant.calc.contract import Trial


def at_openings(*catches: tuple[float, float], drive_range: str | None = None) -> tuple[Trial, ...]:
    """Openings in mm with the seed caught at each (kg)."""
    return tuple(
        Trial(opening=mm / 1000, catch_weight=seed, drive_range=drive_range) for mm, seed in catches
    )


def at_marks(*catches: tuple[float, float], drive_range: str = "low") -> tuple[Trial, ...]:
    """Lever marks with the seed caught at each (kg)."""
    return tuple(
        Trial(lever_mark=mark, catch_weight=seed, drive_range=drive_range) for mark, seed in catches
    )


def with_tub(trials: tuple[Trial, ...], tub: float) -> tuple[Trial, ...]:
    """The same catches as the scale shows them with the tub (kg) on."""
    return tuple(
        replace(each, catch_weight=None, gross_weight=(each.catch_weight or 0) + tub)
        for each in trials
    )
