"""One column of family names beside columns for two people: whose name it is, row by row."""

import re
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Table
from addressing.guestlist.people.names import take_titles
from addressing.guestlist.people.promised import says_no
from addressing.guestlist.people.vocabulary import partner_words

_HALVES = re.compile(r"\s*[/&]\s*")
_COUPLE = 2
_HIS_OR_HERS = frozenset(("him", "her", "his", "hers"))
Cells = dict[str, Cell]


def whose(table: Table, ordinal: int, cells: Cells, first: Cells, other: Cells) -> Cells:
    """The cells of one of the two, with the family name where it is theirs.

    Of "Crane", no husband and the wife "Dolores" the name is hers, and there is one person; of
    "Egan / Frost", "Pete" and "Laurel" each has one. `first` and `other` are both people's cells.
    """
    family = first.get("family")
    if family is None or not _named(other) or table.column("family", _COUPLE) is not None:
        return cells
    nobody = {part for part in ("name", "given") if part in first and _is_nobody(first[part].text)}
    left = {part: cell for part, cell in first.items() if part not in nobody}
    if left.keys() <= {"family", "suffix"}:
        return {} if ordinal == 1 else {**left, **cells}
    halves = _HALVES.split(family.text.strip())
    if len(halves) == _COUPLE and all(halves) and _named(left) == _named(other) == 1:
        return {**cells, "family": replace(family, text=halves[ordinal - 1])}
    return cells


def share_a_name(table: Table) -> bool:
    """True for columns "Last name", "Husband", "Wife", or "Last", "First (him)", "First (her)"."""
    own = [
        table.column("name", ordinal) or table.column("given", ordinal) for ordinal in (1, _COUPLE)
    ]
    if table.column("family") is None or table.column("family", _COUPLE) is not None:
        return False
    if table.column("given") is None:
        return all(own)
    called = (set(re.findall(r"\w+", fold(each.header))) for each in own if each)
    told = [not words.isdisjoint(_HIS_OR_HERS | partner_words()) for words in called]
    return told == [True, True]


def _named(cells: Cells) -> int:
    """How many words of names stand in a person's cell; 0 for nobody."""
    cell = cells.get("name") or cells.get("given")
    return len(take_titles(cell.text.split())[1]) if cell is not None else 0


def _is_nobody(text: str) -> bool:
    return says_no(text) or set(fold(text)) == {"x"}
