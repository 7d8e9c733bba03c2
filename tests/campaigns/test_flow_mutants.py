"""A sample of the mutants of the flow files: nearly all are found out, the others have a reason."""

from tests.campaigns.flow_mutants import EACH, LEAST, SURVIVORS, judged, sample, share_killed
from tests.campaigns.killers import SURVIVED
from tests.campaigns.mutants import TEXTS


def test_nearly_every_mutant_of_the_flows_is_found_out() -> None:
    found = dict(judged(sample(EACH)))
    plain = {mutant.name: by for mutant, by in found.items() if mutant.operator != TEXTS}
    assert share_killed(plain) >= LEAST
    assert {name for name, by in plain.items() if by == SURVIVED} <= set(SURVIVORS)
