"""Cells of one person's or one couple's names, whole or in parts, read together."""

import re
from dataclasses import replace

from addressing.guestlist.files.called_above import called
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.composing import (
    composed,
    family_of_label,
    glued_family,
    has_joint,
    joined_list,
    names_two,
    titled_family,
    titles_of_several,
    whole_names,
)
from addressing.guestlist.people.doubtful import oddities
from addressing.guestlist.people.names import combined_title, known_title, take_endings, take_titles
from addressing.guestlist.people.news import is_marker
from addressing.guestlist.people.particles import particles_first, with_particle
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.remarks import clear_remarks
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.rows.coming_along import companion_alone
from addressing.records.guests import Kind, Person

_BRACKET_BEHIND = re.compile(r"\s*[(\[][^()\[\]]*[)\]]\s*$")
"""A remark behind a name, whose family name stands in a column of its own."""
_DOUBLE = re.compile(r"[^\W\d_][\w'’]*\s+[-–—]\s+[^\W\d_a-z][\w'’]*")
"""Two words with a dash between: a double name, or a remark."""
_MARKED = re.compile("⟨[^⟩]*⟩")
"""What `clear_remarks` leaves of a bracket that holds no remark."""


def read_columns(cells: dict[str, Cell], *, family_first: bool | None) -> CellReading:
    """One cell of whole names, or columns of parts; parts with a joint are read as a cell."""
    text, doubts = with_particle({meaning: cell.text for meaning, cell in cells.items()})
    if "family" in text:
        text = _title_apart({**text, "family": particles_first(text["family"], family=True)})
    reading = _read_texts(text, family_first=family_first)
    if "given" in text and re.match(r"(?i)the\s", family_of_label(text.get("family", ""))):
        doubts = (*doubts, Doubt("name-doubtful", f"{text['given']} {text['family']}"))
    return replace(reading, doubts=(*doubts, *reading.doubts)) if doubts else reading


def _title_apart(text: dict[str, str]) -> dict[str, str]:
    """The title that stands before a family name in its column, as a title: "Dr. Patel".

    Not where the word is a name too ("Dean Penhew"), and not before several names or titles.
    """
    said = text["family"].split()
    titles, names = take_titles(said)
    found = known_title(said[0]) if len(titles) == 1 and "given" in text else None
    several = has_joint(text["family"]) or has_joint(text.get("given", "")) or "title" in text
    if found is None or found.also_a_name or found.group == "kin" or several or not names:
        return text
    if take_titles(text["given"].split())[0]:
        return text
    before = " ".join(said[: len(said) - len(names)])
    return {**text, "title": before, "family": " ".join(names)}


def _read_texts(text: dict[str, str], *, family_first: bool | None) -> CellReading:
    if label := _label_of(text):
        return read_people(label, family_first=None)
    if (unnamed := _unnamed(text)) is not None:
        return unnamed
    if (called_so := _called(text, family_first=family_first)) is not None:
        return called_so
    if "family" in text and ("given" in text or "name" in text):
        text = {**text, "family": family_of_label(text["family"])}
    if _brings_somebody(text):
        named = {part: said for part, said in text.items() if part != "given"}
        text = {**named, "name": text["given"]}
    if "name" in text and "given" not in text:
        return _name_with_columns(text, family_first=family_first)
    return _read_given(text) if "given" in text else _without_given(text)


def _called(text: dict[str, str], *, family_first: bool | None) -> CellReading | None:
    """Whom a cell names in full behind what they are called: "Mom & Dad (Kit and Ada Orr)"."""
    names, call = called(text.get("name", ""))
    if not call:
        return None
    reading = _read_texts({**text, "name": names}, family_first=family_first)
    return replace(reading, remarks=(call, *reading.remarks))


def _read_given(text: dict[str, str]) -> CellReading:
    """A column of given names, perhaps of several, with what stands in columns beside it."""
    text = {**text, "given": joined_list(text["given"])}
    titled = titles_of_several(text.get("title", ""))
    joint = titled or has_joint(text["given"]) or names_two(text["given"])
    alone = "family" not in text and len(text["given"].split()) > 1
    if joint or alone:
        return composed(text)
    names = whole_names(text) if "family" in text else None
    return _read_parts(text) if names is None else read_people(names, family_first=None)


def _brings_somebody(text: dict[str, str]) -> bool:
    """True for "Tobias (+1)" beside "Penhew": the family name goes before the bracket."""
    bracket = _BRACKET_BEHIND.search(text.get("given", ""))
    if bracket is None or "family" not in text or "middle" in text:
        return False
    return companion_alone(bracket[0].strip(" ()[]")) is not None


def _label_of(text: dict[str, str]) -> str:
    """What two columns make of "The" and "Penhews", "Famille", "Roux", "The Penhew", "Family".

    "" for names of people.
    """
    given, family = text.get("given", ""), text.get("family", "")
    if not given or not family:
        return ""
    first = fold(given)
    if first == "the":
        return f"The {family}"
    if first in words("family-label"):
        return f"{family} {given}" if first == "family" else f"{given} {family}"
    return f"{given} {family}" if fold(family) in words("family") else ""


def _unnamed(text: dict[str, str]) -> CellReading | None:
    """Whoever has no name where a first name belongs: "+1" or "baby" beside "Wexcombe"."""
    first = text.get("given") or text.get("name") or ""
    alone = companion_alone(first) if "given" in text else None
    return alone or (_child_unnamed(first) if first and "family" in text else None)


def _child_unnamed(first: str) -> CellReading | None:
    reading = read_people(first, family_first=None)
    told = reading.people and not any(p.given or p.family for p in reading.people)
    return reading if told and all(p.kind is Kind.CHILD for p in reading.people) else None


def _without_given(text: dict[str, str]) -> CellReading:
    if titles_of_several(text.get("title", "")):
        return titled_family(text)
    alone = read_people(text.get("family", ""), family_first=None)
    return alone if alone.label and len(text) == 1 else _read_parts(text)


def _name_with_columns(text: dict[str, str], *, family_first: bool | None) -> CellReading:
    """A cell of whole names, with a title, family name or suffix in columns beside it."""
    name = text["name"]
    titled = take_titles(name.split())[0]
    if "title" in text and not titled:
        name = f"{text['title']} {name}"
    if "family" in text and not f" {fold(name)} ".endswith(f" {fold(text['family'])} "):
        family, ending = glued_family(text["family"])
        text = {"suffix": ending, **text} if ending else text
        bare = _BRACKET_BEHIND.sub("", name)
        name = f"{bare} {family}{name.removeprefix(bare)}"
    if "suffix" in text:
        name = f"{name}, {text['suffix']}"
    return read_people(name, family_first=family_first)


def _read_parts(text: dict[str, str]) -> CellReading:
    """One person in columns of parts; remarks in the cells are kept as such."""
    given = _given_cell(text.get("given", ""))
    first = given.people[0] if given.people else Person()
    if first.kind is Kind.GUEST or (given.family and not given.people and len(text) == 1):
        return given
    cleared = clear_remarks(text.get("family", ""))
    if _MARKED.search(cleared.text):  # a nickname or an age behind a family name is none of it
        cleared = replace(cleared, text=text["family"], remarks=())
    if _DOUBLE.fullmatch(text.get("family", "")) and not any(map(is_marker, cleared.remarks)):
        cleared = replace(cleared, text=text["family"], remarks=())  # "DUPONT - MARTIN": asked
    family, suffix, credentials = _family_cell(cleared.text)
    ending, degrees = _endings(text.get("suffix", ""))
    title = _title_of(text.get("title"), first.title)
    names = " ".join(part for part in (_all_given(first), text.get("middle", "")) if part)
    person = Person(
        title=title,
        given=names or None,
        family=family or None,
        suffix=ending or suffix or first.suffix,
        credentials=(*first.credentials, *credentials, *degrees),
        nickname=first.nickname,
        age=first.age,
        kind=Kind.CHILD if title == "Master" or first.kind is Kind.CHILD else Kind.NAMED,
    )
    odd = (*oddities(text.get("middle", "")), *oddities(cleared.text))
    return CellReading(
        people=(person, *given.people[1:]),
        family=given.family,
        remarks=(*given.remarks, *cleared.remarks),
        doubts=(*given.doubts, *odd),
    )


def _given_cell(text: str) -> CellReading:
    """The reading of a cell of a given name; "Dean" alone is there no title."""
    if not text:
        return CellReading()
    title = known_title(text)
    if title is not None and title.also_a_name:
        return CellReading((Person(given=text.strip()),))
    return read_people(text, family_first=None)


def _title_of(listed: str | None, before: str | None) -> str | None:
    """The title of a column of titles, with another that stands before the given name.

    "Herr" and "Dr. Jörg" are Herr Dr., "Dr." and "Dr. Tobias" one.
    """
    if listed is None:
        return before
    titles = take_titles(listed.split())[0]
    own = combined_title(titles)
    if own is None or before is None or before in own:
        return own or listed
    return combined_title((*titles, before))


def _all_given(person: Person) -> str:
    """Two words in a column of given names are both given ("Mary Ann")."""
    return " ".join(part for part in (person.given, person.family) if part)


def _family_cell(text: str) -> tuple[str, str | None, tuple[str, ...]]:
    words_left, suffix, credentials = take_endings(
        text.replace(",", " ").split(), after_comma="," in text
    )
    return " ".join(words_left), suffix, credentials


def _endings(text: str) -> tuple[str | None, tuple[str, ...]]:
    """Suffix and degrees in a column of endings; a word that is neither is the suffix as listed."""
    rest, suffix, credentials = take_endings(text.replace(",", " ").split(), after_comma=True)
    return (text or None, ()) if rest else (suffix, credentials)
