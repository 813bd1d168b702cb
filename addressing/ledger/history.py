"""A ledger's own history: what its rows were after each change, so that another's is told."""

import hashlib
import sqlite3

HISTORY = "CREATE TABLE change (number INTEGER PRIMARY KEY, state TEXT NOT NULL) STRICT;"
"""One row a change, whatever it changed: its number from 1 on, and the digest of all rows then."""

_ROWS = (
    "SELECT id, date, plate, sha256, press, stock, layout, size FROM run ORDER BY id",
    "SELECT run, page, kind, ink, household, name, print, state FROM print ORDER BY run, page",
    "SELECT kind, spoiled FROM copies ORDER BY kind",
)
_LENGTH = 16
"""Hexadecimal digits of a state: 64 bits."""


def history_of(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The states after each change, the first first; none of a ledger from before they were kept.

    Raises:
        sqlite3.Error: it can't be read now.
    """
    rows = connection.execute("SELECT state FROM change ORDER BY number")
    return tuple(row[0] for row in rows)


def is_as_left(connection: sqlite3.Connection) -> bool:
    """True where the rows are those that the last change left.

    Raises:
        sqlite3.Error: it can't be read now.
    """
    history = history_of(connection)
    return not history or history[-1] == _state(connection)


def note_change(connection: sqlite3.Connection) -> None:
    """Note what the rows are now, within the change; nothing where nothing is another.

    Raises:
        sqlite3.Error: it can't be written now.
    """
    now = _state(connection)
    if history_of(connection)[-1:] != (now,):
        connection.execute("INSERT INTO change (state) VALUES (?)", (now,))


def _state(connection: sqlite3.Connection) -> str:
    digest = hashlib.sha256()
    for query in _ROWS:
        for row in connection.execute(query):
            digest.update(repr(row).encode("utf-8", "surrogatepass"))
        digest.update(b"\n")
    return digest.hexdigest()[:_LENGTH]
