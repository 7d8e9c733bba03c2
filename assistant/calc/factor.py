"""The factor of a powered meter, judged by what was weighed against what its screen showed.

More weighed than shown: the meter gives more than it was told. A factor that is weight a turn then
goes up; one that is pulses or turns a weight goes down. Weights in kg, rates kg/m2.
"""

from dataclasses import dataclass

from assistant.calc.catches import agree
from assistant.calc.contract import MassPerTurn, PulsesPerMass, Rate, Run, Share, TurnsPerMass
from assistant.calc.figures import at_most, mean


class PerTurn:
    """A factor in weight a turn. In kg a turn."""

    @dataclass(frozen=True, slots=True)
    class Up:
        """A turn brings more than it was told."""

        new_weight_per_turn: MassPerTurn

    @dataclass(frozen=True, slots=True)
    class Down:
        """A turn brings less."""

        new_weight_per_turn: MassPerTurn


class Pulses:
    """A factor in pulses a weight. In pulses a kg."""

    @dataclass(frozen=True, slots=True)
    class Up:
        """It takes more pulses to bring the weight."""

        new_pulses_per_weight: PulsesPerMass

    @dataclass(frozen=True, slots=True)
    class Down:
        """It takes fewer."""

        new_pulses_per_weight: PulsesPerMass


class Turns:
    """A factor in turns a weight. In turns a kg."""

    @dataclass(frozen=True, slots=True)
    class Up:
        """It takes more turns to bring the weight."""

        new_turns_per_weight: TurnsPerMass

    @dataclass(frozen=True, slots=True)
    class Down:
        """It takes fewer."""

        new_turns_per_weight: TurnsPerMass


@dataclass(frozen=True, slots=True)
class OnTarget:
    """One run, and screen and scale agree. What the drill will drop, and how far off, in all."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Proven:
    """Runs that agree, and by their mean the factor that is set is right."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Over:
    """More was weighed than shown."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Under:
    """Less was weighed than shown."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class WentAway:
    """The factor was moved, and the way that it went made the miss grow. `first_off` is before."""

    caught_rate: Rate
    percent_off: Share
    first_off: Share


@dataclass(frozen=True, slots=True)
class OtherWay:
    """The factor was moved as it should, and the miss grew as if it counted the other way."""

    caught_rate: Rate
    percent_off: Share
    first_off: Share


@dataclass(frozen=True, slots=True)
class NotTaken:
    """The factor was moved, and the miss is the same: the meter still goes by the old one."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class Spread:
    """Runs that do not agree."""

    caught_rate: Rate
    percent_off: Share


@dataclass(frozen=True, slots=True)
class NothingCame:
    """No seed was weighed."""


def judge_run(
    *, runs: tuple[Run, ...], bulk_rate: Rate, repeat_tolerance: Share
) -> OnTarget | Proven | Over | Under | WentAway | OtherWay | NotTaken | Spread | NothingCame:
    """What the last run means, with those before it. Raises IndexError without a run.

    Screen and factor tell how much the meter turned; so each run tells what a turn or a pulse
    really brings, whatever factor was set. Two runs agree if that differs by no more than
    `repeat_tolerance`. Those that agree with the last are judged by their mean: `proven`, `over` or
    `under`, or `went_away` if the factor was moved before the last and the miss grew. If none
    agrees: `other_way` if they would with a factor that counts the other way, `not_taken` if the
    factor was moved and the miss stayed, `on_target` if the last alone is near, else `spread`.
    Source: the units alone; that catches must agree, common practice, no source.
    """
    *earlier, last = runs
    if last.weighed <= 0:
        return NothingCame()
    before = [run for run in earlier if run.weighed > 0]
    agreed = [run for run in before if agree(_brought(run), _brought(last), repeat_tolerance)]
    off = mean([_brought(run) for run in (*agreed, last)]) / _told(last) - 1
    rate = bulk_rate * (1 + off)
    near = at_most(abs(off), repeat_tolerance)
    if agreed and near:
        return Proven(rate, off)
    if before and not agree(_told(before[-1]), _told(last), repeat_tolerance):
        first_off = _off(before[-1])
        grew = off * first_off > 0 and abs(off) > abs(first_off)
        if agreed and grew:
            return WentAway(rate, off, first_off)
        if not agreed and grew and _counts_otherwise(before[-1], last, repeat_tolerance):
            return OtherWay(rate, off, first_off)
        if not agreed and agree(1 + first_off, 1 + off, repeat_tolerance):
            return NotTaken(rate, off)
    if near:
        return OnTarget(rate, off)
    if before and not agreed:
        return Spread(rate, off)
    return Over(rate, off) if off > 0 else Under(rate, off)


def _off(run: Run) -> float:
    """How much more was weighed than shown, as a share of what was shown."""
    return run.weighed / run.shown - 1


def _set(run: Run) -> tuple[float, bool]:
    """The factor that was set, and whether it is a weight. Raises ValueError for a run of none."""
    if run.set_weight_per_turn is not None:
        return run.set_weight_per_turn, True
    counts = (run.set_pulses_per_weight, run.set_turns_per_weight)
    told = next((each for each in counts if each is not None), None)
    if told is None:
        raise ValueError(run)
    return told, False


def _told(run: Run) -> float:
    """What a turn or a pulse brings by the factor, in kg."""
    told, is_weight = _set(run)
    return told if is_weight else 1 / told


def _brought(run: Run) -> float:
    """What a turn or a pulse really brought: weighed over the turns or pulses made, in kg."""
    return _told(run) * run.weighed / run.shown


def _counts_otherwise(one: Run, other: Run, repeat_tolerance: float) -> bool:
    """Whether two runs agree if a factor told as a weight is a count, or one told as a count not.

    A meter that was told to turn more for each pound then gave more, and not less.
    """

    def brought(run: Run) -> float:
        told, is_weight = _set(run)
        ratio = run.weighed / run.shown
        return ratio / told if is_weight else ratio * told

    return agree(brought(one), brought(other), repeat_tolerance)


def correct_weight_per_turn(
    *, set_weight_per_turn: MassPerTurn, percent_off: Share
) -> PerTurn.Up | PerTurn.Down:
    """A factor in weight a turn, put right: set x weighed / shown.

    Source: what the factor means; direction, common practice, no source.
    """
    way = PerTurn.Up if percent_off > 0 else PerTurn.Down
    return way(set_weight_per_turn * (1 + percent_off))


def correct_pulses(
    *, set_pulses_per_weight: PulsesPerMass, percent_off: Share
) -> Pulses.Up | Pulses.Down:
    """A factor in pulses a weight, put right: set x shown / weighed.

    Source: as `correct_weight_per_turn`.
    """
    way = Pulses.Down if percent_off > 0 else Pulses.Up
    return way(set_pulses_per_weight / (1 + percent_off))


def correct_turns(
    *, set_turns_per_weight: TurnsPerMass, percent_off: Share
) -> Turns.Up | Turns.Down:
    """A factor in turns a weight, put right: set x shown / weighed.

    Source: as `correct_weight_per_turn`.
    """
    way = Turns.Down if percent_off > 0 else Turns.Up
    return way(set_turns_per_weight / (1 + percent_off))
