"""The stuffing list, as a sheet, as text or in a workbook."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import alone_in, make_folder, sha256_of
from addressing.job.contents import contents_of, home_of
from addressing.job.counting import count_job
from addressing.job.kept_orders import seal_kept
from addressing.job.manifest import (
    MANIFEST,
    NotPlate,
    refuse_other_job,
    settled,
    with_file,
)
from addressing.job.order_table import order_table, tsv_of
from addressing.job.parting import job_orders
from addressing.job.proofs import called, job_of
from addressing.job.reading import Reading
from addressing.proofs import stuffing_list
from addressing.questions.tidy import Tidy
from addressing.questions.tidyfile import workbook_of
from addressing.records.docket import Docket
from addressing.records.guests import Household
from addressing.records.pieces import household_of
from addressing.records.proofs import BOXES, Stuffed
from addressing.where import Where
from addressing.wording import cased

ENDINGS = (".pdf", ".tsv", ".xlsx")


def stuffed(reading: Reading) -> tuple[Stuffed, ...]:
    """Every outer that is printed, in the order in which it lies in its pile, read from the top."""
    homes = {home.key: home for home in reading.guest_list.households}
    found: list[Stuffed] = []
    for kind, _, orders in job_orders(reading, count_job(reading)):
        if kind.kind != "outer":
            continue
        for order in (each for each, _ in orders if each.ink == orders[0][0].ink):
            keys = [key for key in order.households if key is not None]
            in_pile = keys[::-1] if order.reverse else keys
            found += [
                _stuffed(number, homes[household_of(key)], reading)
                for number, key in enumerate(in_pile, order.first)
            ]
    return tuple(found)


def write_stuffing(reading: Reading, folder: Path, name: str) -> tuple[Path, int]:
    """Write the stuffing list into the job's folder: (its path, its number of envelopes).

    `name` ends with .pdf, .tsv or .xlsx; the workbook has the counts beside it. The manifest names
    the file, so that it goes when the job is cleared.

    Raises:
        Fault: another ending, or a name with a folder in it (exit 2); it can't be written (exit 4).
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
    rows = stuffed(reading)
    make_folder(folder)
    final = folder / name
    refuse_other_job(folder, reading)
    with alone_in(folder), settled(folder, reading.sources) as together:
        working = together.working(final, private=True)
        if ending == ".pdf":
            job = replace(job_of(reading, count_job(reading)), seal=seal_kept(folder, reading))
            stuffing_list(working, job, rows)
        elif ending == ".tsv":
            working.write_text(tsv_of(stuffing_table(rows)), encoding="utf-8", newline="\n")
        else:
            working.write_bytes(workbook_of((stuffing_table(rows), order_table(reading))))
        text = with_file(folder, reading, NotPlate(name, sha256_of(working), "stuffing"))
        together.working(folder / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    return final, len(rows)


def stuffing_table(rows: tuple[Stuffed, ...]) -> Tidy:
    """The list as a table, with an empty column for each box."""
    heads = ("number", "household", "key", "to", "reply", "inside", *BOXES)
    cells = tuple(
        (str(r.number), r.name, r.key, r.place, str(r.reply), ", ".join(r.inside), *("",) * 4)
        for r in rows
    )
    return Tidy("Stuffing", heads, cells)


def _stuffed(number: int, home: Household, reading: Reading) -> Stuffed:
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
