"""What holds for every test: marks, and chance that does not depend on a busy machine.

The marks are declared in pyproject.toml; here they are put where a folder or a system decides.
"""

import importlib.util
import random
from pathlib import Path

import pytest
from hypothesis import settings

CAMPAIGNS = Path(__file__).parent / "campaigns"
NO_TERMINAL = pytest.mark.skipif(
    importlib.util.find_spec("pty") is None, reason="this system has no pseudo-terminals"
)

LONGEST = (
    "checking/test_planted.py",
    "house/test_recipes.py",
    "understanding/test_lines.py",
    "answers/test_properties.py",
    "sitting/test_proving.py",
    "histories/test_model.py",
    "histories/test_hazards.py",
    "checking/test_report.py",
    "checking/test_shipped.py",
    "book/test_keeping_killed.py",
    "house/test_packaging.py",
    "terminal/test_two_windows.py",
    "terminal/test_exchange.py",
    "dialogue/test_returning.py",
)
"""Few tests that take long: they begin first, or one worker would have them alone at the end."""

TELLING = ("played", "all_heard")
"""What a test file has by name if it looks at stories that are played once."""

# A test machine that is shared is slow now and then; the time of one example proves nothing.
settings.register_profile("steady", deadline=None)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    """An order that no test may lean on."""
    parser.addoption("--shuffle", type=int, metavar="SEED", help="run in a random order")


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Everything in `tests/campaigns` is a campaign; terminal tests need pseudo-terminals.

    Files that look at stories stay with one worker, which plays each story once for all of them;
    any other file stays with one worker by itself.
    """
    if config.getoption("--shuffle") is not None:
        random.Random(config.getoption("--shuffle")).shuffle(items)
    else:
        items.sort(key=lambda item: not str(item.path).endswith(LONGEST))
    for item in items:
        told = any(name in vars(item.module) for name in TELLING)  # type: ignore[attr-defined]  # of a function in a module
        item.add_marker(
            pytest.mark.xdist_group(
                "stories" if told else f"{item.path.parent.name}-{item.path.stem}"
            )
        )
        if item.path.is_relative_to(CAMPAIGNS):
            item.add_marker("campaign")
        if item.get_closest_marker("terminal"):
            item.add_marker(NO_TERMINAL)
