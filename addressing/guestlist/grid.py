"""What was read from the file before anything is understood: cells, rows, grids, tables."""

from bisect import bisect_right
from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import overload

from addressing.records.guests import Cited, UnusedRow
from addressing.records.swiftly import swiftly
from addressing.where import RowOf, Where, column_letters

_KEPT, _KEPT_OF_MANY = 20_000, 1_000
"""Rows whose cells are kept once made: all of a guest list's, and of a larger one a few, since
they would fill the memory (measured: a cell with its place takes 290 bytes)."""


@swiftly
@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that holds something.

    `kind` is "text", "number", "date", "boolean", "formula" (one without a stored value), "error"
    or "long" (more letters than a name or an address has, which aren't read). `text` is what a
    person sees there, repaired; the text of a formula without a value, of an error ("#REF!") and
    of a long cell is empty, so that none can reach an envelope, and `shown` tells of it. A date's
    `text` is ISO 8601. `text` is empty too where a cell holds nothing but a note.
    """

    text: str
    where: Where
    kind: str = "text"
    struck: tuple[str, ...] = ()
    """Words that are struck through, already taken out of `text`; when the whole cell is struck,
    `text` keeps its words and this holds them once, whole."""
    note: str | None = None
    """The cell's comment, repaired."""
    shown: str | None = None
    """What the number format shows where it differs from `text`: "02116" for the number 2116."""
    spread: bool = False
    """True where a merged cell further up covers this one too; `where` is the merged cell's."""
    unseen: bool = False
    """True where nobody sees the text: it has the colour of its cell, or its format hides it."""
    turned: bool = False
    """True where invisible marks, taken out of `text`, turn letters around on a screen."""

    @property
    def wholly_struck(self) -> bool:
        """True when every word of the cell is struck through."""
        return bool(self.struck) and self.struck == (self.text,)

    @property
    def filled(self) -> bool:
        """True when the cell itself holds something to read, seen or not: not a note alone."""
        return not self.spread and (self.text != "" or self.kind in {"formula", "error", "long"})


class Recent:
    """The rows of one grid whose cells are at hand; the oldest lets go of its own."""

    def __init__(self, rows: int) -> None:
        """`rows` is how many the grid has."""
        self._rows: deque[PackedCells] = deque()
        self._most = _KEPT_OF_MANY if rows > _KEPT else 0

    @property
    def lets_go(self) -> bool:
        """True where only some rows keep what they have made."""
        return self._most > 0

    def add(self, row: "PackedCells") -> None:
        """A row has made its cells."""
        if not self._most:
            return
        self._rows.append(row)
        if len(self._rows) > self._most:
            self._rows.popleft().let_go()


class PackedCells(Sequence[Cell | None]):
    """The cells of a row, made when they are asked for: a plain text is kept as a text only."""

    __slots__ = ("_made", "_packed", "_place", "_recent")

    def __init__(
        self,
        place: RowOf,
        packed: tuple[str | Cell | None, ...],
        recent: Recent,
    ) -> None:
        """`place` is file, sheet and the row's number; `packed` begins at column A."""
        self._place, self._packed, self._recent = place, packed, recent
        self._made: tuple[Cell | None, ...] | None = None

    def let_go(self) -> None:
        """Forget the cells; they are made again when asked for."""
        self._made = None

    def _cells(self) -> tuple[Cell | None, ...]:
        made = self._made
        if made is None:
            made = self._made = tuple(
                self._cell(column, held) if isinstance(held, str) else held
                for column, held in enumerate(self._packed, start=1)
            )
            self._recent.add(self)
        return made

    def at(self, index: int) -> Cell | None:
        """The cell of a column (0 is A), None past the end; of a very long list it alone is made.

        Whoever looks down a column would else have all cells of all rows made, and let go again.
        """
        made = self._made
        if made is None and self._recent.lets_go:
            held = self._packed[index] if 0 <= index < len(self._packed) else None
            return self._cell(index + 1, held) if isinstance(held, str) else held
        made = made or self._cells()
        return made[index] if 0 <= index < len(made) else None

    def _cell(self, column: int, text: str) -> Cell:
        return Cell(text, Where.in_row(self._place, column_letters(column)))

    @property
    def packed(self) -> tuple[str | Cell | None, ...]:
        """What is held: a text for a plain cell, a Cell for one with more to it."""
        return self._packed

    @overload
    def __getitem__(self, index: int) -> Cell | None: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[Cell | None, ...]: ...
    def __getitem__(self, index: int | slice) -> Cell | tuple[Cell | None, ...] | None:
        """The cell of a column (0 is A), or several."""
        return self._cells()[index]

    def __iter__(self) -> Iterator[Cell | None]:
        """From column A on."""
        return iter(self._cells())

    def __len__(self) -> int:
        """Up to the last cell that holds something."""
        return len(self._packed)

    def __eq__(self, other: object) -> bool:
        """Equal to the same cells, however they are held."""
        return isinstance(other, Sequence) and self._cells() == tuple(other)

    def __hash__(self) -> int:
        """As the cells' own."""
        return hash(self._cells())

    def __repr__(self) -> str:
        """As the cells' own."""
        return repr(self._cells())


@swiftly
@dataclass(frozen=True, slots=True)
class Row:
    """One row with at least one filled cell; `cells` begin at column A, None is an empty cell."""

    sheet: str | None
    number: int
    cells: Sequence[Cell | None]
    hidden: bool = False
    struck: bool = False
    """True when every filled cell is wholly struck through."""
    colours: tuple[tuple[int, str], ...] = ()
    """Columns (0 is A) that are set apart by a colour (RGB), empty cells among them."""

    def cell(self, index: int) -> Cell | None:
        """The cell in a column (0 is A); None when it is empty or past the row's end."""
        cells = self.cells
        if type(cells) is PackedCells:  # isinstance would ask the abstract class, four times slower
            return cells.at(index)
        return cells[index] if 0 <= index < len(cells) else None

    def text(self, index: int) -> str:
        """What the cell in a column says, "" where it is empty; no cell is made for it."""
        held = self.held
        cell = held[index] if 0 <= index < len(held) else None
        return cell if isinstance(cell, str) else cell.text if cell is not None else ""

    @property
    def held(self) -> Sequence[str | Cell | None]:
        """What each column holds, a plain cell its text alone; no cell is made for it."""
        return self.cells.packed if type(self.cells) is PackedCells else self.cells

    @property
    def texts(self) -> list[tuple[int, str]]:
        """Column (0 is A) and text of the filled cells; no cell is made for it."""
        return [
            (index, cell if isinstance(cell, str) else cell.text)
            for index, cell in enumerate(self.held)
            if cell is not None and (isinstance(cell, str) or cell.filled)
        ]

    @property
    def filled(self) -> tuple[Cell, ...]:
        """The filled cells from left to right."""
        return tuple(cell for cell in self.cells if cell is not None and cell.filled)


@dataclass(frozen=True, slots=True)
class Merge:
    """A merged range; rows count from 1 as in the sheet, columns from 0 as in `Row.cells`."""

    top: int
    left: int
    bottom: int
    right: int


@dataclass(frozen=True, slots=True)
class Rule:
    """Cells that a rule gives another look, and what it asks of them in the file's own words."""

    cells: Merge
    said: str


@dataclass(frozen=True, slots=True)
class Grid:
    """One sheet, or a whole text file (`sheet` None): its rows from the top, empty ones left out.

    `hidden_columns` are column indexes (0 is A).
    """

    file: str
    sheet: str | None
    rows: tuple[Row, ...]
    hidden: bool = False
    hidden_columns: frozenset[int] = frozenset()
    merges: tuple[Merge, ...] = ()
    meanings: tuple[tuple[str, int], ...] = ()
    """Meaning and ordinal of each column, where the reader itself has parted the text into them."""
    unused: tuple[UnusedRow, ...] = ()
    """Lines that the reader has set aside, and why."""
    rules: tuple[Rule, ...] = ()
    letters: tuple[str, ...] = ()
    """Of each column, where cells were moved and no longer stand in the file's own columns."""
    told: tuple[tuple[Cited, ...], ...] = ()
    """What is said beside the list, by paragraphs: sentences, each with the cells it goes over."""
    overheard: tuple[Cited, ...] = ()
    """Headings, and remarks that are one household's own: they may name others too."""
    corrects: bool = False
    """True for a sheet of corrections: what it says goes over the other sheets."""
    numbers: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    """The numbers with which the list counts a row, where a reader took them off ("12. Orr")."""

    def letters_of(self, index: int) -> str:
        """The letters by which the file knows a column (0 is A)."""
        return self.letters[index] if index < len(self.letters) else column_letters(index + 1)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table and what it was taken to mean.

    `meaning` is one of `headers.meanings()`, or None where nothing could be told; `how` is
    "header", "content", "docket", or "" with None. `ordinal` tells the first person's columns
    (1) from the second's (2) and so on.
    """

    index: int
    letters: str
    header: str
    meaning: str | None
    how: str
    hidden: bool = False
    ordinal: int = 1
    also: str = ""
    """A second meaning: "RSVP / notes" holds replies, and notes."""


@dataclass(frozen=True, slots=True, eq=False)  # by identity: a hash of all cells a row is quadratic
class Table:
    """A header and the rows below it. `header_row` is 0 where the table has no header."""

    file: str
    sheet: str | None
    header_row: int
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    aside: tuple[Cited, ...] = ()
    """Rows of words that name nobody, each with its cell: remarks on the list or on a guest."""
    headings: tuple[tuple[int, Cited], ...] = ()
    """Rows that only say whose guests follow, by number, in order."""
    wave: Cited | None = None
    """The round of invitations that the sheet's name gives its rows, if another is a later one."""
    numbers: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    """The numbers with which the list counts a row (mostly one), by the row's own."""
    codes: frozenset[str] = frozenset()
    """The client's own codes, folded, that set a few rows apart in a column of replies."""
    crosses: frozenset[str] = frozenset()
    """What takes rows out in a column of rounds: an X or a no among others' 1 and 2."""
    title_codes: frozenset[str] = frozenset()
    """The client's own short forms in its columns of titles, as `title_codes.py` writes them."""
    _leftmost: Mapping[tuple[str | None, int], Column] = field(init=False, repr=False)
    _places: Mapping[str | None, tuple[int, ...]] = field(init=False, repr=False)
    _standing: Mapping[str, tuple[int, ...]] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Note once where each meaning stands: it is asked for sixty times a row."""
        leftmost = {(c.meaning, c.ordinal): c for c in reversed(self.columns)}
        places: dict[str | None, tuple[int, ...]] = {}
        for column in self.columns:
            places[column.meaning] = (*places.get(column.meaning, ()), column.index)
        standing: dict[str, tuple[int, ...]] = {}
        for column in sorted(self.columns, key=lambda c: (c.ordinal, c.index)):
            for meaning in (column.meaning, column.also):
                if meaning:
                    standing[meaning] = (*standing.get(meaning, ()), column.index)
        object.__setattr__(self, "_leftmost", leftmost)
        object.__setattr__(self, "_places", places)
        object.__setattr__(self, "_standing", standing)

    def heading_over(self, number: int) -> Cited | None:
        """The heading below which a row stands, by its number."""
        at = bisect_right(self.headings, number, key=lambda each: each[0])
        return self.headings[at - 1][1] if at else None

    def column(self, meaning: str, ordinal: int = 1) -> Column | None:
        """The column with a meaning, the leftmost one, or None."""
        return self._leftmost.get((meaning, ordinal))

    def under(self, meaning: str) -> tuple[int, ...]:
        """The columns (0 is A) whose header means this and nothing else first, as they stand."""
        return self._places.get(meaning, ())

    def saying(self, meaning: str) -> tuple[int, ...]:
        """The columns (0 is A) that say this, among other things too; the first person's first."""
        return self._standing.get(meaning, ())
