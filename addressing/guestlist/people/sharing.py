"""Parts of a cell become people: titles and family names are shared as lists share them."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import groupby, pairwise

from addressing.guestlist.folding import fold
from addressing.guestlist.people.givens import join_givens
from addressing.guestlist.people.names import (
    GLUE,
    NameParts,
    combined_title,
    is_initial,
    split_family,
    unglued,
)
from addressing.guestlist.people.parts import Doubt, Part
from addressing.guestlist.people.settled import (
    his_suffix,
    said_of_one,
    shared_suffix,
    title_for_several,
    without_given,
)
from addressing.guestlist.people.vocabulary import Title, is_given, may_be_given
from addressing.records.guests import Kind, Person

_MAY_BE_FAMILY = 3
_PAIR = 2
_GIVEN_BEHIND = ("kin", "child")
"""Groups of titles before a given name: Aunt Jo, Master Kit."""
_COUPLES = ({"Mr.", "Mrs."}, {"Mr."}, {"Mrs."}, {"Ms."})
"""Titles of two that go with one family name."""
OF_AGE = 18
"""From this age a person is no child (newspaper etiquette column: Mr. from 18)."""


def share(parts: tuple[Part, ...]) -> tuple[tuple[Person, ...], tuple[Doubt, ...]]:
    """People from the parts of one cell, in order, with what is in doubt about them."""
    joined_up, unsure = join_givens(_with_his_name(parts))
    spread = _spread_titles(_double_plurals(joined_up))
    families = _families(spread)
    doubts: list[Doubt] = list(unsure)
    people: list[Person] = []
    partners: set[int] = set()
    and_list = any(part.joint == "and" for part in spread)
    for place, part in enumerate(spread):
        joined = part.joint == "and" or (part.joint == "," and and_list)
        if part.partner:
            partners.add(len(people))
        people.extend(_people(part, families[place], joined=joined))
    doubts += [
        Doubt("surname-missing", str(people[i].given))
        for i in sorted(partners)
        if people[i].given and not people[i].family and any(p.family for p in people)
    ]
    doubts += _whose_suffix(spread)
    doubts += shared_suffix(spread)
    doubts += _lent_to_unknown(parts)
    doubts += said_of_one(parts)
    people = without_given(people)
    settled = _children_and_partners(his_suffix(people), partners, doubts)
    doubts += _which_are_children(settled, doubts)
    return settled, tuple(doubts)


def _with_his_name(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The wife of "Mr. Tobias Wexcombe and Mrs." at the end of a cell has his family name."""
    if len(parts) != _PAIR or parts[-1].joint != "and" or not _only_title(parts[-1]):
        return parts
    him, her = parts
    named = len(him.names.names) > 1 and _is_singular(him) and not him.names.suffix
    if not named or combined_title(her.names.titles) != "Mrs.":
        return parts
    return him, replace(her, names=replace(her.names, names=_family_words(him.names)))


def _whose_suffix(parts: Iterable[Part]) -> list[Doubt]:
    """Sr. behind "Mr. Tobias Wexcombe & Mrs. Wexcombe Sr.": his wife, or his mother?"""
    found = []
    for one, other in pairwise(parts):
        his, hers = one.names, other.names
        own = len(his.names) > 1 and his.titles and not his.suffix
        bare = len(hers.names) == 1 and hers.titles and hers.suffix
        if own and bare and fold(his.names[-1]) == fold(hers.names[0]):
            found.append(Doubt("name-doubtful", f"{_as_written(his)} and {_as_written(hers)}"))
    return found


def _lent_to_unknown(parts: tuple[Part, ...]) -> list[Doubt]:
    """The Hart of "Dr. Hart & Ms. Nina Prentiss": a given name, or his own family name?

    "Mr. Bram & Mrs. Odile Wexcombe" are a couple of one name by their titles; an unmarried
    daughter ("Miss") goes by her given name, as a knight does.
    """
    found = []
    for before, one, other in zip((None, *parts), parts, parts[1:], strict=False):
        titles = {combined_title(one.names.titles), combined_title(other.names.titles)}
        known = titles in _COUPLES or titles & {"Miss", "Sir", "Dame"}
        _, family = split_family(other.names.names)
        paired = before is not None and _only_title(before)
        if known or paired or family is None or not (_is_singular(one) and _is_singular(other)):
            continue
        names = one.names.names
        if len(names) == 1 and GLUE not in names[0] and not may_be_given(names[0]):
            own = _is_kin(one.names) or fold(names[0]) == fold(family)
            found += [] if own else [Doubt("lone-name-doubtful", _as_written(one.names))]
    return found


def _is_singular(part: Part) -> bool:
    """True where somebody's own title stands before the name."""
    return bool(part.names.titles) and title_for_several(part) is None


def _as_written(names: NameParts) -> str:
    title = combined_title(names.titles)
    return " ".join(word for word in (title, *names.names, names.suffix) if word)


def _which_are_children(people: tuple[Person, ...], doubts: list[Doubt]) -> list[Doubt]:
    """Three or more of one family name, without title or age: some may be children."""
    plain = all(
        p.kind is Kind.NAMED and p.given and p.family and not p.title and p.age is None
        for p in people
    )
    if len(people) < _MAY_BE_FAMILY or not plain or len({p.family for p in people}) > 1 or doubts:
        return []
    return [Doubt("children-unsaid", ", ".join(str(person.given) for person in people))]


def _double_plurals(parts: tuple[Part, ...]) -> list[Part]:
    """Two for "The Doctors Wexcombe"; a plural before several names is a title for each."""
    doubled: list[Part] = []
    plural: Title | None = None
    for part in parts:
        own = title_for_several(part)
        names = part.names
        if own is not None:
            plural = replace(own, plural=False)
            names = replace(names, titles=(plural,))
        elif plural is not None and not names.titles and part.kind is Kind.NAMED:
            names = replace(names, titles=(plural,))
        doubled.append(replace(part, names=names))
        if own is not None and len(names.names) == 1 and part is parts[-1]:
            doubled.append(replace(part, names=names, joint="and"))
    return doubled


def _spread_titles(parts: list[Part]) -> tuple[Part, ...]:
    """Give the names behind "Mr. and Mrs." to the first title, or one name to each title.

    A part that has only a title takes the family name of the part behind it.
    """
    spread = list(parts)
    place = 0
    while place < len(spread):
        end = place
        while end + 1 < len(spread) and _only_title(spread[end]) and spread[end + 1].names.titles:
            end += 1
        if end > place:
            _settle_titles(spread, place, end)
        place = end + 1
    return tuple(spread)


def _only_title(part: Part) -> bool:
    return bool(part.names.titles) and not part.names.names


def _settle_titles(spread: list[Part], first: int, last: int) -> None:
    """The titles from `first` to `last` meet the names behind the last of them."""
    titles = [spread[i].names.titles for i in range(first, last + 1)]
    carrier = spread[last]
    following = last + 1
    untitled = (
        following < len(spread)
        and spread[following].joint == "and"
        and spread[following].kind is Kind.NAMED
        and not spread[following].names.titles
    )
    if untitled and last == first + 1 and len(spread[following].names.names) > 1:
        spread[first] = replace(
            carrier, names=replace(carrier.names, titles=titles[0]), joint=spread[first].joint
        )
        spread[last] = replace(
            spread[following], names=replace(spread[following].names, titles=titles[1])
        )
        del spread[following]
        return
    if [combined_title(each) for each in titles] == ["Mrs.", "Mr."]:
        titles.reverse()  # "Mrs. and Mr. Tobias Penhew": the given name is his
    family = _family_words(carrier.names)
    if len(carrier.names.names) == 1:
        carrier = replace(carrier, names=replace(carrier.names, names=family))
    joint = spread[first].joint
    spread[first] = replace(carrier, names=replace(carrier.names, titles=titles[0]), joint=joint)
    for offset in range(1, last - first + 1):
        bare = NameParts(titles=titles[offset], names=family)
        spread[first + offset] = replace(carrier, names=bare, joint="and")


def _family_words(names: NameParts) -> tuple[str, ...]:
    """The family name, marked as one by the glue, so that no name behind it is lent to it."""
    given, family = split_family(names.names)
    words = family or given
    return (GLUE + words.replace(" ", GLUE),) if words else ()


def _families(parts: tuple[Part, ...]) -> list[str | None]:
    """For each part the family name that the parts behind it lend, or None."""
    lent: list[str | None] = [None] * len(parts)
    carried: str | None = None
    for place in range(len(parts) - 1, -1, -1):
        part = parts[place]
        lent[place] = carried
        if part.kind is not Kind.GUEST and part.names.names:
            given, family = split_family(part.names.names)
            if family is not None and given is not None:
                carried = carried if carried and is_initial(family) else family
            elif part.names.titles and carried is None and len(part.names.names) == 1:
                carried = None
        if lent[place] is None and _shares_titled(parts, place):
            lent[place] = unglued(parts[place + 1].names.names[0])
        if not part.joint:
            carried = None
    return lent


def _shares_titled(parts: tuple[Part, ...], place: int) -> bool:
    """True for the first of "Sir Tobias and Lady Wexcombe": given name, then the family's."""
    if place + 1 >= len(parts) or parts[place + 1].joint != "and":
        return False
    here, behind = parts[place].names, parts[place + 1].names
    if len(here.names) != 1 or len(behind.names) != 1 or not here.titles or not behind.titles:
        return False
    if _is_kin(behind):
        return False
    knighted = any(title in ("Sir", "Dame") for title in _canonical(here))
    return (knighted or is_given(here.names[0])) and not is_given(behind.names[0])


def _is_kin(names: NameParts) -> bool:
    """True for "Aunt Jo", "Master Kit": the name behind such a title is a given one."""
    return any(isinstance(title, Title) and title.group in _GIVEN_BEHIND for title in names.titles)


def _canonical(names: NameParts) -> list[str]:
    return [title.canonical for title in names.titles if isinstance(title, Title)]


def _people(part: Part, lent: str | None, *, joined: bool) -> list[Person]:
    if part.kind is Kind.GUEST or (part.kind is Kind.CHILD and not part.names.names):
        return [Person(kind=part.kind, joined=joined) for _ in range(part.count)]
    names = part.names
    given, family = _given_and_family(names, lent)
    kind = part.kind
    if (names.age is not None and names.age < OF_AGE) or combined_title(names.titles) == "Master":
        kind = Kind.CHILD
    person = Person(
        title=combined_title(names.titles),
        given=given,
        family=family,
        suffix=names.suffix,
        credentials=names.credentials,
        nickname=names.nickname,
        age=names.age,
        kind=kind,
        joined=joined,
    )
    return [person] if given or family or names.titles else []


def _given_and_family(names: NameParts, lent: str | None) -> tuple[str | None, str | None]:
    given, family = split_family(names.names)
    if family is not None and lent is not None and is_initial(family):
        return f"{given} {family}", lent  # "Tobias A. and Odile M. Wexcombe"
    if family is not None or given is None:
        return given, family
    given = unglued(given)
    if not names.titles:
        return given, lent
    if _is_kin(names):
        return given, lent
    if GLUE in names.names[0] or lent is None or fold(lent) == fold(given):
        return None, given
    return given, lent


def _children_and_partners(
    people: tuple[Person, ...], partners: set[int], doubts: list[Doubt]
) -> tuple[Person, ...]:
    """Names that trail behind a full name: children of a couple, or a partner without a surname."""
    whole = [i for i, person in enumerate(people) if person.family]
    if not whole or any(person.kind is Kind.GUEST for person in people[: whole[-1]]):
        return people
    trailing = [
        i
        for i in range(whole[-1] + 1, len(people))
        if people[i].given
        and not people[i].family
        and people[i].title in (None, "Master")
        and i not in partners
    ]
    if not trailing:
        return people
    adults = [i for i in whole if people[i].kind is Kind.NAMED]
    lines = {family for family, _ in groupby(people[i].family for i in adults)}
    if len(adults) > 1 or len(trailing) > 1:
        family = people[whole[-1]].family if len(lines) == 1 else None
        if any(people[i].age is None and people[i].kind is Kind.NAMED for i in trailing):
            doubts.append(
                Doubt("children-assumed", ", ".join(str(people[i].given) for i in trailing))
            )
        settled = {i: replace(people[i], family=family, kind=Kind.CHILD) for i in trailing}
        return tuple(settled.get(i, person) for i, person in enumerate(people))
    alone = people[trailing[0]]
    if alone.kind is Kind.CHILD:
        child = replace(alone, family=people[whole[-1]].family)
        return tuple(child if i == trailing[0] else person for i, person in enumerate(people))
    doubts.append(Doubt("surname-missing", str(alone.given)))
    return people
