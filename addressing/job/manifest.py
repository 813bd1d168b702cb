"""The manifest: what lies in the job's folder, of which list and docket, and who is held.

It also remembers the docket, so that a later command can't go by the defaults unsaid.
"""

import json
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from functools import partial
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.files import Together, remove, write_text
from addressing.job.hinting import quoted
from addressing.job.orders import ORDERS
from addressing.job.reading import Reading
from addressing.job.remembering import HOUSEHOLDS, ledger_beside
from addressing.records.docket import Docket
from addressing.records.guests import GuestList
from addressing.records.plates import PlateFile
from addressing.records.prints import NOTHING_NOTED, LedgerNoted
from addressing.version import VERSION
from addressing.where import Where

MANIFEST = "manifest.json"
"""The file in the job's folder."""
_MAKING = "making"
"""The manifest's key for files that a run is just about to name, or was when it was killed."""

_PRINTED = "printed"
"""Its key for the number of prints that the folder's ledger had when it was last changed."""

_LEDGER = "ledger"
"""Its key for what the rows of the folder's ledger were after each change (`Ledger.history`)."""


@dataclass(frozen=True, slots=True)
class NotPlate:
    """A file of the job that is no plate."""

    path: str
    sha256: str
    kind: str


def manifest_text(
    reading: Reading,
    plates: tuple[PlateFile, ...],
    others: tuple[NotPlate, ...],
    noted: LedgerNoted = NOTHING_NOTED,
) -> str:
    """The manifest as JSON; plates first, in the order of print. Unknown is null.

    `noted` is what is kept of the folder's ledger.
    """
    blank = {"ink": None, "pages": None, "copies": 1, "width_mm": None, "height_mm": None}
    files = [
        *(asdict(plate) for plate in plates),
        *(
            {**asdict(other), **blank, "households": [], "names": [], "prints": []}
            | {"way": None, "calibration": None, "first": None, "reverse": None, "up": 1}
            | {"press": None, "stock": None, "layout": None, "hits": None, "type": None}
            for other in others
        ),
    ]
    content = {
        **_first(reading.guest_list, reading.docket),
        "files": files,
        "held": [h.key for h in reading.guest_list.households if h.key in reading.held],
        "later": [h.key for h in reading.guest_list.households if h.key in reading.later],
        "decisions_sha256": reading.decisions_sha256,
    }
    return with_ledger(content, noted)


def ledger_noted(folder: Path) -> LedgerNoted:
    """What the folder keeps of its ledger; nothing where none was ever changed.

    It stands in the manifest and beside the households: the one that has seen more changes counts,
    so that an older ledger and the manifest of its time, both put back, don't pass.
    """
    content = manifest_of(folder) or {}
    prints, history = content.get(_PRINTED, 0), content.get(_LEDGER, ())
    noted = LedgerNoted(
        prints if isinstance(prints, int) and prints > 0 else 0,
        tuple(str(each) for each in history) if isinstance(history, list) else (),
    )
    beside = ledger_beside(folder)
    return beside if len(beside.history) > len(noted.history) else noted


def with_ledger(content: dict[str, Any], noted: LedgerNoted) -> str:
    """A manifest's text with what is kept of the folder's ledger; nothing isn't written."""
    told = {key: value for key, value in content.items() if key not in (_PRINTED, _LEDGER)}
    if noted.prints:
        told[_PRINTED] = noted.prints
    if noted.history:
        told[_LEDGER] = list(noted.history)
    return _text(told)


def with_file(folder: Path, reading: Reading, made: NotPlate) -> str:
    """The folder's manifest with one file made anew; a first manifest where there is none."""
    content = manifest_of(folder) or {"files": []}
    files = [file for file in content["files"] if file["path"] != made.path]
    known = {made.path, *(file["path"] for file in files)}
    making = [path for path in content.pop(_MAKING, ()) if path not in known]
    first = json.loads(manifest_text(reading, (), (made,)))
    whole = {**content, "docket": reading.docket.path} if content["files"] else first
    told = {**whole, "files": [*files, *first["files"]]}
    return _text({**told, _MAKING: making} if making else told)


def settled(folder: Path, sources: tuple[Path, ...]) -> Together:
    """Files of a job that get their names together; the manifest is to be lent last.

    Only what an earlier run made is replaced, and that of a run that was killed meanwhile.
    """
    return Together(sources, replaceable(folder), partial(_claim, folder))


def _claim(folder: Path, finals: Sequence[Path]) -> Callable[[], None]:
    """Name in the manifest what is about to be made, before anything of it is there.

    Plates alone take the note away, with a manifest that names all. What is returned takes it
    back where nothing of it could be made.

    Raises:
        Fault: it can't be written (exit 4).
    """
    path, content = folder / MANIFEST, manifest_of(folder)
    if content is None and path.exists():
        return lambda: None
    known = old_files(folder)
    names = {final.relative_to(folder).as_posix() for final in finals} - {MANIFEST, HOUSEHOLDS}
    if names <= known:
        return lambda: None
    making = sorted({*names, *(content or {}).get(_MAKING, ())})
    write_text(path, _text({**(content or {"files": []}), _MAKING: making}), private=True)
    return lambda: (
        remove(path) if content is None else write_text(path, _text(content), private=True)
    )


def keep_docket(folder: Path, guest_list: GuestList, docket: Docket) -> None:
    """Keep in the folder's manifest by which docket its list is read from now on.

    `docket_sha256` stays that of the files made. A first manifest is written only for a docket;
    one that can't be read stays as it is.

    Raises:
        Fault: it can't be written (exit 4).
    """
    path = folder / MANIFEST
    content = manifest_of(folder)
    if content is None:
        if docket.path is None or path.exists():
            return
        content = _first(guest_list, docket)
    elif content.get("docket", "") == docket.path:
        return
    write_text(path, _text({**content, "docket": docket.path}), private=True)


def docket_kept(folder: Path) -> str | None:
    """The path of the docket by which a folder's list was last read, as it was given; None without.

    `DOCKET` where an older version kept only its fingerprint.
    """
    content = manifest_of(folder) or {}
    if "docket" not in content and content.get("docket_sha256"):
        return "DOCKET"
    kept = content.get("docket")
    return str(kept) if kept else None


def docket_gone(folder: Path, kept: str) -> Fault:
    """The docket of a folder's job isn't there, and it is never read by the defaults unsaid."""
    return Fault(
        Exit.OPTIONS,
        "docket-left-out",
        f"The job in {folder} has a docket, {kept}, that isn't there, and none is given.",
        f"Say where it is: --docket {quoted(kept)}; or --docket none to go without.",
        Where(str(folder)),
    )


def docket_lost(folder: Path) -> Fault | None:
    """Where a job's manifest is damaged, or gone from beside its orders, its docket isn't known.

    None where it is known, or the folder is no job's yet.
    """
    path = folder / MANIFEST
    if manifest_of(folder) is not None or not (path.exists() or (folder / ORDERS).exists()):
        return None
    how = "can't be read: it is damaged" if path.exists() else "isn't there any more"
    return Fault(
        Exit.INPUT,
        "manifest-lost",
        f"{path} {how}. It says by which docket this job is read, and what was made of it.",
        "Put it back from a copy; or say by which docket: --docket FILE, or --docket none.",
        Where(str(path)),
    )


def refuse_other_docket(folder: Path, docket: Path) -> None:
    """Keep what is said with another job's docket from being noted here.

    Raises:
        Fault: the job in the folder goes by another docket, or by none (exit 2).
    """
    kept = docket_kept(folder)
    if manifest_of(folder) is None or kept in ("DOCKET", str(docket)):
        return
    if kept is not None and docket.absolute() in (
        Path(kept).absolute(),
        (folder.parent / kept).absolute(),
    ):
        return
    by = "no docket" if kept is None else f"the docket {kept}"
    raise Fault(
        Exit.OPTIONS,
        "docket-other",
        f"The job in {folder} goes by {by}, not by {docket}: nothing was noted.",
        "Name the folder of the job that goes by it with --to, or leave --docket out.",
        Where(str(folder)),
    )


def _first(guest_list: GuestList, docket: Docket) -> dict[str, Any]:
    """A manifest that names no file yet."""
    return {
        "files": [],
        "held": [],
        "later": [],
        "list": guest_list.file,
        "list_sha256": guest_list.sha256,
        "docket": docket.path,
        "docket_sha256": docket.sha256,
        "decisions_sha256": None,
        "version": VERSION,
    }


def _text(content: dict[str, Any]) -> str:
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def manifest_of(folder: Path) -> dict[str, Any] | None:
    """What a folder's manifest says; None where there is none, or it can't be read as one."""
    try:
        told = (folder / MANIFEST).read_text(encoding="utf-8")
        content = json.loads(told, object_pairs_hook=_once)
        sound = all(isinstance(file["path"], str) for file in content["files"])
        sound = sound and all(isinstance(path, str) for path in content.get(_MAKING, ()))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None
    return content if sound and isinstance(content, dict) else None


def _once(pairs: Sequence[tuple[str, Any]]) -> dict[str, Any]:
    """An object whose every key stands once: of doubled ones each reader takes another."""
    content = dict(pairs)
    if len(content) != len(pairs):
        message = "a key stands twice"
        raise ValueError(message)
    return content


def refuse_other_job(folder: Path, reading: Reading) -> None:
    """Keep one client's plates from taking the place of another's.

    Raises:
        Fault: the folder's manifest is of another list, and none of its households is on this one
            (exit 4).
    """
    try:
        content = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
        known = {str(key) for file in content["files"] for key in file["households"]}
        known |= {str(key) for key in content["held"]}
        same_list = content["list"] == reading.guest_list.file
    except (OSError, ValueError, KeyError, TypeError):
        return
    mine = {household.key for household in reading.guest_list.households}
    if known and not same_list and not known & mine:
        raise Fault(
            Exit.WRITE,
            "another-job",
            f"{folder} holds the job of another list: none of its households is on this one.",
            "Choose another folder with --to.",
            Where(str(folder)),
        )


def replaceable(folder: Path) -> frozenset[Path] | None:
    """The files in the folder that a run may replace: the manifest, what it names, what is known.

    None, for any, where a manifest is there and can't be read: the folder is a job's all the same.
    """
    if (folder / MANIFEST).exists() and manifest_of(folder) is None:
        return None
    return frozenset(folder / name for name in (*old_files(folder), MANIFEST, HOUSEHOLDS))


def old_files(folder: Path) -> set[str]:
    """The paths that an earlier run's manifest names, and those that it was about to make.

    Only plain ones inside the folder.
    """
    content = manifest_of(folder) or {"files": []}
    paths = {*(file["path"] for file in content["files"]), *content.get(_MAKING, ())}
    return {path for path in paths if ".." not in path and not Path(path).is_absolute()}
