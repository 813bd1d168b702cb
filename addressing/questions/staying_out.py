"""Who is left out stays so while the list says of them what it said when that was decided.

A guest who is silently not invited is as bad as a wrong envelope: where the row or a remark is
another by now, or the household comes back under another name, it is asked about once.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.questions.choosing import LEAVING, PART
from addressing.questions.folding import folded
from addressing.questions.respelled import same_people, same_place
from addressing.questions.showing import address_shown, names_shown, without_ages
from addressing.questions.understanding import TOLD, Change, understood
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household
from addressing.records.questions import Decision, Question, Readers
from addressing.tables import lookup

OMIT = "omit"
"""The effect of leaving somebody of a household out."""
_NOTES = frozenset(("remark", "cell-note"))
"""Findings that only tell a remark of the list's, beside those that ask about one."""


@dataclass(frozen=True, slots=True)
class Remarks:
    """What a list says beside the names and addresses, by household."""

    by_home: Mapping[str, tuple[str, ...]]

    @classmethod
    def of(cls, guest_list: GuestList, findings: Iterable[Finding]) -> "Remarks":
        """The remarks of the list itself: words of a letter come and go with what is answered."""
        asking = _NOTES | lookup("remarks", "code", "source").keys()
        found: dict[str, dict[str, None]] = {}
        for each in findings:
            own = each.where.file == guest_list.file and each.code in asking
            if own and each.household is not None:
                words = each.quoted or lookup("findings", "code", "title")[each.code]
                found.setdefault(each.household, {})[words] = None
        return cls({key: tuple(sorted(said)) for key, said in found.items()})

    def listed(self, home: Household) -> str:
        """All that the list says of a household: names, address and remarks, a line each."""
        lines = (names_shown(home), address_shown(home.address), *self.by_home.get(home.key, ()))
        return without_ages("\n".join(" ".join(line.split()) for line in lines))


def leaves_out(change: Change) -> bool:
    """True for an answer by which somebody isn't invited."""
    return change.effect in LEAVING | {PART, OMIT}


def left_by(question: Question, effect: str) -> tuple[str, ...]:
    """The keys of the households that an answer takes from the list; none for other answers."""
    if effect not in LEAVING:
        return ()
    return question.households if question.kind == TOLD else question.households[:1]


def with_listed(
    question: Question, decision: Decision, homes: Mapping[str, Household], remarks: Remarks
) -> Decision:
    """A decision as it is kept: one that leaves somebody out with what the list says of them."""
    change = understood(question, decision)
    if change is None or not leaves_out(change):
        return decision
    here = (homes[key] for key in question.households if key in homes)
    return replace(decision, listed=tuple(map(remarks.listed, here)))


def says_more(
    change: Change, homes: Mapping[str, Household], remarks: Remarks, readers: Readers
) -> str | None:
    """What the list says by now of a household that an answer leaves out, where it is another.

    None where it says the same, and where it isn't known what it said then. Somebody of a household
    stays left out wherever it lives.
    """
    for key, then in _then(change.decision).items():
        home = homes.get(key)
        if home is not None:
            now = remarks.listed(home)
            if not _is_same(then, now, home, readers, place=change.effect in LEAVING):
                return now
    return None


def _then(decision: Decision) -> Mapping[str, str]:
    keys = decision.among or (decision.ref.partition(":")[0],)
    return dict(zip(keys, decision.listed, strict=False))


def _is_same(then: str, now: str, home: Household, readers: Readers, *, place: bool) -> bool:
    if then == now:
        return True
    (names, door, *words), (names_now, door_now, *words_now) = then.split("\n"), now.split("\n")
    here = not place or door == door_now or (bool(door) and same_place(door, home, readers))
    return (
        here
        and _bare(words) == _bare(words_now)
        and (names == names_now or same_people(names, names_now, readers, exact=False))
    )


def _bare(words: Sequence[str]) -> list[str]:
    """Remarks without what no meaning hangs on: case, accents, a full stop, their order."""
    return sorted(folded(each).strip(" .!") for each in words)


def in_a_line(listed: str) -> str:
    """What the list says of a household, for people to read."""
    return "; ".join(line for line in listed.split("\n") if line)
