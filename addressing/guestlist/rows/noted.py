"""A note that changes an envelope: who comes along, where to send it, how to address them.

The words are the rows of note_words.tsv. All other notes stay remarks: nothing waits on them.
"""

import calendar
import itertools
import re
from collections.abc import Collection
from dataclasses import replace
from functools import cache

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.dwellings import unit_name
from addressing.guestlist.files.spans import spans
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title, take_titles
from addressing.guestlist.people.news import is_of_parting, says_it_is_here
from addressing.guestlist.people.note_words import (
    counted,
    denied,
    is_unsure,
    note_words,
    says,
    ways,
    words_of_kind,
)
from addressing.guestlist.people.vocabulary import partner_words, row_words, words
from addressing.guestlist.rows.new_names import (
    CAPITAL,
    called_now,
    grown,
    is_of_name,
    renamed,
    takes_a_name,
    wed,
)
from addressing.guestlist.rows.noted_doors import mends_address
from addressing.guestlist.rows.noted_titles import gives_rank
from addressing.guestlist.rows.said import told
from addressing.guestlist.rows.surviving import survivors, tells_of_another
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind

_NAME = r"(?P<name>[^\W\d_a-z][\w'’-]+(?:\s+[^\W\d_a-z][\w'’.-]*)*)(?![\w'’-]|\s*\d)"
_JOINT = r"(?:\s+(?:is|will\s+be|named|called)\s+|\s*[:=]\s*|\s+[-–—]\s+)"
_INITIAL = 2
"""Letters of "J.", the point included."""
_JOINED = frozenset(("and", "&"))
_TITLED_PARTNER = re.compile(rf"^(?P<title>(?i:Mrs?\.?))\s*(?:(?:is|=|:)\s*)?{_NAME}\s*$")
"""A note of nothing but "Mrs. = Susan" beside a husband."""
_ASKED = re.compile(r"[^.;?]*\w[^.;?]*\?(?![\w&=])")
"""A clause of a note that ends with a question mark."""
_ANSWERED = ("company", "offspring", "two-names", "name-wanted")
"""Kinds of words that the list may have answered: without a question of their own they are."""
_TOLD = frozenset(("remark", "cell-note"))
"""What is only told, where its words ask nothing: a note in a cell, a comment on one."""
_PAIR = 2
_NAMES_ASKED = frozenset(
    ("name-doubtful", "surname-missing", "guest-unnamed", "partner-unnamed", "name-missing")
)
"""Questions whose answer brings the name that a note wants."""


def apart(note: str) -> str:
    """Who wants an envelope of their own by a note: "door" for all who live there, "row", or "".

    >>> apart("roommates but separate invites pls"), apart("best man, own invite"), apart("usher")
    ('door', 'row', '')
    """
    if denied("apart", note) is False:
        return "door"
    return "row" if denied("own", note) is False else ""


def asked_of(found: Finding, home: Household, asked: Collection[str] = ()) -> Finding:
    """The question that a remark asks of its household, or the remark itself.

    A note that the names answer already (a companion who is one of them, "kept her name" beside
    two) is no question; nor is one that `asked`, the codes of the household's findings, has.
    """
    note = found.quoted or ""
    marked = found.code == "marker-in-list"
    if (marked or found.code in _TOLD) and tells_of_another(note, home):
        return told(found.where, note)
    if marked and len(grown(home)) < _PAIR and is_of_parting(note):
        found = told(found.where, note)
    if found.code == "marker-in-list":
        left = survivors(note, home)
        return replace(found, likely=tuple(("names", names) for names in left)) if left else found
    if found.code not in _TOLD or not note:
        return found
    code, mend = _question(note, home, asked)
    if not code:
        return found
    made = finding(code, found.where, f"The list says: “{note}”.", mend, note)
    ways_of = (renamed, called_now, wed, likely_names) if code == "name-noted" else ()
    names = next(filter(None, (way(note, home) for way in ways_of)), "")
    return replace(made, likely=(("names", names),)) if names else made


def likely_names(note: str, home: Household) -> str:
    """The names with the one companion whom a note gives somebody alone, for the client to confirm.

    A wife or husband without a family name is proposed with the other's; anybody else isn't.
    """
    named = [p for p in home.people if p.kind is not Kind.GUEST or p.given or p.family]
    if len(named) != 1 or not named[0].given or not named[0].family:
        return ""
    one = named[0]
    said = {_companion_said(note, found) for found in _companions().finditer(note)}
    said |= {(f"{m['title']} {m['name']}", True) for m in _TITLED_PARTNER.finditer(note)}
    if len(said) != 1 or not words("children").isdisjoint(fold(note).split()):
        return ""  # of children the answer would have to name all
    name, wed = said.pop()
    bare = take_titles(name.split())[1]
    if not bare or any(len(word.strip(".")) == 1 for word in bare):
        return ""  # "Mr. Drew C." is not the whole of it
    if len(bare) == 1:
        name = f"{name} {one.family}" if wed else ""
    first = " ".join(part for part in (one.title, one.given, one.family, one.suffix) if part)
    return f"{first} and {name}" if name else ""


def _companion_said(note: str, found: re.Match[str]) -> tuple[str, bool]:
    """(the companion's name with a title before it, whether it is a wife's or husband's)."""
    start = max(found.start("name"), found.start("next"))
    wed = not (partner_words() | _JOINED).isdisjoint(fold(note[found.start() : start]).split())
    behind = re.split(r"[,;!?()]", note[start:])[0].split()
    titles = behind[: len(behind) - len(take_titles(behind)[1])]
    names = itertools.takewhile(is_of_name, behind[len(titles) :])
    name = []
    for word in names:
        name.append(word.rstrip("."))
        if word.endswith(".") and len(word) > _INITIAL:  # the sentence ends here
            break
    return " ".join((*titles, *name)), wed


def _question(note: str, home: Household, asked: Collection[str]) -> tuple[str, str]:
    """(code, mend) of what a note asks; ("", "") for one that only tells."""
    elsewhere = says("elsewhere", note) or mends_address(note, home.address) or _is_there(note)
    elsewhere = elsewhere and not says_it_is_here(note)
    if elsewhere or any(span.whole for span in spans(note)):
        there = home.address is not None or home.by_hand
        return ("address-doubtful", "Is the address in the list the right one?") if there else _NONE
    named = _names_somebody(note, home) or _titled(note, home) or _is_titled_name(note, home)
    if named or _leaves_out(note, home) or is_of_names(note, home, asked):
        return "name-noted", "How should the names stand on the envelope?"
    if is_unsure(note) or _is_childless(note, home):
        return "marker-in-list", "Is everybody here still invited?"
    if _asked_of_place().fullmatch(note.strip()):
        known = home.address is None or not _PLACES_ASKED.isdisjoint(asked)
        return _NONE if known else ("address-doubtful", "Is the address in the list whole?")
    company = _of_company(note, home)
    if company is _NONE and _is_open(note):
        return "note-open", "What is the answer, and does it change the envelope?"
    return company


def _is_there(note: str) -> bool:
    """True for "now at Maplewood": a place's name follows, and no "college", unit or month."""
    places = (note[found.end() :].split()[:1] for found in note_words("now-there").finditer(note))
    return any(CAPITAL.match(word) and not _is_no_place(word) for each in places for word in each)


def _is_no_place(word: str) -> bool:
    word = fold(word).strip(".,")
    months = {fold(name) for name in (*calendar.month_name, *calendar.month_abbr) if name}
    return word in months or unit_name(word) is not None


_PLACES_ASKED = frozenset(
    ("zip-missing", "zip-doubtful", "address-incomplete", "address-missing", "address-doubtful")
)
"""Questions that ask for what a note on the address wants."""


@cache
def _asked_of_place() -> re.Pattern[str]:
    """A note that only asks for a part of the address: "zip?", "need her apt number"."""
    lead = r"(?:still\s+)?(?:need|needs|get|find|ask\s+for|missing|check|confirm|which|what|no)\b"
    part = rf"(?:(?:the|her|his|their)\s+)?{ways('asked-place')}\s*(?:#|number\b|no\.|code\b)?"
    return re.compile(rf"{lead}\s+{part}\s*[?!.]*|{part}\s*\?+", re.IGNORECASE)


def _is_childless(note: str, home: Household) -> bool:
    """True for "adults only" beside children whom the list names or counts, and beside a family.

    "The Orr Family" would invite them all the same.
    """
    young = any(p.kind is Kind.CHILD for p in home.people) or home.family is not None
    return young and says("childless", note)


def _is_open(note: str) -> bool:
    """True where the list asks something of the guests itself, not of a thing ("vegan meal?").

    >>> _is_open("remarried?"), _is_open("Table 4? Bus?"), _is_open("see example.org/?g=4")
    (True, False, False)
    """
    if not note.strip("? "):
        return "?" in note
    things = row_words("thing") | row_words("asked-thing")
    return any(
        things.isdisjoint(fold(clause).split())
        and not any(says(kind, clause) for kind in _ANSWERED)
        for clause in _ASKED.findall(note)
    )


def _of_company(note: str, home: Household) -> tuple[str, str]:
    """What a note asks of an envelope for each, of a companion and of children."""
    if (apart(note) or says("own", note)) and _names_a_child(note, home):
        return "note-open", "An envelope of their own, or one with the parents?"
    if apart(note) and len(grown(home)) > 1:
        return "apart-noted", "One envelope, or one each?"
    if denied("company", note) is False and len(grown(home)) < _PAIR and not _has_guest(home):
        return "guest-noted", "May somebody come along?"
    if denied("offspring", note) is False and not _has_children(home):
        return "children-noted", "Who is invited by name?"
    more = (counted(note) or 0) > len(home.people) > 0
    if more and not _has_children(home) and denied("people-counted", note) is False:
        alone = len(home.people) == 1
        return ("guest-noted" if alone else "children-noted"), "Who is invited by name?"
    return _NONE


_NONE = ("", "")


def is_of_names(note: str, home: Household, asked: Collection[str]) -> bool:
    """True for words on the names as a whole, unless the list or another question has it."""
    if (
        gives_rank(note, home)
        or says("address-as", note)
        or (says("two-names", note) and not _two_names(home))
    ):
        return True
    news = (takes_a_name, renamed, called_now, wed)
    if any(way(note, home) for way in news):
        return True
    return says("name-wanted", note) and _NAMES_ASKED.isdisjoint(asked)


def _two_names(home: Household) -> bool:
    """True where everybody has a family name, and they are not all the same."""
    families = grown(home)
    return all(families) and len(set(families)) > 1


def _has_guest(home: Household) -> bool:
    return any(person.kind is Kind.GUEST for person in home.people)


def _names_a_child(note: str, home: Household) -> bool:
    """True where a note has the given name of a child who stands in the list beside it.

    Not of a thing: "Ida gets her own meal".
    """
    said = set(fold(note).split())
    if said & (row_words("thing") | row_words("asked-thing")):
        return False
    return any(p.kind is Kind.CHILD and p.given and fold(p.given) in said for p in home.people)


def _has_children(home: Household) -> bool:
    named = home.label is not None or home.family is not None
    return named or any(person.kind is Kind.CHILD for person in home.people)


def _leaves_out(note: str, home: Household) -> bool:
    """True for "Odile only", "no Odile" and "Odile first" of one of several who are named.

    >>> from addressing.records.guests import Person
    >>> pair = (Person(given="Odile"), Person(given="Tobias"))
    >>> _leaves_out("Odile only please", Household("h-aaaaaaaa", pair))
    True
    """
    givens = [re.escape(person.given) for person in home.people if person.given]
    if len(givens) < _PAIR:
        return False
    names = "|".join(givens)
    before = r"(?:only|just|no|not|without|minus|w/o)"
    alone = rf"\b(?:{names})\s+(?:only|first)\b|\b{before}\s+(?:{names})\b"
    return re.search(alone, note, re.IGNORECASE) is not None


def _names_somebody(note: str, home: Household) -> bool:
    """True where the note names a companion whom the household lacks."""
    known = {
        word for p in home.people for word in fold(f"{p.given or ''} {p.family or ''}").split()
    }
    for found in _companions().finditer(note):
        said = fold(found["name"] or found["next"]).split()
        if said and said[0] not in words_of_kind("no-name") and not known.issuperset(said):
            return True
    return False


def _titled(note: str, home: Household) -> bool:
    """True before a title ("prefers Mrs. Carl Penhew"), unless they are listed so already."""
    listed = _listed(home)
    for found in note_words("titled").finditer(note):
        behind = re.split(r"[,;!?()]", note[found.end() :])[0].split()
        title = known_title(behind[0]) if behind else None
        if title is None or title.also_a_name or not behind[0][:1].isupper():
            continue
        wanted = {fold(word) for word in behind if word[:1].isupper()}
        if not listed.issuperset(wanted):
            return True
    return False


def _listed(home: Household) -> set[str]:
    """The folded words of all titles and names of a household."""
    parts = (part for p in home.people for part in (p.title, p.given, p.family) if part)
    return {word for part in parts for word in fold(part).split()}


def _is_titled_name(note: str, home: Household) -> bool:
    """True for "Mrs. Harold – widow": a title and a name that the household doesn't have so."""
    said = re.split(r"\s[-–—]\s|[,;:!?()/]", note)[0].split()
    titles, names = take_titles(said)
    title = known_title(said[0]) if titles else None
    kin = title is not None and title.group == "kin"  # "Aunt Teddy" is what they call her
    if not titles or kin or not names or not all(CAPITAL.fullmatch(name) for name in names):
        return False
    written = said[: len(said) - len(names)]
    return not _listed(home).issuperset(fold(word) for word in (*names, *written))


@cache
def _companions() -> re.Pattern[str]:
    behind = _NAME.replace("<name>", "<next>")
    return re.compile(
        rf"{ways('companion')}{_JOINT}{_NAME}"
        rf"|(?:{ways('companion', 'at once')}\.?\s+|^(?:&\s*|and\s+)){behind}"  # "& Lois."
    )
