"""Safe writing: a working name in the same folder, flushed, judged, renamed.

One function for every room, so that no half-written file ever has a final name.
"""

import contextlib
import hashlib
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Self

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


class Together:
    """Files that get their final names together, or none of them does.

    Use as a context: `working(final)` lends a working name; on leaving without an error all are
    flushed and renamed in the order in which they were lent, else all are removed.
    """

    def __init__(self) -> None:
        """Nothing is lent yet."""
        self._lent: list[tuple[Path, Path]] = []

    def working(self, final: Path) -> Path:
        """A working name beside `final`.

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
        self._lent.append((Path(name), final))
        return Path(name)

    @property
    def lent(self) -> tuple[tuple[Path, Path], ...]:
        """(working name, final name) of every file so far."""
        return tuple(self._lent)

    def __enter__(self) -> Self:
        """Begin."""
        return self

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        """Settle all, or remove all; a file that can't be renamed stops the rest."""
        try:
            if kind is None:
                for working, final in self._lent:
                    try:
                        settle(working, final)
                    except OSError as error:
                        raise write_fault(final, error) from error
        finally:
            for working, _final in self._lent:
                working.unlink(missing_ok=True)
