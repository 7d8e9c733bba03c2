"""What is asked of the tables. Each search walks an index; a test holds their plans."""

from dataclasses import dataclass

from assistant.book.ids import span
from assistant.book.rows import sound
from assistant.book.schema import COLUMNS, KEYS
from assistant.book.sealing import Value
from assistant.book.wanted import Wanted, conditions

# Where the hash is that a row was sealed after: the first of these that is there.
BEFORE = {
    "talk": (),
    "event": (
        """SELECT hash FROM event AS last
            WHERE last.talk = event.talk AND last.number = event.number - 1""",
        "SELECT hash FROM talk WHERE talk.id = event.talk",
    ),
    "card": (
        """SELECT hash FROM event WHERE event.talk = card.talk AND event.moment < card.moment
            ORDER BY number DESC LIMIT 1""",
        "SELECT hash FROM talk WHERE talk.id = card.talk",
    ),
    "note": ("SELECT hash FROM card WHERE card.id = note.card",),
}


def row_of(table: str) -> str:
    """The columns of a row, its hash, and the hash before it, empty when that row is gone."""
    columns = [f"{table}.{column}" for column in (*COLUMNS[table], "hash")]
    before = ", ".join([*(f"({select})" for select in BEFORE[table]), "''", "''"])
    return ", ".join([*columns, f"coalesce({before})"])


SOUGHT = ("drill", "crop", "lot")  # what cards are found by, whatever the capitals
ROW = {table: row_of(table) for table in COLUMNS}

NEWEST = """SELECT max(
    coalesce((SELECT max(moment) FROM talk), 0),
    coalesce((SELECT max(moment) FROM event), 0),
    coalesce((SELECT max(moment) FROM card), 0),
    coalesce((SELECT max(moment) FROM note), 0))"""
LAST_EVENT = "SELECT number, hash FROM event WHERE talk = ? ORDER BY number DESC LIMIT 1"
TALK_HASH = "SELECT hash FROM talk WHERE id = ?"
CARD_HASH = "SELECT hash FROM card WHERE id = ?"
HOLDER = "SELECT who, since FROM holder WHERE talk = ?"


@dataclass(frozen=True, slots=True)
class Search:
    """A statement with the values that fill it."""

    sql: str
    values: tuple[Value, ...] = ()


CARD_IDS = Search("SELECT id FROM card ORDER BY moment, id")
LISTED = Search("SELECT id FROM card WHERE scripted = 0 ORDER BY moment DESC, id DESC")


def all_of(table: str) -> Search:
    """Every row of a table, by its key."""
    keys = ", ".join(KEYS[table])
    return Search(f"SELECT {ROW[table]} FROM {table} ORDER BY {keys}")  # noqa: S608


def spelled_otherwise(column: str) -> Search:
    """A card, if there is one, that its index spells with other capitals than the card itself.

    SQLite's own check takes the two spellings for the same.
    """
    sql = f"""SELECT card.id FROM card AS listed INDEXED BY card_by_{column}
        JOIN card ON card.id = listed.id
        WHERE card.{column} <> listed.{column} COLLATE BINARY LIMIT 1"""  # noqa: S608
    return Search(sql)


def talk_by_id(talk_id: str) -> Search:
    """The conversation of exactly this id."""
    return Search(f"SELECT {ROW['talk']} FROM talk WHERE id = ?", (sound(talk_id),))  # noqa: S608


def talks_starting(text: str) -> Search | None:
    """Two conversations at most whose ids start so: one is an answer, two are none."""
    ends = span(text)
    sql = f"SELECT {ROW['talk']} FROM talk WHERE id >= ? AND id < ? LIMIT 2"  # noqa: S608
    return Search(sql, ends) if ends else None


def events_of(talk_id: str) -> Search:
    """All events of a conversation, from the first."""
    sql = f"SELECT {ROW['event']} FROM event WHERE talk = ? ORDER BY number"  # noqa: S608
    return Search(sql, (sound(talk_id),))


def unfinished_talks(*, scripted: bool) -> Search:
    """Conversations without a card or an ending, the one last talked in first."""
    sql = f"""SELECT {ROW["talk"]} FROM talk
        WHERE (scripted = 0 OR ?)
        AND NOT EXISTS (SELECT 1 FROM card WHERE card.talk = talk.id)
        AND NOT EXISTS (SELECT 1 FROM event INDEXED BY event_that_ends
            WHERE event.talk = talk.id AND event.kind IN ('finished', 'left_for_good'))
        ORDER BY coalesce(
            (SELECT max(event.moment) FROM event WHERE event.talk = talk.id), talk.moment
        ) DESC, id DESC"""  # noqa: S608
    return Search(sql, (int(scripted),))


def talks_without_card() -> Search:
    """Conversations that made no card, from the first."""
    sql = f"""SELECT {ROW["talk"]} FROM talk
        WHERE NOT EXISTS (SELECT 1 FROM card WHERE card.talk = talk.id) ORDER BY moment"""  # noqa: S608
    return Search(sql)


def talks_following(talk_id: str) -> Search:
    """Conversations that correct one, from the first."""
    sql = f"SELECT {ROW['talk']} FROM talk WHERE follows = ? ORDER BY moment"  # noqa: S608
    return Search(sql, (sound(talk_id),))


def cards_like(wanted: Wanted, limit: int) -> Search:
    """The newest cards of those that are wanted."""
    where, values = conditions(wanted)
    order = "ORDER BY moment DESC, id DESC LIMIT ?"
    sql = f"SELECT {ROW['card']} FROM card {where} {order}"  # noqa: S608
    return Search(sql, (*values, limit))


def count_like(wanted: Wanted) -> Search:
    """How many cards are wanted."""
    where, values = conditions(wanted)
    return Search(f"SELECT count(*) FROM card {where}", values)  # noqa: S608


def card_by_id(column: str, sought: str) -> Search:
    """The newest card whose `column` (`id` or `talk`) is exactly this."""
    order = "ORDER BY moment DESC, id DESC LIMIT 1"
    sql = f"SELECT {ROW['card']} FROM card WHERE {column} = ? {order}"  # noqa: S608
    return Search(sql, (sound(sought),))


def cards_starting(text: str) -> Search | None:
    """Two cards at most whose own id, or whose conversation's, starts so."""
    ends = span(text)
    if ends is None:
        return None
    either = f"""SELECT {ROW["card"]} FROM card WHERE id >= ? AND id < ?
        UNION SELECT {ROW["card"]} FROM card WHERE talk >= ? AND talk < ? LIMIT 2"""  # noqa: S608
    return Search(either, (*ends, *ends))


def notes_of(card_id: str) -> Search:
    """All notes on a card, from the first."""
    sql = f"SELECT {ROW['note']} FROM note WHERE card = ? ORDER BY moment, id"  # noqa: S608
    return Search(sql, (sound(card_id),))


def last_of_each_drill(*, scripted: bool) -> Search:
    """The newest card of each drill that has a name, the one last used first.

    Steps from name to name in the index, so that it costs as much as there are drills.
    """
    named = "SELECT min(drill) AS name FROM card WHERE drill > "
    sql = f"""WITH RECURSIVE names AS ({named} ''
        UNION ALL SELECT ({named} names.name) FROM names WHERE names.name IS NOT NULL)
        SELECT {ROW["card"]} FROM names JOIN card ON card.id = (
            SELECT newest.id FROM card AS newest
            WHERE newest.drill = names.name AND (newest.scripted = 0 OR ?)
            ORDER BY newest.moment DESC, newest.id DESC LIMIT 1)
        ORDER BY card.moment DESC"""  # noqa: S608
    return Search(sql, (int(scripted),))
