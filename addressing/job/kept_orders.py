"""What a job's folder keeps of its plates, unaltered; and whether its manifest agrees with it."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.files import sha256_of
from addressing.job.manifest import MANIFEST, manifest_of
from addressing.job.orders import ORDERS, read_orders, seal_of
from addressing.job.reading import Reading
from addressing.job.recorded import manifest_faults
from addressing.records.kept import KeptJob
from addressing.where import Where


def kept_job(folder: Path, *, faces: bool) -> KeptJob:
    """What a folder keeps of its plates, as it was written; with the files of its `faces`, or none.

    Raises:
        Fault: it isn't there, was changed, or a face isn't on the shelf as it was (exit 3).
    """
    kept = folder / ORDERS
    content = manifest_of(folder) or {"files": []}
    entry = next((each for each in content["files"] if each["path"] == ORDERS), None)
    if entry is not None and kept.is_file() and sha256_of(kept) != entry.get("sha256"):
        _refuse_other_manifest(folder, content)
        raise Fault(
            Exit.INPUT,
            "orders-changed",
            f"{kept} was changed since the plates were made: it can't say what they should be.",
            "Make the plates again with `addressing plates`.",
            Where(str(kept)),
        )
    docket = content.get("docket")
    beside = (*((Path(docket).parent,) if docket else ()), folder.absolute().parent, Path())
    return read_orders(kept, beside if faces else None)


def _refuse_other_manifest(folder: Path, content: Mapping[str, Any]) -> None:
    """Tell a manifest of other plates from orders that were changed: these fit the plates there.

    Raises:
        Fault: every plate is as the orders say (exit 3).
    """
    try:
        origin = read_orders(folder / ORDERS, None).origin
    except Fault:
        return
    plates = origin.plates if origin is not None else ()
    said = {entry["path"]: entry.get("sha256") for entry in content["files"]}
    if all(said.get(path) == digest for path, digest in plates):
        return  # it names these plates
    there = [(folder / path, digest) for path, digest in plates]
    if there and all(path.is_file() and sha256_of(path) == digest for path, digest in there):
        raise Fault(
            Exit.INPUT,
            "manifest-changed",
            f"{folder / MANIFEST} isn't of the plates that lie there: it is another job's, an"
            " older one, or was changed.",
            "Put this job's own back, or make the plates again with `addressing plates`.",
            Where(str(folder / MANIFEST)),
        )


def seal_kept(folder: Path, reading: Reading) -> str | None:
    """The seal of a folder's plates, if they are of this list, docket and answers; else None."""
    content = manifest_of(folder) or {}
    now = (reading.guest_list.sha256, reading.docket.sha256, reading.decisions_sha256)
    then = (content.get(f"{which}_sha256") for which in ("list", "docket", "decisions"))
    return seal_of_plates(folder) if tuple(then) == now else None


def seal_of_plates(folder: Path) -> str | None:
    """The seal of a folder's plates, whatever list is read now; None where none was kept."""
    path = folder / ORDERS
    return seal_of(sha256_of(path)) if path.is_file() else None


def record_faults(folder: Path, kept: KeptJob, only: str | None = None) -> tuple[str, ...]:
    """What a folder's manifest says of plates that doesn't follow from their orders, in sentences.

    `only` is the path of the one plate that is looked at.
    """
    content = manifest_of(folder) or {"files": []}
    faults = manifest_faults(content, kept, only)
    if not any(entry["path"] == ORDERS for entry in content["files"]):
        faults = (*faults, f"The manifest doesn't name {ORDERS}, which says what the plates are.")
    return faults


def has_orders(folder: Path) -> bool:
    """Whether the orders of plates lie in a folder, or should by its manifest."""
    content = manifest_of(folder) or {"files": []}
    return (folder / ORDERS).exists() or any(each["path"] == ORDERS for each in content["files"])


def refuse_changed_record(folder: Path) -> KeptJob:
    """Keep a manifest that was changed since from telling the ledger what was printed.

    Gives what the folder keeps of its plates.

    Raises:
        Fault: its orders aren't there as they were written, or it says otherwise (exit 3).
    """
    kept = kept_job(folder, faces=False)
    if faults := record_faults(folder, kept):
        raise Fault(
            Exit.INPUT,
            "manifest-changed",
            f"{folder / MANIFEST} was changed since the plates were made. {faults[0]}",
            "Nothing was noted. Make the plates again with `addressing plates`, then note them.",
            Where(str(folder / MANIFEST)),
        )
    return kept
