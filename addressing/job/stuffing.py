"""The stuffing list, as a sheet, as text or in a workbook."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import alone_in, make_folder, sha256_of
from addressing.job.contents import contents_of, home_of
from addressing.job.counting import count_job
from addressing.job.kept_orders import has_orders, kept_job, seal_of_plates
from addressing.job.manifest import (
    MANIFEST,
    NotPlate,
    refuse_other_job,
    settled,
    with_file,
)
from addressing.job.order_table import order_table, tsv_of
from addressing.job.parting import job_orders
from addressing.job.printing import REPRINT, plates_with_homes
from addressing.job.proofs import called, job_of
from addressing.job.reading import Reading
from addressing.job.stuffing_held import OUTER, in_piles
from addressing.proofs import stuffing_list
from addressing.questions.tidy import Tidy
from addressing.questions.tidyfile import workbook_of
from addressing.records.docket import Docket
from addressing.records.guests import Household
from addressing.records.kept import KeptOrder
from addressing.records.pieces import household_of
from addressing.records.plates import PlateOrder
from addressing.records.proofs import BOXES, Stuffed
from addressing.where import Where
from addressing.wording import MILITARY, cased

ENDINGS = (".pdf", ".tsv", ".xlsx")


_WAITS = "waits for an answer: set it aside"
_GONE = "not on the list now: take it out"
_TO_PRINT = "on no plate of these yet"


@dataclass(frozen=True, slots=True)
class StuffingList:
    """The list that was written: its path, its envelopes, and what was changed since the plates.

    `away` are envelopes of the plates that nobody is to get now, `new` those on no plate yet.
    """

    path: Path
    envelopes: int
    away: int
    new: int


def stuffed(
    reading: Reading, kept: Sequence[KeptOrder] = (), folder: Path | None = None
) -> tuple[Stuffed, ...]:
    """Every outer, in the order in which it lies in its pile, read from the top.

    Where its plates are `kept`, numbers and order are those of the plates: slips and piles have
    them, whatever the list says now. What is on none of them stands behind, without a number; where
    it is on a reprint's in the job's `folder`, or a reprint lacks what the job's own have, with the
    place there.
    """
    now = tuple(in_piles(_orders_now(reading)))
    made = tuple(in_piles(each.order for each in kept)) if kept else now
    homes = {home.key: home for home in reading.guest_list.households}
    wanted, on_plates = {key for _, key in now}, {key for _, key in made}
    names = {piece.household: piece.name for each in kept for piece in each.pieces}
    rows = [
        _as_made(_stuffed(number, homes[household_of(key)], reading), names.get(key))
        if key in wanted
        else _away(number, key, names[key], reading)
        for number, key in made
    ]
    there = dict(_on_others(folder)) if folder is not None else {}
    rows += [
        replace(
            _stuffed(None, homes[household_of(key)], reading),
            inside=(there.get(key, _TO_PRINT),),
        )
        for _, key in now
        if key not in on_plates
    ]
    return tuple(rows)


def _on_others(folder: Path) -> Iterator[tuple[str, str]]:
    """Where an outer lies that is on plates of the same job in another folder; the last counts."""
    job = folder.absolute().parent if folder.absolute().name.startswith(REPRINT) else folder
    own = [] if job == folder else [job]
    for place in (*own, *sorted(job.glob(f"{REPRINT}-[0-9]*"))):
        where = "the first printing" if place == job else place.name
        for plate in plates_with_homes(place) if place.absolute() != folder.absolute() else ():
            keys = plate["households"] if plate["kind"] == OUTER else []
            piled = keys[::-1] if plate.get("reverse") else keys
            for number, key in enumerate(piled, plate.get("first") or 1):
                yield key, f"in {where}: print {number}"


def _orders_now(reading: Reading) -> Iterator[PlateOrder]:
    for kind, _, orders in job_orders(reading, count_job(reading)):
        if kind.kind == OUTER:
            yield from (order for order, _ in orders)


def _as_made(row: Stuffed, name: str | None) -> Stuffed:
    """An envelope by the name that its plate gives it; one that has another now says so."""
    if name is None or name.casefold() == row.name.casefold():
        return row
    return replace(row, name=cased(name) or name, inside=(f"now {row.name}", *row.inside))


def _away(number: int, key: str, name: str, reading: Reading) -> Stuffed:
    """An envelope of the plates that nobody is to get now."""
    why = _WAITS if household_of(key) in reading.held else _GONE
    return Stuffed(number, key, cased(name) or name, why, None, ())


def _outers_kept(folder: Path) -> tuple[KeptOrder, ...]:
    """What is kept of the outers' plates that lie in a folder; nothing without plates.

    Raises:
        Fault: it isn't there as it was written (exit 3).
    """
    if not has_orders(folder):
        return ()
    kept = kept_job(folder, faces=False)
    return tuple(each for each in kept.orders if each.order.kind == OUTER)


def write_stuffing(reading: Reading, folder: Path, name: str) -> StuffingList:
    """Write the stuffing list into the job's folder.

    `name` ends with .pdf, .tsv or .xlsx; the workbook has the counts beside it. The manifest names
    the file, so that it goes when the job is cleared.

    Raises:
        Fault: another ending, or a name with a folder in it (exit 2); what the plates are isn't
            known any more (exit 3); it can't be written (exit 4).
    """
    ending = Path(name).suffix.lower()
    if ending not in ENDINGS or Path(name).name != name:
        raise Fault(
            Exit.OPTIONS,
            "ending-unknown",
            f"{name} is no name for the stuffing list.",
            "Give a name without a folder that ends with .pdf, .tsv or .xlsx.",
            Where(name),
        )
    make_folder(folder)
    final = folder / name
    refuse_other_job(folder, reading)
    kept = _outers_kept(folder)
    rows = stuffed(reading, kept, folder)
    with alone_in(folder), settled(folder, reading.sources) as together:
        working = together.working(final)
        if ending == ".pdf":
            seal = seal_of_plates(folder) if kept else None
            job = replace(job_of(reading, count_job(reading)), seal=seal)
            stuffing_list(working, job, rows)
        elif ending == ".tsv":
            working.write_text(tsv_of(stuffing_table(rows)), encoding="utf-8", newline="\n")
        else:
            working.write_bytes(workbook_of((stuffing_table(rows), order_table(reading))))
        text = with_file(folder, reading, NotPlate(name, sha256_of(working), "stuffing"))
        together.working(folder / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    away = sum(row.reply is None for row in rows)
    return StuffingList(final, len(rows) - away, away, sum(row.number is None for row in rows))


def stuffing_table(rows: tuple[Stuffed, ...]) -> Tidy:
    """The list as a table, with an empty column for each box."""
    heads = ("print", "household", "key", "to", "proof", "inside", *BOXES)
    cells = tuple(
        (_cell(r.number), r.name, r.key, r.place, _cell(r.reply), ", ".join(r.inside), *("",) * 4)
        for r in rows
    )
    return Tidy("Stuffing", heads, cells)


def _cell(number: int | None) -> str:
    return "" if number is None else str(number)


def _stuffed(number: int | None, home: Household, reading: Reading) -> Stuffed:
    inside = tuple(_inside(home, reading.docket))
    return Stuffed(number, home.key, called(home), _place(home, reading), home.number, inside)


def _place(home: Household, reading: Reading) -> str:
    """Where it goes, as a person sorts the pile."""
    address = home.address
    if home.by_hand or address is None:
        return "by hand"
    country = address.country.text if address.country else home_of(reading.docket)
    town = (cased(address.city.text) or "") if address.city else ""
    region = address.region.text if address.region else ""
    if region in MILITARY and address.city:
        return f"{address.city.text.upper()} {region}"
    if country != home_of(reading.docket):
        return f"{town}, {country}" if town else country
    return f"{town}, {region}" if town and region else town or region


def _inside(home: Household, docket: Docket) -> Iterator[str]:
    """What differs between households: its suite, the pieces that only some get, its seats."""
    if home.suite is not None:
        yield home.suite.text
    yield from (piece.name for piece in contents_of(docket, home) if piece.only)
    if (seats := len(home.people)) > 0:
        yield f"{seats} seat{'s' if seats > 1 else ''}"
