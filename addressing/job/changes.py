"""What changed between two readings of one household, in words for a designer."""

from enum import StrEnum

from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.guestlist.households.kinship import same_person
from addressing.records.guests import Address, Household, Kind, Person


class Change(StrEnum):
    """What became of a household; it may be more than one."""

    CAME = "came"
    LEFT = "left"
    MOVED = "moved"
    RESPELLED = "respelled"
    COMPANY = "company"
    """Others come with them, or fewer: the people of the household are not the same."""
    MERGED = "merged"
    """Two households of the old version are one."""
    SPLIT = "split"
    """One household of the old version is two."""
    UNCHANGED = "unchanged"


def changes_of(old: Household, new: Household) -> tuple[Change, ...]:
    """How a household of the old version differs from the same one of the new."""
    found: list[Change] = []
    if door(old.address) != door(new.address) or _place(old.address) != _place(new.address):
        found.append(Change.MOVED)
    gone, come, respelled = _people(old, new)
    if (gone or come) and not _named_anew(old, new):
        found.append(Change.COMPANY)
    if respelled or _label(old) != _label(new):
        found.append(Change.RESPELLED)
    return tuple(found) or (Change.UNCHANGED,)


def what_changed(old: Household, new: Household) -> tuple[str, ...]:
    """The same in sentences without a full stop, the old words beside the new ones."""
    said: list[str] = []
    changes = changes_of(old, new)
    if Change.MOVED in changes:
        said.append(f"address was {_shown(old.address)}, is {_shown(new.address)}")
    gone, come, respelled = _people(old, new)
    said += [f"{_named(was)} is {_named(now)} now" for was, now in respelled]
    if _named_anew(old, new):
        return (*said, f"{_whole(old)} is {_whole(new)} now")
    said += [f"{_named(person)} comes too" for person in come]
    said += [f"{_named(person)} is no longer with them" for person in gone]
    if _label(old) != _label(new):
        said.append(f"{_whole(old)} is {_whole(new)} now")
    return tuple(said)


def _named_anew(old: Household, new: Household) -> bool:
    """True where a family as a whole is named singly now, or the other way."""
    return _label(old) != _label(new) and not (old.people and new.people)


def _whole(home: Household) -> str:
    return _label(home) or " and ".join(_named(person) for person in home.people) or "no name"


def in_common(home: Household) -> tuple[tuple[str, str], ...]:
    """The full names of a household's people, by which it is found in another one."""
    return tuple((fold(p.given), fold(p.family)) for p in home.people if p.given and p.family)


def _people(
    old: Household, new: Household
) -> tuple[list[Person], list[Person], list[tuple[Person, Person]]]:
    """(who is gone, who came, pairs of one person spelled in two ways)."""
    gone, come = list(old.people), list(new.people)
    respelled: list[tuple[Person, Person]] = []
    for alike in (_equal, _same_names, same_person, _unnamed):
        for person in gone[:]:
            other = next((each for each in come if alike(person, each)), None)
            if other is None:
                continue
            gone.remove(person)
            come.remove(other)
            if not _equal(person, other):
                respelled.append((person, other))
    return gone, come, respelled


def _equal(one: Person, other: Person) -> bool:
    """True when both would stand on an envelope in the same letters."""
    return _letters(one) == _letters(other)


def _letters(person: Person) -> tuple[object, ...]:
    words = (person.title, person.given, person.family, person.suffix, person.credentials)
    return (*words, person.kind)


def _same_names(one: Person, other: Person) -> bool:
    pairs = ((one.given, other.given), (one.family, other.family), (one.suffix, other.suffix))
    return one.given is not None and all(fold(a or "") == fold(b or "") for a, b in pairs)


def _unnamed(one: Person, other: Person) -> bool:
    """Somebody without a given name who has one now: Mrs. Wexcombe, Odile Wexcombe; a guest."""
    if (one.given is None) == (other.given is None):
        return False
    unnamed = one if one.given is None else other
    of_family = unnamed.family is not None and fold(one.family or "") == fold(other.family or "")
    return unnamed.kind is Kind.GUEST or of_family


def _named(person: Person) -> str:
    words = (person.title, person.given, person.family, person.suffix)
    said = " ".join(word for word in words if word)
    return said or ("a guest" if person.kind is Kind.GUEST else "a child")


def _label(home: Household) -> str:
    return home.label.text if home.label else ""


def _place(address: Address | None) -> tuple[str, ...]:
    fields = (address.city, address.region, address.country) if address else ()
    return tuple(fold(field.text) if field else "" for field in fields)


def _shown(address: Address | None) -> str:
    if address is None:
        return "not given"
    fields = (address.street, address.unit, address.city, address.region, address.postcode)
    return ", ".join(field.text.replace("\n", ", ") for field in fields if field) or "not given"
