"""Keeps one real book of each format: `python -m tests.book.keep` makes the present one.

The conversations are told to the program as a script tells them. Beside the book stands what it
means, as the program that made it read it. A kept book is never made again: a later program must
read what an earlier one wrote.
"""

import io
import json
from collections.abc import Mapping
from contextlib import redirect_stdout
from dataclasses import asdict
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from assistant.book.book import Book
from assistant.book.records import Note
from assistant.book.schema import VERSION
from assistant.book.searching import Search
from assistant.cli import main as program
from tests.book.samples import made_id
from tests.stories.story import FOLDER, read_story

KEPT = Path(__file__).parent / "kept"
FINISHED = ("fluted_pounds", "demo_old_hand", "demo_first_timer")
LEFT, LEFT_AFTER = "cup_probe", 18  # lines: in the middle of the trials
WORKED_OUT = "worked out"


def meaning(book: Book) -> dict[str, Any]:
    """All that a book holds, as its readers give it."""
    talks = [name for (name,) in book.rows(Search("SELECT id FROM talk ORDER BY moment"))]
    cards = book.cards(limit=1000, include_scripted=True)
    return {
        "talks": [asdict(talk) for name in talks if (talk := book.talk(name))],
        "events": [asdict(event) for name in talks for event in book.events(name)],
        "cards": [asdict(card) for card in cards],
        "notes": [asdict(note) for card in cards for note in book.notes(card.id)],
    }


def ran(*words: str) -> tuple[int, str]:
    """The exit code of the program, and what it wrote."""
    with redirect_stdout(io.StringIO()) as out:
        code = program(list(words))
    return code, out.getvalue()


def held(story: str, lines: int, folder: Path) -> None:
    """Tells the program the first lines of a story."""
    typed = [line for _, line in read_story(FOLDER / f"{story}.txt").moves[:lines]]
    answers = folder / "answers.txt"
    answers.write_text("".join(f"{line}\n" for line in typed), encoding="utf-8")
    ran("calibrate", "--answers", str(answers), "--book", str(folder / "book.db"))


def facts_left(path: Path, talk: str) -> dict[str, Any]:
    """What was told by somebody, when a conversation is taken up again and nothing is said."""
    silence = path.with_name("silence.txt")
    silence.touch()
    book = ("--book", str(path))
    _, out = ran("resume", talk, "--json", "--answers", str(silence), *book)
    facts: dict[str, Any] = json.loads(out)["facts"]
    return {
        name: [fact["value"], fact["unit"]]
        for name, fact in facts.items()
        if fact["from"] != WORKED_OUT
    }


def in_lines(told: Mapping[str, Any]) -> str:
    """The meaning as JSON, a record a line."""
    parts = [
        f'"{part}": [\n' + ",\n".join(json.dumps(record) for record in records) + "\n]"
        for part, records in told.items()
    ]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def main() -> None:
    """Makes the book of the present format, unless it is kept already."""
    kept = KEPT / f"format_{VERSION}.db"
    with TemporaryDirectory() as name, kept.open("xb") as file:
        path = Path(name) / "book.db"
        for story in FINISHED:
            held(story, 1000, path.parent)
        held(LEFT, LEFT_AFTER, path.parent)
        with Book.open(path) as book:
            card = book.cards(include_scripted=True)[0]
            book.add_note(Note(made_id(1), card.id, card.at, "it ran a bit deep"))
            (left,) = book.unfinished(include_scripted=True)
            told = meaning(book)
        file.write(path.read_bytes())
        told["left"] = [{"id": left.id, "facts": facts_left(path, left.id)}]
    kept.with_suffix(".json").write_text(in_lines(told), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
