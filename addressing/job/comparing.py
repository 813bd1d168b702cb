"""Two versions of a list, household by household: who came, left, moved, was respelled.

It is told by the same recognising that keeps the keys in a job's folder; so what was decided of a
household carries over exactly where the two are one here.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from addressing.guestlist import read_list
from addressing.guestlist.households.keys import known_of
from addressing.guestlist.households.recognising import recognise
from addressing.job.answers_kept import answers_folder
from addressing.job.changes import Change, changes_of, in_common, what_changed
from addressing.job.contents import home_of
from addressing.job.decided_of_others import OF_ANSWERS
from addressing.job.deciding import decide
from addressing.job.remembering import Remembered, known_households, with_known
from addressing.job.styling import ask_names, styles_for
from addressing.materials.docket import read_docket
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household
from addressing.records.questions import Decision


@dataclass(frozen=True, slots=True)
class Compared:
    """One household in both versions; None where it isn't.

    `unsure` says why the two may not be one, else is empty. `words` tell what changed. `others`
    are the old households that came into it, or the new ones that went out of it.
    """

    old: Household | None
    new: Household | None
    changes: tuple[Change, ...]
    unsure: str = ""
    words: tuple[str, ...] = ()
    others: tuple[Household, ...] = ()


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two versions of a list, and what becomes of the decisions in the job's folder.

    `kept` are the decisions that still hold, `lost` the findings about those that don't, or wait.
    """

    old: GuestList
    new: GuestList
    households: tuple[Compared, ...]
    kept: tuple[Decision, ...] = ()
    lost: tuple[Finding, ...] = ()


def compare_lists(
    old_path: Path, new_path: Path, docket_path: Path | None, folder: Path | None = None
) -> Comparison:
    """Read two versions of a list by one docket and compare them; nothing is written.

    In a job's `folder` households have the keys that they are known by there, and its decisions
    are tried on the new version.

    Raises:
        Fault: a list, the docket or what the folder keeps (exit 3).
    """
    docket = read_docket(docket_path) if docket_path else Docket()
    before = _read(old_path, docket)
    after = _read(new_path, docket)
    folder = answers_folder(docket, folder)
    known = known_households(folder)
    old = with_known(*before, known)
    if not known:
        households = compare(old.guest_list.households, after[0].households)
        return Comparison(old.guest_list, after[0], households)
    new = with_known(*after, old.kept.known)
    households = compare(old.guest_list.households, new.guest_list.households)
    styles = styles_for(docket, open_shelf((docket_path or new_path).parent))
    as_read = with_known(*after, known)  # as `check` knows them: by the job's folder alone
    kept, lost = _decided(as_read, folder, ask_names(as_read.guest_list, styles, docket))
    return Comparison(old.guest_list, new.guest_list, households, kept, lost)


def _read(path: Path, docket: Docket) -> tuple[GuestList, tuple[Finding, ...]]:
    return read_list(path, dict(docket.columns), home_of(docket), docket.posting)


def _decided(
    new: Remembered, folder: Path | None, worded: tuple[Finding, ...]
) -> tuple[tuple[Decision, ...], tuple[Finding, ...]]:
    applied = decide(new, folder, worded)
    lost = tuple(found for found in applied.findings if found.code in OF_ANSWERS)
    return tuple(decision for _, decision in applied.taken), lost


def compare(old: Sequence[Household], new: Sequence[Household]) -> tuple[Compared, ...]:
    """Every household of both versions once, in the order of the new one; those who left last."""
    matches = recognise([known_of(home) for home in old], [known_of(home) for home in new])
    to_old = {match.new: match for match in matches}
    from_old = {match.old for match in matches}
    found: list[Compared] = []
    for place, home in enumerate(new):
        match = to_old.get(place)
        if match is None:
            found.append(Compared(None, home, (Change.CAME,)))
        else:
            mine = old[match.old]
            changes = changes_of(mine, home)
            found.append(Compared(mine, home, changes, match.unsure, what_changed(mine, home)))
    left = [
        Compared(home, None, (Change.LEFT,))
        for place, home in enumerate(old)
        if place not in from_old
    ]
    return tuple(_joined([*found, *left]))


def _joined(found: list[Compared]) -> list[Compared]:
    """Households that became one, or one that became several, told as such."""
    by_new: dict[tuple[str, str], Compared] = {}
    by_old: dict[tuple[str, str], Compared] = {}
    for each in found:
        if each.old is not None and each.new is not None:
            before, after = in_common(each.old), in_common(each.new)
            by_new.update((name, each) for name in after if name not in before)
            by_old.update((name, each) for name in before if name not in after)
    merged: dict[int, list[Household]] = {}
    split: dict[int, list[Household]] = {}
    for each in found:
        if each.new is None and each.old is not None:
            _tell(merged, by_new, each.old)
        elif each.old is None and each.new is not None:
            _tell(split, by_old, each.new)
    told = [_with(each, Change.MERGED, merged.get(id(each), [])) for each in found]
    return [
        _with(now, Change.SPLIT, split.get(id(was), []))
        for was, now in zip(found, told, strict=True)
    ]


def _tell(
    into: dict[int, list[Household]], known: dict[tuple[str, str], Compared], home: Household
) -> None:
    other = next((known[name] for name in in_common(home) if name in known), None)
    if other is not None:
        into.setdefault(id(other), []).append(home)


def _with(each: Compared, change: Change, others: Sequence[Household]) -> Compared:
    if not others:
        return each
    names = " and ".join(f"{home.name} ({home.rows[0]})" for home in others)
    words = {
        Change.MERGED: f"{names} stood alone before and {_is(others)} with them now",
        Change.SPLIT: f"{names} {_has(others)} a household of their own now",
    }[change]
    return replace(
        each,
        changes=tuple(c for c in (*each.changes, change) if c is not Change.UNCHANGED),
        words=(*each.words, words),
        others=(*each.others, *others),
    )


def _is(homes: Sequence[Household]) -> str:
    return "is" if len(homes) == 1 else "are"


def _has(homes: Sequence[Household]) -> str:
    return "has" if len(homes) == 1 else "have"
