"""What was changed since a job's plates were made: list and docket, where they are found."""

from pathlib import Path
from typing import Any

from addressing.files import sha256_of
from addressing.job.manifest import manifest_of


def since_made(folder: Path) -> tuple[str, ...]:
    """Sentences on a list beside the folder, or a docket, that isn't as it was for the plates."""
    content = manifest_of(folder) or {}
    return tuple(
        f"{path} was changed since these plates were made: they are what was proved then, not what "
        "it says now. `addressing plates` makes them anew."
        for path, digest in _sources(folder, content)
        if digest is not None and is_other(path, digest)
    )


def list_changed(folder: Path, list_path: Path) -> bool:
    """True when the plates of a folder were made of a list that was in other bytes than this one.

    False where the folder's plates don't say.
    """
    digest = (manifest_of(folder) or {}).get("list_sha256")
    return isinstance(digest, str) and is_other(list_path, digest)


def _sources(folder: Path, content: dict[str, Any]) -> list[tuple[Path, Any]]:
    """(where a file may lie of which the plates were made, its fingerprint then)."""
    beside = folder.absolute().parent
    if (beside / "manifest.json").is_file():  # a reprint's folder lies within the job's
        beside = beside.parent
    found = []
    for name, digest in (("list", "list_sha256"), ("docket", "docket_sha256")):
        said = content.get(name)
        if isinstance(said, str) and content.get("files"):
            places = (beside / Path(said).name, Path(said))
            found += [(next((p for p in places if p.is_file()), places[0]), content.get(digest))]
    return found


def is_other(path: Path, digest: str) -> bool:
    """True when a file is there and has another fingerprint."""
    try:
        return path.is_file() and sha256_of(path) != digest
    except OSError:
        return False
