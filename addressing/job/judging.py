"""Plates judged again later: against their orders and the manifest of their job's folder."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

from addressing.faults import Exit, Fault
from addressing.files import sha256_of, true_place
from addressing.job.beside import copied_plates, copy_of, files_beside, judged_file, judged_package
from addressing.job.fault_words import in_words
from addressing.job.households_held import households_told
from addressing.job.judgement import Judged, JudgedFile, JudgedRecord, JudgedRun, Judgement
from addressing.job.kept_orders import kept_job, record_faults
from addressing.job.ledger_kept import ledger_told
from addressing.job.manifest import MANIFEST, manifest_of
from addressing.job.since import since_made
from addressing.job.within import reprints_due, reprints_told
from addressing.preflight import judge_orders, judge_plate, judge_sequence, judge_type
from addressing.records.kept import KeptJob, KeptOrder
from addressing.records.pages import Setting
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.runs import RunOrder
from addressing.where import Where

if TYPE_CHECKING:
    from addressing.records.set_lines import SetPiece

_Orders = dict[str, tuple[KeptOrder, ...]]
"""What a folder keeps of each plate, by its name: an order for each kind on it."""


@dataclass(frozen=True, slots=True)
class _Case:
    """A file to judge, the folder whose manifest names it, and what the manifest says.

    `named` is what was asked for: this file, or the folder that it lies in.
    """

    path: Path
    folder: Path
    entry: dict[str, Any]
    named: Path


def judge_again(paths: Sequence[Path], job: Path | None = None) -> Judgement:
    """Judge plates, or with a job's folder all that lies in it, and how its plates follow.

    Args:
        paths: plates and other files of jobs, packages for a shop, folders of jobs; with `job` also
            folders into which plates were copied.
        job: the folder whose manifest names them, where they lie elsewhere now.

    Raises:
        Fault: a file isn't there, no manifest names it, or what the judge must know isn't there
            or was changed (exit 3).
    """
    folders = _with_reprints({path: _folder_of(path, job) for path in paths})
    known = {folder: kept_job(folder, faces=True) for folder in dict.fromkeys(folders.values())}
    orders = {folder: _by_name(kept) for folder, kept in known.items()}
    cases = [case for path, folder in folders.items() for case in _cases(path, folder)]
    whole = dict.fromkeys(folder for path, folder in folders.items() if path.is_dir())
    once = {case.path: case for case in cases if case.entry.get("ink") is not None}
    plates = tuple(once.values())
    looked = dict.fromkeys(
        (case.folder, None if case.folder in whole else case.entry["path"]) for case in plates
    )
    return Judgement(
        tuple(_judged(case, orders[case.folder]) for case in plates),
        tuple(_judged_run(folder, orders[folder], known[folder].run) for folder in whole),
        tuple(_judged_record(folder, known[folder], only) for folder, only in looked),
        tuple(_judged_files(folders, known)),
    )


def _with_reprints(folders: Mapping[Path, Path]) -> dict[Path, Path]:
    """What was named, and behind each job's folder the reprints in it that are still to print."""
    found: dict[Path, Path] = {}
    for path, folder in folders.items():
        found[path] = folder
        if path.is_dir() and true_place(path) == true_place(folder):
            found |= {each: each for each in reprints_due(path)}
    return found


def _judged_files(
    folders: Mapping[Path, Path], known: Mapping[Path, KeptJob]
) -> Iterator[JudgedFile]:
    """What isn't a plate: all of a folder that was named, a file that was; and strange plates."""
    for path, folder in folders.items():
        entries, kept = _entries(folder), known[folder]
        if path.is_dir() and true_place(path) != true_place(folder):
            yield from copied_plates(path, folder, entries)
        elif path.is_dir():
            yield from files_beside(folder, entries, kept)
        elif _is_package(path):
            yield judged_package(path, folder, entries, kept)
        elif (entry := _entry(path, folder)).get("ink") is None:
            yield judged_file(path, folder, entry, entries, kept)


def _judged_record(folder: Path, kept: KeptJob, only: str | None) -> JudgedRecord:
    """What the manifest says of all plates, or of one."""
    notes: tuple[str, ...] = ()
    if only is None:
        notes = (*since_made(folder), *reprints_told(folder), *_lost(folder))
        notes += tuple(households_told(folder, kept))
    seal = kept.seal if only is None and kept.origin is not None else ""
    return JudgedRecord(folder, record_faults(folder, kept, only), notes, seal)


def _lost(folder: Path) -> tuple[str, ...]:
    """What is told of a ledger that has lost prints, with how to mend it."""
    try:
        told = ledger_told(folder)
    except Fault as fault:  # it can't be read: other plates are judged all the same
        return (f"{fault.text} {fault.mend}",)
    return (told,) if told else ()


def _judged_run(folder: Path, orders: _Orders, run: RunOrder | None) -> JudgedRun:
    """The plates of a folder taken together."""
    kinds: dict[str, list[KeptOrder]] = {}
    for kept in (each for its in orders.values() for each in its):
        kinds.setdefault(kept.order.kind, []).append(kept)
    addressed: dict[str, list[PlateOrder]] = {
        kind: [each.order for each in plates]
        for kind, plates in kinds.items()
        if plates[0].order.households != (None,)
    }
    if run is None:
        return JudgedRun(folder, None, (), ())
    faults: list[str] = []
    for plates in kinds.values():
        faults += judge_orders([each.order for each in plates], _whole(plates))
    faults += judge_sequence(addressed, run)
    faults += judge_type(each.order for plates in kinds.values() for each in plates)
    counted = tuple(
        (kind, sum(part.values()), len(part))
        for kind, plates in addressed.items()
        if (part := {order.first: len(order.households) for order in plates})
    )
    return JudgedRun(folder, run, counted, tuple(dict.fromkeys(faults)))


def _whole(plates: Sequence[KeptOrder]) -> Setting:
    """All that was set of a kind, put together from the parts of its plates."""
    parts: dict[int, Sequence[SetPiece]] = {}
    for each in sorted(plates, key=lambda kept: kept.order.first):
        parts.setdefault(each.order.first, each.setting.pieces)
    pieces = tuple(piece for part in parts.values() for piece in part)
    return replace(plates[0].setting, pieces=pieces)


def _cases(path: Path, folder: Path) -> Iterator[_Case]:
    """A file with what its manifest says of it; a folder gives all plates that the job has.

    A package gives the job's own plates where they are byte for byte what was proved: what lies in
    it is held against their fingerprints.
    """
    if not path.is_dir() and not _is_package(path):
        yield _Case(path, folder, _entry(path, folder), path)
        return
    plates = [entry for entry in _entries(folder) if entry.get("ink") is not None]
    if not plates:
        raise _unknown(path, f"The job in {folder} has no plates.")
    elsewhere = path.is_dir() and true_place(path) != true_place(folder)
    for entry in {entry["path"]: entry for entry in plates}.values():
        own = copy_of(path, entry) if elsewhere else folder / entry["path"]
        if path.is_dir() or (own.is_file() and sha256_of(own) == entry.get("sha256")):
            yield _Case(own, folder, entry, path)


def _is_package(path: Path) -> bool:
    return path.suffix.lower() == ".zip"


def _there(path: Path) -> Path:
    if not path.is_file():
        raise Fault(
            Exit.INPUT,
            "plate-missing",
            f"{path} isn't there.",
            "Name a plate in the folder plates/ of a job, or the job's folder.",
            Where(str(path)),
        )
    return path


def _folder_of(path: Path, job: Path | None) -> Path:
    """The folder with the manifest: as given, else the first at the place or above that has one."""
    place = path if path.is_dir() else _there(path).absolute().parent
    if job is not None:
        return job
    found = next((each for each in (place, *place.parents) if (each / MANIFEST).is_file()), None)
    if found is None:
        raise _unknown(place, f"No job's manifest lies in {place} or above.")
    return found


def _entries(folder: Path) -> list[dict[str, Any]]:
    """What the manifest says of each file.

    Raises:
        Fault: there is none, or it can't be read (exit 3).
    """
    content = manifest_of(folder)
    if content is None:
        raise _unknown(folder, f"The manifest in {folder} can't be read.")
    return list(content["files"])


def _entry(path: Path, folder: Path) -> dict[str, Any]:
    """The manifest's entry of a file: by its place, else by its name."""
    entries = _entries(folder)
    resolved = true_place(path)
    for entry in entries:
        if true_place(folder / entry["path"]) == resolved:
            return entry
    for entry in entries:
        if PurePosixPath(entry["path"]).name == path.name:
            return entry
    raise _unknown(path, f"{path.name} is no file of the job in {folder}.")


def _unknown(path: Path, text: str) -> Fault:
    mend = "Name a plate of a job, or its folder; --job says whose plates they are."
    return Fault(Exit.INPUT, "plate-unknown", text, mend, Where(str(path)))


def _by_name(kept: KeptJob) -> _Orders:
    by_name: _Orders = {}
    for each in kept.orders:
        by_name[each.order.name] = (*by_name.get(each.order.name, ()), each)
    return by_name


def _judged(case: _Case, orders: _Orders) -> Judged:
    name = PurePosixPath(case.entry["path"]).stem
    kept = orders.get(name)
    if kept is None:
        raise _unknown(case.path, f"The job's orders don't know the plate {name}.")
    if not case.path.is_file():
        where = "there" if true_place(case.named) == true_place(case.folder) else f"in {case.named}"
        gone = f"It isn't {where}. Make the plates again: addressing plates."
        return Judged(case.path, case.folder, Verdict(name, (gone,), ()), (gone,))
    first, *others = ((each.order, each.setting, each.pieces) for each in kept)
    verdict = judge_plate(case.path, *first, others)
    if verdict.proved and sha256_of(case.path) != case.entry.get("sha256"):
        told = "It draws what it should, but isn't byte for byte the plate that was proved."
        verdict = replace(verdict, faults=(told,))
    return Judged(case.path, case.folder, verdict, in_words(verdict.faults, kept))
