"""Two bushels once more: the weights of one square metre's bushels, set side by side."""

from tests.calc.second.exact import Exact, Given, not_over


def compare_bushels(of: Given) -> Exact:
    own, trade = (of["target_bushels"] * of[each] for each in ("test_weight", "trade_bushel"))
    apart = abs(own - trade)
    return {
        "outcome": "same" if not_over(apart, trade * of["bushel_agreement"]) else "different",
        "rate_by_test_weight": own,
        "rate_by_trade_bushel": trade,
    }
