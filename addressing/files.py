"""Safe writing: a working name in the same folder, flushed, judged, renamed.

One function for every room, so that no half-written file ever has a final name.
"""

import contextlib
import errno
import hashlib
import os
import re
import tempfile
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Self

from addressing.faults import Exit, Fault
from addressing.interrupt import uninterrupted
from addressing.where import Where

try:
    import fcntl
except ImportError:  # no such locks on this system: two runs into one folder aren't told apart
    fcntl = None  # type: ignore[assignment]

PART = ".part"
"""The ending of every working name."""
_STEM = 40
"""Letters of a file's own name in its working name: a file may have the longest name there is."""
_LEFT = re.compile(rf"\..*-[a-z0-9_]{{8}}.*{re.escape(PART)}", re.DOTALL)
"""Any working name: other programs write files that end so as well."""
_AT_WORK: set[Path] = set()
"""The working files of this process: all others are what a killed run left."""

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)


def write_fault(path: Path, error: OSError) -> Fault:
    """The Fault for a place that can't be written, or that is gone."""
    reason = error.strerror or str(error)
    return Fault(
        Exit.WRITE,
        "cannot-write",
        f"{path} can't be written: {reason}.",
        _mend_of(error),
        Where(str(path)),
    )


def place_fault(error: OSError) -> Fault:
    """The Fault for a place that was there a moment ago, or that nobody foresaw to be refused."""
    place = error.filename or error.filename2
    what = str(place) if isinstance(place, str | Path) else "A file"
    reason = error.strerror or str(error)
    where = Where(what) if place else None
    text = f"{what} can't be read or written: {reason}."
    return Fault(Exit.WRITE, "place-refused", text, _mend_of(error), where)


def _mend_of(error: OSError) -> str:
    """What to do about a place that can't be written."""
    if error.errno in _FULL:
        return "Free some space and run again, or choose another folder with --to."
    if error.errno == errno.ENAMETOOLONG:
        return "Choose a shorter name with --to."
    if error.errno == errno.ENOENT:
        return "If the folder was moved or deleted meanwhile, run again; --to names another."
    return "Choose another folder with --to, or let this one be written into, and run again."


def make_folder(path: Path) -> None:
    """Make a folder and those above it.

    Raises:
        Fault: it can't be made or can't be written into (exit 4).
    """
    try:
        path.mkdir(parents=True, exist_ok=True)
        probe = tempfile.NamedTemporaryFile(  # noqa: SIM115
            dir=path, prefix=".probe-", suffix=PART
        )
        probe.close()
    except OSError as error:
        raise write_fault(path, error) from error


@contextlib.contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Keep a second run out of a folder, and clear away what a killed run left under working names.

    Raises:
        Fault: another run is at work there, or it is no folder to write into (exit 4).
    """
    with _writing(folder):
        handle = os.open(folder, os.O_RDONLY)
    try:
        if fcntl is not None:
            _lock(handle, folder)
            with _writing(folder):
                _clear(folder)
        yield
    finally:
        os.close(handle)


def _clear(folder: Path) -> None:
    """Take away what killed runs left in a job's folder, its plates', its reprints'."""
    for depth in ("", "*/", "*/*/"):
        for left in folder.glob(f"{depth}.*{PART}"):
            if _LEFT.fullmatch(left.name) and left.is_file():
                remove(left)


def _lock(handle: int, folder: Path) -> None:
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno not in (errno.EAGAIN, errno.EACCES):
            return  # a file system without locks
        raise Fault(
            Exit.WRITE,
            "folder-in-use",
            f"Another run is writing into {folder}.",
            "Wait until it is done, or choose another folder with --to.",
            Where(str(folder)),
        ) from error


def _lend(final: Path) -> Path:
    """An empty file with a working name beside `final`; what a killed run left for it goes."""
    before, behind = f".{final.stem[:_STEM]}-", f"{final.suffix[:_STEM]}{PART}"
    working = re.compile(f"{re.escape(before)}[a-z0-9_]{{8}}{re.escape(behind)}")
    with _writing(final):
        for left in [path for path in final.parent.iterdir() if working.fullmatch(path.name)]:
            if left not in _AT_WORK:
                remove(left)
        handle, name = tempfile.mkstemp(dir=final.parent, prefix=before, suffix=behind)
        os.close(handle)
    _AT_WORK.add(final.parent / Path(name).name)
    return final.parent / Path(name).name


@contextlib.contextmanager
def _writing(final: Path) -> Iterator[None]:
    """Turn what the system refuses into the Fault for that place."""
    try:
        yield
    except OSError as error:
        raise write_fault(final, error) from error


def flush(working: Path, *, private: bool = False) -> None:
    """Make sure that a finished working file is on the disk, readable for all or its owner."""
    with working.open("rb+") as stream:
        os.fsync(stream.fileno())
    working.chmod(0o600 if private else 0o644)


def same_as_any(path: Path, others: Iterable[Path]) -> bool:
    """True when a path leads to the same file as one of the others, whatever it is called."""
    return path.exists() and any(other.exists() and path.samefile(other) for other in others)


def true_place(path: Path) -> Path:
    """Where a path leads; a link that leads back to itself stays as it is.

    `Path.resolve` stops there.
    """
    return Path(os.path.realpath(path))


def remove(path: Path) -> None:
    """Take a file away.

    Raises:
        Fault: it can't be taken away (exit 4).
    """
    with _writing(path):
        path.unlink(missing_ok=True)


def write_text(final: Path, text: str, *, private: bool = False) -> None:
    """Write a whole text file safely, as UTF-8 with line feeds; `private` for its owner only."""
    with Together() as together:
        working = together.working(final, private=private)
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
    flushed, and only then renamed in the order in which they were lent; else all are removed. What
    the system refuses on the way (a full disk) is a Fault with exit 4.
    """

    def __init__(
        self,
        kept: tuple[Path, ...] = (),
        replaceable: frozenset[Path] | None = None,
        claim: Callable[[tuple[Path, ...]], Callable[[], None]] | None = None,
    ) -> None:
        """Nothing is lent yet; `kept` are files that no result may replace (the client's list).

        `replaceable` are the files of an earlier run; with it, any other file stays as it is.
        `claim` notes all final names before the first file gets its own, so that a later run knows
        the files of one that was killed in between; it returns what takes the note back.
        """
        self._lent: list[tuple[Path, Path]] = []
        self._stale: list[Path] = []
        self._claim = claim
        self._private: set[Path] = set()
        self._kept = kept
        self._replaceable = replaceable

    def working(self, final: Path, *, private: bool = True) -> Path:
        """A working name beside `final`; `private` for a file that only its owner may read.

        Most of what is written bears guests' names; what bears none is for all to read.

        Raises:
            Fault: the place can't be written, or a file lies there that is to be kept (exit 4).
        """
        if same_as_any(final, self._kept):
            raise Fault(
                Exit.WRITE,
                "would-overwrite",
                f"{final} is one of the files that the job is made from.",
                "Choose another folder with --to, or give that file another name.",
                Where(str(final)),
            )
        if self._replaceable is not None and final.is_file() and final not in self._replaceable:
            raise Fault(
                Exit.WRITE,
                "would-overwrite",
                f"{final} is there already and isn't of an earlier run.",
                "Choose another folder with --to, or move that file.",
                Where(str(final)),
            )
        with uninterrupted():  # else a file could be made that nobody knows of
            working = _lend(final)
            self._lent.append((working, final))
            if private:
                self._private.add(final)
        return working

    def let_go(self, stale: Iterable[Path]) -> None:
        """Files of an earlier run that are taken away before the last file gets its name."""
        self._stale += stale

    @property
    def lent(self) -> tuple[tuple[Path, Path], ...]:
        """(working name, final name) of every file so far."""
        return tuple(self._lent)

    def __enter__(self) -> Self:
        """Begin."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: object
    ) -> None:
        """Settle all, or remove all; a file that can't be renamed stops the rest.

        Raises:
            Fault: a file can't be written, flushed or renamed (exit 4).
        """
        del kind, trace
        try:
            if isinstance(error, OSError):
                raise write_fault(self._refused(error), error) from error
            if isinstance(error, Fault) and error.exit is Exit.WRITE:
                raise self._by_final_name(error) from error
            if error is None:
                self._settle()
        finally:
            with uninterrupted():
                for working, _final in self._lent:
                    with contextlib.suppress(OSError):  # the next run clears what stays
                        working.unlink()
                    _AT_WORK.discard(working)

    def _settle(self) -> None:
        """Flush all, then let each have its final name."""
        for working, final in self._lent:
            with _writing(final):
                flush(working, private=final in self._private)
        finals = tuple(final for _, final in self._lent)
        take_back = self._claim(finals) if self._claim is not None else None
        for number, (working, final) in enumerate(self._lent, start=1):
            if number == len(self._lent):
                for path in self._stale:
                    remove(path)
            try:
                working.replace(final)
            except OSError as error:
                if number == 1 and take_back is not None:
                    take_back()
                raise write_fault(final, error) from error

    def _refused(self, error: OSError) -> Path:
        """The final name of the file that an error speaks of; a full disk names none."""
        finals = {str(working): final for working, final in self._lent}
        last = self._lent[-1][1] if self._lent else Path(error.filename or "")
        return finals.get(str(error.filename), last)

    def _by_final_name(self, fault: Fault) -> Fault:
        """A room's own fault, told with the final name: working names say nothing to a person."""
        for working, final in self._lent:
            if fault.where == Where(str(working)):
                text = fault.text.replace(str(working), str(final))
                return Fault(fault.exit, fault.code, text, fault.mend, Where(str(final)))
        return fault
