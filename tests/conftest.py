"""What holds for every test: marks, and chance that does not depend on a busy machine.

The marks are declared in pyproject.toml; here they are put where a folder or a system decides.
"""

import importlib.util
import random
import re
from functools import cache
from pathlib import Path

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling  # type: ignore[import-untyped]  # it ships none

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

TELLING = re.compile(r"\b(played|all_heard|judged_once)\b")
"""What a test file names if it looks at what is made once: stories told, the flows judged."""

# A test machine that is shared is slow now and then; the time of one example proves nothing.
settings.register_profile("steady", deadline=None)
settings.register_profile("many", deadline=None, max_examples=10_000)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    """An order that no test may lean on."""
    parser.addoption("--shuffle", type=int, metavar="SEED", help="run in a random order")


class Together(LoadScopeScheduling):  # type: ignore[misc]  # its base has no types
    """Files that look at stories stay with one worker, which plays each story once for all of them.

    So do those that look at the judgement of the flows.

    Any other file stays with one worker by itself. (Marks of xdist for groups do nothing with
    pytest 9: the name of a test is kept apart from where they write it.)
    """

    def _split_scope(self, nodeid: str) -> str:  # the place that xdist has for it
        file = nodeid.partition("::")[0]
        return "stories" if file in files_that_tell() else file


@cache
def files_that_tell() -> frozenset[str]:
    """The test files that name what plays a story once."""
    root = CAMPAIGNS.parents[1]
    files = CAMPAIGNS.parent.rglob("test_*.py")
    told = (file for file in files if TELLING.search(file.read_text(encoding="utf-8")))
    return frozenset(file.relative_to(root).as_posix() for file in told)


def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> Together:
    """What goes to which worker."""
    return Together(config, log)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Everything in `tests/campaigns` is a campaign; terminal tests need pseudo-terminals."""
    if config.getoption("--shuffle") is not None:
        random.Random(config.getoption("--shuffle")).shuffle(items)
    else:
        items.sort(key=lambda item: not str(item.path).endswith(LONGEST))
    for item in items:
        if item.path.is_relative_to(CAMPAIGNS):
            item.add_marker("campaign")
        if item.get_closest_marker("terminal"):
            item.add_marker(NO_TERMINAL)
