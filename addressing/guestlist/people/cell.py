"""A cell of names becomes people: who stands in it, joined how, and what is in doubt.

The cell is cleared of remarks, cut at what joins people, each part read by itself, then titles and
family names are shared as lists do ("Mr. and Mrs. Tobias Wexcombe", "Linnet and Corwin Wexcombe").
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.building import settle_families
from addressing.guestlist.people.called import unlike_himself, with_her_name, with_nicknames
from addressing.guestlist.people.dashes import comma_for_dash
from addressing.guestlist.people.doubtful import (
    about_brackets,
    about_count,
    about_label,
    about_names,
)
from addressing.guestlist.people.family_before import with_family_behind
from addressing.guestlist.people.givens import settle_order
from addressing.guestlist.people.kin import without_kin
from addressing.guestlist.people.names import GLUE, take_titles
from addressing.guestlist.people.particles import particles_first
from addressing.guestlist.people.parts import Doubt, Part, cut
from addressing.guestlist.people.remarks import clear_remarks
from addressing.guestlist.people.respelled import respelled
from addressing.guestlist.people.settled import turned_suffix
from addressing.guestlist.people.sharing import share
from addressing.guestlist.people.unborn import without_unborn
from addressing.guestlist.people.vocabulary import may_be_given, mens_names, partner_words, words
from addressing.records.guests import Kind, Person
from addressing.records.swiftly import swiftly

_FAMILY_LABEL = re.compile(
    rf"^(?:the\s+)?(?:[\w'’.\-{GLUE}]+\s+){{1,4}}(?:family|fam\.?|household|residence|clan|crew)$"
    rf"|^(?:the\s+)?(?:family|fam\.?|familie|famille|familia|famiglia)\s+[\w'’.\- {GLUE}]+$"
    rf"|^the\s+[\w'’\-{GLUE}]+s$",
    re.IGNORECASE,
)
_ARTICLE_BEHIND = re.compile(r"^(.+\bfamily),\s*the$", re.IGNORECASE)
_FAMILY_MEMBERS = re.compile(
    r"^(?P<label>[^:(]*?\b(?:family|fam\.?)|the\s[\w'’\-]+s)"
    r"(?:\s*(?::|\s[-–—])\s*(?P<members>\S.*)|\s*\((?P<inside>.*\(.*\).*)\))$",
    re.IGNORECASE | re.DOTALL,
)
_AGE = re.compile(r"\s*\((\d{1,2})\)")
_MARKED = re.compile("⟨[#%=]?([^⟩]*)⟩")
_WHOLE = ("name-doubtful", "name-order-doubtful", "family-name-doubtful", "lone-name-doubtful")
"""Doubts about the cell as a whole."""
_LEAST_COMPANY = 3
_OLDEST = 17
"""Years of a child at most."""
"""Words from which on a weak company word ("Choir") names a company and not a person."""


@swiftly
@dataclass(frozen=True, slots=True)
class CellReading:
    """What a cell of names says; people have no cells yet."""

    people: tuple[Person, ...] = ()
    label: str | None = None
    family: str | None = None
    remarks: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


@lru_cache(maxsize=4_096)  # given names in columns of their own are mostly the same few (measured)
def read_people(text: str, *, family_first: bool | None = False) -> CellReading:
    """The people in one cell of names.

    `family_first` says that this column writes "Wexcombe, Tobias"; without it such a cell is
    read so too, but asked about. None says that no cell of this column is ever read so (children).

    >>> [(p.title, p.given, p.family) for p in read_people("Mr. & Mrs. Tobias Wexcombe").people]
    [('Mr.', 'Tobias', 'Wexcombe'), ('Mrs.', None, 'Wexcombe')]
    """
    text, unborn = without_unborn(text)
    listed, turned = " ".join(text.split()), False
    if family_first is not None:
        behind = with_family_behind(text, family_first=family_first)
        turned, text = behind != text, behind
    text = respelled(text, family_first=family_first)
    text = without_kin(text, alone=family_first is None)
    written = particles_first(_ARTICLE_BEHIND.sub(r"The \1", text))
    written = _FAMILY_MEMBERS.sub(_with_members, written)
    dashed = written
    if family_first is not None:
        written = comma_for_dash(written, trusted=family_first)
    cleared = clear_remarks(written)
    cleared = replace(cleared, remarks=(*cleared.remarks, *unborn))
    plain = " ".join(_MARKED.sub("", cleared.text).split())
    label = _label(plain)
    if label is not None:
        family = label if _is_family(plain) else None
        beside = tuple(_MARKED.findall(cleared.text))  # a family has no nickname and no age
        remarks = (*cleared.remarks, *beside)
        doubts = about_label(text, remarks)
        return CellReading(label=label, family=family, remarks=remarks, doubts=doubts)
    parts, order = cut(cleared.text, family_first=family_first)
    if family_first is not None and "," not in cleared.text:
        parts, order = settle_order(parts)
    built: tuple[Doubt, ...] = ()
    if family_first is not None:
        parts, built = settle_families(parts)
        built = (*built, *turned_suffix(parts, cleared.text))
    family = " ".join(dict.fromkeys(part.family_word for part in parts if part.family_word)) or None
    people, shared = share(tuple(part for part in parts if not part.family_word))
    people, remarks = with_nicknames(people, cleared.remarks)
    people, hers = with_her_name(people, text)
    odd = about_names(text, cleared.text, remarks, people)
    if family_first is not None:
        odd = odd or about_count(text, people) or about_brackets(text, people)
        odd = odd or _only_initials(text, people)
    odd = odd or _partner_without_name(text, people)
    odd = odd or _hers_or_his(text, people) or _wife_first(text, people)
    odd = odd or _endings_of_nobody(text, parts) or _of_another_family(text, people)
    if (dashed != written or turned) and not family_first:
        odd = odd or (Doubt("name-order-doubtful", listed if turned else " ".join(text.split())),)
    named = (Doubt("partner-in-brackets", hers),) if hers else ()
    doubts = _foremost((*odd, *order, *built, *shared, *named))
    return CellReading(_with_ages(people), None, family, remarks, doubts)


def _with_members(found: re.Match[str]) -> str:
    """A family with its members in brackets, their ages without brackets of their own."""
    members = _AGE.sub(r" \1", found["members"] or found["inside"])
    return f"{found['label']} ({members})"


def _with_ages(people: tuple[Person, ...]) -> tuple[Person, ...]:
    """A number behind a child's name is the child's age, not another child ("Rosie, 6")."""
    made: list[Person] = []
    for person in people:
        age = person.given if person.title is None and (person.given or "").isdecimal() else None
        child = made[-1] if made and made[-1].kind is Kind.CHILD else None
        if age is None or child is None or child.age is not None or int(age) > _OLDEST:
            made.append(person)
        else:
            made[-1] = replace(child, age=int(age))
    return tuple(made)


def _only_initials(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """Somebody whose family name is one letter, and no numeral: the list has it shortened."""
    letters = (fold(p.family or "") for p in people if p.kind is Kind.NAMED)
    short = any(len(letter) == 1 and letter.isalpha() and letter not in "ivx" for letter in letters)
    return (Doubt("name-doubtful", " ".join(text.split())),) if short else ()


def _wife_first(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """Of "Mr. & Mrs. Beverly & Arlo Penhew" the second name is a man's and the first none."""
    if [person.title for person in people] != ["Mr.", "Mrs."]:
        return ()
    his, hers = (fold(person.given or "").split()[:1] for person in people)
    turned = his and hers and hers[0] in mens_names() and his[0] not in mens_names()
    return (Doubt("name-doubtful", " ".join(text.split())),) if turned else ()


def _partner_without_name(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """A wife or husband stands in the cell, and nobody's name for her or him."""
    unnamed = any(person.kind is Kind.GUEST and not person.given for person in people)
    if not unnamed or partner_words().isdisjoint(fold(text).split()):
        return ()
    return (Doubt("partner-unnamed", text),)


def _endings_of_nobody(text: str, parts: Iterable[Part]) -> tuple[Doubt, ...]:
    """Letters behind somebody without a name ("Kit Orr and guest, MD"): whose are they?"""
    endings = (
        part.names.suffix or part.names.credentials
        for part in parts
        if part.kind is not Kind.NAMED and not part.names.names
    )
    return (Doubt("name-doubtful", text),) if any(endings) else ()


def _of_another_family(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """A flatmate or nanny by a first name alone beside others, whose family name is lent."""
    lent = [p.given for p in people if p.given and p.family] if len(people) > 1 else []
    said = "|".join(map(re.escape, sorted(words("unrelated"))))
    for given in lent:
        alone = rf"(?<!\w){re.escape(given)}\s*[(\[]\s*(?:\w+['’]?s?\s+)?(?:{said})\s*[)\]]"
        if re.search(rf"{alone}\s*(?:$|[&+,/;\n]|and\b)", text, re.IGNORECASE):
            return (Doubt("name-doubtful", " ".join(text.split())),)
    return ()


def _hers_or_his(text: str, people: tuple[Person, ...]) -> tuple[Doubt, ...]:
    """What quotes give him he is called; what brackets give may be her name."""
    him = unlike_himself(people)
    bracket = him is not None and re.search(rf"\(\s*{re.escape(him.nickname or '')}\s*\)", text)
    return (Doubt("name-doubtful", text),) if bracket else ()


def _foremost(doubts: tuple[Doubt, ...]) -> tuple[Doubt, ...]:
    """One question for a cell that can't be read as it stands: its answer settles the rest."""
    whole = next((doubt for doubt in doubts if doubt.code in _WHOLE), None)
    return (whole,) if whole else doubts


def _label(text: str) -> str | None:
    """A household that names nobody: a family, a company, a society; else None."""
    plain = text.replace(GLUE, " ")
    titled, rest = take_titles(text.split())
    if titled or not rest:
        return None
    if _is_family(text):
        return plain
    folded = [fold(word) for word in rest]
    if len(folded) > 1 and any(word in words("company") for word in folded):
        return plain
    if len(folded) >= _LEAST_COMPANY and folded[-1] in words("company-last"):
        return plain
    if _is_of_kin(rest):
        return plain
    owned = any(word.endswith(("'s", "’s")) for word in rest)
    weak = len(folded) >= _LEAST_COMPANY and any(word in words("company-weak") for word in folded)
    return plain if weak and (folded[0] == "the" or "of" in folded or owned) else None


def _is_of_kin(words_said: list[str]) -> bool:
    """True for the firm "Larkmoor & Sons": one name, no given name, and the kin in capitals."""
    if len(words_said) != _LEAST_COMPANY or words_said[1] not in ("&", "and"):
        return False
    name, _, kin = words_said
    return kin.istitle() and fold(kin) in words("company-kin") and not may_be_given(name)


def _is_family(text: str) -> bool:
    """True for "The Wexcombe Family"; "Tobias Wexcombe and Family" names somebody."""
    if not _FAMILY_LABEL.match(text):
        return False
    *_, before, last = ["", *text.split()]
    return fold(last) not in words("family") or fold(before) not in words("and")
