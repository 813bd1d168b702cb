"""The rows of a job ticket, worked out from a plate's order; and a ticket held against them."""

import re
from collections.abc import Iterator

from addressing.preflight import words_of
from addressing.proofs.words import kind_name
from addressing.records.kept import KeptJob
from addressing.records.pages import Setting
from addressing.records.plates import PlateOrder
from addressing.records.tickets import TicketItem, TicketPlate

_THEN = "Fromthesefiles"
"""How the heading below those rows begins."""


def ticket_plate(order: PlateOrder, setting: Setting) -> TicketPlate:
    """What a ticket says of a plate: its file, ink, pages, copies, pieces, passes."""
    return TicketPlate(
        f"{order.name}.pdf",
        order.spots,
        order.pages,
        order.copies,
        _pieces(order),
        sum(map(setting.hits_of, order.inks)),
    )


def _pieces(order: PlateOrder) -> int:
    """How many pieces come of a plate."""
    if order.households != (None,):
        return len(order.households) * order.copies
    at = order.sheets
    return order.copies * (max(at.least, 1) * at.each if at is not None else 1)


def ticket_faults(sheets: bytes, kept: KeptJob) -> Iterator[str]:
    """What a ticket says of the plates otherwise than their orders, in ends of sentences.

    Held are its files with inks, pages, copies, passes and prints, and how many of each kind are
    printed in all; sizes, papers and terms aren't.
    """
    told = words_of(sheets)
    items: dict[str, list[TicketPlate]] = {}
    for each in kept.orders:
        plate = ticket_plate(each.order, each.setting)
        items.setdefault(each.order.kind, []).append(plate)
    for plate in (plate for its in items.values() for plate in its):
        if "".join(_row(plate).split()) not in told:
            yield (
                f"doesn't say of {plate.name} what it is: {plate.ink}, {plate.pages} pages,"
                f" {plate.copies} copies of each, {plate.prints} prints."
            )
    if told.count(".pdf") != sum(map(len, items.values())):
        yield "names other files than the job's plates."
    rows = [TicketItem(kind, "", 0.0, 0.0, tuple(plates)) for kind, plates in items.items()]
    if not re.search("".join(map(_total, rows)) + _THEN, told):
        wanted = ", ".join(f"{row.prints:,} of {row.kind}" for row in rows)
        yield f"says of how many are printed, and in what, something else than {wanted}."


def _row(plate: TicketPlate) -> str:
    counts = f"{plate.pages:,} {plate.copies:,} {plate.hits} {plate.prints:,}"
    return f"{plate.name} {plate.ink} {counts}"


def _total(row: TicketItem) -> str:
    """How the row of a kind reads without blanks: paper, size and method stand between."""
    kind, inks = ("".join(words.split()) for words in (kind_name(row.kind), " and ".join(row.inks)))
    return f"{re.escape(kind)}.{{1,200}}?{re.escape(inks)}[^0-9]{{1,60}}{row.prints:,}"
