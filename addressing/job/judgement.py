"""What was found when a job's plates and all that lies beside them were judged again."""

from dataclasses import dataclass
from pathlib import Path

from addressing.records.plates import Verdict
from addressing.records.runs import RunOrder


@dataclass(frozen=True, slots=True)
class Judged:
    """A plate judged again; `told` are its faults in a designer's words."""

    path: Path
    folder: Path
    verdict: Verdict
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class JudgedRun:
    """All plates of a job taken together: its order of print, proved or not.

    `run` is the rule by which it was made; None where an older version kept none, and then the
    order isn't judged. `kinds` says of each addressed kind how many pieces and batches it has.
    """

    folder: Path
    run: RunOrder | None
    kinds: tuple[tuple[str, int, int], ...]
    faults: tuple[str, ...]

    @property
    def proved(self) -> bool:
        """True when the order was judged and nothing was objected to."""
        return self.run is not None and not self.faults


@dataclass(frozen=True, slots=True)
class JudgedRecord:
    """What a folder's manifest says, held against the orders beside it.

    Of a plate that was named alone only what it says of that plate. `notes` say what was changed
    since outside of the folder: the list, the docket. `seal` is what the job sheet must bear too.
    """

    folder: Path
    faults: tuple[str, ...]
    notes: tuple[str, ...] = ()
    seal: str = ""


@dataclass(frozen=True, slots=True)
class JudgedFile:
    """A file of the job that is no plate: is it as it was made?

    `gone` where it isn't there; `fault` is a sentence, "" for none. `kind` is the manifest's, None
    for what the job didn't make. Of a package `within` says what is wrong in it, and `notes` what
    couldn't be held.
    """

    path: Path
    folder: Path
    kind: str | None
    fault: str = ""
    gone: bool = False
    within: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def faults(self) -> tuple[str, ...]:
        """All that is wrong with it."""
        return (*((self.fault,) if self.fault else ()), *self.within)


@dataclass(frozen=True, slots=True)
class Judgement:
    """Each plate; the order of print of each folder that was named itself; manifests; other files.

    A folder that was named itself has all its files here, a file that was named alone only itself.
    """

    plates: tuple[Judged, ...]
    runs: tuple[JudgedRun, ...]
    records: tuple[JudgedRecord, ...]
    files: tuple[JudgedFile, ...]

    @property
    def proved(self) -> bool:
        """True when nothing was objected to."""
        wholes: tuple[JudgedRun | JudgedRecord | JudgedFile, ...]
        wholes = (*self.runs, *self.records, *self.files)
        right = all(each.verdict.proved for each in self.plates)
        return right and not any(each.faults for each in wholes)
