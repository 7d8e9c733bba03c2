"""Where the flows are found."""

from pathlib import Path

import pytest

from assistant.flow.place import flows_folder

ROOT = Path(__file__).resolve().parents[2]


def test_a_checkout_uses_its_own_flows() -> None:
    assert flows_folder() == ROOT / "flows"


def test_an_installed_package_uses_the_flows_inside_it_whoever_lives_beside_it(
    tmp_path: Path,
) -> None:
    package = tmp_path / "assistant"
    inside = package / "flows"
    inside.mkdir(parents=True)
    (tmp_path / "flows").mkdir()
    assert flows_folder(package) == inside


def test_no_flows_at_all_is_told_with_the_place(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="flows"):
        flows_folder(tmp_path / "assistant")
