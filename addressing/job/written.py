"""What commands wrote beside the job's plates and names guests: noted, so that `clear` finds it.

A tidied list, a sheet of faces, a sheet to hold to the light may lie anywhere.
"""

import json
import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from addressing.files import Together, make_folder, sha256_of

WRITTEN = "written.json"
"""The file in the job's folder."""


@dataclass(frozen=True, slots=True)
class Written:
    """A file that was written for a job, and its fingerprint then."""

    path: Path
    sha256: str

    @property
    def unchanged(self) -> bool:
        """True while it is there as it was written."""
        try:
            return self.path.is_file() and sha256_of(self.path) == self.sha256
        except OSError:
            return False


def note_written(together: Together, folder: Path, finals: Iterable[Path]) -> None:
    """Note files that are being written together, in the folder of the job that they are of.

    Call it when their working files are whole.

    Raises:
        Fault: the folder can't be made, or the note not written (exit 4).
    """
    make_folder(folder)
    wanted = {final.resolve() for final in finals}
    noted = {one.path: one.sha256 for one in written_in(folder)}
    noted |= {
        final.resolve(): sha256_of(working)
        for working, final in together.lent
        if final.resolve() in wanted
    }
    content = {"files": [{"path": _told(path, folder), "sha256": noted[path]} for path in noted]}
    text = json.dumps(content, ensure_ascii=False, indent=1) + "\n"
    working = together.working(folder / WRITTEN)
    working.write_text(text, encoding="utf-8", newline="\n")


def written_in(folder: Path) -> tuple[Written, ...]:
    """What a folder's note names, by full paths; nothing where there is none, or it isn't one."""
    try:
        content = json.loads((folder / WRITTEN).read_text(encoding="utf-8"))
        return tuple(
            Written((folder / str(each["path"])).resolve(), str(each["sha256"]))
            for each in content["files"]
        )
    except (OSError, ValueError, KeyError, TypeError):
        return ()


def _told(path: Path, folder: Path) -> str:
    """The path from the folder, so that a job can be moved with what lies beside it."""
    try:
        return Path(os.path.relpath(path, folder.resolve())).as_posix()
    except ValueError:  # another drive
        return str(path)
