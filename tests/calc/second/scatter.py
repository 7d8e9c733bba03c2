"""The scatter of a drill once more."""

from assistant.calc import assumed
from tests.calc.second.exact import Exact, Given


def scatter_by_card(of: Given) -> Exact:
    repeats = min(of["last_repeats"], assumed.MOST_REPEATS)
    return {"scatter_told": of["last_scatter"], "repeats_told": repeats}
