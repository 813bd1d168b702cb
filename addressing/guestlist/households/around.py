"""What stands around the rows of a list and holds no guest: titles, stray rows, comments.

Each is told in the client's words: what speaks of somebody goes to the envelope, what may matter
is asked about once. Headings, sums and the sheet's own title are neither.
"""

import re
from collections.abc import Iterator, Sequence

from addressing.guestlist.files.added import adds
from addressing.guestlist.files.mail_lines import has_verb, speaks_in_verbs
from addressing.guestlist.files.speaking import BETWEEN, Listed
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Grid, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.people.vocabulary import words as kind_of_words
from addressing.guestlist.tables.colour_keys import is_keys
from addressing.guestlist.tables.headings import says_whose
from addressing.guestlist.tables.meanings import signs
from addressing.guestlist.tables.sheets import is_aside, is_overview
from addressing.guestlist.tables.totals import NO_WORDS, is_remark, sums_up
from addressing.records.guests import Cited, UnusedRow

_WORD = re.compile(r"[^\W\d_]+")
_LONGEST = 5
"""Words of a heading at most."""
_SEVERAL = 2
"""Words that may say something."""

Rows = frozenset[tuple[str | None, int]]
Told = tuple[tuple[Cited, ...], ...]


def around(
    grids: Sequence[Grid], tables: Sequence[Table], unused: Sequence[UnusedRow], listed: Listed
) -> Told:
    """The words around the lists of a file, a paragraph for each row and each line of a comment."""
    sheets = {table.sheet for table in tables}
    kept = frozenset((table.sheet, row.number) for table in tables for row in table.rows)
    heads = frozenset((table.sheet, table.header_row) for table in tables)
    why = {(row.sheet, row.row): row.why for row in unused}
    found: list[tuple[Cited, ...]] = []
    for grid in grids:
        if grid.hidden or grid.meanings or not grid.rows or is_overview(grid) or is_aside(grid):
            continue
        for row in grid.rows:
            here = (grid.sheet, row.number)
            if here in kept:
                continue
            found += _comments(row)
            if grid.sheet in sheets and here not in heads and not is_keys(row):
                found += _said(row, why.get(here), listed)
    return tuple(found)


def _comments(row: Row) -> Iterator[tuple[Cited, ...]]:
    """The lines of the comments on a row's cells."""
    cells = (held for held in row.held if isinstance(held, Cell) and held.note and not held.spread)
    for cell in cells:
        for line in (cell.note or "").splitlines():
            if _WORD.search(line):
                yield (Cited(line.strip(), (cell.where,)),)


def _said(row: Row, why: str | None, listed: Listed) -> Iterator[tuple[Cited, ...]]:
    """What a row says that holds no guest; `why` is None for one above the header."""
    cells = [cell for cell in row.filled if _WORD.search(cell.text)]
    text = BETWEEN.join(cell.text for cell in cells)
    if why == NO_WORDS:
        several = any(len(_WORD.findall(cell.text)) >= _SEVERAL for cell in cells)
        speaks = (several and not _heads(text)) or listed.tells(text)
    elif why is None or why.startswith("the title"):
        speaks = listed.tells(text) or adds(text) or _may_matter(text)
    else:
        return
    if speaks and not says_whose(text) and not sums_up(text):
        yield (Cited(text, tuple(cell.where for cell in cells)),)


def _heads(text: str) -> bool:
    """True for words over a part of a list, a family's name among them: nobody is meant by it.

    >>> [_heads(each) for each in ("KESSLER FAMILY (JOAN)", "Ada's friends", "no kids please")]
    [True, True, False]
    """
    words = re.sub(r"\([^()]*\)", "", text).split()
    last = fold(words[-1].rstrip(",:")) if words else ""
    heads = last in signs("heading-sign") or last in kind_of_words("family")
    return len(words) <= _LONGEST and not has_verb(text) and (text.isupper() or heads)


def _may_matter(title: str) -> bool:
    """True for a line above a list that is more than its title: "no kids please!"."""
    words = fold(title).split()
    plain = not row_words("sheet-title").isdisjoint(words)
    marked = has_verb(title) or (len(words) > _SEVERAL and is_remark(title))
    return speaks_in_verbs(title) or (marked and not plain)
