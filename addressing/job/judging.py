"""Plates judged again later: against their orders and the manifest of their job's folder."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath
from typing import Any

from addressing.faults import Exit, Fault
from addressing.files import sha256_of
from addressing.job.kept_orders import kept_job, record_faults
from addressing.job.manifest import MANIFEST, manifest_of
from addressing.preflight import judge_orders, judge_plate, judge_sequence, judge_type
from addressing.records.kept import KeptJob, KeptOrder
from addressing.records.pages import SetPiece, Setting
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.runs import RunOrder
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Judged:
    """A plate judged again. `names` maps the households on it to what people call them."""

    path: Path
    folder: Path
    verdict: Verdict
    names: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class JudgedRun:
    """All plates of a job taken together: its order of print, proved or not.

    `run` is the rule by which it was made; None where an older version kept none, and then the
    order isn't judged. `kinds` says of each addressed kind how many pieces and batches it has.
    """

    folder: Path
    run: RunOrder | None
    kinds: tuple[tuple[str, int, int], ...]
    faults: tuple[str, ...]

    @property
    def proved(self) -> bool:
        """True when the order was judged and nothing was objected to."""
        return self.run is not None and not self.faults


@dataclass(frozen=True, slots=True)
class JudgedRecord:
    """What a folder's manifest says, held against the orders beside it.

    Of a plate that was named alone only what it says of that plate.
    """

    folder: Path
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Judgement:
    """Each plate; the order of print of each folder that was named itself; every manifest."""

    plates: tuple[Judged, ...]
    runs: tuple[JudgedRun, ...]
    records: tuple[JudgedRecord, ...]

    @property
    def proved(self) -> bool:
        """True when nothing was objected to."""
        wholes: tuple[JudgedRun | JudgedRecord, ...] = (*self.runs, *self.records)
        right = all(each.verdict.proved for each in self.plates)
        return right and not any(each.faults for each in wholes)


_Orders = dict[str, tuple[KeptOrder, ...]]
"""What a folder keeps of each plate, by its name: an order for each kind on it."""


@dataclass(frozen=True, slots=True)
class _Case:
    """A file to judge, the folder whose manifest names it, and what the manifest says."""

    path: Path
    folder: Path
    entry: dict[str, Any]


def judge_again(paths: Sequence[Path], job: Path | None = None) -> Judgement:
    """Judge plates, or with a job's folder all of its plates, and how they follow one another.

    Args:
        paths: plates, or folders of jobs.
        job: the folder whose manifest names them, where they lie elsewhere now.

    Raises:
        Fault: a file isn't there, no manifest names it, or what the judge must know isn't there
            or was changed (exit 3).
    """
    cases = [case for path in paths for case in _cases(path, job)]
    folders = dict.fromkeys(case.folder for case in cases)
    known = {folder: kept_job(folder, faces=True) for folder in folders}
    orders = {folder: _by_name(kept) for folder, kept in known.items()}
    judged = tuple(_judged(case, orders[case.folder]) for case in cases)
    whole = dict.fromkeys(_folder_of(path, job) for path in paths if path.is_dir())
    looked = dict.fromkeys(
        (case.folder, None if case.folder in whole else case.entry["path"]) for case in cases
    )
    return Judgement(
        judged,
        tuple(_judged_run(folder, orders[folder], known[folder].run) for folder in whole),
        tuple(_judged_record(folder, known[folder], only) for folder, only in looked),
    )


def _judged_record(folder: Path, kept: KeptJob, only: str | None) -> JudgedRecord:
    """What the manifest says of all plates, or of one."""
    return JudgedRecord(folder, record_faults(folder, kept, only))


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
    parts: dict[int, tuple[SetPiece, ...]] = {}
    for each in sorted(plates, key=lambda kept: kept.order.first):
        parts.setdefault(each.order.first, each.setting.pieces)
    pieces = tuple(piece for part in parts.values() for piece in part)
    return replace(plates[0].setting, pieces=pieces)


def _cases(path: Path, job: Path | None) -> list[_Case]:
    """A plate with what its manifest says of it; a folder gives all plates that it names."""
    if path.is_dir():
        folder = _folder_of(path, job)
        plates = [entry for entry in _entries(folder) if entry.get("ink") is not None]
        if not plates:
            raise _unknown(path, f"The job in {folder} has no plates.")
        once = {entry["path"]: entry for entry in plates}
        return [_Case(_there(folder / path), folder, entry) for path, entry in once.items()]
    folder = _folder_of(_there(path).absolute().parent, job)
    return [_Case(path, folder, _entry(path, folder))]


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


def _folder_of(place: Path, job: Path | None) -> Path:
    """The folder with the manifest: as given, else `place` or the first above that has one."""
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
    """The manifest's entry of a plate: by its place, else by its name."""
    plates = [entry for entry in _entries(folder) if entry.get("ink") is not None]
    resolved = path.resolve()
    for entry in plates:
        if (folder / entry["path"]).resolve() == resolved:
            return entry
    for entry in plates:
        if PurePosixPath(entry["path"]).name == path.name:
            return entry
    raise _unknown(path, f"The manifest in {folder} names no plate {path.name}.")


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
    first, *others = ((each.order, each.setting, each.pieces) for each in kept)
    verdict = judge_plate(case.path, *first, others)
    if verdict.proved and sha256_of(case.path) != case.entry.get("sha256"):
        told = "It draws what it should, but isn't byte for byte the plate that was proved."
        verdict = replace(verdict, faults=(told,))
    pieces = [piece for each in kept for piece in each.pieces]
    names = {piece.household: piece.name for piece in pieces if piece.household is not None}
    return Judged(case.path, case.folder, verdict, tuple(names.items()))
