"""Safe writing: a working name in the same folder, flushed, judged, renamed.

One function for every room, so that no half-written file ever has a final name.
"""

import contextlib
import hashlib
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.where import Where


def write_fault(path: Path, error: OSError) -> Fault:
    """The Fault for a place that can't be written."""
    reason = error.strerror or str(error)
    return Fault(
        Exit.WRITE,
        "cannot-write",
        f"{path} can't be written: {reason}.",
        "Choose another folder with --to, or free some space and run again.",
        Where(str(path)),
    )


def make_folder(path: Path) -> None:
    """Make a folder and those above it.

    Raises:
        Fault: it can't be made or can't be written into (exit 4).
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
        probe = tempfile.NamedTemporaryFile(dir=path, prefix=".probe-")  # noqa: SIM115
        probe.close()
    except OSError as error:
        raise write_fault(path, error) from error


@contextlib.contextmanager
def working_file(final: Path) -> Iterator[Path]:
    """Lend a working name beside `final`; on leaving without an error it takes the final name.

    The working file is removed when anything goes wrong inside. What was there under the final
    name stays whole until the rename.

    Raises:
        Fault: the place can't be written (exit 4).
    """
    try:
        handle, name = tempfile.mkstemp(
            dir=final.parent, prefix=f".{final.stem}-", suffix=f"{final.suffix}.part"
        )
        os.close(handle)
    except OSError as error:
        raise write_fault(final, error) from error
    working = Path(name)
    try:
        yield working
        settle(working, final)
    except OSError as error:
        raise write_fault(final, error) from error
    finally:
        working.unlink(missing_ok=True)


def settle(working: Path, final: Path) -> None:
    """Flush a finished working file to the disk and give it its final name."""
    with working.open("rb+") as stream:
        os.fsync(stream.fileno())
    working.chmod(0o644)
    working.replace(final)


def write_text(final: Path, text: str) -> None:
    """Write a whole text file safely, as UTF-8 with line feeds."""
    with working_file(final) as working:
        working.write_text(text, encoding="utf-8", newline="\n")


def sha256_of(path: Path) -> str:
    """The SHA-256 of a file's bytes, in hexadecimal."""
    digest = hashlib.sha256()
    with path.open("rb") as stream:
        for block in iter(lambda: stream.read(1 << 20), b""):
            digest.update(block)
    return digest.hexdigest()
