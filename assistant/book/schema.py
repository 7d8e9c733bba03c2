"""The tables of the book, what guards them, and the indexes that its searches walk.

Every table is ordered by `moment`: milliseconds by the clock, or one past the newest row when the
clock is behind. So a clock that was set back changes no order, and merged books still sort.
"""

APPLICATION_ID = 0x44726C53  # "DrlS"

COLUMNS = {
    "talk": ("id", "job", "started", "program", "shape", "words", "scripted", "follows", "moment"),
    "event": ("talk", "number", "at", "kind", "body", "moment"),
    "card": (
        "id",
        "talk",
        "at",
        "job",
        "drill",
        "crop",
        "lot",
        "outcome",
        "scripted",
        "body",
        "moment",
    ),
    "note": ("id", "card", "at", "text", "moment"),
}
KEYS = {"talk": ("id",), "event": ("talk", "number"), "card": ("id",), "note": ("id",)}

TABLES_1 = (
    """CREATE TABLE talk (
        id TEXT PRIMARY KEY NOT NULL,
        job TEXT NOT NULL,
        started TEXT NOT NULL,
        program TEXT NOT NULL,
        shape TEXT NOT NULL,
        words TEXT NOT NULL,
        scripted INTEGER NOT NULL,
        follows TEXT,
        moment INTEGER NOT NULL,
        hash TEXT NOT NULL
    ) WITHOUT ROWID""",
    """CREATE TABLE event (
        talk TEXT NOT NULL,
        number INTEGER NOT NULL,
        at TEXT NOT NULL,
        kind TEXT NOT NULL,
        body TEXT NOT NULL,
        moment INTEGER NOT NULL,
        hash TEXT NOT NULL,
        PRIMARY KEY (talk, number)
    ) WITHOUT ROWID""",
    """CREATE TABLE card (
        id TEXT PRIMARY KEY NOT NULL,
        talk TEXT NOT NULL,
        at TEXT NOT NULL,
        job TEXT NOT NULL,
        drill TEXT NOT NULL COLLATE NOCASE,
        crop TEXT NOT NULL COLLATE NOCASE,
        lot TEXT NOT NULL COLLATE NOCASE,
        outcome TEXT NOT NULL,
        scripted INTEGER NOT NULL,
        body TEXT NOT NULL,
        moment INTEGER NOT NULL,
        hash TEXT NOT NULL
    ) WITHOUT ROWID""",
)
INDEXES_1 = (
    "CREATE INDEX talk_by_moment ON talk (moment)",
    "CREATE INDEX event_by_moment ON event (moment)",
    "CREATE INDEX event_that_ends ON event (talk) WHERE kind IN ('finished', 'left_for_good')",
    "CREATE INDEX card_by_moment ON card (moment, id)",
    "CREATE INDEX card_by_talk ON card (talk, moment, id)",
    "CREATE INDEX card_by_drill ON card (drill, moment, id)",
    "CREATE INDEX card_by_crop ON card (crop, moment, id)",
    "CREATE INDEX card_by_lot ON card (lot, moment, id)",
)

TABLES_2 = (
    """CREATE TABLE note (
        id TEXT PRIMARY KEY NOT NULL,
        card TEXT NOT NULL,
        at TEXT NOT NULL,
        text TEXT NOT NULL,
        moment INTEGER NOT NULL,
        hash TEXT NOT NULL
    ) WITHOUT ROWID""",
    # Who has a conversation open: housekeeping, so its rows are replaced and deleted.
    """CREATE TABLE holder (
        talk TEXT PRIMARY KEY NOT NULL,
        who TEXT NOT NULL,
        since TEXT NOT NULL
    ) WITHOUT ROWID""",
)
INDEXES_2 = (
    "CREATE INDEX note_by_moment ON note (moment)",
    "CREATE INDEX note_by_card ON note (card, moment, id)",
)


def guards(table: str) -> list[str]:
    """Triggers that refuse to change, delete or replace a row of `table`."""
    same = " AND ".join(f"{key} = NEW.{key}" for key in KEYS[table])
    refuse = f"BEGIN SELECT RAISE(ABORT, '{table} rows stay'); END"
    there = f"SELECT 1 FROM {table} WHERE {same}"  # noqa: S608  names from this page
    return [
        f"CREATE TRIGGER {table}_unchanged BEFORE UPDATE ON {table} {refuse}",
        f"CREATE TRIGGER {table}_kept BEFORE DELETE ON {table} {refuse}",
        # REPLACE deletes without asking the trigger above.
        f"CREATE TRIGGER {table}_once BEFORE INSERT ON {table} WHEN EXISTS ({there}) {refuse}",
    ]


def guarded(*tables: str) -> tuple[str, ...]:
    """The triggers of these tables."""
    return tuple(guard for table in tables for guard in guards(table))


# What each format added, from format 1 on. What was released stays as it is.
FORMATS = (
    (
        *TABLES_1,
        *INDEXES_1,
        *guarded("talk", "event", "card"),
        f"PRAGMA application_id = {APPLICATION_ID}",
    ),
    (*TABLES_2, *INDEXES_2, *guarded("note")),
)
VERSION = len(FORMATS)


def added_after(version: int) -> list[str]:
    """What a book of format `version` lacks; 0 is a book that is yet to be made."""
    return [statement for added in FORMATS[version:] for statement in added]


def made_in(version: int) -> dict[str, str]:
    """What a book of format `version` is made of: each table, index and trigger, as it was made."""
    statements = (statement for added in FORMATS[:version] for statement in added)
    return {text.split()[2]: text for text in statements if text.startswith("CREATE")}
