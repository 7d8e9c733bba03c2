"""The catches at openings that are turned, with all that they are judged by."""

from dataclasses import dataclass

from assistant.calc.beliefs import Repeats, noise_of, told_by
from assistant.calc.catches import Scale, seed_caught
from assistant.calc.contract import Count, Length, Mass, Share, Together, Trial, Turns
from assistant.calc.deciding import Case, Marks, band
from assistant.calc.falling import Since, since_full


@dataclass(frozen=True, slots=True)
class Catches(Together):
    """All catches at openings that are turned, and what is the same for all of them.

    Weights in kg, lengths in m, the rest shares; `one_turn` and `one_mm` are 1, with their kinds.
    """

    trials: tuple[Trial, ...]
    tare: Mass
    catch_step: Mass
    target_catch: Mass
    turns: Turns
    tolerance: Share
    start_may_miss: Share
    chance_sure: Share
    opening_step: Length
    widest_opening: Length
    narrowest_opening: Length
    scatter_told: Share
    repeats_told: Count
    one_turn: Turns
    one_mm: Length

    @property
    def last(self) -> float:
        """The seed of the last catch (kg). Raises IndexError without one."""
        return seed_caught(self.trials[-1], Scale(self.tare, self.catch_step))

    @property
    def since_full(self) -> Since:
        """Those that brought seed since the box was filled last, in their order."""
        scale = Scale(self.tare, self.catch_step)
        told = told_by(self.trials, scale, self.target_catch, self.one_mm)
        return since_full(told, self.case)

    @property
    def case(self) -> Case:
        """What is wanted, the marks, and what is known of such catches beforehand."""
        lengths = (self.opening_step, self.narrowest_opening, self.widest_opening)
        return Case(
            band(float(self.tolerance), float(self.chance_sure)),
            Marks(*(float(each / self.one_mm) for each in lengths)),
            noise_of(self.turns, self.one_turn, self.catch_step, self.target_catch),
            float(self.start_may_miss),
            Repeats(float(self.scatter_told), float(self.repeats_told)),
        )
