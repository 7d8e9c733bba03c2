"""A book of a million cards answers like one of a thousand."""

from tests.book.growth import STEADY, growth

AS_GOOD_AS_ONE = 5  # a busy machine; a search that walked the book would be at hundreds


def test_a_million_cards_are_searched_like_a_thousand() -> None:
    measured = list(growth(few=1_000, many=1_000_000))
    for about, ratio, goal in measured:
        print(f"{about:30}{ratio:10.2f}  {goal}")
    assert [row for row in measured if row[2] == STEADY and row[1] > AS_GOOD_AS_ONE] == []
