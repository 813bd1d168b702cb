"""What was read from the file before anything is understood: cells, rows, grids, tables."""

from dataclasses import dataclass

from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that holds something.

    `kind` is "text", "number", "date", "boolean", "formula" (one without a stored value) or
    "error". `text` is what a person sees there, repaired; the text of a formula without a value
    and of an error ("#REF!") is empty, so that neither can reach an envelope, and `shown` holds
    the formula or the error. A date's `text` is ISO 8601. `text` is empty too where a cell holds
    nothing but a note.
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

    @property
    def wholly_struck(self) -> bool:
        """True when every word of the cell is struck through."""
        return bool(self.struck) and self.struck == (self.text,)

    @property
    def filled(self) -> bool:
        """True when the cell itself holds something to read, seen or not: not a note alone."""
        return not self.spread and (self.text != "" or self.kind in {"formula", "error"})


@dataclass(frozen=True, slots=True)
class Row:
    """One row with at least one filled cell; `cells` begin at column A, None is an empty cell."""

    sheet: str | None
    number: int
    cells: tuple[Cell | None, ...]
    hidden: bool = False
    struck: bool = False
    """True when every filled cell is wholly struck through."""

    def cell(self, index: int) -> Cell | None:
        """The cell in a column (0 is A); None when it is empty or past the row's end."""
        return self.cells[index] if 0 <= index < len(self.cells) else None

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


@dataclass(frozen=True, slots=True, eq=False)  # by identity: a hash of all cells a row is quadratic
class Table:
    """A header and the rows below it. `header_row` is 0 where the table has no header."""

    file: str
    sheet: str | None
    header_row: int
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def column(self, meaning: str, ordinal: int = 1) -> Column | None:
        """The column with a meaning, the leftmost one, or None."""
        found = (c for c in self.columns if (c.meaning, c.ordinal) == (meaning, ordinal))
        return next(found, None)
