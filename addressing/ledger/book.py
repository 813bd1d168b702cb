"""The ledger's file: SQLite, whole or unchanged whatever happens while it is written."""

import contextlib
import os
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import astuple
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.ledger.history import HISTORY, history_of, is_as_left, note_change
from addressing.records.plates import BESIDE
from addressing.records.prints import Print, Printing, Tried, Wanted
from addressing.where import Where

LEDGER = "ledger.sqlite"
"""The file's name in a job's folder."""

PATIENCE = 5.0
"""Seconds that a change waits for another program to be done with the file."""

_FORM = 7
_ID = 0x41446C67  # "ADlg": tells the file from another program's
_TABLES = """
CREATE TABLE run (
  id INTEGER PRIMARY KEY, date TEXT, plate TEXT NOT NULL, sha256 TEXT NOT NULL,
  press TEXT, stock TEXT, layout TEXT, size REAL, opens INTEGER, closes INTEGER
) STRICT;
CREATE TABLE print (
  run INTEGER NOT NULL REFERENCES run (id), page INTEGER NOT NULL CHECK (page > 0),
  kind TEXT NOT NULL, ink TEXT NOT NULL, household TEXT NOT NULL, name TEXT NOT NULL,
  print TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('printed', 'handed over', 'spoiled', 'destroyed')),
  PRIMARY KEY (run, page)
) STRICT, WITHOUT ROWID;
"""
_COPIES = """
CREATE TABLE copies (
  kind TEXT PRIMARY KEY, spoiled INTEGER NOT NULL CHECK (spoiled >= 0)
) STRICT, WITHOUT ROWID;
"""
_TURN = "ALTER TABLE run ADD COLUMN opens INTEGER; ALTER TABLE run ADD COLUMN closes INTEGER;"
_SIZE = "ALTER TABLE run ADD COLUMN size REAL;" + HISTORY + _TURN
_LAYOUT = "ALTER TABLE run ADD COLUMN layout TEXT;" + _COPIES + _SIZE
_GROWN = {
    1: "ALTER TABLE run ADD COLUMN press TEXT; ALTER TABLE run ADD COLUMN stock TEXT; " + _LAYOUT,
    2: _LAYOUT,
    3: _COPIES + _SIZE,
    4: _SIZE,
    5: HISTORY + _TURN,
    6: _TURN,
}
"""What an older form lacks, by its number: added when it is opened, in one transaction."""


class Ledger:
    """An open ledger; every change is whole and on the disk when its method returns."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        """Use `open_ledger`."""
        self._connection = connection
        self._path = path

    def add(self, made: Printing, pages: Sequence[Wanted | None], first: int = 1) -> int:
        """A plate was printed once, all of its pages (None: a blank one); the run's number.

        The pages come as its pile lies, and are numbered from `first` on.
        """
        with self._change() as connection:
            run = connection.execute(
                "INSERT INTO run (plate, sha256, date, press, stock, layout, size, opens, closes)"
                " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                astuple(made),
            ).lastrowid
            connection.executemany(
                "INSERT INTO print VALUES (?, ?, ?, ?, ?, ?, ?, 'printed')",
                (
                    (run, page, each.kind, each.ink, each.household, each.name, each.print)
                    for page, each in enumerate(pages, start=first)
                    if each is not None
                ),
            )
        return int(run or 0)

    def runs_of(self, sha256: str, kind: str) -> tuple[int, ...]:
        """The runs in which a plate of exactly these bytes was printed, for one of its kinds.

        A plate with nothing but blank pages shows no kind: its run stands for any.
        """
        rows = self._rows(
            "SELECT id FROM run r WHERE sha256 = ? AND ? IN"
            " (SELECT kind FROM print WHERE run = r.id UNION ALL SELECT ? WHERE NOT EXISTS"
            " (SELECT 1 FROM print WHERE run = r.id))",
            (sha256, kind, kind),
        )
        return tuple(row[0] for row in rows)

    def tried(self) -> Tried:
        """Which inks were on which papers and layouts, and where they were printed."""
        rows = self._rows(
            "SELECT DISTINCT r.press, p.ink, r.stock, r.layout"
            " FROM print p JOIN run r ON r.id = p.run"
        )
        return frozenset(
            (press, ink, stock, layout)
            for press, inks, stock, layout in rows
            for ink in inks.split(BESIDE)
        )

    def files(self) -> dict[int, Printing]:
        """What was printed in each run."""
        rows = self._rows(
            "SELECT id, plate, sha256, date, press, stock, layout, size, opens, closes FROM run"
        )
        return {row[0]: Printing(*row[1:]) for row in rows}

    def mark(self, run: int, pages: Iterable[int], state: str) -> tuple[Print, ...]:
        """Say what became of some pages of a run; the prints as they are then.

        Raises:
            Fault: a page that the run doesn't have (exit 2); nothing is changed.
        """
        wanted = sorted(set(pages))
        known = {each.page for each in self.prints() if each.run == run}
        missing = [page for page in wanted if page not in known]
        if missing:
            raise Fault(
                Exit.OPTIONS,
                "page-unknown",
                f"Run {run} has {len(known)} pages; there is no page"
                f" {', '.join(str(page) for page in missing)}.",
                "Count from 1 in the order of print, as the slips and the stuffing list do.",
            )
        with self._change() as connection:
            connection.executemany(
                "UPDATE print SET state = ? WHERE run = ? AND page = ?",
                ((state, run, page) for page in wanted),
            )
        return tuple(each for each in self.prints() if each.run == run and each.page in set(wanted))

    def spoil_copies(self, kind: str, copies: int) -> int:
        """So many more copies of what is the same for all were spoiled; all that were.

        A negative number takes some back, down to none.
        """
        total = max(0, dict(self.copies()).get(kind, 0) + copies)
        with self._change() as connection:
            connection.execute("INSERT OR REPLACE INTO copies VALUES (?, ?)", (kind, total))
        return total

    def copies(self) -> tuple[tuple[str, int], ...]:
        """(kind, spoiled copies) of what is the same for all."""
        rows = self._rows("SELECT kind, spoiled FROM copies WHERE spoiled > 0 ORDER BY kind")
        return tuple((row[0], row[1]) for row in rows)

    def prints(self) -> tuple[Print, ...]:
        """Everything on paper, in the order in which it was printed."""
        rows = self._rows(
            "SELECT p.run, p.page, p.kind, p.ink, p.household, p.name, p.print, p.state,"
            " r.date, r.size FROM print p JOIN run r ON r.id = p.run ORDER BY p.run, p.page"
        )
        return tuple(Print(row[0], row[1], Wanted(*row[2:7]), *row[7:]) for row in rows)

    def history(self) -> tuple[str, ...]:
        """What the rows were after each change, the one that is open included."""
        with self._readable():
            if self._connection.in_transaction:
                note_change(self._connection)
            return history_of(self._connection)

    def is_as_left(self) -> bool:
        """True where the rows are as this program last wrote them."""
        with self._readable():
            return is_as_left(self._connection)

    def _rows(self, query: str, values: Sequence[str] = ()) -> list[tuple[Any, ...]]:
        """What a query finds.

        Raises:
            Fault: it can't be read now: another program is at it, or the disk fails (exit 4).
        """
        with self._readable():
            return self._connection.execute(query, values).fetchall()

    @contextlib.contextmanager
    def _readable(self) -> Iterator[None]:
        try:
            yield
        except sqlite3.Error as error:
            raise _write_fault(self._path, error) from error

    @contextlib.contextmanager
    def at_once(self) -> Iterator[None]:
        """All changes within are on the disk together, or none of them is.

        Raises:
            Fault: they can't be written (exit 4); nothing is changed.
        """
        with self._change():
            yield

    @contextlib.contextmanager
    def _change(self) -> Iterator[sqlite3.Connection]:
        """One transaction, or a part of the one that is open.

        Raises:
            Fault: it can't be written (exit 4); nothing is changed.
        """
        if self._connection.in_transaction:
            yield self._connection
            return
        try:
            with self._connection:
                self._connection.execute("BEGIN IMMEDIATE")
                yield self._connection
                note_change(self._connection)
        except sqlite3.Error as error:
            raise _write_fault(self._path, error) from error


@contextlib.contextmanager
def open_ledger(folder: Path) -> Iterator[Ledger]:
    """The ledger of a job's folder, begun where there is none; private to its owner.

    Raises:
        Fault: there is no folder; it is damaged, another program's, or newer (exit 3); it can't be
            written (exit 4).
    """
    path = folder / LEDGER
    if not folder.is_dir():
        raise Fault(
            Exit.INPUT,
            "job-missing",
            f"There is no job at {folder} yet.",
            "Name the job's folder with --to, or go to where the job lies.",
            Where(str(folder)),
        )
    try:
        if not path.exists():
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        connection = sqlite3.connect(path, isolation_level=None, timeout=PATIENCE)
    except (OSError, sqlite3.Error) as error:
        raise _write_fault(path, error) from error
    with contextlib.closing(connection):
        _prepare(connection, path)
        yield Ledger(connection, path)


def _prepare(connection: sqlite3.Connection, path: Path) -> None:
    """Make the tables of a new file; refuse what isn't ours or is newer."""
    try:
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA foreign_keys = ON")
        known = connection.execute("PRAGMA application_id").fetchone()[0]
        form = connection.execute("PRAGMA user_version").fetchone()[0]
        empty = not connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
        if empty and known == form == 0:
            connection.executescript(
                f"BEGIN IMMEDIATE; {_TABLES} {_COPIES} {HISTORY}"
                f" PRAGMA application_id = {_ID}; PRAGMA user_version = {_FORM}; COMMIT;"
            )
            return
        sound = connection.execute("PRAGMA quick_check").fetchone()[0] == "ok"
    except sqlite3.OperationalError as error:  # it is locked, or the disk fails: no damage
        raise _write_fault(path, error) from error
    except sqlite3.DatabaseError as error:
        raise _damaged(path) from error
    if known != _ID or not sound:
        raise _damaged(path)
    if form in _GROWN:
        _grow(connection, path, form)
    elif form != _FORM:
        raise Fault(
            Exit.INPUT,
            "ledger-newer",
            f"{path} was written by a newer version of the program.",
            "Update the program, then run again.",
            Where(str(path)),
        )


def _grow(connection: sqlite3.Connection, path: Path, form: int) -> None:
    """Bring an older form up to this one."""
    try:
        connection.executescript(
            f"BEGIN IMMEDIATE; {_GROWN[form]} PRAGMA user_version = {_FORM}; COMMIT;"
        )
    except sqlite3.Error as error:
        raise _write_fault(path, error) from error


def _damaged(path: Path) -> Fault:
    return Fault(
        Exit.INPUT,
        "ledger-unreadable",
        f"{path} can't be read as a ledger of prints.",
        "Put back a copy from before, or move it away: what is on paper is unknown then.",
        Where(str(path)),
    )


def _write_fault(path: Path, error: Exception) -> Fault:
    busy = getattr(error, "sqlite_errorcode", None) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
    why = "another program is at it" if busy else error
    return Fault(
        Exit.WRITE,
        "cannot-write",
        f"{path} can't be read or written: {why}.",
        "Close other programs that use it, or free some space, and run again.",
        Where(str(path)),
    )
