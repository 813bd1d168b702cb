"""The ledger held against the job; what isn't on paper as it should be is made again."""

import contextlib
import json
from collections import Counter
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.job.copies import spoiled_copies
from addressing.job.counting import count_job, count_reprint
from addressing.job.hinting import quoted
from addressing.job.ledger_kept import refuse_lost
from addressing.job.live import is_live
from addressing.job.manifest import MANIFEST, keep_docket
from addressing.job.parting import is_composite, rules_of, to_print
from addressing.job.plates import Made, Tell, make_plates
from addressing.job.reading import Reading
from addressing.job.remembering import known_households
from addressing.job.same_for_all import changed_for_all
from addressing.ledger import GONE, LEDGER, compare, fingerprint, open_ledger, used_up
from addressing.records.counts import PieceCount
from addressing.records.pages import Setting
from addressing.records.pieces import CARDS, household_of
from addressing.records.plates import together
from addressing.records.prints import ON_PAPER, Balance, Print, Tried, Wanted
from addressing.records.set_pieces import SetPieces
from addressing.records.shops import FileRules
from addressing.where import Where

REPRINT = "reprint"
"""The beginning of the folder of each reprint within the job's: reprint-01, reprint-02."""


@dataclass(frozen=True, slots=True)
class Unprinted:
    """An earlier plate, by its path, that nobody has noted as printed.

    `again` of its `pieces` are on a reprint too: both printed, they would be there twice.
    """

    path: str
    kind: str
    pieces: int
    again: int


@dataclass(frozen=True, slots=True)
class Reprint:
    """The ledger held against the job, and the plates of what is due; None when nothing is."""

    balance: Balance
    folder: Path | None
    made: Made | None
    left: tuple[tuple[str, int], ...] = ()
    """(kind, blanks of the job's order that are left when these are printed)."""
    replaces: tuple[Unprinted, ...] = ()


def balance_of(reading: Reading, folder: Path) -> Balance:
    """The ledger of a folder held against what a job should print now.

    Raises:
        Fault: the ledger is another job's: nobody in it was ever on this list; or it has lost
            prints (exit 3).
    """
    with open_ledger(folder) as ledger:
        prints, spoiled = ledger.prints(), ledger.copies()
    ours = {home.key for home in reading.guest_list.households}
    ours |= {home.key for home in reading.known}
    refuse_other_ledger(folder, ours, prints)
    refuse_lost(folder)
    make = reading.docket.make
    others = Counter(
        one.wanted.kind for one in prints if one.wanted.kind not in make and one.state in ON_PAPER
    )
    made = [one for one in prints if one.wanted.kind in make]
    found = compare(made, wanted_of(reading), _away(reading))
    changed = changed_for_all(reading, folder)
    copies = spoiled_copies(reading, spoiled)
    return replace(found, others=tuple(others.items()), for_all=changed, copies=copies)


def right_on_paper(reading: Reading, folder: Path) -> int:
    """How many pieces of a job are on paper already as they should be; 0 without a ledger."""
    if not (folder / LEDGER).exists():
        return 0
    with open_ledger(folder) as ledger:
        return len(compare(ledger.prints(), wanted_of(reading)).good)


def tried_in(folder: Path) -> Tried:
    """What a folder's ledger has on paper, by place, ink, stock and layout; nothing without one."""
    if not (folder / LEDGER).exists():
        return frozenset()
    with open_ledger(folder) as ledger:
        return ledger.tried()


def _away(reading: Reading) -> Callable[[Wanted], str]:
    """Why something isn't to be on paper at all now."""
    listed = {home.key for home in reading.guest_list.households}

    def why(wanted: Wanted) -> str:
        key = household_of(wanted.household)
        if key not in listed:
            return GONE
        if key in reading.held:
            return "the household waits for an answer: set it aside until then"
        if key in reading.later:
            return "the household is of a later round"
        return f"no {wanted.kind} is made for the household now"

    return why


def households_in(folder: Path) -> set[str]:
    """The keys of all households that a job's folder knows or has on its plates."""
    known = {home.key for home in known_households(folder)}
    return known | {household_of(k) for p in plates_with_homes(folder) for k in p["households"]}


def refuse_other_ledger(folder: Path, ours: Container[str], prints: Sequence[Print]) -> None:
    """See that a folder's ledger is its job's own.

    Raises:
        Fault: nobody in it is one of `ours` (exit 3).
    """
    if prints and not any(household_of(one.wanted.household) in ours for one in prints):
        path = folder / LEDGER
        raise Fault(
            Exit.INPUT,
            "ledger-of-another-job",
            f"{path} is another job's: nobody in it was ever on this list.",
            "Name this job's own folder with --to, or put its own ledger back.",
            Where(str(path)),
        )


@dataclass(frozen=True, slots=True)
class DuePieces:
    """What is due by the ledger: the balance, the job cut down to that, and its own counts."""

    balance: Balance
    reading: Reading
    counts: tuple[PieceCount, ...]
    left: tuple[tuple[str, int], ...]
    """(kind, blanks of the job's order that are left when these are printed)."""


def due_pieces(reading: Reading, folder: Path) -> DuePieces:
    """What is new, changed or spoiled, held against the folder's ledger.

    Raises:
        Fault: nothing was ever printed (exit 2); the ledger is another job's, or has lost prints
            (exit 3).
    """
    if not (folder / LEDGER).exists():
        refuse_lost(folder)
        raise _not_printed(reading, folder)
    balance = balance_of(reading, folder)
    due: set[tuple[str, str | None]] = {
        (each.wanted.kind, each.wanted.household) for each in balance.due
    }
    due |= set(_other_sides(reading, due))
    kinds = tuple(
        replace(kind, setting=replace(kind.setting, pieces=pieces))
        for kind in reading.kinds
        if (pieces := SetPieces(p for p in kind.setting.pieces if (kind.kind, p.household) in due))
    )
    with open_ledger(folder) as ledger:
        used = used_up(ledger.prints())
    wanted = Counter(kind for kind, _ in due)
    ordered = {count.kind: count.to_order for count in count_job(reading)}
    left = tuple(
        (kind, max(0, ordered[kind] - used.get(kind, 0) - number))
        for kind, number in wanted.items()
    )
    counts = count_reprint(reading, wanted, used)
    return DuePieces(balance, replace(reading, kinds=kinds), counts, left)


def _not_printed(reading: Reading, folder: Path) -> Fault:
    """The Fault for a folder without a ledger: another job may have printed an earlier version."""
    text = "The ledger knows of nothing that was printed."
    mend = "Make all plates with `addressing plates`; say what was printed with `printed`."
    others = printed_of_these(reading, folder)
    if others:
        told = " and ".join(map(str, others))
        text = f"{folder} knows of nothing that was printed; {told} has most of these households"
        text += " on paper."
        mend = (
            "Is this a new version of that job's list? Then name the job: --to"
            f" {quoted(str(others[0]))}. For another job: m{mend[1:]}"
        )
    return Fault(Exit.OPTIONS, "not-printed", text, mend)


def printed_of_these(reading: Reading, folder: Path) -> tuple[Path, ...]:
    """The other jobs' folders beside a folder, and beside the list, that printed for these homes.

    A job counts that knows half of the households or more; whose record can't be read doesn't.
    """
    ours = {home.key for home in reading.guest_list.households}
    places = dict.fromkeys((folder.parent, *(path.parent for path in reading.sources[:1])))
    ledgers = (each for place in places for each in sorted(place.glob(f"*/{LEDGER}")))
    found: dict[Path, Path] = {}
    for ledger in ledgers:
        with contextlib.suppress(Fault, OSError):
            known = {home.key for home in known_households(ledger.parent)}
            if ours and 2 * len(ours & known) >= len(ours):
                found.setdefault(ledger.parent.resolve(), ledger.parent)
    return tuple(found.values())


def _other_sides(
    reading: Reading, due: Iterable[tuple[str, str | None]]
) -> Iterator[tuple[str, str | None]]:
    """The other sides of cards that are due and have their fronts and backs on one plate."""
    sides = {kind.kind: kind for kind in reading.kinds if kind.sheets and kind.sheets.turn}
    for kind, household in due:
        for other in sides[kind].shared if kind in sides else ():
            yield other, None if sides[other].static else household


def make_reprint(reading: Reading, folder: Path, tell: Tell) -> Reprint:
    """Plates of only what is new, changed or spoiled, in a folder of their own within the job's.

    Raises:
        Fault: as `make_plates`; nothing was ever printed (exit 2).
    """
    due = due_pieces(reading, folder)
    keep_docket(folder, reading.guest_list, reading.docket)
    if not due.balance.due:
        return Reprint(due.balance, None, None)
    place = _next_folder(folder)
    made = make_plates(due.reading, place, tell, due.counts)
    return Reprint(due.balance, place, made, due.left, tuple(_unprinted(folder, place)))


def _unprinted(folder: Path, place: Path) -> Iterator[Unprinted]:
    """The job's plates, and those of earlier reprints, that lack in the ledger and come again."""
    again = {
        (plate["kind"], plate["ink"], home)
        for plate in plates_with_homes(place)
        for home in plate["households"]
        if home
    }
    earlier = (each for each in sorted(folder.glob(f"{REPRINT}-*")) if each < place)
    with open_ledger(folder) as ledger:
        for each in (folder, *earlier):
            for plate in plates_with_homes(each):
                homes = [home for home in plate["households"] if home]
                both = sum((plate["kind"], plate["ink"], home) in again for home in homes)
                if both and not ledger.runs_of(plate["sha256"], plate["kind"]):
                    path = str((each / plate["path"]).relative_to(folder))
                    yield Unprinted(path, plate["kind"], len(homes), both)


def wanted_of(reading: Reading) -> Iterator[Wanted]:
    """Every piece that should be on paper, kind by kind; neither held ones nor static ones."""
    names = {household.key: household.name for household in reading.guest_list.households}
    live = is_live(reading)
    for kind in reading.kinds:
        setting = to_print(kind.setting, reading.off_plates)
        for piece in setting.pieces:
            if piece.household is None:
                continue
            print_ = fingerprint(setting, piece, live=live)
            of_home = names[household_of(piece.household)]
            name = piece.name if kind.kind in CARDS else of_home
            for ink in _inks(replace(setting, pieces=(piece,)), rules_of(reading.press)):
                yield Wanted(kind.kind, ink, piece.household, name, print_)


def _inks(setting: Setting, rules: FileRules) -> tuple[str, ...]:
    """The inks in which a piece is printed, each for itself; those of one file all at once."""
    if is_composite(setting, rules):
        return (together(setting.laid),)
    return tuple(ink.spot for ink in setting.laid)


def reprint_folder(folder: Path, number: int) -> Path:
    """Where the plates of a reprint lie, by its number."""
    return folder / f"{REPRINT}-{number:02d}"


def _next_folder(folder: Path) -> Path:
    """The first reprint folder whose plates aren't printed yet, or that isn't there."""
    number = 1
    while (place := reprint_folder(folder, number)).exists() and _is_printed(folder, place):
        number += 1
    return place


def _is_printed(folder: Path, place: Path) -> bool:
    with open_ledger(folder) as ledger:
        plates = plates_with_homes(place)
        return any(ledger.runs_of(plate["sha256"], plate["kind"]) for plate in plates)


def plates_with_homes(place: Path) -> list[dict[str, Any]]:
    """The plates with households that a folder's manifest names."""
    try:
        content = json.loads((place / MANIFEST).read_text(encoding="utf-8"))
        return [file for file in content["files"] if file["households"]]
    except (OSError, ValueError, KeyError, TypeError):
        return []
