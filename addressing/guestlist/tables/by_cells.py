"""Columns whose headers may mean several things: "Adults", "Salutation", "Invites", "Ort".

"Adults" over 2, 2, 1 counts them, over "Paul & Jenna" it names them; what stands below decides. A
"Household" beside first names is the family's name, a "Salutation" beside names a wording.
"""

import re
from collections.abc import Iterable, Sequence

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Row
from addressing.guestlist.people.names import take_titles
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.tables.claims import Draft, asks_who_is_invited
from addressing.guestlist.tables.contents import STRONG
from addressing.guestlist.tables.meanings import Hit
from addressing.guestlist.tables.meanings import fold as fold_header

_JOINT = re.compile(r"\s*(?:[&+/;,\n]|(?<!\S)(?:and|und|et|y)(?!\S))\s*", re.IGNORECASE)
_BRACKET = re.compile(r"\s*\([^()]*\)")
_FULL = 2
"""Words of a full name."""
_ONCE = 0.8
"""The part of the households' names that stand once each, at least."""
_FEW = 0.4
"""The part of the cells that may name somebody in full among first names."""
_MEMBERS = frozenset(
    {"members", "household members", "family members", "names", "people", "guests"}
)
_NAMING = frozenset({"name", "given"})
_GREETINGS = frozenset({"salutation", "salutations", "greeting", "anrede"})


def settle_by_cells(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Give such columns the meaning that their cells tell."""
    _settle_adults(drafts, rows)
    _settle_greetings(drafts, rows)
    _settle_invites(drafts, rows)
    _settle_towns(drafts)


def _settle_towns(drafts: Sequence[Draft]) -> None:
    """Take "Ort" over "6020 Innsbruck" for the place line, where no column has the postcodes."""
    known = _known([draft for draft in drafts if draft.filled])
    for draft in drafts:
        places = draft.shares.get("place", 0.0) >= STRONG
        if _may_be(draft, "city") and places and not known & {"place", "postcode"}:
            draft.take(Hit("place"), "header")


def _settle_invites(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Take "Invites" over 1, 2, 2 for how many are invited; with a 0 it may say who is not."""
    for draft in drafts:
        if not _may_be(draft, "name") or not asks_who_is_invited(draft.header):
            continue
        if all(text.isdecimal() and int(text) > 0 for text in _texts(rows, draft.index)):
            draft.take(Hit("invited_count"), "header")


def _settle_adults(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Take "Adults" for names, and the household's column beside first names for the family's."""
    counts = [draft for draft in drafts if _may_be(draft, "adult_count")]
    adults = next((d for d in counts if _says_words(_texts(rows, d.index))), None)
    if adults is not None and not _known(drafts) & _NAMING:
        whole = _share(_is_whole(text) for text in _texts(rows, adults.index)) >= STRONG
        adults.take(Hit("name" if whole else "given"), "header")
    _settle_members(drafts, rows)
    household = next((d for d in drafts if _may_be(d, "household")), None)
    if household is None or _known(drafts) & {"given", "name", "family"} != {"given"}:
        return
    texts = _texts(rows, household.index)
    once = len({fold(text) for text in texts}) >= _ONCE * len(texts)  # else it gathers rows
    if once and _says_words(texts):
        household.take(Hit("family"), "header")


def _settle_members(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Take "Members" over "Wes, Lena" beside a household's name for first names."""
    members = [d for d in drafts if _may_be(d, "name") and fold_header(d.header) in _MEMBERS]
    beside = any(_may_be(draft, "household") for draft in drafts)
    for draft in members if beside and not _known(drafts) & {"given", "family"} else ():
        texts = _texts(rows, draft.index)
        if _says_words(texts) and _share(map(_is_whole, texts)) < _FEW:
            draft.take(Hit("given"), "header")


def _known(drafts: Sequence[Draft]) -> set[str]:
    """What the first person's columns mean; names for the envelope are beside the usual ones."""
    hits = [draft.hit for draft in drafts if draft.hit and draft.hit.ordinal == 1]
    return {hit.meaning for hit in hits if hit.meaning != "name" or hit.rank == 1}


def _settle_greetings(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Take "Salutation" over "Mr. and Mrs. Vale" for what the envelope says, not for a title."""
    for draft in drafts:
        if not _may_be(draft, "title") or fold_header(draft.header) not in _GREETINGS:
            continue
        texts = _texts(rows, draft.index)
        if _share(bool(_own(text)) for text in texts) < STRONG:
            continue
        named = _names_beside(drafts)
        full = _share(len(_own(text)) >= _FULL for text in texts) >= STRONG
        beside = "outer" if full else "greeting"
        draft.take(Hit(beside if named else "name"), "header")


def _names_beside(drafts: Sequence[Draft]) -> bool:
    """True where another column names the guests; so does one of whole names under "Guest"."""
    if _known([draft for draft in drafts if draft.filled]) & _NAMING:
        return True
    guests = [d for d in drafts if _may_be(d, "guest") and d.shares.get("name", 0.0) >= STRONG]
    for draft in guests[:1]:
        draft.take(Hit("name"), "header")
    return bool(guests)


def _may_be(draft: Draft, meaning: str) -> bool:
    hit = draft.hit
    return draft.filled and draft.how == "header" and hit is not None and hit.meaning == meaning


def _texts(rows: Sequence[Row], index: int) -> list[str]:
    """The words that stand in a column itself, not what a merged range brings to its cells."""
    held = (row.held[index] for row in rows if index < len(row.held))
    cells = (cell for cell in held if cell is not None and (isinstance(cell, str) or cell.filled))
    return [text for cell in cells if (text := cell if isinstance(cell, str) else cell.text)]


def _share(told: Iterable[bool]) -> float:
    found = list(told)
    return sum(found) / len(found) if found else 0.0


def _says_words(texts: Sequence[str]) -> bool:
    """True for a column of words that begin with capitals, not of numbers and marks."""
    marks = words("yes") | words("no")
    return _share(text[:1].isupper() and fold(text) not in marks for text in texts) >= STRONG


def _own(text: str) -> list[str]:
    """The words of the last who is named in a cell, without titles."""
    parts = [part for part in _JOINT.split(_BRACKET.sub("", text)) if part]
    return take_titles(parts[-1].split())[1] if parts else []


def _is_whole(text: str) -> bool:
    """True for "Paul & Jenna Ashby" and "Minh Nguyen", not for "Paul & Jenna"."""
    return len(_own(text)) >= _FULL
