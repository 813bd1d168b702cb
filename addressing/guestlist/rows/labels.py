"""A column of labels, as address books have it: who lacks the wedding's is perhaps not invited."""

import re
from collections import Counter
from collections.abc import Iterable

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.records.findings import Finding

_PARTED = re.compile(r"\s*(?:[;,|/\n]|:::)\s*")
_LEAST = 3
_HALF = 0.5
"""From so many rows and this share of all on, a label says who is invited."""


def labelled_otherwise(table: Table) -> dict[int, Finding]:
    """A question for each row, by number, without the label that says who is invited.

    "Wedding?" and "Wedding vendor" are other labels than "Wedding". Empty where no label, or not
    half of the rows, speaks of a wedding.
    """
    column = table.column("labels")
    if column is None:
        return {}
    cells = {row.number: row.cell(column.index) for row in table.rows}
    counted = Counter(label for cell in cells.values() for label in set(_labels(cell)))
    wedding = (each for each in counted.most_common() if _of_invited(each[0]))
    label, count = next(wedding, ("", 0))
    if count < max(_LEAST, _HALF * len(cells)):
        return {}
    return {
        number: _asked(cell, label)
        for number, cell in cells.items()
        if cell is not None and cell.text and label not in _labels(cell)
    }


def _asked(cell: Cell, label: str) -> Finding:
    text = f"The list labels this row “{cell.text}”, and most others “{label}”."
    return finding("marker-in-list", cell.where, text, "Are they invited?", cell.text)


def _labels(cell: Cell | None) -> Iterable[str]:
    """The labels of a cell in small letters.

    >>> from addressing.where import Where
    >>> list(_labels(Cell("Wedding; Family", Where("list.csv"))))
    ['wedding', 'family']
    """
    return filter(None, _PARTED.split(cell.text.casefold().strip())) if cell is not None else ()


def _of_invited(label: str) -> bool:
    """True for a label that says who is invited, and nothing besides: no "Wedding?"."""
    return label.isprintable() and label.strip("* ") in map(fold, row_words("invited-label"))
