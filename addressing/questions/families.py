"""The names of a family that the list doesn't name, or names only in part."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from addressing.questions.carrying import cited, known_already, seated, told_again, unclear_child
from addressing.questions.drafts import NO_FAMILY, OVERRULED, Draft, usable
from addressing.questions.given_alone import (
    before_kids,
    given_alone,
    in_full_beside_given,
    is_family_alone,
    with_family,
)
from addressing.questions.kids_said import NO_KIDS, with_listed_kids
from addressing.questions.naming import names_in, near_given, same_given, without_marks
from addressing.questions.renaming import name_people
from addressing.questions.showing import person_shown
from addressing.questions.understanding import Change
from addressing.questions.unsaid import kids_unsaid, missing_of
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited, Household, Kind, Person
from addressing.records.questions import NamesRead, Readers
from addressing.where import Where

_OF_CHILDREN = "children-noted"
CHILDREN = "children"
"""The field of a finding's likely names of children."""
BESIDE = "beside-names"
"""The code of a note on who stands beside names that were given."""
_WHOLE = "answer --set with “everyone” in place of “names” says all."


Namer = Callable[[Draft, Change, Readers], str | None]


def with_kids(namer: Namer) -> Namer:
    """What works in names, the list's children by name where the answer keeps them."""

    def named(draft: Draft, change: Change, readers: Readers) -> str | None:
        if change.effect != "own":
            return namer(draft, change, readers)
        words = with_listed_kids(change.value, draft.home, _noted(change, readers))
        return NO_KIDS if words is None else namer(draft, replace(change, value=words), readers)

    return named


@with_kids
def name_family(draft: Draft, change: Change, readers: Readers) -> str | None:
    """Who of the family is invited by name: the adults of a label, or the children of a couple.

    Somebody whom the household has already is the same one, and named once.
    """
    home = draft.home
    if home.label is None:
        again = _begins_with_parents(change, home, readers)
        return (name_people if again else _name_children)(draft, change, readers)
    alone = given_alone(change.words, home, readers, _noted(change, readers))
    if alone is not None and alone.young is None:
        return alone.unclear
    read = names_in(change, home, readers)
    if alone is not None:
        read = replace(read, people=(*alone.grown, *alone.children), doubtful=False)
    if not usable(read, change) or not read.people:
        return ""
    if draft.whole or draft.named:
        return None if draft.has(read.people) else OVERRULED
    people = with_family(read.people, home)
    if people is None:
        return NO_FAMILY
    return _name_all(draft, change, replace(read, people=people))


def _begins_with_parents(change: Change, home: Household, readers: Readers) -> bool:
    """True for parents of the list, both where it has two, again before their children."""
    read = readers.names(without_marks(change.words)[0])
    grown = [person for person in read.people if person.kind is Kind.NAMED]
    listed = [person for person in home.people if person.kind is Kind.NAMED]
    more = len(grown) < len(read.people) or read.family is not None
    named = more and len(grown) == len(listed) > 0
    return named and same_given(grown[0], listed[0]) and not read.doubtful


@with_kids
def name_anew(draft: Draft, change: Change, readers: Readers) -> str | None:
    """Names for those whom a question is about; given names alone never take parents away.

    They are added as children where the question is about children or the words say so; whoever
    only repeats those of the list is one of them.
    """
    home = draft.home
    if is_family_alone(change.words, home):
        return f"{change.words}: a family name alone. The whole name, please."
    alone = given_alone(change.words, home, readers, _noted(change, readers))
    if alone is None:
        return name_people(draft, change, readers)
    if home.label is not None:
        return name_family(draft, change, readers)
    new = [p for p in alone.people if not any(same_given(p, other) for other in home.people)]
    again = {other for other in home.people if any(same_given(p, other) for p in alone.people)}
    parents = {person for person in home.people if person.kind is Kind.NAMED and person.given}
    asked = any(found.code == _OF_CHILDREN for found in change.question.covers)
    again_only = not new and (parents <= again or not asked)
    if again_only or alone.family or _are_spelled(alone.people, home):
        return name_people(draft, change, readers, None if new else alone.read)
    if asked or alone.young is not None:
        return _name_children(draft, change, readers)
    return alone.unclear


def _noted(change: Change, readers: Readers) -> tuple[str, ...]:
    """The given names of children that the list's own note gives."""
    likely = (pair for found in change.question.covers for pair in found.likely)
    people = (
        p for field, names in likely if field == CHILDREN for p in readers.children(names).people
    )
    return tuple(person.given for person in people if person.given)


def _are_spelled(people: Sequence[Person], home: Household) -> bool:
    """True for the one name of somebody alone, spelled anew."""
    return len(people) == len(home.people) == 1 and near_given(people[0], home.people[0])


def _name_all(draft: Draft, change: Change, read: NamesRead) -> str | None:
    """The family of a label by name; it keeps the label where only its children are named."""
    home = draft.home
    known = _known_of_family(home, read)
    only_young = all(person.kind is Kind.CHILD for person in read.people)
    why = _nobody_new(home, read, known, only_young=only_young)
    if why is not None:
        return why
    gone, why = kids_unsaid(home, change, read)
    if why:
        return why
    label = home.label.cells if home.label else ()
    where = change.decision.where
    people = _take_in(draft, read, known, change, draft.family.cells if draft.family else label)
    for place in gone:
        draft.people[place] = ()
    if only_young:
        draft.extra += people
        return None
    draft.first, draft.label = people, None
    draft.family = Cited(read.family, (*label, where)) if read.family else None
    return None


def _name_children(draft: Draft, change: Change, readers: Readers) -> str | None:
    """The children of a couple; "and kids" alone names nobody, and leaves it as the list has it."""
    words = without_marks(change.words)[0]
    grown = in_full_beside_given(words) or _parent_before_kids(words, draft.home, readers)
    if grown:
        return f"{grown}: a child, or grown? The parents' names first, please, then “kids:”."
    read = readers.children(words)
    if read.family and not read.people:
        return None
    if not usable(read, change) or not read.people:
        return ""
    if draft.whole:
        return None if draft.has(read.people) else OVERRULED
    known = _known_of_family(draft.home, read)
    why = _nobody_new(draft.home, read, known)
    if why is not None:
        return None if read.family else why
    cells = draft.family.cells if draft.family else ()
    draft.extra += _take_in(draft, read, known, change, cells)
    where = change.decision.where
    draft.family = Cited(read.family, (*cells, where)) if read.family else None
    return None


def _parent_before_kids(words: str, home: Household, readers: Readers) -> str:
    """Whoever stands before "kids:" by the given name of a parent: "Theo, kids: Nell and Bram"."""
    before = before_kids(words)
    listed = [person for person in home.people if person.kind is Kind.NAMED]
    said = readers.children(before).people if before else ()
    parents = (p for p in said if any(same_given(p, other) for other in listed))
    return next((person_shown(person) for person in parents), "")


def _take_in(
    draft: Draft,
    read: NamesRead,
    known: Mapping[int, int],
    change: Change,
    before: tuple[Where, ...],
) -> tuple[Person, ...]:
    """Those who are new; whom the household has already is told again, nameless children go."""
    where = change.decision.where
    draft.told = read.people
    new = [cited(p, where, before) for n, p in enumerate(read.people) if n not in known]
    for place, person in enumerate(draft.home.people):
        if person.kind is Kind.CHILD and person.given is None:
            draft.people[place] = ()
    for number, place in known.items():
        listed = draft.people[place] or (draft.home.people[place],)
        again = read.people[number]
        draft.people[place] = tuple(told_again(each, again, where) for each in listed)
    return seated(new, draft.home.people)


def _known_of_family(home: Household, read: NamesRead) -> dict[int, int]:
    """Whom of an answer about a family the household has: adults only where it repeats them all.

    Of a couple's children one may be named as a parent is.
    """
    known = known_already(read.people, home.people)
    adults = {n for n, person in enumerate(home.people) if person.kind is Kind.NAMED}
    if home.label is not None or adults <= set(known.values()):
        return known
    return {number: place for number, place in known.items() if place not in adults}


def _nobody_new(
    home: Household, read: NamesRead, known: dict[int, int], *, only_young: bool = False
) -> str | None:
    """Why an answer that repeats names of the list doesn't say who the family is; else None."""
    children = any(home.people[place].kind is Kind.CHILD for place in known.values())
    if len(known) == len(read.people) and (home.label is not None or not children):
        return "It names only those whom the list has already: give the others too."
    unclear = unclear_child(read.people, known, home.people) if home.label is not None else None
    if unclear is None or only_young:
        return None
    return f"The list has a child {unclear.given}: give the adults first, the children behind them."


def beside_names(drafts: Iterable[Draft]) -> Iterator[Finding]:
    """What is to be known of names that were given: who stays beside them unsaid, or goes."""
    for draft in drafts:
        yield from _miscounted(draft)
        change = draft.named_by
        if change is None or change.question.kind == "everyone":
            continue
        answer, where = change.decision.answer, change.decision.where
        text = _stays(draft, answer) if draft.corrected else ""
        text = text or _is_named(draft, answer)
        for each in filter(None, (_stays_decided(draft, answer), text, _goes(draft, answer))):
            yield Finding(Severity.NOTE, BESIDE, where, each, "Nothing to do.", draft.home.key)


def _miscounted(draft: Draft) -> Iterator[Finding]:
    """Names of an answer that don't make the number that the list counts."""
    counted, home = draft.home.counted, draft.household()
    told = bool(draft.named or draft.told) and home.label is None
    if counted is None or not told or not counted.text.strip().isdecimal():
        return
    wanted, read = int(counted.text), len(home.people)
    if wanted not in (read, 0) and not (wanted > read and home.family is not None):
        text = f"The list counts {wanted}; as it was answered, {read} are named or meant."
        mend = "Ask whether somebody is missing or too many."
        yield Finding(Severity.NOTE, BESIDE, counted.cells[0], text, mend, home.key)


def _stays_decided(draft: Draft, answer: str) -> str:
    """Whoever stands beside corrected names by an earlier decision."""
    if not draft.corrected:
        return ""
    came = [
        person_shown(person)
        for at, (person, slot) in enumerate(zip(draft.home.people, draft.people, strict=True))
        if person.kind is Kind.GUEST and at not in draft.filled
        for person in slot
        if person.kind is Kind.NAMED
    ]
    staying = [*came, *map(person_shown, draft.beside)]
    if draft.family is not None and draft.family != draft.home.family and draft.held_by:
        staying.append(draft.family.text)
    if not staying:
        return ""
    return f"Beside “{answer}” stays what was decided: {', '.join(staying)}; {_WHOLE}"


def _stays(draft: Draft, answer: str) -> str:
    """Whoever stands beside corrected names as the list has them.

    A companion and children stay beside names that are only spelled anew: that is no news.
    """
    people = [p for at, p in enumerate(draft.home.people) if at not in draft.filled]
    staying = [person_shown(p) for p in people if any(p in slot for slot in draft.people)]
    if _is_spelling(draft):
        staying = []
    if draft.family is not None and draft.family == draft.home.family:
        staying.append(draft.family.text)
    if not staying:
        return ""
    return f"Beside “{answer}” stays what the list has: {', '.join(staying)}; {_WHOLE}"


def _goes(draft: Draft, answer: str) -> str:
    """Whoever of the grown ones corrected names, fewer than the list's, leave out."""
    places = sorted(draft.filled - draft.held)
    gone = missing_of(draft.home, places, draft.named) if draft.corrected else ()
    shown = ", ".join(map(person_shown, gone))
    return f"“{answer}” leaves out whom the list has: {shown}; {_WHOLE}" if gone else ""


def _is_spelling(draft: Draft) -> bool:
    """True for names that are one for one those of the list, or near them."""
    were = [draft.home.people[place] for place in sorted(draft.filled - draft.held)]
    pairs = zip(draft.named, were, strict=False)
    of_one = (one.kind is other.kind and near_given(one, other) for one, other in pairs)
    return len(were) == len(draft.named) and all(of_one)


def _is_named(draft: Draft, answer: str) -> str:
    """A family that the names stand for, though they don't call it so."""
    family = draft.home.family
    young = any(person.kind is Kind.CHILD for person in draft.named)
    if family is None or draft.home.label or not draft.whole or young or draft.family:
        return ""
    return (
        f"“{answer}” names more than the list: they are taken to be the family, and “{family.text}”"
        " is gone. “and family” behind the names keeps others, “(child)” makes a child of one."
    )
