"""Two rows are one household, the client says: what only the row that goes says isn't lost.

Facts that the other lacks (a title, side, round, table) are taken over and told. Whoever is only
there, the half of an address, words that the list says beside it are asked about: the answer "use
the first" was about the spelling.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from addressing.questions.asking import mark_of
from addressing.questions.drafts import Draft, fields_of
from addressing.questions.folding import folded
from addressing.questions.kinds import asking_for
from addressing.questions.naming import near, same_given
from addressing.questions.placeholders import words_for
from addressing.questions.showing import address_shown, household_shown, person_shown
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Address, Cited, Household, Kind, Person
from addressing.records.questions import Question, Readers

PEOPLE, PLACE, NOTED = "merged-people", "merged-place", "merged-noted"
"""The codes of what is asked, each the middle of its ref: `h-abcdefgh:merged-people:1a2b3c4d`."""
TOLD = "merged-told"
_FACTS = ("side", "wave", "suite", "other_address")
_CALLED = {"side": "whose guests", "wave": "round", "suite": "set", "other_address": "address"}
_HALVES = ("unit", "recipient_extra", "city", "region", "postcode", "country")
_REMARKS = frozenset(
    ("marker-in-list", "note-open", "name-noted", "guest-noted", "children-noted", "apart-noted",
     "said-elsewhere", "client-wrote", "row-struck", "by-hand-noted", "season-address")
)  # fmt: skip
"""Findings that quote what the list says beside a row; others are about how the row is written."""


def is_of_merged(ref: str) -> bool:
    """True for the ref of a question about what only a row that went says."""
    return ref.split(":")[1:2] in ([PEOPLE], [PLACE], [NOTED])


@dataclass(frozen=True, slots=True)
class Merged:
    """A household that went, as it was by then, and the draft of the one that stands for it."""

    kept: Draft
    gone: Household
    readers: Readers

    @property
    def new(self) -> tuple[Person, ...]:
        """Those whom only the row that went has."""
        if self.kept.home.label is not None:
            return ()
        there = list(self.kept.household().people)
        found: list[Person] = []
        for person in _clearest_first(self.gone.people):
            other = _same(person, there, self.readers)
            if other is not None:
                there.remove(other)
            elif not _is_unnamed(person, self.kept.household()):
                found.append(person)
        return tuple(found)

    @property
    def family(self) -> Cited | None:
        """Unnamed family that only the row that went has."""
        home = self.kept.household()
        young = any(person.kind is Kind.CHILD for person in (*home.people, *self.new))
        return None if young or home.family or home.label else self.gone.family


def taken_over(merged: Merged) -> Finding | None:
    """Take over what the household lacks; the note on that, and on what the rows say otherwise."""
    draft, gone = merged.kept, merged.gone
    told = [*_titles(merged)]
    for fact in _FACTS:
        mine, theirs = getattr(draft.household(), fact), getattr(gone, fact)
        if theirs is None:
            continue
        shown = theirs.text if isinstance(theirs, Cited) else address_shown(theirs)
        if mine is None:
            draft.over[fact] = theirs
            told.append(f"{_CALLED[fact]} “{shown}” is taken over")
        elif isinstance(theirs, Cited) and folded(mine.text) != folded(theirs.text):
            told.append(f"{_CALLED[fact]} “{shown}” isn't: “{mine.text}” stands")
    if draft.address is None and gone.address is not None and not draft.by_hand:
        draft.address = gone.address
        told.append(f"the address is taken over: {address_shown(gone.address)}")
    if not told:
        return None
    text = f"Of the row that is one household with {household_shown(draft.home)}: "
    mend = "If that isn't right, correct it with answer --set."
    return _finding(TOLD, merged, text + "; ".join(told) + ".", mend)


def _titles(merged: Merged) -> Iterator[str]:
    """What a row tells of somebody whom both have: titles, ages, tables."""
    draft = merged.kept
    there = list(draft.household().people)
    for person in _clearest_first(merged.gone.people):
        other = _same(person, there, merged.readers)
        if other is None or person.kind is Kind.GUEST:
            continue
        there.remove(other)
        fuller = replace(
            other,
            title=other.title or person.title,
            credentials=other.credentials or person.credentials,
            age=person.age if other.age is None else other.age,
            table=other.table or person.table,
        )
        if other.title and person.title and other.title != person.title:
            yield f"{person_shown(person)} isn't, {person_shown(other)} stands"
        if fuller == other:
            continue
        cells = tuple(dict.fromkeys((*other.cells, *person.cells)))
        _put(draft, other, replace(fuller, cells=cells))
        yield f"it stands as {person_shown(fuller)} now"


def _clearest_first(people: Sequence[Person]) -> list[Person]:
    """People with given names, then those with a title alone, then companions."""
    return sorted(people, key=lambda each: (each.kind is Kind.GUEST, not each.given))


def _put(draft: Draft, old: Person, new: Person) -> None:
    draft.people = [tuple(new if p is old else p for p in slot) for slot in draft.people]
    draft.first = tuple(new if person is old else person for person in draft.first)
    draft.extra = [new if person is old else person for person in draft.extra]


def _same(person: Person, people: Sequence[Person], readers: Readers) -> Person | None:
    """Who of some people a person is: by name, else whoever of one family has a title alone."""
    alike = (each for each in people if each.kind is person.kind or Kind.CHILD in
             (each.kind, person.kind))  # fmt: skip
    for other in alike:
        if same_given(person, other) or readers.same(person, other):
            return other
    bare = [
        other
        for other in people
        if other.kind is person.kind is Kind.NAMED
        and not (person.given and other.given)
        and near(folded(person.family), folded(other.family))
    ]
    return bare[0] if bare else None


def _is_unnamed(person: Person, home: Household) -> bool:
    """True for a companion or child without a name where the household has one, or a couple."""
    if person.given or person.family:
        return False
    grown = [each for each in home.people if each.kind is not Kind.CHILD]
    young = len(home.people) > len(grown) or home.family is not None
    return len(grown) > 1 if person.kind is Kind.GUEST else young


def questions_of(merged: Merged, noted: Sequence[Finding]) -> Iterator[Question]:
    """What only the row that went says and the client must decide; `noted` are its findings."""
    asked = _asked_of_people(merged), _asked_of_place(merged)
    told = (
        _finding(NOTED, merged, f"Only there: “{each.quoted}”.", "What follows?", each.quoted)
        for each in noted
        if each.code in _REMARKS and each.quoted
    )
    for found in (*asked, *told):
        question = _question(merged, found) if found is not None else None
        if question is not None:
            yield question


def _asked_of_people(merged: Merged) -> Finding | None:
    words = [*map(_called, merged.new), *([merged.family.text] if merged.family else [])]
    if not words:
        return None
    text = f"Only the row that went has: {', '.join(words)}."
    return _finding(PEOPLE, merged, text, "Invited too?", ", ".join(words))


def _called(person: Person) -> str:
    shown = person_shown(person)
    return "and Guest" if shown == "Guest" else shown


def _asked_of_place(merged: Merged) -> Finding | None:
    """Halves of one address, a line each on another row; or a row that says "by hand"."""
    draft, gone = merged.kept, merged.gone
    if gone.by_hand and not draft.by_hand and draft.address is not None:
        return _finding(PLACE, merged, "Only the row that went says “by hand”.", "", "by hand")
    whole = _with_halves(draft.address, gone.address, merged.readers)
    if whole is None:
        return None
    lines = address_shown(whole)
    found = _finding(PLACE, merged, f"Only the row that went has it so: {lines}.", "", lines)
    return replace(found, likely=(("lines", lines),))


def _with_halves(one: Address | None, other: Address | None, readers: Readers) -> Address | None:
    """An address with the fields that only another of the same street has; None without any."""
    if one is None or other is None or not one.street or not other.street:
        return None
    mine, theirs = fields_of(one), fields_of(other)
    lacking: dict[str, Any] = {n: theirs[n] for n in _HALVES if n in theirs and n not in mine}
    halves: dict[str, Any] = {name: mine.get(name) for name in _HALVES}
    bare = replace(other, **halves)
    if not lacking or not readers.place(bare, one):
        return None
    return replace(one, **lacking)


def _finding(code: str, merged: Merged, text: str, mend: str, quoted: str = "") -> Finding:
    asks = code != TOLD
    severity = Severity.ASK if asks else Severity.NOTE
    key = merged.kept.home.key
    found = Finding(severity, code, merged.gone.rows[0], text, mend, key, holds=asks)
    return replace(found, quoted=quoted)


def _question(merged: Merged, found: Finding) -> Question | None:
    home = merged.kept.household()
    asking = asking_for(found, "names", words_for(found, home))
    if asking is None:
        return None
    who = household_shown(home)
    choices = tuple(replace(each, text=each.text.replace("{who}", who)) for each in asking.choices)
    return Question(
        ref=f"{home.key}:{found.code}:{mark_of(f'{merged.gone.key} {found.quoted}')}",
        kind=asking.kind,
        group=asking.group,
        who=who,
        text=asking.text({"who": who, "person": who}),
        listed=found.quoted,
        basis=found.quoted,
        where=found.where,
        choices=choices,
        covers=(found,),
        households=(home.key,),
        quoted=found.quoted,
    )


def bring(merged: Merged) -> None:
    """Whoever only stands on the row that went comes along."""
    draft, family = merged.kept, merged.family
    draft.extra += merged.new
    draft.family = draft.family or family
