"""Where the client's answers lie: in the job's own folder, or in that of another docket's."""

from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import true_place
from addressing.job.deciding import DECISIONS
from addressing.job.remembering import HOUSEHOLDS
from addressing.records.docket import Docket
from addressing.where import Where


def answers_folder(docket: Docket, folder: Path | None) -> Path | None:
    """Where answers and keys of a job in `folder` are read from; None where it has no folder.

    A docket may take them from another job of the same list (`[job] answers`), so that they are
    given once.

    Raises:
        Fault: that job isn't there, or this one has answers of its own (exit 3).
    """
    other = _other(docket, folder)
    if other is None or folder is None:
        return folder
    where = Where(docket.path or "docket", None, "docket:job.answers")
    if not (other / HOUSEHOLDS).is_file():
        raise Fault(
            Exit.INPUT,
            "answers-not-there",
            f"The docket takes the client's answers from {other}; no job lies there.",
            "Begin that job first, with its own docket (`addressing questions` or `plates`), or"
            " mend answers in the docket: its path is counted from the docket's folder.",
            where,
        )
    if (folder / DECISIONS).is_file():
        raise Fault(
            Exit.INPUT,
            "answers-twice",
            f"The docket takes the client's answers from {other}, and {folder} has answers too.",
            f"See that {other} has them all, then take {folder / DECISIONS} away.",
            where,
        )
    return other


def refuse_answers_here(docket: Docket, folder: Path) -> None:
    """See that questions and answers of a job go to where its answers lie.

    Raises:
        Fault: they lie in another job's folder (exit 2).
    """
    other = _other(docket, folder)
    if other is not None:
        raise Fault(
            Exit.OPTIONS,
            "answers-elsewhere",
            f"The docket takes the client's answers from {other}.",
            f"Ask and answer there: with --to {other} and the docket of that job.",
            Where(docket.path or "docket", None, "docket:job.answers"),
        )


def _other(docket: Docket, folder: Path | None) -> Path | None:
    """The other job's folder; None where the docket names none, or this very one."""
    if docket.answers is None:
        return None
    other = Path(docket.path or "").parent / docket.answers
    same = folder is not None and true_place(other) == true_place(folder)
    return None if same else other
