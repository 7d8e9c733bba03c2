"""What `--help` shows: texts of the flow files, with the jobs that there are filled in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from assistant.flow.load import read
from assistant.terminal.screen import filled

Words = Mapping[str, str]


def main_text(words: Words, jobs: Iterable[Path]) -> str:
    """The help of the whole program, its jobs listed."""
    lines = (filled(words["cli.job"], name=job.stem, title=title_of(job)) for job in jobs)
    return filled(words["cli.help.drillside"], jobs="\n".join(lines))


def job_text(words: Words, job: Path) -> str:
    """The help of a job."""
    return filled(text_of(words, "job"), job=job.stem, title=title_of(job))


def text_of(words: Words, name: str) -> str:
    """The help of a command."""
    return filled(words[f"cli.help.{name}"], options=words["cli.options.talk"])


def with_book(folder: Path) -> list[str]:
    """The commands that work on a book."""
    return [*(job.stem for job in jobs_in(folder)), "resume", "book"]


def jobs_in(folder: Path) -> list[Path]:
    """The files of the jobs."""
    return sorted((folder / "jobs").glob("*.toml"))


def title_of(job: Path) -> str:
    """The title of a job; its name while the file has a fault, which is told later."""
    try:
        return str(read(job)["part"]["title"])
    except (OSError, ValueError, KeyError):
        return job.stem
