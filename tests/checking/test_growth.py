"""The made flows that the cost of the check is measured on are sound in every shape."""

import pytest

from tests.checking.growth import Shape, asked, branched, in_parts, told, with_made


@pytest.mark.parametrize("shape", [told, asked, branched, in_parts])
def test_made_flows_of_each_shape_are_sound(shape: Shape) -> None:
    assert with_made(shape, 10) > 0  # it fails where the check finds anything
