"""What else lies in a job's folder: reprints, and packages of other plates than its own."""

import zipfile
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path

from addressing.faults import Fault
from addressing.files import true_place
from addressing.job.judgement import JudgedFile
from addressing.job.manifest import manifest_of
from addressing.job.packed import package_faults
from addressing.job.printing import REPRINT, plates_with_homes
from addressing.ledger import LEDGER, open_ledger
from addressing.plates import CHECKSUMS
from addressing.records.kept import KeptJob


def reprints_in(folder: Path) -> tuple[Path, ...]:
    """The folders of a job's reprints, by number."""
    return tuple(sorted(each for each in folder.glob(f"{REPRINT}-[0-9]*") if each.is_dir()))


def reprints_due(folder: Path) -> tuple[Path, ...]:
    """The reprints still to print: they have plates and aren't wholly noted as printed."""
    made = [each for each in reprints_in(folder) if _has_plates(each)]
    return tuple(each for each in made if not _is_printed(folder, each))


def reprints_told(folder: Path) -> tuple[str, ...]:
    """The reprints that weren't judged with the job, in sentences."""
    printed = [each for each in reprints_in(folder) if _has_plates(each)]
    printed = [each for each in printed if _is_printed(folder, each)]
    return tuple(
        f"{each} is noted as printed and wasn't judged again. Name it to have it judged."
        for each in printed
    )


def unsaid_reprints(folder: Path) -> Iterator[JudgedFile]:
    """The plates of reprints of which no manifest says what they should be."""
    told = "No manifest says what this reprint should be. Make it again: addressing reprint."
    for place in reprints_in(folder):
        if not _has_plates(place):
            for path in sorted((place / "plates").glob("*.pdf")):
                yield JudgedFile(path, folder, None, told)


def other_packages(
    folder: Path, known: Collection[Path], kept: KeptJob, plates: Mapping[str, str]
) -> Iterator[JudgedFile]:
    """Packages that the manifest doesn't name and that don't hold the job's plates as they are.

    `known` are the true places of what it names, `plates` the fingerprints by path.
    """
    told = "It holds other plates than these. Take it away, or make it again: addressing package."
    for path in sorted(folder.glob("*.zip")):
        if true_place(path) in known or not _is_package(path):
            continue
        if package_faults(path, kept, plates):
            yield JudgedFile(path, folder, None, told)


def _is_package(path: Path) -> bool:
    """True of a zip with the list of checksums that every package has."""
    try:
        with zipfile.ZipFile(path) as package:
            return CHECKSUMS in package.namelist()
    except (OSError, ValueError, zipfile.BadZipFile, NotImplementedError):
        return False


def _has_plates(place: Path) -> bool:
    files: Sequence[Mapping[str, object]] = (manifest_of(place) or {"files": []})["files"]
    return any(file.get("ink") is not None for file in files)


def _is_printed(folder: Path, place: Path) -> bool:
    """True when every plate of a reprint is in the ledger; a ledger that can't be read has none."""
    if not (folder / LEDGER).exists():
        return False
    try:
        with open_ledger(folder) as ledger:
            plates = plates_with_homes(place)
            return all(ledger.runs_of(str(each.get("sha256")), each["kind"]) for each in plates)
    except Fault:
        return False
