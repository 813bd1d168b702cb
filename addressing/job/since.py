"""What was changed since a job's plates were made: list, docket, answers, the files beside them."""

from pathlib import Path
from typing import Any

from addressing.faults import Fault
from addressing.files import sha256_of
from addressing.job.as_now import are_among, is_as_now, is_as_now_but_for_keys
from addressing.job.deciding import kept_decisions
from addressing.job.kept_orders import has_orders, kept_job, record_faults
from addressing.job.manifest import manifest_of
from addressing.job.orders import ORDERS
from addressing.job.reading import Reading, digest_of, read_job
from addressing.job.remembering import HOUSEHOLDS
from addressing.preflight import bears_seal

_SHELF = ("calibration.toml", "layouts", "fonts", "styles", "devices", "shops")
"""What a docket may have beside it of a designer's own that plates are made by."""


def since_made(folder: Path) -> tuple[str, ...]:
    """Sentences on what isn't as it was for a folder's plates; `changed_since` says of what."""
    return tuple(
        f"{changed} since these plates were made: they are what was proved then, not what it says "
        "now. `addressing plates` makes them anew."
        for changed in changed_since(folder)
    )


def changed_since(folder: Path, list_path: Path | None = None) -> tuple[str, ...]:
    """What was changed since a folder's plates were made: "guests.csv was changed".

    A list that was only saved anew, so that the same plates would be made of it, isn't. The list is
    read only where something hints at a change, and list and docket are at hand.
    """
    content = manifest_of(folder) or {}
    if not content.get("files"):
        return ()
    job = folder.absolute()
    job = job.parent if (job.parent / "manifest.json").is_file() else job
    guests = list_path or _found(job, content.get("list"))
    docket = _found(job, content.get("docket"))
    other = [
        _is_other(path, content, name) for path, name in ((guests, "list"), (docket, "docket"))
    ]
    if not any(other) and not _hints(job, (docket or guests), content):
        return ()
    if guests is None or not guests.is_file() or (content.get("docket") and docket is None):
        return tuple(f"{docket} was changed" for _ in other[1:] if other[1])
    reading, fault = _read(guests, docket, job)
    same = reading is not None and _is_same(reading, folder, job)
    changed = [_put_for(guests, content.get("list"))] if other[0] and not same else []
    changed += [f"{docket} was changed"] if other[1] else []
    if reading is not None and reading.decisions_sha256 != content.get("decisions_sha256"):
        changed.append("What the client answered was changed")
    if reading is not None and not same and not changed:
        changed += _unseen(reading, folder)
    if reading is None and not changed:
        changed.append(f"List, docket or answers can't be read as they are now ({fault}): changed")
    return tuple(changed)


def _put_for(guests: Path, name: object) -> str:
    """How a list isn't as it was: another file was given, or it was changed."""
    if isinstance(name, str) and guests.name != Path(name).name:
        return f"{guests}, another list, took the place of {Path(name).name}"
    return f"{guests} was changed"


def _unseen(reading: Reading, folder: Path) -> tuple[str, ...]:
    """What was changed where list, docket and answers weren't.

    Nothing where the manifest isn't what was written: that is told as such.
    """
    if has_orders(folder):
        kept = kept_job(folder, faces=False)
        if record_faults(folder, kept):
            return ()
        sheet = folder / "job-sheet.pdf"
        if kept.origin is not None and sheet.is_file() and not bears_seal(sheet, kept.seal, ""):
            return (f"{folder / ORDERS} was changed",)
    if is_as_now_but_for_keys(reading, folder):
        return (
            f"{folder.absolute().name}/{HOUSEHOLDS}, which has the keys of households, was changed",
        )
    return ("A layout, a face, an ink or a calibration beside the docket was changed",)


def _hints(job: Path, beside: Path | None, content: dict[str, Any]) -> bool:
    """True when the answers, or something of a designer's own beside the docket, may be others."""
    try:
        answers = digest_of(kept_decisions(job))
    except Fault:
        answers = "unreadable"
    own = beside is not None and any((beside.parent / name).exists() for name in _SHELF)
    return own or answers != content.get("decisions_sha256")


def _read(guests: Path, docket: Path | None, job: Path) -> tuple[Reading | None, str]:
    """The job as it would be read now; where it can't be, None and why."""
    try:
        return read_job(guests, docket, None, job), ""
    except Fault as fault:
        return None, fault.text.rstrip(".")


def _is_same(reading: Reading, folder: Path, job: Path) -> bool:
    try:
        own = folder.absolute() == job
        return is_as_now(reading, folder) if own else are_among(reading, folder)
    except (Fault, KeyError, TypeError, ValueError):  # an older manifest, or one that was changed
        return False


def _found(job: Path, said: object) -> Path | None:
    """Where a file that the manifest names lies now; None where it isn't at hand."""
    if not isinstance(said, str):
        return None
    places = (job.parent / Path(said).name, Path(said))
    return next((place for place in places if place.is_file()), None)


def _is_other(path: Path | None, content: dict[str, Any], name: str) -> bool:
    """True when list or docket is there and isn't byte for byte as it was."""
    digest = content.get(f"{name}_sha256")
    if path is None or not isinstance(digest, str):
        return False
    return is_other(path, digest)


def is_other(path: Path, digest: str) -> bool:
    """True when a file is there and has another fingerprint."""
    try:
        return path.is_file() and sha256_of(path) != digest
    except OSError:
        return False
