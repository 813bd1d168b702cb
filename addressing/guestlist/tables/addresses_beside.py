"""A sheet that holds the addresses of guests who stand on another: found by their names.

Rows of names without any address, and a sheet of addresses under names ("Brandvold", "Lena", "the
Keanes"): each address goes beside the one row that it can be of, and keeps its cells. What is of
nobody, or could be of several, goes to none.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Column, Row, Table
from addressing.guestlist.people.likeness import full_forms, same_given
from addressing.guestlist.people.names import take_titles
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.records.findings import Finding
from addressing.records.guests import UnusedRow
from addressing.where import Where, column_letters

_MOSTLY = 0.6
"""The part of the rows of such a sheet that must be of guests on the other."""
_FEWEST = 2
_SHOWN = 12
_OWN_NAMES = NAMES - {"household"}
_BESIDE = frozenset(
    {"unit", "street2", "house_number", "po_box", "region", "country", "notes", "new_address"}
)
"""What else of such a sheet goes with the address."""
_OF_GUESTS = frozenset({"guest", "children", "invited_count", "adult_count", "age_group"})
"""Columns that say who is invited: a sheet with them is a list of guests."""


_NOWHERE = Table("", None, 0, (), ())


@dataclass(frozen=True, slots=True)
class Named:
    """A row with the words of its names; `named` is what stands there."""

    table: Table
    place: int
    words: frozenset[str]
    named: str

    @classmethod
    def of(cls, said: frozenset[str]) -> "Named":
        """Words alone, to look for whom they can be of."""
        return cls(_NOWHERE, 0, said, " ".join(sorted(said)))

    @property
    def row(self) -> Row:
        """The row itself."""
        return self.table.rows[self.place]


@dataclass(frozen=True, slots=True)
class _Pair:
    """A guest's row, the row with the address, and whether both name the same to the letter."""

    guest: Named
    home: Named
    equal: bool


class Index:
    """The rows of guests, found by each word of their names and by what it is short for."""

    def __init__(self, guests: Sequence[Named]) -> None:
        """Take the rows that may be looked for."""
        self._by_word: dict[str, list[Named]] = defaultdict(list)
        for guest in guests:
            for key in {key for word in guest.words for key in _keys(word)}:
                self._by_word[key].append(guest)

    def fitting(self, home: Named) -> list[Named]:
        """Whose address a row can be."""
        near = {
            id(guest): guest
            for word in home.words
            for key in _keys(word)
            for guest in self._by_word.get(key, ())
        }
        return [guest for guest in near.values() if _fits(guest, home)]


def _keys(word: str) -> set[str]:
    """Under what a word is looked up; an initial alone finds nobody."""
    return {word, word.removesuffix("s"), *full_forms(word)} if len(word) > 1 else set()


def with_addresses(
    tables: Sequence[Table],
) -> tuple[tuple[Table, ...], tuple[UnusedRow, ...], tuple[Finding, ...]]:
    """The tables with such addresses beside their rows, the sheets' rows, and what is asked."""
    bare = [table for table in tables if _is_bare(table)]
    books = [table for table in tables if bare and _holds_addresses(table)]
    if not books:
        return tuple(tables), (), ()
    guests = Index([each for table in bare for each in named_rows(table)])
    homes = {table: list(named_rows(table)) for table in books}
    homes = {table: rows for table, rows in homes.items() if _are_of(rows, guests)}
    if not homes:
        return tuple(tables), (), ()
    every = [home for rows in homes.values() for home in rows]
    pairs = _pairs(guests, every)
    left = [home for home in every if home not in {pair.home for pair in pairs}]
    unused = [
        UnusedRow(pair.home.table.sheet, pair.home.row.number, f"the address of {pair.guest.named}")
        for pair in pairs
    ]
    unused += [
        UnusedRow(home.table.sheet, home.row.number, "an address of nobody on the list")
        for home in left
    ]
    kept = tuple(_beside(table, pairs) for table in tables if table not in homes)
    return kept, tuple(unused), tuple(_asked(pairs, left))


def with_new_addresses(
    tables: Sequence[Table],
) -> tuple[tuple[Table, ...], tuple[UnusedRow, ...]]:
    """The tables with the new addresses of a sheet of their own beside whose they can be.

    A row there that can be of nobody, or of several, stays a row of its own.
    """
    updates = [table for table in tables if _holds_new_addresses(table)]
    others = [table for table in tables if table not in updates]
    if not updates or not others:
        return tuple(tables), ()
    guests = Index([each for table in others for each in named_rows(table)])
    pairs = _pairs(guests, [home for table in updates for home in named_rows(table)])
    taken = {(pair.home.table, pair.home.place) for pair in pairs}
    made = [
        _beside(table, pairs)
        if table in others
        else replace(
            table, rows=tuple(r for at, r in enumerate(table.rows) if (table, at) not in taken)
        )
        for table in tables
    ]
    unused = tuple(
        UnusedRow(
            pair.home.table.sheet, pair.home.row.number, f"the new address of {pair.guest.named}"
        )
        for pair in pairs
    )
    return tuple(table for table in made if table.rows), unused


def _holds_new_addresses(table: Table) -> bool:
    """True for names beside their new addresses, and nothing that makes a list of guests of it."""
    meant = {column.meaning for column in table.columns}
    new = "new_address" in meant and meant & _OWN_NAMES and not meant & _OF_GUESTS
    return bool(new) and not any(True for row in table.rows for _ in placed(table, row))


def _is_bare(table: Table) -> bool:
    """True for a table of names in which no row has an address."""
    if not any(column.meaning in _OWN_NAMES for column in table.columns):
        return False
    return not any(True for row in table.rows for _ in placed(table, row))


def _holds_addresses(table: Table) -> bool:
    meant = {column.meaning for column in table.columns}
    if not meant & _OWN_NAMES or meant & _OF_GUESTS or not table.rows:
        return False
    return all(any(True for _ in placed(table, row)) for row in table.rows)


def placed(table: Table, row: Row) -> Iterator[tuple[Column, Cell]]:
    """The filled cells of a row's address, with their columns."""
    for column in table.columns:
        cell = row.cell(column.index)
        if column.meaning in ADDRESSES and cell is not None and cell.filled:
            yield column, cell


def named_rows(table: Table) -> Iterator[Named]:
    """The rows of a table that name somebody."""
    for place, row in enumerate(table.rows):
        cells = [row.cell(c.index) for c in table.columns if c.meaning in _OWN_NAMES]
        text = " ".join(cell.text for cell in cells if cell is not None and cell.filled)
        if said := frozenset(words_of(text)):
            yield Named(table, place, said, text)


def words_of(text: str) -> Iterator[str]:
    """The words of names alone: no titles, nothing that joins them or stands for them."""
    others = words("and") | words("guest") | words("family") | {"the"}
    spaced = text.replace("&", " & ").replace("+", " + ").replace(",", " ").replace("/", " ")
    tokens = [token for token in spaced.split() if fold(token)]
    while tokens:
        _, tokens = take_titles(tokens)
        word = fold(tokens[0]).strip("()[]. ") if tokens else ""
        if word and word not in others:
            yield word
        tokens = tokens[1:]


def _are_of(homes: Sequence[Named], guests: Index) -> bool:
    """True where most rows of a sheet can be of somebody on the list."""
    found = [home for home in homes if guests.fitting(home)]
    return len(found) >= _FEWEST and len(found) >= _MOSTLY * len(homes)


def _fits(guest: Named, home: Named) -> bool:
    """True where the fewer words are all among the others, one of them more than an initial."""
    few, many = sorted((guest.words, home.words), key=len)
    if not any(len(word) > 1 for word in few):
        return False
    return all(any(_same(word, other) for other in many) for word in few)


def _same(one: str, other: str) -> bool:
    """True for one name: in short, by its initial, or of a whole family ("the Keanes")."""
    plain = {one, other}
    return one == other or f"{one}s" in plain or f"{other}s" in plain or same_given(one, other)


def _pairs(guests: Index, homes: Sequence[Named]) -> list[_Pair]:
    """Who and whose address are each other's only ones: equal names first, then parts of them."""
    found: dict[Named, _Pair] = {}
    taken: set[Named] = set()
    for equal in (True, False):
        links = [
            (guest, home)
            for home in homes
            if home not in taken
            for guest in guests.fitting(home)
            if guest not in found and (not equal or guest.words == home.words)
        ]
        of_guests, of_homes = (Counter(link[at] for link in links) for at in (0, 1))
        for guest, home in links:
            if of_guests[guest] == of_homes[home] == 1:
                found[guest] = _Pair(guest, home, equal)
                taken.add(home)
    return list(found.values())


def _beside(table: Table, pairs: Sequence[_Pair]) -> Table:
    """A table with the addresses of its rows in columns behind its own."""
    own = {pair.guest.place: pair.home for pair in pairs if pair.guest.table is table}
    if not own:
        return table
    empty = {c.index for c in table.columns if not any(row.cell(c.index) for row in table.rows)}
    columns = [c for c in table.columns if c.meaning not in ADDRESSES or c.index not in empty]
    width = max(len(row.cells) for row in table.rows)
    width = max([width, *(column.index + 1 for column in table.columns)])
    places: dict[tuple[Table, int], int] = {}
    rows = list(table.rows)
    for place, home in own.items():
        cells = [*rows[place].cells, *(None,) * (width - len(rows[place].cells))]
        for column in home.table.columns:
            if column.meaning not in ADDRESSES | _BESIDE:
                continue
            at = places.setdefault((home.table, column.index), width + len(places))
            cells += [None] * (at + 1 - len(cells))
            cells[at] = home.row.cell(column.index)
        rows[place] = replace(rows[place], cells=tuple(cells))
    added = [
        replace(_column(source, index), index=at, letters=column_letters(at + 1))
        for (source, index), at in places.items()
    ]
    return replace(table, columns=(*columns, *added), rows=tuple(rows))


def _column(table: Table, index: int) -> Column:
    return next(column for column in table.columns if column.index == index)


def _asked(pairs: Sequence[_Pair], left: Sequence[Named]) -> Iterator[Finding]:
    """One question for all that were found by a part of their names, one for what is nobody's."""
    parts = [pair for pair in pairs if not pair.equal]
    if parts:
        shown = "; ".join(f"{pair.guest.named} ← {pair.home.named}" for pair in parts)
        text = f"Addresses were found on another sheet by a part of the names: {shown}."
        asked = finding("addresses-beside", _where(parts[0].home), text, "Are they theirs?", shown)
        yield replace(asked, also=tuple(_where(pair.home) for pair in parts[1:]))
    if left:
        shown = "; ".join(home.named for home in left[:_SHOWN])
        more = f" and {len(left) - _SHOWN} more" if len(left) > _SHOWN else ""
        text = f"Addresses of nobody who can be told on the list: {shown}{more}."
        mend = "Whose are they? Are they invited?"
        asked = finding("addresses-of-nobody", _where(left[0]), text, mend, f"{shown}{more}")
        yield replace(asked, also=tuple(map(_where, left[1:])))


def _where(named: Named) -> Where:
    return named.row.filled[0].where
