"""What a shop gets on paper with the plates: the job ticket, the sheet for envelopes sent in."""

import math
from collections.abc import Iterator
from io import BytesIO

from addressing.proofs.flow import (
    Block,
    Imprint,
    Pen,
    Sheet,
    gap,
    sheet_for,
    text_block,
    write_sheets,
)
from addressing.proofs.lettering import wrap
from addressing.proofs.look import BODY, CAPTION, KICKER, SECTION, SMALL, SUBTITLE, TITLE
from addressing.proofs.ruled import Column, ruled
from addressing.proofs.words import kind_name, long_date, many, size_words
from addressing.records.plates import BESIDE
from addressing.records.proofs import SEAL
from addressing.records.shelf import Shop
from addressing.records.shops import FileRules, SentIn
from addressing.records.tickets import Ticket, TicketItem
from addressing.units import pt_to_mm

NOT_SAID = "to be agreed"
CHECKS = (
    "One envelope of each kind shown open: which side is printed, where the flap lies.",
    "Every box marked with the piece, its number, and how many boxes there are.",
    "Envelopes counted in by both; the count written above.",
    "No lined or sealed envelope among them; liners and seals go in after printing.",
)
"""Trade custom, no source."""


def job_ticket(into: BytesIO, ticket: Ticket) -> int:
    """Write the ticket `into` memory and return its number of sheets.

    What is to be printed, from which files, how many, on what; how the files are made; by when;
    whom to ask. It names no guest. The same ticket gives the same bytes.
    """
    sheet = sheet_for(ticket.country)
    blocks = [
        *_title(ticket, "Job ticket", sheet),
        *_items(ticket, sheet),
        *_files(ticket, sheet),
        *_terms(ticket, sheet),
        *_contacts(sheet, ("Designer", "Shop")),
    ]
    return write_sheets(into, sheet, blocks, _imprint(ticket, "Job ticket"))


def sent_in_sheet(into: BytesIO, ticket: Ticket) -> int:
    """Write the hand-over sheet for envelopes that are sent in; returns its number of sheets."""
    sheet = sheet_for(ticket.country)
    terms = ticket.shop.sent_in if ticket.shop else SentIn()
    columns = (
        Column("For", 3),
        Column("Size", 4.2),
        Column("Paper", 2.2),
        Column("Prints", 1.3, right=True),
        Column("Passes", 1.3, right=True),
        Column("Spare", 1.2, right=True),
        Column("Sent in", 1.4, right=True),
        Column("Boxes", 1.2, right=True),
        Column("Counted in", 1.7, right=True),
    )
    rows = [_sent(ticket, item, terms) for item in ticket.items if item.on is None]
    blocks = [
        *_title(ticket, "Envelopes and paper sent in", sheet),
        *ruled(columns, rows, sheet.measure),
        *_points("Looked at together", CHECKS, sheet),
        *_points("Terms", _sent_terms(terms), sheet),
        *_contacts(sheet, ("Handed over by, on", "Received by, on")),
    ]
    return write_sheets(into, sheet, blocks, _imprint(ticket, "Envelopes and paper sent in"))


def _imprint(ticket: Ticket, what: str) -> Imprint:
    seal = f"   ·   seal of the plates {SEAL}" if ticket.seal else ""
    footer = f"{what} to proof no. {ticket.proof}{seal}   ·   for this job only"
    return Imprint(f"{what} {ticket.proof}", f"addressing {ticket.version}", footer, ticket.seal)


def _title(ticket: Ticket, what: str, sheet: Sheet) -> list[Block]:
    shop = ticket.shop.title if ticket.shop else "For the shop"
    day = long_date(ticket.date, ticket.country) if ticket.date else None
    under = "   ·   ".join(part for part in (day, f"proof no. {ticket.proof}") if part)
    return [
        text_block((what.upper(),), KICKER),
        gap(4),
        text_block(wrap(shop, TITLE, sheet.measure), TITLE),
        text_block((under,), SUBTITLE),
        gap(16),
    ]


def _heading(words: str) -> list[Block]:
    def draw(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - SECTION.size, words, SECTION)

    return [gap(14), Block(SECTION.leading + 6, draw, keep=True)]


def _items(ticket: Ticket, sheet: Sheet) -> list[Block]:
    """What and how many, then each file."""
    columns = (
        Column("Piece", 2.6),
        Column("On", 3),
        Column("Size", 4.4),
        Column("Ink", 2.6),
        Column("Method", 2),
        Column("Prints", 1.4, right=True),
    )
    rows = [
        (
            kind_name(item.kind),
            item.stock if item.on is None else f"the {item.on}’s own envelope",
            size_words(item.width, item.height, ticket.country),
            " and ".join(item.inks),
            item.method or NOT_SAID,
            f"{item.prints:,}",
        )
        for item in ticket.items
    ]
    files = (
        Column("File", 5),
        Column("Ink", 2.6),
        Column("Pages", 1.4, right=True),
        Column("Copies of each", 2, right=True),
        Column("Passes", 1.2, right=True),
        Column("Prints", 1.4, right=True),
    )
    each = [
        (
            plate.name,
            plate.ink,
            f"{plate.pages:,}",
            f"{plate.copies:,}",
            f"{plate.hits}",
            f"{plate.prints:,}",
        )
        for item in ticket.items
        for plate in item.plates
    ]
    return [
        *_heading("What is to be printed"),
        *ruled(columns, rows, sheet.measure),
        *_heading("From these files, in this order"),
        *ruled(files, each, sheet.measure),
    ]


def _files(ticket: Ticket, sheet: Sheet) -> list[Block]:
    """How the files are made, so that nobody has to open one to know."""
    rules = ticket.shop.files if ticket.shop else FileRules()
    inks = ", ".join(dict.fromkeys(ink for item in ticket.items for ink in item.inks))
    standard = "PDF/X-4" if rules.standard == "pdf/x-4" else "PDF 1.6"
    shared = any(item.sheet is not None for item in ticket.items)
    if shared:
        trim = "Where several lie on a sheet, marks show cuts and folds; its foot numbers them."
    else:
        trim = "The trim box of every page is the finished piece."
        if rules.bleed:
            trim += (
                f" The page is {pt_to_mm(rules.bleed):g} mm larger on each side; nothing bleeds."
            )
    each = "One ink a file"
    if any(BESIDE in ink for item in ticket.items for ink in item.inks):
        each = "All inks of a piece in one file, laid down in this order, each overprinting"
    kind_of_type = "All type is outlines: no font is needed."
    if ticket.live:
        kind_of_type = "All type is live, in fonts that are embedded with the letters used alone."
    where = f" for {rules.intent.identifier}" if rules.intent else ""
    points = (
        f"{standard}{where}. {each}, by its own name: {inks}. 100 %, no tint, nothing to trap.",
        f"{kind_of_type} Nothing is mirrored.",
        trim,
        "Every page with its own address is printed once, none missing, in the order of the file.",
        "data.tsv says what stands on each page.",
        "checksums.sha256 tells whether a file arrived whole.",
    )
    care = _points("Take care", ticket.cautions, sheet) if ticket.cautions else []
    return [*_points("How the files are made", points, sheet), *care]


def _terms(ticket: Ticket, sheet: Sheet) -> list[Block]:
    shop = ticket.shop
    days = shop.order.days if shop else None
    turn = f"{many(days, 'day')} from the approved proof" if days is not None else NOT_SAID
    points = [f"Turnaround: {turn}.", *(shop.notes if shop else ())]
    if shop is not None:
        points += [*_few(ticket, shop), *_dies(ticket, shop)]
    return _points("Terms", points, sheet)


def _few(ticket: Ticket, shop: Shop) -> Iterator[str]:
    """What is fewer than the shop takes."""
    for item in ticket.items:
        if item.prints < shop.order.minimum:
            yield (
                f"{kind_name(item.kind)}: {item.prints:,} of the {shop.order.minimum:,} that are"
                f" the least: {NOT_SAID}."
            )


def _dies(ticket: Ticket, shop: Shop) -> Iterator[str]:
    """The plates and dies to make: how large the ink on each is, what the shop charges by."""
    for rule in shop.dies:
        wanted = [item for item in ticket.items if item.die and item.die[0] == rule.method]
        if not wanted:
            continue
        method = wanted[0].method or rule.method
        yield (
            f"Plates or dies for {method.lower()}, never mirrored by us: "
            + "; ".join(
                f"{item.kind}, {pt_to_mm(wide):.0f} × {pt_to_mm(high):.0f} mm,"
                f" {pt_to_mm(wide) * pt_to_mm(high) / 100:.1f} cm²"
                f"{'' if len(item.inks) == 1 else f', for each of {len(item.inks)} inks'}"
                for item in wanted
                if item.die is not None
                for _, wide, high in (item.die,)
            )
            + "."
        )
        least = f", {rule.least:g} cm² at least" if rule.least else ""
        ganged = "ganged on one" if rule.ganged else "each on its own"
        kept = f"; kept standing {rule.kept} months" if rule.kept else ""
        yield f"They are charged by area{least}, {ganged}{kept}."


def _sent(ticket: Ticket, item: TicketItem, terms: SentIn) -> tuple[str, ...]:
    """A row of what is sent in; boxes and the count are written by hand."""
    sharing = [item, *(each for each in ticket.items if each.on == item.kind)]
    prints = max(each.runs for each in sharing)
    wide, high = item.sheet or (item.width, item.height)
    what = kind_name(" and ".join(each.kind for each in sharing))
    spare = math.ceil(prints * terms.spare_percent / 100)
    return (
        f"{what}, sheets" if item.sheet is not None else what,
        size_words(wide, high, ticket.country),
        item.stock,
        f"{prints:,}",
        f"{sum(each.passes for each in sharing)}",
        f"{spare:,}",
        f"{prints + spare:,}",
        "____",
        "______",
    )


def _sent_terms(terms: SentIn) -> tuple[str, ...]:
    spoiled = (
        f"Up to {terms.spoilage_percent:g} % may be spoiled"
        if terms.spoilage_percent
        else (f"How many may be spoiled: {NOT_SAID}")
    )
    left = "go back to the designer" if terms.leftovers == "back" else "stay with the shop"
    return (
        f"{spoiled}; more are the shop’s to replace.",
        f"Spoiled envelopes bear names and homes: torn or shredded. Unused ones {left}.",
    )


def _points(title: str, texts: tuple[str, ...] | list[str], sheet: Sheet) -> list[Block]:
    blocks = _heading(title)
    for text in texts:
        lines = wrap(text, SMALL, sheet.measure * 0.9)
        blocks += [text_block(lines, SMALL), gap(3)]
    return blocks


def _contacts(sheet: Sheet, who: tuple[str, ...]) -> list[Block]:
    """Lines to fill in by hand."""

    def line(words: str) -> Block:
        def draw(pen: Pen, left: float, top: float) -> None:
            pen.words(left, top - 20, words, BODY)
            pen.rule(left + 120, top - 21, sheet.measure - 120)
            pen.words(left + 120, top - 30, "name, telephone, e-mail", CAPTION)

        return Block(36, draw)

    return [gap(10), *(line(words) for words in who)]
