"""The manifest: what lies in the job's folder, of which list and docket, and who is held."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.job.reading import Reading
from addressing.job.remembering import HOUSEHOLDS
from addressing.records.plates import PlateFile
from addressing.version import VERSION
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class NotPlate:
    """A file of the job that is no plate."""

    path: str
    sha256: str
    kind: str


def manifest_text(
    reading: Reading, plates: tuple[PlateFile, ...], others: tuple[NotPlate, ...]
) -> str:
    """The manifest as JSON; plates first, in the order of print. Unknown is null."""
    blank = {"ink": None, "pages": None, "copies": 1, "width_mm": None, "height_mm": None}
    files = [
        *(asdict(plate) for plate in plates),
        *(
            {**asdict(other), **blank, "households": [], "names": [], "prints": []}
            for other in others
        ),
    ]
    content = {
        "files": files,
        "held": [h.key for h in reading.guest_list.households if h.key in reading.held],
        "later": [h.key for h in reading.guest_list.households if h.key in reading.later],
        "list": reading.guest_list.file,
        "list_sha256": reading.guest_list.sha256,
        "docket_sha256": reading.docket.sha256,
        "decisions_sha256": reading.decisions_sha256,
        "version": VERSION,
    }
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def with_proof(folder: Path, reading: Reading, proof: NotPlate) -> str:
    """The folder's manifest with a new proof sheet in it; a first manifest where there is none."""
    try:
        content = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        files = [file for file in content["files"] if file["path"] != proof.path]
    except (OSError, ValueError, KeyError, TypeError):
        return manifest_text(reading, (), (proof,))
    entry = json.loads(manifest_text(reading, (), (proof,)))["files"][0]
    content["files"] = [*files, entry]
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def refuse_other_job(folder: Path, reading: Reading) -> None:
    """Keep one client's plates from taking the place of another's.

    Raises:
        Fault: the folder's manifest is of another list, and none of its households is on this one
            (exit 4).
    """
    try:
        content = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
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
    named = old_files(folder)
    if (folder / "manifest.json").exists() and not named:
        return None
    return frozenset(folder / name for name in (*named, "manifest.json", HOUSEHOLDS))


def old_files(folder: Path) -> set[str]:
    """The paths that an earlier run's manifest names; only plain ones inside the folder."""
    try:
        content = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        paths = {str(file["path"]) for file in content["files"]}
    except (OSError, ValueError, KeyError, TypeError):
        return set()
    return {path for path in paths if ".." not in path and not Path(path).is_absolute()}
