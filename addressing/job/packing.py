"""The package for a shop: proved plates of today's list, with all that the shop must know."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path
from typing import Any

from addressing.estimating import ink_box
from addressing.faults import Exit, Fault
from addressing.files import alone_in, sha256_of
from addressing.job.as_now import is_as_now, was_made, would_be
from addressing.job.counting import count_job
from addressing.job.device_notes import varnish_notes
from addressing.job.hinting import command_line
from addressing.job.judgement import Judged, JudgedRecord, JudgedRun, Judgement
from addressing.job.judging import judge_again
from addressing.job.kept_orders import seal_of_plates
from addressing.job.live import is_live
from addressing.job.manifest import MANIFEST, NotPlate, manifest_of, settled, with_file
from addressing.job.packed import data_rows
from addressing.job.parting import job_orders, to_print
from addressing.job.printing import due_pieces, reprint_folder
from addressing.job.proofs import job_of, proof_sets
from addressing.job.reading import Reading
from addressing.job.ticket_held import ticket_plate
from addressing.ledger import LEDGER
from addressing.plates import data_file, write_package
from addressing.proofs import job_ticket, sent_in_sheet, shop_proof
from addressing.proofs.words import mark
from addressing.records.counts import PieceCount
from addressing.records.pages import Setting
from addressing.records.pieces import household_of
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Device, Shop
from addressing.records.tickets import Ticket, TicketItem
from addressing.version import VERSION
from addressing.where import Where

_UNSAFE = re.compile(r"[^a-z0-9]+")
_LONGEST = 60
"""Letters of a shop's key in the package's name."""
_LIST = "the list"


@dataclass(frozen=True, slots=True)
class Packed:
    """The package: its path, the names in it, and the plates as they were judged."""

    path: Path
    names: tuple[str, ...]
    judged: tuple[Judged, ...]


@dataclass(frozen=True, slots=True)
class _Made:
    """A plate that should be there: its order, what is set on it, its paper's title."""

    order: PlateOrder
    setting: Setting
    stock: str
    method: str | None


def pack_job(
    reading: Reading, folder: Path, docket: Path | None, reprint: int | None = None
) -> Packed:
    """Judge the plates of a job, or of a `reprint` of it, again and pack them for the shop.

    The package lies beside the plates. Nobody who waits is in it, no finding, no note of a family:
    only what is printed. Proof and data name the guests as the plates do: whoever prints
    them must be able to see that a name and its page belong together.

    Raises:
        Fault: the docket prints at home, there are no plates, or list, docket, answers or shelf
            changed since they were made (exit 3); a plate isn't what was proved (exit 5); the
            package can't be written (exit 4).
    """
    press = reading.press
    if isinstance(press, Device):
        raise Fault(
            Exit.INPUT,
            "shop-missing",
            f"This job is printed at home ({press.title}); no shop is to get it.",
            'Name the shop in the docket: [shop] name = "…".',
            Where(reading.docket.path or "docket", None, "docket:device"),
        )
    command = "plates" if reprint is None else "reprint"
    again = command_line(command, reading.sources[0], docket=docket, folder=folder)
    counts = count_job(reading)
    if reprint is not None:
        due = due_pieces(reading, folder)
        if not due.balance.due:
            text = "Nothing is due: what was reprinted is on paper by the ledger."
            mend = "Pack a reprint before you note it as printed."
            raise Fault(Exit.INPUT, "nothing-due", text, mend, Where(str(folder)))
        folder, reading, counts = reprint_folder(folder, reprint), due.reading, due.counts
    made = tuple(_made(reading, counts))
    _refuse_stale(reading, folder, made, again)
    judged = judge_again([folder])
    _refuse_unproved(judged, again)
    final = folder / f"for-{_safe(press)}.zip"
    ticket = replace(_ticket(reading, made, counts), seal=seal_of_plates(folder))
    with alone_in(folder), settled(folder, reading.sources) as together:
        working = together.working(final)
        files = [*_plates(folder, made), *_sheets(reading, ticket, counts, made)]
        write_package(working, files)
        entry = NotPlate(final.name, sha256_of(working), "package")
        text = with_file(folder, reading, entry)
        together.working(folder / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    return Packed(final, tuple(name for name, _ in files), judged.plates)


def _safe(press: Shop | None) -> str:
    """The shop's key in small letters and hyphens; a word of ours where nothing is left of it."""
    plain = _UNSAFE.sub("-", press.key.casefold() if press else "")
    return plain.strip("-")[:_LONGEST].strip("-") or "the-shop"


def _made(reading: Reading, counts: tuple[PieceCount, ...]) -> Iterator[_Made]:
    """The plates that the job should have now."""
    for kind, _, orders in job_orders(reading, counts):
        for order, share in orders:
            method = kind.method.title if kind.method is not None else None
            yield _Made(order, share, kind.stock.title, method)


def _refuse_stale(reading: Reading, folder: Path, made: Sequence[_Made], again: str) -> None:
    """Keep plates of another list, docket or shelf from being packed.

    Raises:
        Fault: there are none, or they aren't of what is read now (exit 3).
    """
    content = manifest_of(folder) or {"files": []}
    there = [file for file in content["files"] if file["ink"] is not None]
    if not there or not made:
        text = f"{folder} holds no plates of this job."
        raise Fault(Exit.INPUT, "plates-missing", text, f"Make them: {again}", Where(str(folder)))
    own = [would_be(each.order, each.setting) for each in made]
    same = own == [was_made(file) for file in there]
    why = _changed(reading, content)
    if why == _LIST and same and is_as_now(reading, folder):
        why = None  # the list was only saved anew
    if why is None and not same:
        why = "a layout, a face, an ink or the shop's rules"
        if (folder.parent / LEDGER).exists():
            why += ", or what is on paper"
    if why is not None:
        raise Fault(
            Exit.INPUT,
            "plates-stale",
            f"The plates in {folder} are stale: since they were made, {why} changed.",
            f"Make them again: {again}",
            Where(str(folder)),
        )


def _changed(reading: Reading, content: dict[str, Any]) -> str | None:
    now = {
        "list_sha256": (reading.guest_list.sha256, _LIST),
        "docket_sha256": (reading.docket.sha256, "the docket"),
        "decisions_sha256": (reading.decisions_sha256, "the client's answers"),
    }
    return next((what for key, (is_now, what) in now.items() if content.get(key) != is_now), None)


def _refuse_unproved(judged: Judgement, again: str) -> None:
    """Keep an altered plate, or plates with an altered manifest, from being packed.

    Raises:
        Fault: a plate or the manifest isn't what was proved (exit 5).
    """
    for each in judged.plates:
        if not each.verdict.proved:
            raise Fault(
                Exit.PREFLIGHT,
                "plate-not-proved",
                f"{each.path} isn't what was proved: {' '.join(each.told[:3])}",
                f"Nothing was packed. Make the plates again: {again}",
                Where(str(each.path)),
            )
    wholes: tuple[JudgedRun | JudgedRecord, ...] = (*judged.runs, *judged.records)
    for whole in wholes:
        if whole.faults:
            raise Fault(
                Exit.PREFLIGHT,
                "plate-not-proved",
                f"The plates in {whole.folder} aren't in order: {' '.join(whole.faults[:3])}",
                f"Nothing was packed. Make the plates again: {again}",
                Where(str(whole.folder)),
            )


def _plates(folder: Path, made: Sequence[_Made]) -> Iterator[tuple[str, Path | bytes]]:
    for name in dict.fromkeys(f"plates/{each.order.name}.pdf" for each in made):
        yield name, folder / name


def _sheets(
    reading: Reading, ticket: Ticket, counts: tuple[PieceCount, ...], made: Sequence[_Made]
) -> Iterator[tuple[str, Path | bytes]]:
    """The proof, the ticket, the sheet for envelopes sent in, and the data."""
    job = job_of(reading, counts)
    on_plates = {household_of(key) for each in made for key in each.order.households if key}
    printed = tuple(home for home in job.households if home.key in on_plates)
    job = replace(
        job,
        households=printed,
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
    proof, told, sent = BytesIO(), BytesIO(), BytesIO()
    shop_proof(proof, job, sets)
    job_ticket(told, ticket)
    sent_in_sheet(sent, ticket)
    yield "proof.pdf", proof.getvalue()
    yield "job-ticket.pdf", told.getvalue()
    yield "envelopes-sent-in.pdf", sent.getvalue()
    yield "data.tsv", data_file(data_rows((each.order, each.setting) for each in made))


def _dies(reading: Reading) -> Iterator[tuple[str, tuple[str, float, float]]]:
    """For each kind of which a plate or die is made the method and how large its ink is."""
    pages = {each.setting.kind: each.pages for each in proof_sets(reading)}
    for kind in reading.kinds:
        if kind.method is not None and kind.method.die and pages.get(kind.kind):
            yield kind.kind, (kind.method.key, *ink_box(pages[kind.kind][0]))


def ticket_title(ticket: Ticket) -> str:
    """What the proof is headed with where the hosts aren't named: never the list's own name."""
    return ticket.shop.title if ticket.shop else "Plates"


def _ticket(reading: Reading, made: Sequence[_Made], counts: tuple[PieceCount, ...]) -> Ticket:
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
