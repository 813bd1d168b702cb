"""What the cells beside names and addresses say of who is invited: replies, notes, anything else.

A no in any of them holds the household: nobody is printed unasked, whatever its header says.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.files.spans import spans
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.homes.row_address import cells_of
from addressing.guestlist.people.news import (
    clauses,
    doubts_address,
    is_bare_marker,
    is_marker,
    is_of_things,
    says_out,
)
from addressing.guestlist.people.note_words import is_unsure, says
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import asks_who_is_invited
from addressing.guestlist.tables.contents import kind_of
from addressing.guestlist.tables.meanings import meaning_of, signs
from addressing.guestlist.tables.title_codes import code_of, likely_titles
from addressing.records.findings import Finding
from addressing.records.guests import Kind, Person
from addressing.where import Where

_STILL = "Is everybody here still invited?"
_NO_WORDS = frozenset({"email", "phone", "postcode", "number", "date", "boolean"})
"""Kinds of cells in which no remark stands."""


def said_in_columns(table: Table, row: Row) -> list[Finding]:
    """The findings for a row's replies and notes, and for a no in a column that isn't used."""
    replies = list(cells_of(table, row, "reply"))
    noes = [cell for cell in replies if _is_no(cell) or fold(cell.text) in table.codes]
    noes += [cell for cell in cells_of(table, row, "declined") if _is_marked(cell)]
    noes += [*_of_the_day(table, row), *_unsure(table, row)]
    noes += [cell for cell in cells_of(table, row, "wave") if fold(cell.text) in table.crosses]
    moved = [cell for cell in replies if doubts_address(cell.text)]
    notes = [cell for cell in cells_of(table, row, "notes") if not _says_nothing(cell)]
    rest = {cell.where: cell for cell in (*moved, *notes, *_unused(table, row))}
    for cell in noes:
        rest.pop(cell.where, None)
    return [
        *map(_of_sentence, cells_of(table, row, "sentence")),
        *map(_below, cells_of(table, row, "heading")),
        *map(_of_sender, cells_of(table, row, "sender")),
        *map(_out, noes),
        *map(_moved_to, cells_of(table, row, "new_address")),
        *(remark(cell.where, cell.text, whole=True) for cell in rest.values()),
    ]


def _of_sentence(cell: Cell) -> Finding:
    """A household that was read from running text: nobody is printed who wasn't confirmed."""
    text = f"Read from a sentence: “{cell.text}”."
    return finding("sentence-read", cell.where, text, "Is it read right?", cell.text)


def _below(cell: Cell) -> Finding:
    """A household below words that perhaps give it a title."""
    text = f"Above it says: “{cell.text}”."
    return finding("titles-noted", cell.where, text, "Which titles are meant?", cell.text)


def _of_sender(cell: Cell) -> Finding:
    """The sender's own name and address below the mail: a guest, or a signature."""
    text = f"“{cell.text}” stands below the end of the mail, whose sender it names."
    return finding("sender-listed", cell.where, text, "Is the sender a guest?", cell.text)


def lettered(table: Table, row: Row, people: Sequence[Person]) -> Iterator[Finding]:
    """The questions what letters mean that stand where a title belongs, beside who has none."""
    untitled = any(person.kind is Kind.NAMED and not person.title for person in people)
    for column in table.columns:
        cell = row.cell(column.index) if column.meaning == "title" and untitled else None
        if cell is None or code_of(cell.text) not in table.title_codes:
            continue
        text = f"“{cell.text}” stands where a title belongs; what it means isn't said."
        asked = finding("title-letters", cell.where, text, "Which title is it?", cell.text)
        likely = tuple(("title", title) for title in likely_titles(cell.text))
        yield replace(asked, likely=likely)


def remark(where: Where, text: str, *, whole: bool) -> Finding:
    """The finding for a remark; `whole` for a cell of notes, where "kids not invited" is only one.

    Its code is `address-doubtful`, `marker-in-list` or `remark`.
    """
    of_children = fold(text).startswith(("kid", "child"))
    out = says_out(text) if whole or of_children else is_marker(text)
    said = f"The list says: “{text}”."
    if doubts_address(text) and not (whole and out):
        mend = "Is the address in the list the right one?"
        return finding("address-doubtful", where, said, mend, text)
    if out:
        return finding("marker-in-list", where, said, _STILL, text)
    return told(where, text)


def told(where: Where, text: str) -> Finding:
    """The finding for a remark on which nothing waits."""
    said = f"The list says: “{text}”."
    return finding("remark", where, said, "Worth reading before the proof is signed.", text)


def _moved_to(cell: Cell) -> Finding:
    """A second address, under a header that says it is the new one."""
    text = f"The list has a new address: “{cell.text}”."
    asked = finding("address-doubtful", cell.where, text, "Which address is right?", cell.text)
    shown = ", ".join(cell.text.split("\n"))
    told = [span.text for span in spans(shown) if span.whole]  # "they moved in May: 12 Elm Row, …"
    return replace(asked, likely=(("lines", told[0] if len(told) == 1 else shown),))


def _out(cell: Cell) -> Finding:
    return finding(
        "marker-in-list", cell.where, f"The list says: “{cell.text}”.", _STILL, cell.text
    )


def _is_no(cell: Cell) -> bool:
    """A reply that says no, declined or not invited, in one of its clauses ("No - working")."""
    said = {fold(cell.text)}
    if " " in cell.text.strip():  # "N/A" is no clause of its own
        said.update(map(fold, clauses(cell.text)))
    return not said.isdisjoint(row_words("said-no")) or is_marker(cell.text)


def _is_marked(cell: Cell) -> bool:
    """Anything but a no or a yes to the invitation, in a column headed "Declined"."""
    if is_marker(cell.text):
        return True
    if fold(cell.text) in row_words("said-no") or not cell.text.strip("-–— "):
        return False
    hit = meaning_of(cell.text)
    return hit is None or hit.meaning != "reply"


def _says_nothing(cell: Cell) -> bool:
    """A bare yes among replies and notes, an e-mail address among notes; a bare maybe says much."""
    if is_unsure(cell.text):
        return False
    if kind_of(cell) in _NO_WORDS:
        return cell.kind != "text" or kind_of(cell) in {"email", "phone"}
    hit = meaning_of(cell.text)
    return fold(cell.text) in signs("mark-sign") or (hit is not None and hit.meaning == "reply")


def _of_the_day(table: Table, row: Row) -> list[Cell]:
    """A bare "declined" as a meal or under the ceremony; that of a brunch is of the brunch only."""
    cells = ((c.header, row.cell(c.index)) for c in table.columns if c.meaning == "elsewhere")
    return [cell for header, cell in cells
            if cell and not is_of_things(header) and is_bare_marker(cell.text)]  # fmt: skip


def _unsure(table: Table, row: Row) -> list[Cell]:
    """A "maybe" under "Invite?": there the hosts are in doubt, and under "RSVP" the guest is."""
    cells = ((c.header, row.cell(c.index)) for c in table.columns if c.meaning == "reply")
    return [cell for header, cell in cells
            if cell and asks_who_is_invited(header) and is_unsure(cell.text)]  # fmt: skip


def _unused(table: Table, row: Row) -> Iterator[Cell]:
    """The cells that say someone is out, or the address is wrong, in columns of no use else."""
    for column in table.columns:
        if column.meaning not in (None, "ignore", "table"):
            continue
        cell = row.cell(column.index)
        if cell is None or not cell.text or kind_of(cell) in _NO_WORDS:
            continue
        of_thing = is_of_things(column.header)
        posted = not row_words("posted").isdisjoint(fold(column.header).split())
        moved = not of_thing and doubts_address(cell.text)
        told = column.header not in ("", cell.text) and column.meaning is not None
        open_ = not told and is_unsure(cell.text)  # its header says nothing, or is a heading above
        moved = moved or (posted and says("elsewhere", cell.text))
        if moved or open_ or says_out(cell.text, of_thing=of_thing):
            yield cell
