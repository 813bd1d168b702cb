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
from addressing.ledger import LEDGER
from addressing.where import Where

QUESTIONS = ("questions.xlsx", "questions.txt")


@dataclass(frozen=True, slots=True)
class Belongings:
    """A job's own files, and what lies in its folder that isn't its own."""

    folder: Path
    own: tuple[Path, ...]
    others: tuple[Path, ...]


def belongings(folder: Path) -> Belongings:
    """What a job's folder holds, in order; nothing is changed.

    Raises:
        Fault: the folder isn't there, or isn't a job's (exit 3).
    """
    own = tuple(sorted(set(_own(folder))))
    if not own:
        raise Fault(
            Exit.INPUT,
            "job-missing",
            f"{folder} holds no job.",
            "Name the job's folder with --to.",
            Where(str(folder)),
        )
    others = tuple(path for path in sorted(folder.rglob("*")) if path.is_file() and path not in own)
    return Belongings(folder, own, others)


def with_others(found: Belongings, list_path: Path) -> Belongings:
    """The same with all else that lies in the folder, but for list and docket: these stay.

    The manifest has the docket's path as it was given; a file of that name in the folder stays too.
    """
    kept = docket_kept(found.folder)
    dockets = (Path(kept), found.folder / Path(kept).name) if kept else ()
    stays = tuple(path for path in found.others if same_as_any(path, (list_path, *dockets)))
    own = (*found.own, *(path for path in found.others if path not in stays))
    return Belongings(found.folder, tuple(sorted(own)), stays)


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
    for name in (DECISIONS, LEDGER, f"{LEDGER}-journal", *QUESTIONS, LETTERS):
        if (folder / name).is_file():
            yield folder / name
