"""The top level holds what it may, and no file tells where it was written."""

import re

import pytest

from tests.house.tree import project_files, project_texts

TOP_LEVEL = {
    "DEVELOPERS.md",
    "README.md",
    "assistant",
    "flows",
    "pyproject.toml",
    "tests",
    "transcripts_demo",
}
PATHS = re.compile(
    r"(?<![\w.~/-])/(?:work|root|home|Users|opt)/\w"
    r"|\b[A-Z]:\\+Users\b"
)
# Written in pieces, so that this file does not hold what it looks for.
HOSTS = re.compile(
    "|".join(
        "\\.".join(name)
        for name in (
            ("pypi", "org"),
            ("pythonhosted", "org"),
            ("npmjs", "(?:org|com)"),
            ("deb", "debian", "org"),
        )
    )
)
WORKPLACE = re.compile("|".join((r"(?i:\bissue)" + r" #?\d", r"\b" + "shared" + "/")))
PAGES = re.compile(r"\b[\w-]+\.md\b")


def breaches(pattern: re.Pattern[str]) -> list[str]:
    """File, line and find of each match in the project's texts."""
    return [
        f"{name}:{number}: {match.group()}"
        for name, text in project_texts()
        for number, line in enumerate(text.splitlines(), 1)
        for match in pattern.finditer(line)
    ]


def test_the_top_level_holds_nothing_else() -> None:
    shown = {name.split("/")[0] for name in project_files() if not name.startswith(".")}
    assert shown <= TOP_LEVEL


@pytest.mark.parametrize("name", ["README.md", "pyproject.toml", "assistant/LICENSE", ".ci/run"])
def test_what_a_newcomer_looks_for_is_there(name: str) -> None:
    assert name in project_files()


def test_no_file_holds_a_path_of_a_machine() -> None:
    assert breaches(PATHS) == []


def test_no_file_names_the_host_of_a_registry() -> None:
    assert breaches(HOSTS) == []


def test_no_file_tells_of_the_workplace() -> None:
    assert breaches(WORKPLACE) == []


def test_no_file_points_to_a_page_outside_the_project() -> None:
    pages = {find.rsplit(" ", 1)[1] for find in breaches(PAGES)}
    inside = {name.rsplit("/", 1)[-1] for name in project_files() if name.endswith(".md")}
    assert pages <= inside | TOP_LEVEL


@pytest.mark.parametrize(
    ("pattern", "text"),
    [
        (PATHS, "see /" + "home/someone/notes"),
        (PATHS, '"/' + 'work/main"'),
        (PATHS, "C:" + "\\Users\\someone"),
        (HOSTS, "https://pypi" + ".org/simple"),
        (WORKPLACE, "as issue" + " 12 has it"),
        (WORKPLACE, "see shared" + "/notes"),
        (PAGES, "as notes" + ".md has it"),
    ],
)
def test_a_planted_trace_is_found(pattern: re.Pattern[str], text: str) -> None:
    assert pattern.search(text)


@pytest.mark.parametrize("text", ["a/home/b", "~/barn/x", "https://a.example/barn/x", "12/root/3"])
def test_what_is_no_path_of_a_machine_is_left_alone(text: str) -> None:
    assert PATHS.search(text) is None
