"""Words of its own for a household, line by line, held against what the list says of its people.

The designer's stand in the docket; the client's for the inner envelope in a column of the list.
"""

import re
import unicodedata
from collections.abc import Iterator, Sequence
from functools import cache
from math import inf

from addressing.records.docket import Docket, OwnWords
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited, GuestList, Household, Kind, Person
from addressing.records.pieces import Line, Role
from addressing.tables import table
from addressing.where import Where
from addressing.wording.name_lines import cells_of, name_breaks

_SMALL = frozenset(("and", "guest", "guests", "family", "the", "of", "junior", "senior"))
"""Words that a line may have beside names and titles."""


def own_lines(household: Household, docket: Docket, kind: str) -> tuple[Line, ...] | None:
    """The lines that the docket, else the list gives for a household's piece; None without any."""
    for number, words in enumerate(docket.words, start=1):
        texts = _texts(words, kind)
        if words.household == household.key and texts:
            people = cells_of(household.people)
            return tuple(
                Line(
                    text,
                    Role.NAME,
                    (_cell(docket, number, kind, place), *people),
                    name_breaks(text),
                )
                for place, text in enumerate(texts, start=1)
            )
    if kind != "inner" or household.inner is None:
        return None
    cells = (*household.inner.cells, *cells_of(household.people))
    return tuple(
        Line(text, Role.NAME, cells, name_breaks(text)) for text in _lines(household.inner)
    )


def _lines(words: Cited) -> list[str]:
    return [text for line in words.text.split("\n") if (text := " ".join(line.split()))]


def check_inners(guest_list: GuestList, docket: Docket) -> tuple[Finding, ...]:
    """What the list's own words for the inner envelope are, and which child they leave out.

    They call the grown by what names the client likes; whether a child comes, only the inner says.
    """
    if "inner" not in docket.make:
        return ()
    by_docket = {words.household for words in docket.words if words.inner}
    return tuple(
        _check_inner(home, home.inner)
        for home in guest_list.households
        if home.inner is not None and home.key not in by_docket
    )


def left_below(household: Household, docket: Docket) -> tuple[Person, ...]:
    """The children who stand below the list's own words for the inner, which name none of them."""
    if household.inner is None or any(
        words.inner for words in docket.words if words.household == household.key
    ):
        return ()
    named, missing = _children(household, household.inner)
    return () if named else missing


def _children(household: Household, inner: Cited) -> tuple[tuple[Person, ...], tuple[Person, ...]]:
    """The children whom the words for the inner envelope name, and those whom they don't."""
    said = {_fold(word) for word in _words(inner.text)}
    children = [p for p in household.people if p.kind is Kind.CHILD and p.given]
    named = tuple(p for p in children if said & _names_of(p.given, p.nickname))
    return named, tuple(p for p in children if p not in named)


def _check_inner(household: Household, inner: Cited) -> Finding:
    shown = " / ".join(_lines(inner))
    named, left = _children(household, inner)
    missing = [person.given for person in left if person.given]
    where = inner.cells[0]
    if not missing or not named:
        text = f"The inner envelope is worded as the list has it: “{shown}”."
        mend = "Nothing to do."
        return Finding(Severity.NOTE, "inner-listed", where, text, mend, household.key)
    text = f"“{shown}” for the inner envelope leaves out {' and '.join(missing)}."
    mend = "Are they invited? Then give the words with their names."
    return Finding(
        Severity.ASK, "inner-differs", where, text, mend, household.key, holds=True, quoted=shown
    )


def check_words(guest_list: GuestList, docket: Docket) -> tuple[Finding, ...]:
    """What own words say that the list doesn't, and whom they leave out.

    Words that differ hold their household until the docket says `sure = true`.
    """
    households = {household.key: household for household in guest_list.households}
    return tuple(
        found
        for number, words in enumerate(docket.words, start=1)
        for found in _check(number, words, households.get(words.household), docket)
    )


def _check(
    number: int, words: OwnWords, household: Household | None, docket: Docket
) -> Iterator[Finding]:
    if household is None:
        yield Finding(
            Severity.NOTE,
            "words-unused",
            _cell(docket, number),
            f"The docket has words for {words.household}, but no household has that key.",
            "Look the key up with `addressing lines`, or take the words away.",
        )
        return
    for kind in ("outer", "inner"):
        texts = _texts(words, kind)
        wrong = _differences(texts, household, kind) if texts else ""
        if wrong and not words.sure:
            yield Finding(
                Severity.ASK,
                "words-differ",
                _cell(docket, number, kind),
                f"{household.name}, {kind}: {wrong}",
                "Mend the docket's words; if they are right, add sure = true below them.",
                household.key,
                holds=True,
            )
        elif texts:
            yield Finding(
                Severity.NOTE,
                "words-by-docket",
                _cell(docket, number, kind),
                f"{household.name}, {kind}: worded by hand as “{' / '.join(texts)}”.",
                "Nothing needs doing.",
                household.key,
            )


def _differences(texts: Sequence[str], household: Household, kind: str) -> str:
    """What own words say otherwise than the list, as a sentence; empty when nothing."""
    text, listed = " ".join(texts), _listed(household)
    strange = [
        word for word in _words(text) if _fold(word) not in listed and _fold(word) not in _SMALL
    ]
    if strange:
        shown = ", ".join(f"“{word}”" for word in strange)
        return f"{shown} {'is' if len(strange) == 1 else 'are'} not in the list."
    said = {_fold(word) for word in _words(text)}
    owed = [
        person
        for person in household.people
        if (person.kind is Kind.NAMED or (kind == "inner" and person.kind is Kind.CHILD))
        and (person.given or person.family)
    ]
    left_out = [
        person
        for person in owed
        if not said & _with_plurals(_names_of(person.given, person.nickname, person.family))
    ]
    if "family" in said:
        left_out = [person for person in left_out if person.kind is not Kind.CHILD]
    missing = len(owed) - _heads(texts, household)
    if not left_out and missing > 0:
        left_out = [p for p in owed if not said & _names_of(p.given, p.nickname)][-int(missing) :]
    names = [" ".join(filter(None, _called(person))) for person in left_out]
    return f"{' and '.join(names)} would be left out." if names else ""


def _called(person: Person) -> tuple[str | None, ...]:
    """A person's names; the title too where the list has no given name."""
    names = (person.given, person.family)
    return names if person.given else (person.title, *names)


def _heads(texts: Sequence[str], household: Household) -> float:
    """How many people own words count: each name or title that stands by itself or behind "and".

    Any number where they speak of a family, of several by one name, or of two by one title.
    """
    named = [p for p in household.people if p.given or p.family]
    many = {"family"} | _names_of(*(row["plural"] for row in table("titles")))
    for name in _names_of(*(person.family for person in named)):
        many |= {name + "s", name + "es"}
    if many & {_fold(word) for text in texts for word in _words(text)}:
        return inf
    known = _titles().union(*(_names_of(p.given, p.family, p.nickname) for p in named))
    parts = [part for text in texts for part in re.split(r"[,&]|\b(?:and|und|et|y|e)\b", text)]
    return sum(1 for part in parts if known & _names_of(part))


def _listed(household: Household) -> set[str]:
    """Every word that the list has for a household, its plural, and the titles of its people."""
    names = set(_titles())
    for person in household.people:
        names |= _names_of(person.given, person.family, person.nickname, person.suffix)
        names |= _names_of(person.title, *person.credentials)
    for cited in (household.label, household.family):
        names |= _names_of(cited.text) if cited else set()
    return _with_plurals(names)


def _with_plurals(names: set[str]) -> set[str]:
    """Names and what "The Wexcombes" and "The Finches" make of them (common practice)."""
    return names | {name + "s" for name in names} | {name + "es" for name in names}


@cache
def _titles() -> frozenset[str]:
    """The words of every title, short and spelled out."""
    columns = ("canonical", "spelled", "inner", "plural")
    return frozenset(_names_of(*(row[column] for row in table("titles") for column in columns)))


def _names_of(*texts: str | None) -> set[str]:
    return {_fold(word) for text in texts if text for word in _words(text)}


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W_]+(?:[.'’][^\W_]+)*", text)


def _fold(word: str) -> str:
    """A word for comparing: letters only, in small ones; accents stay, since a name has them."""
    return "".join(mark for mark in unicodedata.normalize("NFC", word.casefold()) if mark.isalnum())


def _texts(words: OwnWords, kind: str) -> tuple[str, ...]:
    return words.inner if kind == "inner" else words.outer if kind == "outer" else ()


def _cell(docket: Docket, number: int, kind: str = "", place: int = 0) -> Where:
    name = (
        f"docket:words[{number}]" + (f".{kind}" if kind else "") + (f"[{place}]" if place else "")
    )
    return Where(docket.path or "docket", None, name)
