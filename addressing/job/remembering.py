"""The households of a job's list as last read, kept in its folder, so that their keys last.

The file holds names and addresses, folded: it stays beside the job, readable by its owner only.
"""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from addressing.faults import Exit, Fault
from addressing.guestlist.households.keys import Kept, keep_keys
from addressing.records.findings import Finding, Severity
from addressing.records.guests import GuestList, KnownHousehold, ListVersion, Versions
from addressing.records.prints import NOTHING_NOTED, LedgerNoted
from addressing.where import Where

HOUSEHOLDS = "households.json"
"""The file in the job's folder."""


@dataclass(frozen=True, slots=True)
class Remembered:
    """A list whose households have the keys that they had in the job's folder."""

    guest_list: GuestList
    findings: tuple[Finding, ...]
    kept: Kept
    versions: Versions = field(default_factory=Versions)
    answered: tuple[str, ...] = ()
    """The questions whose answers the job's folder had, by `Decision.ref`."""


@dataclass(frozen=True, slots=True)
class Memory:
    """What the file holds; `sum` is that of all before it, "" in older ones."""

    households: tuple[KnownHousehold, ...] = ()
    lists: tuple[ListVersion, ...] = ()
    ledger: LedgerNoted = NOTHING_NOTED
    answered: tuple[str, ...] = ()
    sum: str = ""


def remember(guest_list: GuestList, findings: Sequence[Finding], folder: Path | None) -> Remembered:
    """The list and its findings with the keys that are kept in a job's folder; None keeps none.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    memory = _memory(folder)
    remembered = with_known(guest_list, findings, memory.households)
    versions = _versions(remembered, memory.lists)
    found = remembered.findings
    if versions.later is not None:
        found = (*found, _told_earlier(versions.read[-1], versions.later))
    return replace(remembered, findings=found, versions=versions, answered=memory.answered)


def _versions(remembered: Remembered, before: tuple[ListVersion, ...]) -> Versions:
    """The job's versions with the one now read as the last, and what came after it before."""
    words = (home.letters for home in remembered.kept.known if not home.gone)
    letters = hashlib.sha256("\n".join(sorted(words)).encode()).hexdigest()
    guests = remembered.guest_list
    now = ListVersion(guests.file, guests.sha256, letters)
    if before and now.is_as(before[-1]):
        return Versions((*before[:-1], now))
    earlier = any(now.is_as(one) for one in before)
    return Versions((*before, now), before[-1] if earlier else None)


def _told_earlier(now: ListVersion, later: ListVersion) -> Finding:
    text = f"This list was read in this job before {later.file}, a later version."
    mend = "Take the later one, unless you mean to go back."
    return Finding(Severity.NOTE, "list-read-before", Where(now.file), text, mend)


def refuse_earlier(versions: Versions, *, meant: bool) -> None:
    """Nothing is made of an earlier version of the list unless that is `meant`.

    Raises:
        Fault: it is an earlier version (exit 2).
    """
    if versions.later is None or meant:
        return
    now, later = versions.read[-1].file, versions.later.file
    same = f" (a later one of the same name, {later})" if now == later else f" {later}"
    raise Fault(
        Exit.OPTIONS,
        "list-earlier",
        f"{now} is an earlier version of this job's list: it was read before{same}.",
        "Take the later one. To go back to this one on purpose, add --earlier.",
        Where(now),
    )


def with_known(
    guest_list: GuestList, findings: Sequence[Finding], known: Sequence[KnownHousehold]
) -> Remembered:
    """The list and its findings with the keys of those households that are known."""
    kept = keep_keys(guest_list.households, known)
    numbers = {home.key: home.number for home in kept.known}
    homes = tuple(
        replace(home, key=key, number=numbers[key])
        for home in guest_list.households
        for key in (kept.keys[home.key],)
    )
    found = tuple(
        replace(each, household=kept.keys.get(each.household, each.household))
        if each.household is not None
        else each
        for each in findings
    )
    rows = {home.key: home.rows[0] for home in homes}
    found += tuple(_likely(*pair, rows) for pair in kept.doubtful)
    return Remembered(replace(guest_list, households=homes), found, kept)


def _likely(
    old: KnownHousehold, new: KnownHousehold, why: str, rows: Mapping[str, Where]
) -> Finding:
    """Who is only likely the same counts as somebody else, and that is told once."""
    text = (
        f"{new.name} may be {old.name} of the list before. {why} They are taken as two: what was "
        f"decided or printed of {old.name} isn't theirs."
    )
    mend = f"If they are one, what was decided of {old.name} is answered once more."
    return Finding(Severity.NOTE, "household-likely", rows[new.key], text, mend, new.key)


def refuse_earlier_file(path: Path, folder: Path) -> None:
    """Nothing is noted in the name of a list's file that a later version has followed.

    Raises:
        Fault: it is such a file (exit 2).
    """
    lists = _memory(folder).lists
    if not lists or not path.is_file():
        return
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    now = next((one for one in lists if one.sha256 == digest), None)
    if now is not None and lists[-1].sha256 != digest:
        refuse_earlier(Versions((replace(now, file=path.name),), lists[-1]), meant=False)


def known_households(folder: Path | None) -> tuple[KnownHousehold, ...]:
    """The households that a job's folder knows; none without its file.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    return _memory(folder).households


def _memory(folder: Path | None) -> Memory:
    path = folder / HOUSEHOLDS if folder is not None else None
    if path is None or not path.exists():
        return Memory()
    try:
        told = path.read_bytes()
        memory = TypeAdapter(Memory | tuple[KnownHousehold, ...]).validate_json(told)
    except (OSError, ValidationError) as error:
        text = "can't be read: it isn't the list of households that this program keeps there."
        raise _wrong(path, text) from error
    if not isinstance(memory, Memory):
        return Memory(memory)  # a folder of before versions were kept
    if memory.sum and _sum(told.rpartition(_SUM)[0]) != memory.sum:
        raise _wrong(path, "isn't as this program wrote it: it was changed, or is damaged.")
    return memory


_SUM = b',\n"sum": "'
"""What stands before the sum of all that is before this."""


def _sum(told: bytes) -> str:
    return hashlib.sha256(told).hexdigest()[:16]


def _wrong(path: Path, how: str) -> Fault:
    return Fault(
        Exit.INPUT,
        "households-wrong",
        f"{path} {how}",
        "Put it back from a copy, or take it away: then the households are known by the list"
        " alone, and answers about those who were respelled are asked for again.",
        Where(str(path)),
    )


def ledger_beside(folder: Path) -> LedgerNoted:
    """What stands there of the folder's ledger; nothing where the file isn't there, or is damaged.

    Only an older copy of ledger, manifest and households all together goes unnoticed.
    """
    try:
        return _memory(folder).ledger
    except Fault:
        return NOTHING_NOTED


def with_ledger_beside(folder: Path, noted: LedgerNoted) -> str:
    """The file's text with what is noted of the ledger; "" where it isn't there, or is damaged."""
    try:
        memory = _memory(folder)
    except Fault:
        return ""
    if not memory.lists:
        return ""
    return households_text(memory.households, Versions(memory.lists), noted, memory.answered)


def answered_before(folder: Path) -> tuple[str, ...]:
    """The questions whose answers the folder had; none where the file is damaged."""
    try:
        return _memory(folder).answered
    except Fault:
        return ()


def households_text(
    known: Sequence[KnownHousehold],
    versions: Versions,
    ledger: LedgerNoted = NOTHING_NOTED,
    answered: Sequence[str] = (),
) -> str:
    """The file's text: one household a line, in the order of the keys. Reading gives the same.

    `ledger` is what stands there of the folder's ledger already, `answered` which questions have an
    answer beside it.
    """
    dump = TypeAdapter(KnownHousehold).dump_json
    lines = (dump(home).decode() for home in sorted(known, key=lambda home: home.key))
    lists = (TypeAdapter(ListVersion).dump_json(each).decode() for each in versions.read)
    homes, read = ",\n".join(lines), ",\n".join(lists)
    noted = TypeAdapter(LedgerNoted).dump_json(ledger).decode()
    beside = f',\n"ledger": {noted}' if ledger.history else ""
    refs = json.dumps(sorted(set(answered)), ensure_ascii=False)
    beside += f',\n"answered": {refs}' if answered else ""
    told = f'{{"lists": [\n{read}\n],\n"households": [\n{homes}\n]{beside}'
    return f'{told}{_SUM.decode()}{_sum(told.encode())}"}}\n'
