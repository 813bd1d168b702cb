"""What nobody asked: a designer's or client's own correction of a household, by its key."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from addressing.questions.folding import folded
from addressing.questions.kinds import NAMES, PLACES
from addressing.questions.showing import address_shown, names_shown, place_shown
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import ONE, Choice, Decision, Question
from addressing.where import Where

CORRECT = "correct"
"""The middle of the ref of a correction: `h-abcdefgh:correct:street`."""
Named = Callable[[str], tuple[Household, ...]]
"""Gives the households that a designer may mean by a name, as `homes_named` does."""
BY_HAND = "--set"
"""The file of a designer's own corrections, and how their places begin (`--set!3`)."""
TITLE = "title"
"""What is corrected of one person: the household has no other by name."""
CORRECTABLE = tuple(sorted(PLACES | NAMES | {"invited", TITLE}))
"""What can be corrected."""
_INVITED = (
    Choice("Yes, still invited", "keep"),
    Choice("No, leave out the whole household", "drop"),
    Choice("leave out", "drop"),
)
_ADDRESS = (Choice("Given by hand", "hand"),)


def is_correction(ref: str) -> bool:
    """True for the ref of what nobody asked.

    >>> is_correction("h-abcdefgh:correct:street"), is_correction("h-abcdefgh:title-missing:2")
    (True, False)
    """
    return f":{CORRECT}:" in ref


def is_by_hand(decision: Decision) -> bool:
    """True for what the designer decided herself."""
    return decision.where.file == BY_HAND


def correction_for(
    ref: str, homes: Mapping[str, Household], questions: Iterable[Question]
) -> Question | None:
    """The question that a correction answers; None when the ref is no correction of these homes.

    It settles what was asked of the same matter: a whole address every doubt about the address.
    """
    key, _, rest = ref.partition(":")
    word, _, kind = rest.partition(":")
    home = homes.get(key)
    if home is None or word != CORRECT or kind not in CORRECTABLE:
        return None
    invited = tuple(replace(c, value=ONE) if home.is_one else c for c in _INVITED)
    choices = {"invited": invited, "address": _ADDRESS}.get(kind, ())
    listed = address_shown(home.address) if kind in PLACES else names_shown(home)
    return Question(
        ref=ref,
        kind=kind,
        group="",
        who=home.name,
        text="",
        listed=listed,
        basis=listed,
        where=home.rows[0],
        choices=choices,
        covers=tuple(found for q in questions if _settles(kind, key, q) for found in q.covers),
        households=(key,),
        person=only_named(home.people) if kind == TITLE else None,
    )


def only_named(people: Iterable[Person]) -> int | None:
    """The place of the one who has a name, companions and children aside; None for several."""
    named = [place for place, person in enumerate(people) if person.kind is Kind.NAMED]
    return named[0] if len(named) == 1 else None


def set_by_hand(
    named: Named, said: Iterable[tuple[str, str, str]], first: int = 1
) -> tuple[tuple[Decision, ...], tuple[str, ...]]:
    """Corrections that a designer gives as (household, what changes, words).

    `named` gives the households that a name may mean, `first` is the number of the first place.
    Gives the decisions, and what can't be told: a name that is no household's or several
    households', something that can't be changed.
    """
    decisions: list[Decision] = []
    unknown: list[str] = []
    for number, (name, kind, words) in enumerate(said, start=first):
        found = named(name)
        if len(found) != 1 or kind not in CORRECTABLE:
            unknown.append(not_one(name, found) if len(found) != 1 else kind)
            continue
        where = Where(BY_HAND, BY_HAND, str(number))
        decisions.append(Decision(f"{found[0].key}:{CORRECT}:{kind}", words, where))
    return tuple(decisions), tuple(unknown)


def number_of(decision: Decision) -> int:
    """The number of a designer's own correction, which counts them on; 0 for one without."""
    cell = decision.where.cell or ""
    return int(cell) if cell.isdecimal() else 0


def next_number(places: Iterable[Where], file: str) -> int:
    """The number for the next place of a file: none is given twice while one of it is kept."""
    cells = (place.cell or "" for place in places if place.file == file)
    return max((int(cell) for cell in cells if cell.isdecimal()), default=0) + 1


def as_before(kept: Iterable[Decision], corrections: tuple[Decision, ...]) -> tuple[Decision, ...]:
    """Corrections that only repeat the last ones are those, with their places.

    So a command that is run again, having been cut short behind its last file, changes nothing.
    """
    by_hand = sorted((each for each in kept if each.where.file == BY_HAND), key=number_of)
    last = tuple(by_hand[-len(corrections) :]) if corrections else ()
    said = [(each.ref, each.answer) for each in corrections]
    repeated = said == [(each.ref, each.answer) for each in last]
    if not repeated:
        return corrections
    return tuple(replace(new, where=old.where) for new, old in zip(corrections, last, strict=True))


_ON_PROOF = re.compile(r"(?:proof|card)\s*:\s*([0-9]{1,9})", re.IGNORECASE)
"""A household's own number, as proof and reply card have it."""


def homes_named(
    homes: Iterable[Household], name: str, now: Iterable[Household] = ()
) -> tuple[Household, ...]:
    """The households that a designer may mean.

    By key, by a cell or row ("Guests!B14", "B14", "14"), by its number on the proof ("proof:14"; a
    bare number may be that too), by the plain name of the household or of somebody in it ("Tobias
    Wexcombe"), else by a family name alone, whatever capitals and accents.
    `now` are households with what was decided in them: each is named by its new names as well as
    by the list's.
    """
    homes, since = tuple(homes), {home.key: home for home in now}
    if own := _ON_PROOF.fullmatch(name.strip()):
        return tuple(home for home in homes if home.number == int(own[1]))
    exact = tuple(
        home for home in homes if name in (home.key, str(home.number)) or _stands_at(home, name)
    )
    said = _plain(name)
    if exact or not said:
        return exact
    both = [(home, since.get(home.key, home)) for home in homes]
    called = tuple(home for home, new in both if said in _called(home) | _called(new))
    return called or tuple(home for home, new in both if said in _families(home) | _families(new))


def not_one(name: str, found: Sequence[Household]) -> str:
    """A name that isn't one household's, with the cells of those that it may mean.

    Halves of one row are told by name and key.
    """
    cells = [place_shown(home.rows[0]) for home in found]
    if len(set(cells)) < len(cells):
        cells = [f"{home.name}: {home.key}" for home in found]
    return f"“{name}” ({', '.join(cells)})" if cells else name


def _called(home: Household) -> frozenset[str]:
    """Everything that a household is called by its name, for comparing."""
    names = [home.name, home.label.text if home.label else ""]
    for person in home.people:
        parts = (person.title, person.given, person.family)
        names.append(" ".join(part for part in parts if part))
        names.append(" ".join(part for part in parts[1:] if part))
    return frozenset(map(_plain, names)) - {""}


def _families(home: Household) -> frozenset[str]:
    return frozenset(_plain(person.family or "") for person in home.people) - {""}


def _plain(name: str) -> str:
    return " ".join(folded(name).split())


def _stands_at(home: Household, name: str) -> bool:
    """True when a household was read from the row of a cell; the sheet may be left out."""
    sheet, _, cell = name.rpartition("!")
    number = re.sub(r"^[A-Za-z]+", "", cell)
    return any(
        number == re.sub(r"^[A-Z]+", "", row.cell or "") and sheet in ("", row.sheet)
        for row in home.rows
    )


def _settles(kind: str, key: str, question: Question) -> bool:
    if question.household != key:
        return False
    whole = {"address": PLACES, "names": NAMES, "everyone": NAMES}.get(kind, frozenset((kind,)))
    return question.kind in whole
