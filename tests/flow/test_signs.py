"""Each sign of a fault leads to its own cause. Common practice, no source: set down by hand."""

from collections.abc import Mapping

import pytest

from tests.stories.play import library

CAUSES: Mapping[str, Mapping[str, str]] = {
    "sign_catches": {
        "The first is low, the next agree": "not full yet",
        "Each is lower than the one before": "runs low",
        "Each is higher than the one before": "packs down",
        "They swing, up and down": "turns lost",
        "In a mix, the small seed goes first": "the seeds sort",
    },
    "sign_rows": {
        "One row is much lighter": "a plugged cup",
        "One row is much heavier": "its gate is wider",
        "One half is lighter": "its own wheel or shaft",
        "Both ends are lighter": "not level",
        "Every other row is lighter": "front and back row",
    },
    "sign_feed": {
        "No seed comes": "drive out",
        "Seed falls while it stands still": "does not seat",
        "Seed comes out cracked": "too tight",
        "The lever moves by itself": "its lock is loose",
        "Not as last year at the same mark": "seed size",
    },
    "sign_air": {
        "Rows differ by more than 15 in 100": "splits unevenly",
        "Seed per turn is not steady": "bridges",
        "The motor hunts, or runs at its end": "another roller",
        "A new factor made it worse": "the other way",
        "The screen agrees, the tank does not": "a part of the feed",
    },
    "sign_stand": {
        "Yard right, field light": "may skid",
        "Yard right, field heavy": "passes overlap",
        "The rate drifts over the day": "damp seed",
        "Rate right, stand thin": "too deep",
        "Rate right, too many seeds": "smaller than told",
    },
    "sign_lie": {
        "Stripes, one each pass": "is plugged",
        "Bare or double rows between passes": "the marker",
        "Seed lies on the ground": "a boot is cracked",
        "Furrows are empty for a stretch": "the drive dropped out",
        "Depth differs across the drill": "worn openers",
    },
}


@pytest.mark.parametrize("sign", CAUSES)
def test_each_sign_leads_to_its_own_cause(sign: str) -> None:
    steps = {step.id: step for step in library().parts[f"signs_{sign.removeprefix('sign_')}"].steps}
    asked = steps["sign"].next
    assert isinstance(asked, Mapping)
    told = {
        choice.label: steps[asked[choice.name]].say
        for choice in library().facts[sign].choices
        if choice.name != "none"
    }
    assert told.keys() == CAUSES[sign].keys()
    assert {label for label, cause in CAUSES[sign].items() if cause not in told[label]} == set()
