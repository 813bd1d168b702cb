"""A firm beside an address, as address books have it: is the address the home's or the firm's?

A firm goes with the columns of a work address; a home's envelope never has it. Where the list has
one address and doesn't say whose, the client is asked.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.homes.row_address import PLACES, first_of, written_address
from addressing.guestlist.tables.meanings import WORK_PARTS, signs
from addressing.guestlist.written import Written
from addressing.records.findings import Finding
from addressing.records.guests import Cited

_PREFIX = "work_"


@dataclass(frozen=True, slots=True)
class Chosen:
    """The address of a row that is used, and what is to be said of the firm and of the other."""

    written: Written
    findings: tuple[Finding, ...] = ()


def home_or_work(table: Table, row: Row, names: frozenset[str]) -> Chosen:
    """The home's address without its firm; without a home the address at work, with it.

    `names` are the folded words of the row's names: a firm among them is a guest itself.
    """
    home = written_address(table, row)
    firm = first_of(table, row, "firm")
    columns = _work_table(table)
    work = written_address(columns, row) if columns is not None else Written()
    if firm is not None and set(fold(firm.text).split()) <= names:
        firm = None
    if home.empty and not work.empty:
        with_firm = replace(work, extra=work.extra or firm)
        said = ", ".join(line.text for line in with_firm.cited)
        text = f"The list has no home address; the one at work is used: “{said}”."
        mend = "Is there a home address? Without an answer it goes to work."
        cell = with_firm.cited[0].cells[0]
        return Chosen(with_firm, (finding("address-at-work", cell, text, mend, said),))
    if firm is None or home.empty or _is_said(firm, home):
        return Chosen(home)
    if columns is not None or _is_home(table):
        text = f"“{firm.text}” isn't set on the envelope that goes home."
        return Chosen(home, (finding("firm-left-out", firm.cells[0], text, "Nothing to do."),))
    return _asked(home, firm)


def _asked(home: Written, firm: Cited) -> Chosen:
    """With a firm beside the only address, both are kept until the client has said."""
    text = f"“{firm.text}” stands beside the address, in a column for firms."
    mend = "Is it the firm's address, or their home?"
    asked = finding("firm-doubtful", firm.cells[0], text, mend, firm.text)
    plain = ", ".join(line.text for line in home.cited)
    asked = replace(asked, likely=(("lines", plain),))
    return Chosen(replace(home, extra=home.extra or firm), (asked,))


def _is_said(firm: Cited, home: Written) -> bool:
    """True where the address has the firm as a line of its own already."""
    return any(f" {fold(firm.text)} " in f" {fold(line.text)} " for line in home.cited)


def _is_home(table: Table) -> bool:
    """True where a header of the address says that it is their home."""
    headers = (fold(c.header).split() for c in table.columns if c.meaning in PLACES)
    return any(not signs("home-sign").keys().isdisjoint(words) for words in headers)


@lru_cache(maxsize=8)
def _work_table(table: Table) -> Table | None:
    """The table as if its columns of work were its address."""
    if not any(column.meaning in WORK_PARTS for column in table.columns):
        return None
    turned = tuple(
        replace(column, meaning=(column.meaning or "").removeprefix(_PREFIX))
        for column in table.columns
        if column.meaning in WORK_PARTS
    )
    others = tuple(c for c in table.columns if c.meaning not in (*PLACES, *WORK_PARTS))
    return replace(table, columns=(*others, *turned), rows=())
