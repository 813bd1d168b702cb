"""When the job is over: what of it holds guests' names and homes, and taking that away."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import PART, alone_in, remove, same_as_any
from addressing.job.deciding import DECISIONS
from addressing.job.going_on import GOING_ON
from addressing.job.manifest import MANIFEST, docket_kept, old_files
from addressing.job.printing import REPRINT
from addressing.job.remembering import HOUSEHOLDS
from addressing.job.replies import LETTERS
from addressing.job.written import WRITTEN, Written, written_in
from addressing.ledger import LEDGER
from addressing.where import Where

QUESTIONS = ("questions.xlsx", "questions.txt")


@dataclass(frozen=True, slots=True)
class Belongings:
    """A job's own files, and what of it stays: each path with why.

    The own ones may lie anywhere: a tidied list, a sheet of faces.
    """

    folder: Path
    own: tuple[Path, ...]
    stays: tuple[tuple[Path, str], ...]

    def told(self, path: Path) -> str:
        """A path as people read it: from the folder, or whole where it lies elsewhere."""
        inside = path.is_relative_to(self.folder)
        return str(path.relative_to(self.folder) if inside else path)


def belongings(folder: Path, list_path: Path) -> Belongings:
    """What a job's folder holds and what was noted there, in order; nothing is changed.

    List and docket are never the job's own.

    Raises:
        Fault: the folder isn't there, or isn't a job's (exit 3).
    """
    kept = (list_path, *_dockets(folder))
    own = {path for path in _own(folder) if not same_as_any(path, kept)}
    stays: dict[Path, str] = {}
    for one in written_in(folder):
        path = _from(folder, one.path)
        if path.is_file() and not same_as_any(path, kept):
            why = _why_stays(one)
            stays |= {path: why} if why else {}
            own |= set() if why else {path}
    if not own:
        raise Fault(
            Exit.INPUT,
            "job-missing",
            f"{folder} holds no job.",
            "Name the job's folder with --to.",
            Where(str(folder)),
        )
    for path in folder.rglob("*"):
        if path.is_file() and path not in own:
            stays.setdefault(path, "not the job's, stays")
    return Belongings(folder, tuple(sorted(own)), tuple(sorted(stays.items())))


def _from(folder: Path, path: Path) -> Path:
    """A full path as the folder is named, where it lies in it."""
    whole = folder.resolve()
    return folder / path.relative_to(whole) if path.is_relative_to(whole) else path


def _why_stays(one: Written) -> str | None:
    """Why a noted file isn't taken away: somebody went on working with it."""
    if not one.unchanged:
        return "written for the job and changed since, stays"
    jobs = {place / f"{one.path.stem}-job" for place in (one.path.parent, Path())}
    if any((place / MANIFEST).is_file() or (place / HOUSEHOLDS).is_file() for place in jobs):
        return "the list of a job of its own, stays"
    return None


def _dockets(folder: Path) -> tuple[Path, ...]:
    """The manifest has the docket's path as it was given; one of that name in the folder counts."""
    kept = docket_kept(folder)
    return (Path(kept), folder / Path(kept).name) if kept else ()


def with_others(found: Belongings, list_path: Path) -> Belongings:
    """The same with all else that lies in the folder, but for list and docket: these stay."""
    kept = (list_path, *_dockets(found.folder))
    stays = tuple(
        (path, why)
        for path, why in found.stays
        if same_as_any(path, kept) or not path.is_relative_to(found.folder)
    )
    more = (path for path, _ in found.stays if path not in dict(stays))
    return Belongings(found.folder, tuple(sorted((*found.own, *more))), stays)


def clear(found: Belongings) -> None:
    """Take a job's own files away, then its folders where nothing else is left in them.

    A file system may keep what was deleted, and copies may lie in backups: that is said, not done.

    Raises:
        Fault: a file can't be taken away, or another run is at work there (exit 4).
    """
    with alone_in(found.folder):
        for path in found.own:
            remove(path)
    folders = {parent for path in found.own for parent in path.parents if parent != found.folder}
    inside = [path for path in folders if path.is_relative_to(found.folder)]
    for path in (*sorted(inside, key=lambda each: -len(each.parts)), found.folder):
        if path.is_dir() and not any(path.iterdir()):
            path.rmdir()


def _own(folder: Path) -> Iterator[Path]:
    """The files that a job has written, in its folder and those of reprints and continuations."""
    within = (*folder.glob(f"{REPRINT}-*"), *folder.glob(f"{GOING_ON}-*"))
    for place in (folder, *sorted(within)):
        names = {*old_files(place), MANIFEST, HOUSEHOLDS}
        yield from (place / name for name in names if (place / name).is_file())
        yield from (path for path in place.rglob(f".*{PART}") if path.is_file())
    for name in (DECISIONS, LEDGER, f"{LEDGER}-journal", *QUESTIONS, LETTERS, WRITTEN):
        if (folder / name).is_file():
            yield folder / name
