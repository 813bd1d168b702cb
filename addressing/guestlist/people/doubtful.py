"""What makes a cell of names a question: words and marks that no name has, words for nobody."""

import re
from functools import cache
from unicodedata import category

from addressing.guestlist.folding import fold
from addressing.guestlist.people.asides import is_aside, phrase
from addressing.guestlist.people.called import is_form
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.noted_children import children_named
from addressing.guestlist.people.parts import Doubt, without_counts
from addressing.guestlist.people.vocabulary import (
    given_names,
    may_be_given,
    meanings,
    words,
)
from addressing.records.guests import Kind, Person
from addressing.tables import table

_SHORT = 3
"""Letters of a nickname that may be anything ("Kit", "Bo")."""
_ODD = re.compile(r"[?*@#=<>|\\{}\[\]()!%$^~_:\d]|(?<!\S)[-–—]+(?!\S)|\w[-–—]+$")
_CALLED = re.compile(r"(?:[&+]|\band\b)\s*(?P<title>\S+)\s+[-–—]\s", re.IGNORECASE)
_TURNED = re.compile(r"[a-zà-ÿ][A-ZÀ-Ý]{2,}$")
"""A word that was typed with the capitals locked."""
_PAIR = 2
_FULL = 2
"""Words of a full name."""
_POSSESSIVE = re.compile(r"(?<=\w)['’]s(?=\s|$)")
_COUNT = re.compile(r"(?:\(\s*[1-5]\s*\)|,\s*[1-5])\s*$")
_TIMES = re.compile(r"[x×]\s*\d|\d\s*[x×]", re.IGNORECASE)
"""A remark of "(x2)": of so many people, or of so many pieces?"""
_IN_FRONT = re.compile(r"\s*[(\[{]\s*[A-ZÀ-Ý][\w'’-]+\s+[A-ZÀ-Ý]")
"""Somebody's name in brackets before all others: out, or not yet sure?"""
_NAMES_BESIDE = re.compile(r"^[A-ZÀ-Ý][\w'’-]*(?:\s*(?:,|&|\+|/|and\b)\s*[A-ZÀ-Ý][\w'’-]*)+$")
_ALSO = re.compile(r"^(?:\+|&|and|plus|w/|with)(?![\w-])", re.IGNORECASE)
_OTHERWISE = re.compile(r"(?i:or)\b.*\s[A-ZÀ-Ý]\w", re.DOTALL)
"""Another name beside the first: "or she may be Odile Farrenby again"."""
_SEVERAL = re.compile(r"[A-ZÀ-Ý][\w'’-]*\s*(?:,|&|\+|\band\b)\s*[A-ZÀ-Ý]")


def oddities(text: str) -> tuple[Doubt, ...]:
    """The doubt about a part of a name in a cell of its own that holds marks no name has."""
    return (Doubt("name-doubtful", text),) if _ODD.search(text) else ()


def about_names(
    text: str, cleared: str, remarks: tuple[str, ...], people: tuple[Person, ...]
) -> tuple[Doubt, ...]:
    """At most one doubt about a cell: `text` as it stands, `cleared` without its remarks."""
    plain = " ".join(without_counts(cleared).split())
    beside = any(_is_of_people(remark) for remark in remarks) or (
        bool(remarks) and _IN_FRONT.match(text) is not None and not is_aside(remarks[0])
    )
    odd = beside or any(map(_is_odd, people)) or any(_is_kin_of(p, people) for p in people)
    if odd or _calls_two(text) or _asks(cleared, remarks) or (plain and not people):
        return (Doubt("name-doubtful", plain or " ".join(text.split())),)
    return ()


def _calls_two(text: str) -> bool:
    """True for "Pops and Nana - Bill & Faye Orr": the dash parts what two are called from names."""
    found = _CALLED.search(text)
    return found is not None and known_title(found["title"]) is not None


def _is_of_people(remark: str) -> bool:
    """True for "Wren & Kit", "and Kit" and "x2" beside names."""
    names = _NAMES_BESIDE.match(remark) or _ALSO.match(remark)
    return bool(names or _TIMES.fullmatch(remark))


def about_count(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """The doubt about "Tobias Wexcombe (2)" or ", 2": two years old, or two of them?

    So behind two who share the family name: "Tobias & Odile Wexcombe (4)".
    """
    named = [person for person in people if person.kind is not Kind.GUEST]
    counted = bool(named) and named[-1].age is not None and _COUNT.search(text)
    alone = len(named) == 1 and named[0].title not in ("Master", "Miss")
    if counted and (alone or _share_last_word(named, text)):
        return (Doubt("name-doubtful", " ".join(text.split())),)
    return ()


def _share_last_word(named: list[Person], text: str) -> bool:
    """True for "Tobias & Odile Wexcombe (4)": the word before the number is the name of both."""
    families = {person.family for person in named}
    others = [person for person in named[:-1] if person.age is not None]
    family = named[-1].family or ""
    if len(named) < _PAIR or len(families) > 1 or others or text.count(family) != 1:
        return False
    return re.search(rf"{re.escape(family)}\W+\d\W*$", text) is not None


def about_brackets(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """The doubt about "Odile Wexcombe (Farrenby)": is she called so, was she, or will she be?

    A short form or a given name that is known, or that begins as the name does, is a nickname.
    """
    for person in people:
        called, family = person.nickname or "", person.family or ""
        behind = rf"{re.escape(family)}\s*\(\s*{re.escape(called)}\s*\)"
        if not called or not family or not re.search(behind, text):
            continue
        if not person.title and _is_somebody_else(called, person):
            return (Doubt("name-doubtful", " ".join(text.split())),)
        known = fold(called) in _called() or called[:2] in (family[:2], (person.given or "")[:2])
        if not known and len(called) > _SHORT and called[1:].islower():
            return (Doubt("name-doubtful", " ".join(text.split())),)
    return ()


def _is_somebody_else(called: str, person: Person) -> bool:
    """True for the Helen of "Tobias Penhew (Helen)": two given names that aren't one's forms."""
    given = fold((person.given or "").split()[0]) if person.given else ""
    both = all(map(may_be_given, (called, given)))
    return both and not is_form(fold(called), given) and fold(called)[:1] != given[:1]


@cache
def _called() -> frozenset[str]:
    """The folded names by which somebody may be called."""
    forms = {row[key] for row in table("name_forms") for key in ("one", "other")}
    return frozenset(map(fold, forms)) | given_names("single") | given_names("both")


def about_label(text: str, remarks: tuple[str, ...]) -> tuple[Doubt, ...]:
    """A family or company is asked about where its name holds such words, or names stand beside."""
    owner = re.search(r"(\w+)['’]s\b", text)
    known = words("nameless") | words("relation")
    nobody = owner is not None and (fold(owner[1]) in known or _ends_in_family(text))
    several = any(_SEVERAL.search(each) and not children_named(each) for each in remarks)
    if nobody or _asks(text, remarks) or several or any(map(_is_full_name, remarks)):
        return (Doubt("name-doubtful", " ".join(text.split())),)
    return ()


def _is_full_name(remark: str) -> bool:
    """True for the "Ted Marsh" behind "The Willows": somebody is named whom no envelope would have.

    >>> _is_full_name("Ted Orr"), _is_full_name("Table 4"), _is_full_name("Larkmoor Hill")
    (True, False, False)
    """
    words_said = remark.split()
    whole = len(words_said) == _FULL and all(word.istitle() for word in words_said)
    return whole and may_be_given(words_said[0]) and not may_be_given(words_said[1])


def _ends_in_family(text: str) -> bool:
    """True for "Tobias's family": whose they are, and not who."""
    return fold(text).split()[-1] in words("family")


def _asks(text: str, remarks: tuple[str, ...]) -> bool:
    """Words that always need an answer ("c/o", "late"), or the client's own question mark.

    Fewer of them count within a remark: "(parents of the bride)" says who they are.
    """
    beside = phrase("asked-aside")
    aside = any(
        "?" in remark or _OTHERWISE.match(remark) or beside.search(remark) for remark in remarks
    )
    return aside or phrase("asked").search(text) is not None


def _is_odd(person: Person) -> bool:
    """A name with marks, a possessive, or a word that names nobody ("Mom Wexcombe")."""
    given, family = person.given or "", person.family or ""
    if any(map(_has_odd_marks, (given, family))):
        return True
    said = fold(f"{given} {family}").split()
    if not said and person.title is not None:
        return True  # "and Grandma" and "and Mrs." name nobody
    if person.kind is Kind.GUEST or not said:
        return False
    if meanings("company").get(said[-1]):
        return True  # "Mr. Tobias Penhew, Larkmoor Press LLC": a firm beside somebody
    if not given.islower() and any(word in words("and-between") for word in given.split()[1:]):
        return True  # "Zofia Penhew i Wren Lorne": two people?
    nobody = said[0] in words("nameless") or (family.islower() and said[-1] in words("nameless"))
    nobody = nobody or said[0] == "the" or _is_office(given, family)
    nobody = nobody or (not family and said[-1] in words("suffix"))
    return nobody or any(map(_is_title_within, f"{given} {family}".split()[1:]))


def _has_odd_marks(name: str) -> bool:
    """True for a name with marks that none has, pictures among them, or "oDILE"."""
    pictures = not name.isascii() and any(
        category(mark)[0] == "S" and not mark.isascii() for mark in name
    )
    turned = any(_TURNED.match(word) for word in name.split())
    crossed = name.startswith("x ")
    return bool(_ODD.search(name) or _POSSESSIVE.search(name)) or pictures or turned or crossed


def _is_kin_of(person: Person, people: tuple[Person, ...]) -> bool:
    """True for the Grandma Penhew of "Tobias Penhew & Grandma Penhew": who she is, no name."""
    title = known_title(person.title) if person.title else None
    if title is None or title.group != "kin" or person.family or not person.given:
        return False
    return fold(person.given) in {fold(other.family) for other in people if other.family}


def _is_office(given: str, family: str) -> bool:
    """True for "Zofia Penhew dean": what she is, or her family name?"""
    return family.islower() and not given.islower() and known_title(family) is not None


def _is_title_within(word: str) -> bool:
    """True for the Mrs of "Tobias Wexcombe Mrs Odile": two people without a joint?"""
    title = known_title(word)
    ending = fold(word) in words("suffix") | words("credential")
    if title is None or title.also_a_name or ending:
        return False
    return word.endswith(".") or title.canonical.endswith(".")
