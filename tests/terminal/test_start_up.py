"""What is heavy is brought in when it is first needed, never before the first question."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.terminal.pseudo import ROOT, running

HEAVY = {"prompt_toolkit", "rich", "pint", "pydantic", "asyncio", "numpy", "importlib.metadata"}

AT_THE_PROMPT = """
import os, pathlib, sys
from assistant.cli import main
from assistant.terminal import reading

def loaded(self, again=""):
    pathlib.Path(os.environ["LOADED"]).write_text("\\n".join(sys.modules))
    raise EOFError

reading.PromptReader.read = loaded
sys.exit(main())
"""


@pytest.mark.terminal
@pytest.mark.parametrize("job", [[], ["calibrate"], ["calibrate", "--units", "metric"]])
def test_nothing_heavy_is_loaded_when_the_first_question_is_written(
    job: list[str], tmp_path: Path
) -> None:
    listed = tmp_path / "loaded.txt"
    arguments = (*job, "--book", str(tmp_path / "book.db"))
    program = ("-c", AT_THE_PROMPT)
    with running(*arguments, program=program, environ={"LOADED": str(listed)}) as terminal:
        assert terminal.ended() == 0
    loaded = set(listed.read_text(encoding="utf-8").split("\n"))
    assert "assistant.terminal.screen" in loaded
    assert loaded & HEAVY == set()


@pytest.mark.parametrize("option", ["--version", "--help"])
def test_help_and_version_load_nothing_heavy_and_no_book(option: str) -> None:
    ran = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "assistant", option],
        cwd=ROOT,
        capture_output=True,
        check=True,
        text=True,
        stdin=subprocess.DEVNULL,
    )
    loaded = {line.rpartition("|")[2].strip() for line in ran.stderr.splitlines()}
    assert "assistant.cli" in loaded
    assert loaded & (HEAVY | {"sqlite3", "platformdirs"}) == set()
