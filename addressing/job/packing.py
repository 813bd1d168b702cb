"""The package for a shop: proved plates of today's list, with all that the shop must know."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.files import alone_in, sha256_of
from addressing.job.as_now import is_as_now, was_made, would_be
from addressing.job.counting import count_job
from addressing.job.hinting import command_line
from addressing.job.judgement import Judged, JudgedRecord, JudgedRun, Judgement
from addressing.job.judging import judge_again
from addressing.job.kept_orders import kept_job, seal_of_plates
from addressing.job.manifest import MANIFEST, NotPlate, manifest_of, settled, with_file
from addressing.job.packed import DATA, data_rows, is_other_sheet
from addressing.job.printing import due_pieces, reprint_folder
from addressing.job.reading import Reading
from addressing.job.tickets import (
    SHOP_PROOF,
    Due,
    due_plates,
    proof_in_package,
    ticket_of,
    ticket_sheets,
)
from addressing.ledger import LEDGER
from addressing.plates import data_file, write_package
from addressing.records.shelf import Device, Shop
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
    made = tuple(due_plates(reading, counts))
    _refuse_stale(reading, folder, made, again)
    judged = judge_again([folder])
    _refuse_unproved(judged, again)
    final = folder / f"for-{_safe(press)}.zip"
    reading = _as_proved(reading, folder, again)
    ticket = replace(ticket_of(reading, made, counts), seal=seal_of_plates(folder))
    proof = proof_in_package(reading, ticket, counts, made)
    _refuse_other_terms({**ticket_sheets(ticket), SHOP_PROOF: proof}, folder, again)
    sheets = {"proof.pdf": proof, **ticket_sheets(ticket)}
    with alone_in(folder), settled(folder, reading.sources) as together:
        working = together.working(final)
        files = [*_plates(folder, made), *sheets.items(), (DATA, _data(made))]
        write_package(working, files)
        entry = NotPlate(final.name, sha256_of(working), "package")
        text = with_file(folder, reading, entry)
        together.working(folder / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    return Packed(final, tuple(name for name, _ in files), judged.plates)


def _safe(press: Shop | None) -> str:
    """The shop's key in small letters and hyphens; a word of ours where nothing is left of it."""
    plain = _UNSAFE.sub("-", press.key.casefold() if press else "")
    return plain.strip("-")[:_LONGEST].strip("-") or "the-shop"


def _refuse_stale(reading: Reading, folder: Path, made: Sequence[Due], again: str) -> None:
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


def _as_proved(reading: Reading, folder: Path, again: str) -> Reading:
    """The job under the date and the number of the proof that was made with its plates.

    Raises:
        Fault: it has another date now (exit 3).
    """
    origin = kept_job(folder, faces=False).origin
    if origin is None or not origin.sheets:
        return reading
    date = reading.docket.date
    if date not in (None, origin.date):
        bears = f"the date {origin.date}" if origin.date else "no date"
        text = f"The proof of these plates bears {bears}, not {date}."
        mend = f"Give that date, or make the plates again: {again}"
        raise Fault(Exit.INPUT, "plates-stale", text, mend, Where(str(folder)))
    return replace(
        reading,
        docket=replace(reading.docket, date=origin.date),
        guest_list=replace(reading.guest_list, sha256=origin.list_sha256),
    )


def _refuse_other_terms(drawn: Mapping[str, bytes], folder: Path, again: str) -> None:
    """Keep sheets from being packed that aren't those whose fingerprints the seal is made of.

    Raises:
        Fault: it says something else (exit 3).
    """
    kept = kept_job(folder, faces=False)
    if any(is_other_sheet(data, name, kept) for name, data in drawn.items()):
        raise Fault(
            Exit.INPUT,
            "plates-stale",
            f"The plates in {folder} are stale: since they were made, the shop's terms, a paper's"
            " name, what stands beside the envelopes on the proof, or this program changed.",
            f"Make them again: {again}",
            Where(str(folder)),
        )


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


def _plates(folder: Path, made: Sequence[Due]) -> Iterator[tuple[str, Path | bytes]]:
    for name in dict.fromkeys(f"plates/{each.order.name}.pdf" for each in made):
        yield name, folder / name


def _data(made: Sequence[Due]) -> bytes:
    return data_file(data_rows((each.order, each.setting) for each in made))
