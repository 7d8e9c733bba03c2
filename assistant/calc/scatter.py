"""How the catches of one drill scatter: kept on its card, and used the next time."""

from dataclasses import dataclass

from assistant.calc.assumed import MOST_REPEATS, SCATTER_STEP
from assistant.calc.contract import Count, Share
from assistant.calc.deciding import heard
from assistant.calc.figures import at_least, root, spread, to_step
from assistant.calc.turned_catches import Catches


class DrillScatter:
    """By how much the catches of a drill scatter at one setting."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """A standard deviation, as a share of the catch, and how many repeats it rests on."""

        drill_scatter: Share
        drill_repeats: Count

    @dataclass(frozen=True, slots=True)
    class Once:
        """No catch was made twice at one setting, now or before."""


class ScatterByCard:
    """What the card of a drill tells of its catches."""

    @dataclass(frozen=True, slots=True)
    class Worked:
        """As there."""

        scatter_told: Share
        repeats_told: Count


def drill_scatter(*, catches: Catches) -> DrillScatter.Worked | DrillScatter.Once:
    """The scatter of the catches at the last setting, with what was told of earlier ones.

    Catches that were put aside don't count. In whole tenths of a hundredth. Source: pooled
    variance, NIST/SEMATECH e-Handbook of Statistical Methods, 7.3.1.1, from memory.
    """
    stay = [each.caught for each in heard(catches.since_full.told, catches.case).stay]
    again = len(stay) - 1
    repeats = catches.repeats_told + again
    if not at_least(repeats, 1):
        return DrillScatter.Once()
    now = again * spread(stay) ** 2 if again else 0
    before = catches.repeats_told * catches.scatter_told**2
    return DrillScatter.Worked(to_step(root((before + now) / repeats), SCATTER_STEP), repeats)


def scatter_by_card(*, last_scatter: Share, last_repeats: Count) -> ScatterByCard.Worked:
    """What an earlier card counts for: as it stands, but for no more repeats than a few.

    A drill wears and seed differs. Common practice, no source.
    """
    return ScatterByCard.Worked(last_scatter, min(last_repeats, MOST_REPEATS))
