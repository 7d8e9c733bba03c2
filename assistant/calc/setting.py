"""What is set on a drill, and the setting that the card keeps."""

from dataclasses import dataclass

from assistant.calc.contract import Choice, Length, Mark, Trial

OPENED = ("fluted", "small_seed")
"""The choices of `feed` that are set by an opening. The others have a lever and a drive range."""


class WhatIsSet:
    """What sets the rate of a feed."""

    @dataclass(frozen=True, slots=True)
    class ByOpening:
        """How much of a roller is open: a length with a true zero."""

    @dataclass(frozen=True, slots=True)
    class ByMark:
        """A mark on a lever, in a drive range."""


def what_is_set(*, feed: Choice) -> WhatIsSet.ByOpening | WhatIsSet.ByMark:
    """What sets the rate of a feed, by the choice of `feed`. Common practice, no source."""
    return WhatIsSet.ByOpening() if feed in OPENED else WhatIsSet.ByMark()


@dataclass(frozen=True, slots=True)
class ByOpening:
    """The setting is an opening, in metres."""

    final_opening: Length


@dataclass(frozen=True, slots=True)
class ByMark:
    """The setting is a lever mark, in a drive range."""

    final_lever_mark: Mark
    final_range: Choice


def final_setting(*, trials: tuple[Trial, ...]) -> ByOpening | ByMark:
    """The setting of the last catch: what was set, not what was proposed.

    Raises ValueError when it has neither an opening (m) nor a mark with its drive range, IndexError
    without a trial.
    """
    last = trials[-1]
    if last.opening is not None:
        return ByOpening(last.opening)
    if last.lever_mark is None or last.drive_range is None:
        raise ValueError(last)
    return ByMark(last.lever_mark, last.drive_range)
