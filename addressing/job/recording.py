"""What was printed goes into the ledger, each plate of each kind once."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Any

from addressing.faults import Exit, Fault
from addressing.job.copies import same_for_all
from addressing.job.hinting import all_of, quoted
from addressing.job.judging import judge_again
from addressing.job.kept_orders import refuse_changed_record
from addressing.job.ledger_kept import lost_prints, noting, refuse_strange
from addressing.job.manifest import manifest_of
from addressing.job.printing import (
    households_in,
    plates_with_homes,
    refuse_other_ledger,
    reprint_folder,
)
from addressing.ledger import Ledger, open_ledger
from addressing.records.kept import KeptJob
from addressing.records.prints import Printing, Wanted
from addressing.where import Where

Plate = dict[str, Any]
"""A plate's entry in a manifest: of one kind, even where several kinds share the file."""


_TOLD = 3
"""Sentences that are told of what is wrong with a plate; `preflight` has them all."""


@dataclass(frozen=True, slots=True)
class Ran:
    """Which plates went through.

    `reprint` is a reprint's number, None for the job's own plates; `batches` are numbered as on
    their slips, `inks` named as on their plates. No kinds, batches or inks are all of them.
    """

    reprint: int | None = None
    kinds: frozenset[str] = frozenset()
    batches: frozenset[int] = frozenset()
    inks: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Noted:
    """A plate as the ledger has it: `before` where it was noted earlier and not again now.

    `first` and `last` are the names on its pile's first and last print.
    """

    path: str
    pages: int
    kinds: tuple[str, ...]
    before: bool
    first: str
    last: str


def record_printed(folder: Path, ran: Ran, date: str | None, *, again: bool) -> tuple[Noted, ...]:
    """Write the plates of a folder into its ledger as printed, but for those that are in it.

    With `again` those too. Kinds that share their sheets are printed together, whichever of them
    is named. Static plates bear no household and aren't kept count of here. What was noted after
    an older copy of the ledger, which lies there now, isn't missed any more.

    Raises:
        Fault: there are no such plates, they or the manifest were changed since they were proved,
            or the ledger is another job's (exit 3); there is no such batch, or all are in the
            ledger already and it isn't `again` (exit 2).
    """
    place = folder if ran.reprint is None else reprint_folder(folder, ran.reprint)
    made = plates_with_homes(place)
    plates = _of_kinds(made, ran.kinds)
    if not plates:
        raise _missing(place, made, ran.kinds)
    if ran.batches:
        plates = _of_batches(place, plates, ran.batches)
    plates = _of_inks(plates, ran)
    if ran.batches:
        _refuse_unsaid(plates, ran)
    with open_ledger(folder) as ledger:
        refuse_other_ledger(folder, households_in(folder), ledger.prints())
        refuse_strange(folder)
        due = [one for one in plates if again or not _is_in(ledger, one)]
        if not due and not lost_prints(folder):
            raise _printed_already(place, plates)
        for plate in due:
            _check(place, plate)
        sizes = _sizes(refuse_changed_record(place))
        _refuse_unproved(place, due, ran.kinds)
        with noting(folder, ledger):
            for plate in due:
                size = sizes.get((PurePosixPath(plate["path"]).stem, plate["kind"]))
                _record(ledger, plate, date, size)
    fresh = {plate["path"] for plate in due}
    return tuple(_noted(plates, path, fresh) for path in dict.fromkeys(p["path"] for p in plates))


def _sizes(kept: KeptJob) -> dict[tuple[str, str], float]:
    """The set's size (pt) for each plate's name and kind."""
    return {(each.order.name, each.order.kind): each.setting.size for each in kept.orders}


def _is_in(ledger: Ledger, plate: Plate) -> bool:
    return bool(ledger.runs_of(plate["sha256"], plate["kind"]))


def _noted(plates: Sequence[Plate], path: str, fresh: Iterable[str]) -> Noted:
    """A file once, whatever number of kinds lies on it; its pages are those that are fed."""
    its = [plate for plate in plates if plate["path"] == path]
    pages = its[0].get("pages") or len(its[0]["households"])
    names = its[0]["names"]
    first, last = (names[-1], names[0]) if its[0].get("reverse") else (names[0], names[-1])
    kinds = tuple(plate["kind"] for plate in its)
    return Noted(path, pages, kinds, path not in fresh, first, last)


def _of_kinds(plates: Sequence[Plate], kinds: frozenset[str]) -> list[Plate]:
    """The plates of some kinds (of all, where none is named), and what shares their sheets."""
    paths = {plate["path"] for plate in plates if not kinds or plate["kind"] in kinds}
    return [plate for plate in plates if plate["path"] in paths]


def _record(ledger: Ledger, plate: Plate, date: str | None, size: float | None) -> None:
    """Write one plate, set at a size (pt), into the ledger, its pages as its pile lies."""
    pages = [
        Wanted(plate["kind"], plate["ink"], *rest) if rest[-1] else None
        for rest in zip(plate["households"], plate["names"], plate["prints"], strict=True)
    ]
    pile = pages[::-1] if plate.get("reverse") else pages
    press, stock, layout = (plate.get(each) for each in ("press", "stock", "layout"))
    first = plate.get("first") or 1
    ends = (first, first + len(pages) - 1) if plate.get("up", 1) == 1 else (None, None)
    turned = ends[::-1] if plate.get("reverse") else ends
    made = Printing(plate["path"], plate["sha256"], date, press, stock, layout, size, *turned)
    ledger.add(made, pile, first)


def _of_batches(place: Path, plates: Sequence[Plate], batches: frozenset[int]) -> list[Plate]:
    """The plates of some batches, numbered as on their slips: those of each ink of a kind."""
    numbers: Counter[tuple[str, str]] = Counter()
    chosen = []
    for plate in plates:
        numbers[plate["kind"], plate["ink"]] += 1
        if numbers[plate["kind"], plate["ink"]] in batches:
            chosen.append(plate)
    most = max(numbers.values())
    if beyond := [batch for batch in sorted(batches) if batch > most]:
        has = f"{most} batches" if most > 1 else "one batch of each kind"
        raise Fault(
            Exit.OPTIONS,
            "batch-unknown",
            f"There is no batch {beyond[0]}: {place} has {has}.",
            "Give the number that its slip bears: batch 2 of 3.",
            Where(str(place)),
        )
    return chosen


def _of_inks(plates: Sequence[Plate], ran: Ran) -> list[Plate]:
    """The plates in some inks; where a batch is named that has several, it must be said which.

    Each is a pass of its own through the device, and may be the only one that was printed yet.

    Raises:
        Fault: no plate is in such an ink, or it isn't plain in which (exit 2).
    """
    inks = {plate["ink"].casefold(): plate["ink"] for plate in plates}
    if ran.inks:
        chosen = [
            plate for plate in plates if plate["ink"].casefold() in map(str.casefold, ran.inks)
        ]
        if strange := [ink for ink in sorted(ran.inks) if ink.casefold() not in inks]:
            there = all_of(list(inks.values()))
            text = f"None of these plates is in {strange[0]}; they are in {there}."
            raise Fault(Exit.OPTIONS, "ink-not-printed", text, "Name the ink as its plate does.")
        return chosen
    passes: dict[str, dict[str, str]] = {}
    for plate in plates:
        passes.setdefault(plate["kind"], {})[plate["ink"]] = plate["path"]
    several = [its for its in passes.values() if len(its) > 1]
    if ran.batches and several:
        told = " and ".join(f"in {ink} ({path})" for its in several for ink, path in its.items())
        each = [f"--ink {quoted(ink)}" for ink in inks.values()]
        numbers = " and ".join(str(each) for each in sorted(ran.batches))
        raise Fault(
            Exit.OPTIONS,
            "batch-unclear",
            f"Batch {numbers} goes through once for each ink: {told}.",
            f"Say which went through: {each[0]}; or all of them: {' '.join(each)}.",
        )
    return list(plates)


def _refuse_unsaid(plates: Sequence[Plate], ran: Ran) -> None:
    """See that it is plain of which kind a batch is.

    Raises:
        Fault: several kinds have one of that number, on sheets of their own (exit 2).
    """
    paths = {plate["kind"]: plate["path"] for plate in plates}
    if ran.kinds or len(set(paths.values())) < 2:  # noqa: PLR2004 - more than one
        return
    told = " and ".join(f"of {kind} ({path})" for kind, path in paths.items())
    numbers = " and ".join(str(each) for each in sorted(ran.batches))
    each = " ".join(f"--kind {kind}" for kind in paths)
    first = next(iter(paths))
    raise Fault(
        Exit.OPTIONS,
        "batch-unclear",
        f"Batch {numbers} is there {told}.",
        f"Say which went through: --kind {first}; or all of them: {each}.",
    )


def _missing(place: Path, made: Sequence[Plate], kinds: frozenset[str]) -> Fault:
    """No plates that bear households, or none of the kinds that were named."""
    text, mend = f"{place} has no plates with households on them.", "Make them first with"
    same = same_for_all(place)
    if same and (kinds <= same if kinds else not made):
        told = all_of(sorted(kinds or same))
        text = f"The plates of {told} in {place} are the same for all."
        mend = "The ledger keeps what bears a guest's name; of these only what is spoiled is noted:"
        mend += " `addressing spoiled LIST --kind KIND --copies N`."
        return Fault(Exit.INPUT, "plates-missing", text, mend, Where(str(place)))
    there = all_of(list(dict.fromkeys(plate["kind"] for plate in made)))
    if made:
        text = f"{place} has no plates of {all_of(sorted(kinds))}; it has {there}."
        mend = "Name one of these, or make others with"
    where = Where(str(place))
    commands = "`addressing plates` or `addressing reprint`"
    return Fault(Exit.INPUT, "plates-missing", text, f"{mend} {commands}.", where)


def _printed_already(place: Path, plates: Sequence[Plate]) -> Fault:
    path = place / plates[0]["path"]
    what = f"{path} is" if len(plates) == 1 else f"All of them ({path} …) are"
    return Fault(
        Exit.OPTIONS,
        "printed-already",
        f"{what} in the ledger as printed already.",
        "Printed once more? Say so with --again, and which with --kind or --batch.",
        Where(str(path)),
    )


def _check(place: Path, plate: Plate) -> None:
    """Refuse a plate that isn't there."""
    path = place / plate["path"]
    if not path.is_file():
        raise Fault(
            Exit.INPUT,
            "plate-missing",
            f"{path} isn't there: nothing was noted.",
            "Note the others with --kind or --batch, or make the plates again and print those.",
            Where(str(path)),
        )


def _refuse_unproved(place: Path, plates: Sequence[Plate], kinds: frozenset[str]) -> None:
    """Judge plates as `preflight` does, and those that are the same for all, printed with them.

    Raises:
        Fault: one isn't proved, or can't be judged (exit 3).
    """
    paths = dict.fromkeys(place / each["path"] for each in (*plates, *plates_for_all(place, kinds)))
    for each in judge_again(tuple(paths), place).plates:
        if not each.verdict.proved:
            raise _changed(each.path, " ".join(("", *each.told[:_TOLD])))


def plates_for_all(place: Path, kinds: frozenset[str]) -> list[Plate]:
    """The plates of some kinds (of all, where none is named) that are the same for all."""
    return [
        each
        for each in (manifest_of(place) or {"files": []})["files"]
        if each.get("ink") and not each["households"] and (not kinds or each["kind"] in kinds)
    ]


def _changed(path: Path, told: str) -> Fault:
    return Fault(
        Exit.INPUT,
        "plate-changed",
        f"{path} isn't the plate that was proved: nothing was noted.{told}",
        f"See what is wrong: addressing preflight {quoted(str(path))}. Make the plates again, and"
        " print those.",
        Where(str(path)),
    )
