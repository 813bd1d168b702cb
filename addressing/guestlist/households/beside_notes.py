"""What a household's notes name is asked about once, with what its names lack."""

import re
from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.people.noted_children import children_named, named_beside
from addressing.guestlist.people.vocabulary import may_be_given, words
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind

_FAMILY, _COMPANION, _PARTNER = "family-unnamed", "guest-unnamed", "partner-unnamed"
_NOTES = frozenset(("remark", "cell-note", "name-noted", "note-open"))
"""What may name the children."""
_DOUBT = "name-doubtful"
_SEVERAL = re.compile(r"“[^“”(:]*(?:\(|:\s|\s[-–—]\s)[^“”]*[^\W\d_][^“”]*(?:,|&|\+|\band\b)[^“”]*”")
"""Several names in brackets, or behind a dash or colon, at the end of what is quoted."""
_OF_COMPANION = frozenset(("name-noted", "note-open", "guest-noted"))
"""What may be about the companion."""


def asked_once(
    found: tuple[Finding, ...], about: tuple[Finding, ...], household: Household
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """(what the rows say, what the household lacks), with no two questions of one matter.

    Of a family whose children a note names is asked with that note, and of children alone too; a
    companion of whom a note speaks isn't asked about a second time. Nor is a family whose members
    stand beside it ("The Orrs (Kit, Ada and Bo)"), since how they are named is asked.
    """
    if any(each.code == _DOUBT and _SEVERAL.search(each.text) for each in found):
        about = tuple(each for each in about if each.code != _FAMILY)
    note = _naming_children(found, household)
    if note is not None:
        found = tuple(each for each in found if each is not note)
        family = next((each for each in about if each.code == _FAMILY), None)
        if family is None:
            found = (*found, _children_noted(note))
        else:
            asked = _with_note(family, note)
            about = tuple(asked if each is family else each for each in about)
    if any(each.code in _OF_COMPANION and _says_companion(each, household) for each in found):
        about = tuple(each for each in about if each.code != _COMPANION)
        found = tuple(each for each in found if each.code != _PARTNER)
    note = next((each for each in found if each.code == "remark" and _names(each, household)), None)
    if note is not None:
        about = tuple(_quoting(each, note) if each.code == _COMPANION else each for each in about)
    return found, about


def _quoting(found: Finding, note: Finding) -> Finding:
    """The question for a companion's name, with the note that perhaps has it."""
    return replace(found, quoted=note.quoted) if len(found.people) == 1 else found


def _naming_children(found: Sequence[Finding], household: Household) -> Finding | None:
    """The note that names children, or others beside two, whom the household lacks."""
    for each in found:
        noted = named_beside(each.quoted) if each.code in _NOTES else None
        if noted is None or {fold(name) for name in noted.given} <= _listed(household):
            continue
        if noted.young or len(noted.given) > 1 or not _is_alone(household):
            return each
    return None


def _listed(household: Household) -> set[str]:
    """The words of a household's names, folded."""
    names = " ".join(f"{p.given or ''} {p.family or ''}" for p in household.people)
    return set(fold(names).split())


def _is_alone(household: Household) -> bool:
    """True for one person, with a guest or without: a name beside may be the companion's."""
    return sum(person.kind is Kind.NAMED for person in household.people) == 1


def _children_noted(note: Finding) -> Finding:
    noted = named_beside(note.quoted)
    text, mend = f"The list says: “{note.quoted}”.", "Who is invited by name?"
    asked = finding("children-noted", note.where, text, mend, note.quoted)
    if noted is None:
        return asked
    likely = (("children", noted.names),)
    return replace(asked, likely=likely if noted.young else (*likely, ("along", noted.names)))


def _with_note(family: Finding, note: Finding) -> Finding:
    names = children_named(note.quoted)
    text = f"{family.text.rstrip('.')} but for the note “{note.quoted}”."
    asked = replace(family, text=text, quoted=note.quoted, also=(note.where,))
    return replace(asked, likely=(("children", names),))


def _says_companion(found: Finding, household: Household) -> bool:
    """True for a note on who comes along with one person."""
    named = [person for person in household.people if person.kind is Kind.NAMED]
    of_guest = not words("guest").isdisjoint(fold(found.quoted).split())
    return len(named) == 1 and (of_guest or _names(found, household))


def _names(found: Finding, household: Household) -> bool:
    """True where a note has a given name that nobody of the household bears."""
    own = {fold(word) for p in household.people for word in f"{p.given} {p.family}".split()}
    said = (word.strip("?!.,;:()&+") for word in found.quoted.split())
    return any(word[:1].isupper() and may_be_given(word) and fold(word) not in own for word in said)
