"""Names typed all in capitals or all in small letters, set as names are: a matter of style.

A mixed-case name is never touched. What capitals hide (McKay or Mckay, van or Van) is asked about.
"""

import re
from functools import cache

from addressing.tables import table

_NUMERALS = frozenset(("II", "III", "IV", "VI", "VII", "VIII"))
_UNSURE = re.compile(
    r"^(?:MC|MAC|O['’]|D['’]|L['’]|VAN|VON|DE|DER|DEN|DI|DA|DU|LA|LE|ST\.?)", re.IGNORECASE
)
_SMALL = frozenset(
    ("van", "von", "der", "den", "de", "di", "da", "du", "del", "la", "le", "y", "and", "of", "the")
)
_LEAST = 2
"""Letters from which on a word without small ones counts as typed in capitals."""


def is_single_case(text: str) -> bool:
    """True when a text has letters and all of them are capitals, or all small.

    Scripts without capitals have no case: never true of Hebrew, Arabic or Chinese alone, nor of
    Georgian, whose capitals set whole lines and begin no name (Unicode 16.0, 7.7,
    from memory).

    >>> [is_single_case(text) for text in ("PENHEW", "Penhew", "דן כהן", "ნინო")]
    [True, False, False, False]
    """
    if text.isascii() and text.upper() != text != text.lower():
        return False  # most names: no letter need be looked at
    if not any(mark.lower() != mark.title() or mark.isupper() for mark in text):
        return False
    letters = [mark for mark in text if mark.isalpha()]
    longest = max((len(word) for word in re.findall(r"[^\W\d_]+", text)), default=0)
    if longest <= _LEAST:
        return False
    capitals = all(not mark.islower() for mark in letters)
    return capitals or all(not mark.isupper() for mark in letters)


def recase(text: str, *, particle_first: bool = False) -> str:
    """A name in capitals and small letters: "BARNABY O'FARRELLY III" is Barnaby O'Farrelly III.

    With `particle_first` the first of several words may be a particle: "VAN DER LARKMOOR" alone.

    >>> recase("LUDO VAN DER LARKMOOR-MCKAY")
    'Ludo van der Larkmoor-McKay'
    """
    words = text.split(" ")
    particle = particle_first and len(words) > 1
    return " ".join(
        _word(word, first=place == 0 and not particle) for place, word in enumerate(words)
    )


def is_unsure(text: str) -> bool:
    """True when a name in one case hides where its capitals stand."""
    return any(_UNSURE.match(word) for word in re.split(r"[ \-]", text))


def _word(word: str, *, first: bool) -> str:
    if word.upper() in _NUMERALS:
        return word.upper()
    letters = _letters_of_companies().get(word.casefold().rstrip(".,"))
    if letters is not None:
        return letters + word[len(letters) :]
    if word.casefold() in _SMALL and not first:
        return word.casefold()
    return "-".join(_part(part) for part in word.split("-"))


@cache
def _letters_of_companies() -> dict[str, str]:
    """LLC, GmbH and their like, by their small letters."""
    rows = (row for row in table("name_words") if row["kind"] == "company" and row["means"])
    return {row["word"]: row["means"] for row in rows}


def _part(part: str) -> str:
    low = part.casefold() if part.isupper() else part
    plain = low[:1].title() + low[1:]  # Georgian letters stay as they are
    if re.match(r"^[ODLodl]['’]\w", low):
        return low[0].upper() + low[1] + low[2:3].upper() + low[3:]
    if re.match(r"^mc\w{2}", low):
        return "Mc" + low[2:3].upper() + low[3:]
    return plain


def cased(text: str | None) -> str | None:
    """A name typed in one case as names are set; a mixed-case name as it is."""
    return recase(text) if text and is_single_case(text) else text
