"""What a shop is told with the plates: its ticket, the sheet for what is sent in, their proof.

Their fingerprints go into the orders with the plates, so that no word of theirs can change later.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from io import BytesIO

from addressing.estimating import ink_box
from addressing.job.device_notes import varnish_notes
from addressing.job.live import is_live
from addressing.job.manifest import NotPlate
from addressing.job.parting import job_orders, to_print
from addressing.job.proofs import job_of, proof_sets
from addressing.job.reading import Reading
from addressing.job.ticket_held import ticket_plate
from addressing.proofs import job_ticket, sent_in_sheet, shop_proof
from addressing.proofs.words import mark
from addressing.records.counts import PieceCount
from addressing.records.pages import Setting
from addressing.records.pieces import household_of
from addressing.records.plates import PlateOrder
from addressing.records.proofs import BLANK_SEAL
from addressing.records.shelf import Device, Shop
from addressing.records.tickets import Ticket, TicketItem
from addressing.version import VERSION

TICKET, SENT_IN = "job-ticket.pdf", "envelopes-sent-in.pdf"
"""The names of the two sheets in a package."""
SHOP_PROOF = "package/proof.pdf"
"""What the proof in a package is called beside the fingerprints of a job's sheets."""


@dataclass(frozen=True, slots=True)
class Due:
    """A plate that should be there: its order, what is set on it, its paper's title."""

    order: PlateOrder
    setting: Setting
    stock: str
    method: str | None


def due_plates(reading: Reading, counts: tuple[PieceCount, ...]) -> Iterator[Due]:
    """The plates that the job should have now."""
    for kind, _, orders in job_orders(reading, counts):
        for order, share in orders:
            method = kind.method.title if kind.method is not None else None
            yield Due(order, share, kind.stock.title, method)


def ticket_of(reading: Reading, made: Sequence[Due], counts: tuple[PieceCount, ...]) -> Ticket:
    """What the shop is told of plates."""
    items: dict[str, TicketItem] = {}
    dies = dict(_dies(reading))
    for each in made:
        order, layout = each.order, each.setting.layout
        plate = ticket_plate(order, each.setting)
        known = items.get(order.kind)
        if known is not None:
            items[order.kind] = replace(known, plates=(*known.plates, plate))
            continue
        outer = items.get("outer")
        on_outer = (
            order.kind == "return"
            and outer is not None
            and ((outer.width, outer.height) == (layout.width, layout.height))
        )
        items[order.kind] = TicketItem(
            order.kind, each.stock, layout.width, layout.height, (plate,),
            "outer" if on_outer else None, order.sheets.sheet if order.sheets else None,
            each.method, dies.get(order.kind),
        )  # fmt: skip
    hosts = reading.docket.hosts
    return Ticket(
        shop=reading.press if isinstance(reading.press, Shop) else None,
        date=reading.docket.date,
        proof=mark(job_of(reading, counts)),
        version=VERSION,
        country=hosts.country if hosts else "US",
        items=tuple(items.values()),
        cautions=varnish_notes(reading),
        live=is_live(reading),
    )


def _dies(reading: Reading) -> Iterator[tuple[str, tuple[str, float, float]]]:
    """For each kind of which a plate or die is made the method and how large its ink is."""
    of_dies = [kind for kind in reading.kinds if kind.method is not None and kind.method.die]
    pages = {each.setting.kind: each.pages for each in proof_sets(reading)} if of_dies else {}
    for kind in of_dies:
        if kind.method is not None and pages.get(kind.kind):
            yield kind.kind, (kind.method.key, *ink_box(pages[kind.kind][0]))


def ticket_sheets(ticket: Ticket) -> dict[str, bytes]:
    """Both sheets by their names in a package."""
    told, sent = BytesIO(), BytesIO()
    job_ticket(told, ticket)
    sent_in_sheet(sent, ticket)
    return {TICKET: told.getvalue(), SENT_IN: sent.getvalue()}


def proof_in_package(
    reading: Reading, ticket: Ticket, counts: tuple[PieceCount, ...], made: Sequence[Due]
) -> bytes:
    """The proof of what is printed, under the ticket's seal: nobody who waits, no finding."""
    job = job_of(reading, counts)
    on_plates = {household_of(key) for each in made for key in each.order.households if key}
    job = replace(
        job,
        households=tuple(home for home in job.households if home.key in on_plates),
        findings=(),
        list_name=ticket_title(ticket),
        seal=ticket.seal,
    )
    sets = tuple(
        replace(each, setting=setting, pages=pages)
        for each in proof_sets(reading)
        if (setting := to_print(each.setting, reading.off_plates)).pieces
        and (pages := tuple(p for p in each.pages if p.household not in reading.off_plates))
    )
    proof = BytesIO()
    shop_proof(proof, job, sets)
    return proof.getvalue()


def ticket_title(ticket: Ticket) -> str:
    """What the proof is headed with where the hosts aren't named: never the list's own name."""
    return ticket.shop.title if ticket.shop else "Plates"


def unsealed_sheets(reading: Reading, counts: tuple[PieceCount, ...]) -> tuple[NotPlate, ...]:
    """The fingerprints of all three with a blank seal; none for plates that are printed at home."""
    if isinstance(reading.press, Device):
        return ()
    made = tuple(due_plates(reading, counts))
    ticket = replace(ticket_of(reading, made, counts), seal=BLANK_SEAL)
    proof = proof_in_package(reading, ticket, counts, made)
    return (
        *(
            NotPlate(name, sha256(data).hexdigest(), "ticket")
            for name, data in ticket_sheets(ticket).items()
        ),
        NotPlate(SHOP_PROOF, sha256(proof).hexdigest(), "proof"),
    )
