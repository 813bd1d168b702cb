"""An answer goes on though the list no longer asks: the remark is gone, what it was about stands.

A client answers “The Penhews moved: 14 Elm Street” and sends the next list without that sheet; the
old street in it is no news then. Where the list has other names, or another address, than when it
was asked, nobody can tell which of the two is newer: the household waits. `data/remarks.tsv` says
what is such a remark.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from addressing.questions.choosing import PART, chosen
from addressing.questions.corrections import is_correction
from addressing.questions.drafts import Draft, set_address
from addressing.questions.families import name_anew, name_family
from addressing.questions.folding import folded
from addressing.questions.kinds import NAMES, PLACES
from addressing.questions.leaving import leave_part_out
from addressing.questions.respelled import same_people, same_place
from addressing.questions.showing import (
    address_shown,
    household_shown,
    named_shown,
    names_shown,
    without_ages,
)
from addressing.questions.staying_out import Remarks, leaves_out, says_more
from addressing.questions.telling import change_told
from addressing.questions.understanding import TOLD, Change, is_placed, understood
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household
from addressing.records.questions import Applied, Decision, Question, Readers
from addressing.tables import lookup

GONE = "remark-gone"
"""The code of an answer to a remark that is gone, where the list has other words by now."""
_RESTORE = "restore"
_STALE = "answer-stale"
"""The code of an answer to a question that isn't asked; without a household, of who has gone."""
_EXACT = NAMES | {"family", TOLD}
"""Kinds whose answers give names: letters that differ may be what was asked."""
_ALONE = frozenset(("title", "letters", "companion", "pair", "parts", "list"))
"""Kinds that are found again by whom they name, or not at all."""


def noted(question: Question, decision: Decision) -> Decision:
    """A decision with what it takes to understand it when its question is asked no longer."""
    if question.kind in _ALONE:
        return decision
    taken = chosen(question.choices, decision.answer, question.kind)
    among = question.households if len(question.households) > 1 else ()
    return replace(decision, kind=question.kind, taken=taken, among=among)


def is_unasked(question: Question) -> bool:
    """True for the question of an answer that goes on unasked."""
    return not question.text and not is_correction(question.ref)


def is_of_remark(ref: str) -> bool:
    """True for the ref of a question about a remark.

    >>> is_of_remark("h-abcdefgh:said-elsewhere:1a2b3c4d"), is_of_remark("h-abcdefgh:zip-missing")
    (True, False)
    """
    return _code(ref) in lookup("remarks", "code", "source")


def unasked(decision: Decision, homes: Mapping[str, Household]) -> Change | None:
    """What an answer to a question that is asked no longer changes; None where nobody can tell."""
    keys = tuple(key for key in decision.among or (_key(decision.ref),) if key in homes)
    if not keys or not decision.kind:
        return None
    first = homes[keys[0]]
    quoted = decision.about.rpartition("\n")[2]
    found = Finding(
        Severity.ASK, _code(decision.ref), decision.where, "", "", first.key, quoted=quoted
    )
    basis = decision.about or without_ages("\n".join(_shown(decision.kind, homes[k]) for k in keys))
    question = Question(
        ref=decision.ref,
        kind=decision.kind,
        group="",
        who=household_shown(first),
        text="",
        listed=basis,
        basis=basis,
        where=first.rows[0],
        choices=(decision.taken,) if decision.taken else (),
        covers=(found,),
        households=keys,
        quoted=quoted,
    )
    return understood(question, decision)


def goes_on(
    change: Change,
    homes: Mapping[str, Household],
    asked: Sequence[Question],
    remarks: Remarks,
    readers: Readers,
) -> bool:
    """True where the list still has what an answer was about, and nothing says otherwise.

    Who is left out by it stays so only while the list says the same of them.
    """
    decision, question = change.decision, change.question
    if leaves_out(change):
        return _stays_out(change, homes, asked, remarks, readers)
    if not decision.about:
        return True
    if change.effect == _RESTORE:
        return False
    lines = decision.about.split("\n")
    pairs = zip(lines, (homes[key] for key in question.households), strict=False)
    return all(_stands(change, line, home, readers) for line, home in pairs)


def is_done(change: Change, home: Household, readers: Readers) -> bool:
    """True where the list has by now what an answer would make of it."""
    draft, kind = Draft.of(home), change.question.kind
    if change.effect == "hand":
        return home.by_hand
    if change.effect == _RESTORE:
        people = readers.names(change.question.quoted).people
        here = {(folded(p.given), folded(p.family)) for p in home.people}
        return bool(people) and {(folded(p.given), folded(p.family)) for p in people} <= here
    if change.effect == PART:
        leave_part_out(draft, change)
    elif change.effect not in ("own", "set") or _change(draft, change, kind, readers) is not None:
        return False
    same = names_shown(draft.household()) == names_shown(home)
    return same and readers.place(draft.address, home.address)


def _change(draft: Draft, change: Change, kind: str, readers: Readers) -> str | None:
    if kind in PLACES:
        return set_address(draft, change, readers, more=True)
    ways = {TOLD: change_told, "family": name_family}
    return ways.get(kind, name_anew)(draft, change, readers)


def _stays_out(
    change: Change,
    homes: Mapping[str, Household],
    asked: Sequence[Question],
    remarks: Remarks,
    readers: Readers,
) -> bool:
    """True where the list says what it said then, or the designer let it stand just now."""
    decision = change.decision
    if not (decision.mark or decision.about or decision.listed):
        return True
    if not decision.listed or _is_asked_else(change.question, asked):
        return False
    return says_more(change, homes, remarks, readers) is None


def _is_asked_else(question: Question, asked: Sequence[Question]) -> bool:
    return any(
        set(each.households) & set(question.households) and is_of_remark(each.ref) for each in asked
    )


def _stands(change: Change, line: str, home: Household, readers: Readers) -> bool:
    """True where a line of what was asked about says the same of a household as the list does."""
    kind = change.question.kind
    shown = without_ages(_shown(kind, home))
    if line == shown or change.effect == "keep":
        return line == shown
    if kind in PLACES:
        return same_place(line, home, readers)
    exact = kind in _EXACT and change.effect in ("own", "set")
    if kind != TOLD:
        return same_people(line, shown, readers, exact=exact)
    if _is_of_place(change):
        return any(place and same_place(place, home, readers) for _, place in _splits(line)) or (
            home.address is None and same_people(line, names_shown(home), readers, exact=False)
        )
    names = without_ages(names_shown(home))
    return any(same_people(front, names, readers, exact=exact) for front, _ in _splits(line))


def is_of_place(decision: Decision) -> bool:
    """True for an answer that gives an address, or a part of one."""
    if decision.taken is not None and decision.taken.effect == "set":
        field = decision.taken.value.partition("=")[0]
        return field in PLACES | {"lines"}
    return decision.kind in PLACES or (decision.kind == TOLD and is_placed(decision.answer))


def _is_of_place(change: Change) -> bool:
    return change.effect == "hand" or is_of_place(change.decision)


def _splits(line: str) -> Iterator[tuple[str, str]]:
    """Every way to part a line into names and the address behind them."""
    parts = line.split(", ")
    for place in range(1, len(parts) + 1):
        yield ", ".join(parts[:place]), ", ".join(parts[place:])


def _shown(kind: str, home: Household) -> str:
    """What of a household a question of a kind is about, as it was shown to the client."""
    if kind in PLACES:
        return address_shown(home.address)
    if kind == TOLD:
        return names_and_place(home)
    return named_shown(home) if kind == "names" else names_shown(home)


def names_and_place(home: Household) -> str:
    """Everybody of a household and their address, in one line."""
    parts = (names_shown(home), address_shown(home.address))
    return ", ".join(part for part in parts if part)


def waiting_in(applied: Applied) -> tuple[Decision, ...]:
    """The decisions that wait: corrections, answers to remarks that are gone, who is left out.

    So does an outdated answer that holds its household.
    """
    found = applied.findings
    gone = {
        (each.where, each.quoted)
        for each in found
        if each.code == GONE or (each.code == _STALE and each.holds)
    }
    left = {
        (each.where, each.quoted)
        for each in found
        if each.code == _STALE and each.household is None
    }
    return tuple(
        each
        for each in applied.open
        if is_correction(each.ref)
        or each.listed
        or (each.where, each.answer) in gone
        or (is_of_remark(each.ref) and (each.where, each.answer) in left)
    )


def _key(ref: str) -> str:
    return ref.partition(":")[0]


def _code(ref: str) -> str:
    return ref.partition(":")[2].partition(":")[0]
