"""The manifest: what lies in the job's folder, of which list and docket, and who is held."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path

from addressing.job.reading import Reading
from addressing.records.plates import PlateFile
from addressing.version import VERSION


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
        *({**asdict(other), **blank, "households": []} for other in others),
    ]
    content = {
        "files": files,
        "held": [h.key for h in reading.guest_list.households if h.key in reading.held],
        "list_sha256": reading.guest_list.sha256,
        "docket_sha256": reading.docket.sha256,
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


def replaceable(folder: Path) -> frozenset[Path] | None:
    """The files in the folder that a run may replace: the manifest and what it names.

    None, for any, where a manifest is there and can't be read: the folder is a job's all the same.
    """
    named = old_files(folder)
    if (folder / "manifest.json").exists() and not named:
        return None
    return frozenset(folder / name for name in (*named, "manifest.json"))


def old_files(folder: Path) -> set[str]:
    """The paths that an earlier run's manifest names; only plain ones inside the folder."""
    try:
        content = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        paths = {str(file["path"]) for file in content["files"]}
    except (OSError, ValueError, KeyError, TypeError):
        return set()
    return {path for path in paths if ".." not in path and not Path(path).is_absolute()}
