"""What lies in a job's folder beside its plates: is it what was made, and is nothing else there?"""

import os
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path, PurePosixPath
from typing import Any

from addressing.files import sha256_of, true_place
from addressing.job.judgement import JudgedFile
from addressing.job.orders import ORDERS
from addressing.job.packed import package_faults
from addressing.job.proof_held import proof_faults
from addressing.job.stuffing_held import stuffing_faults
from addressing.job.within import other_packages, unsaid_reprints
from addressing.preflight import bears_seal, blank_digest
from addressing.records.kept import KeptJob

_AGAIN = {"proof": "proof", "package": "package", "stuffing": "stuffing"}
"""The commands that make a file of a kind anew; `plates` makes all others."""

_SAID = {"proof.pdf": "Proof no.", "job-sheet.pdf": "Seal of these plates:"}
_STUFFING = "Stuffing list to proof no."
"""What each of the sheets says before the seal."""

_UNSIGNED = "It isn't there, and it is to be signed before anything is printed. Make it again:"

_NOT_MADE_WITH = (
    "It isn't the one that was made with these plates. Make them again: addressing plates."
)
_SHOWS_OTHERS = "It doesn't show what the plates hold. Make it again: addressing proof."
_OTHER_ROWS = "Its rows aren't those of the plates. Make it again: addressing stuffing."
_HELD = (".pdf", ".tsv", ".xlsx")
"""The forms of a stuffing list whose rows are read."""
_OTHER_WORDS = (
    "Its envelopes are those of the plates, but names, notes, counts or dates beside them may be"
    " others than those that were made with them. Make it again: addressing proof."
)

_PRINTABLE = (".pdf", ".ps", ".eps", ".ai", ".prn", ".tif", ".tiff", ".png", ".jpg", ".jpeg")
"""The ends of names of what a shop or a printer takes."""

Entry = Mapping[str, Any]


def files_beside(folder: Path, entries: Sequence[Entry], kept: KeptJob) -> Iterator[JudgedFile]:
    """Every file of the manifest that is no plate, and what lies there and is none of it.

    `orders.json.z` isn't among them: whoever has `kept` has read it as it was written.
    """
    for entry in entries:
        if entry.get("ink") is None and entry["path"] != ORDERS:
            yield judged_file(folder / entry["path"], folder, entry, entries, kept)
    known = {true_place(folder / entry["path"]) for entry in entries}
    yield from _strange(folder / "plates", folder, known)
    yield from _astray(folder, entries, known)
    yield from unsaid_reprints(folder)
    yield from other_packages(folder, known, kept, _digests(entries, kept))


def _digests(entries: Sequence[Entry], kept: KeptJob) -> dict[str, str]:
    """The fingerprints of the plates: as kept with the orders, in older jobs the manifest's."""
    if kept.origin is not None:
        return dict(kept.origin.plates)
    return {each["path"]: str(each["sha256"]) for each in entries if each.get("ink") is not None}


def judged_file(
    path: Path, folder: Path, entry: Entry, entries: Sequence[Entry], kept: KeptJob
) -> JudgedFile:
    """A file that the manifest names with this entry, or a copy of it."""
    kind = str(entry.get("kind"))
    if not _is_inside(entry["path"]):
        return JudgedFile(path, folder, kind, "The manifest names it, and it isn't of this job.")
    if not path.is_file():
        unsigned = f"{_UNSIGNED} {_again(kind)}." if kind == "proof" else ""
        return JudgedFile(path, folder, kind, unsigned, gone=True)
    fault = ""
    digest = sha256_of(path)
    if digest != entry.get("sha256"):
        fault = f"It was changed since it was made. Make it again: {_again(kind)}."
    if kind == "package":
        within = package_faults(path, kept, _digests(entries, kept))
        return JudgedFile(path, folder, kind, fault, within=within)
    fault = fault or _strangeness(path, (entry["path"], kind), digest, kept)
    if fault or (kind != "stuffing" and _is_as_sealed(path, entry["path"], kept)):
        return JudgedFile(path, folder, kind, fault)
    told, within = _read(path, kind, kept)
    return JudgedFile(path, folder, kind, told, within=within)


def _read(path: Path, kind: str, kept: KeptJob) -> tuple[str, tuple[str, ...]]:
    """What a sheet that isn't held by its fingerprint shows otherwise: (in short, in full)."""
    if kind == "stuffing":
        rows = tuple(stuffing_faults(path, kept)) if path.suffix.lower() in _HELD else ()
        return _OTHER_ROWS if rows else "", rows
    if kind == "proof":
        shown = tuple(proof_faults(path, kept, alone=False))
        return _SHOWS_OTHERS if shown else _OTHER_WORDS, shown
    return _NOT_MADE_WITH, ()


def _is_as_sealed(path: Path, name: str, kept: KeptJob) -> bool:
    """Whether a sheet is the one whose fingerprint went into the seal; True where none did."""
    sheets = dict(kept.origin.sheets) if kept.origin is not None else {}
    return name not in sheets or blank_digest(path.read_bytes(), kept.seal) == sheets[name]


def _strangeness(path: Path, told_of: tuple[str, str], digest: str, kept: KeptJob) -> str:
    """What shows that a file goes with other plates, whatever the manifest says; "" for nothing.

    `told_of` are its path in the manifest and its kind.
    """
    origin, (name, kind) = kept.origin, told_of
    if origin is None:
        return ""
    if dict(origin.files).get(name, digest) != digest:
        return _NOT_MADE_WITH
    said = _SAID.get(name) if name in origin.sealed else None
    if origin.sealed and kind == "stuffing" and name.endswith(".pdf"):
        said = _STUFFING
    if said is not None and not bears_seal(path, kept.seal, said):
        again = "it again: addressing stuffing"
        again = again if kind == "stuffing" else "the plates again: addressing plates"
        return (
            f"It doesn't bear the seal of these plates, {kept.seal}: it is of another list or job,"
            " or was drawn anew with another date or other notes."
            f" Make {again}."
        )
    return ""


def judged_package(path: Path, folder: Path, entries: Sequence[Entry], kept: KeptJob) -> JudgedFile:
    """A package, wherever it lies: by the manifest's entry, else by what is in it alone."""
    packages = [entry for entry in entries if entry.get("kind") == "package"]
    for entry in packages:
        if PurePosixPath(entry["path"]).name == path.name:
            return judged_file(path, folder, entry, entries, kept)
    within = package_faults(path, kept, _digests(entries, kept))
    told = "The job has no package of this name: what lies in it was held against the job's plates."
    return JudgedFile(path, folder, "package", within=within, notes=(told,))


def copy_of(place: Path, entry: Entry) -> Path:
    """Where in a folder of copies a plate should lie: as in the job, or without its folder."""
    path = place / str(entry["path"])
    return path if path.exists() else place / PurePosixPath(entry["path"]).name


def copied_plates(place: Path, folder: Path, entries: Sequence[Entry]) -> Iterator[JudgedFile]:
    """PDFs in a folder of copies that are neither plates nor other files of the job, by name."""
    of_package = {"proof.pdf", "job-ticket.pdf", "envelopes-sent-in.pdf"}
    names = {PurePosixPath(entry["path"]).name for entry in entries} | of_package
    known = {true_place(path) for path in pdfs_in(place) if path.name in names}
    yield from _strange(place, folder, known)


def _again(kind: str) -> str:
    return f"addressing {_AGAIN.get(kind, 'plates')}"


def _is_inside(path: str) -> bool:
    return ".." not in PurePosixPath(path).parts and not Path(path).is_absolute()


def _astray(
    folder: Path, entries: Sequence[Entry], known: Collection[Path]
) -> Iterator[JudgedFile]:
    """Files beside the plates' folder that have a plate's name and aren't that plate."""
    told = "It has the name of a plate and isn't it: take it away, so that nobody prints it."
    named = {
        PurePosixPath(each["path"]).name.casefold(): each for each in entries if each.get("ink")
    }
    for path in sorted(folder.iterdir()):
        plate = named.get(path.name.casefold())
        if plate is None or true_place(path) in known or not path.is_file():
            continue
        if sha256_of(path) != plate.get("sha256"):
            yield JudgedFile(path, folder, None, told)


def _strange(place: Path, folder: Path, known: Collection[Path]) -> Iterator[JudgedFile]:
    """What can be printed among the plates and isn't a plate of this job."""
    told = "It is no plate of this job, and would be printed with the others: take it out of there."
    for path in pdfs_in(place):
        if true_place(path) not in known:
            yield JudgedFile(path, folder, None, told)


def pdfs_in(place: Path) -> Iterator[Path]:
    """Every file that can be printed in a folder and those below it, by name.

    Working names begin with a point.
    """
    for where, folders, names in os.walk(place):
        folders.sort()
        for name in sorted(names):
            if name.lower().endswith(_PRINTABLE) and not name.startswith("."):
                yield Path(where) / name
