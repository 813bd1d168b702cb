"""Names typed all in capitals or all in small letters, set as names are: a matter of style.

A mixed-case name is never touched. What capitals hide (McKay or Mckay, van or Van) is asked about.
"""

import re
from collections.abc import Iterator
from functools import cache, lru_cache

from addressing.tables import table

_NUMERALS = frozenset(("II", "III", "IV", "VI", "VII", "VIII"))
_NAME = re.compile(
    r"(?:qu|ch|ph|sh|th|s?[ptckbdgf][lr]|s[cklmnpqtw]|[b-df-hj-np-tv-z])[aeiouy]\w{2}"
)
"""How a name begins that may stand behind an article: a consonant or two, a vowel, two letters."""
_JOINED = 3
"""Letters of a name behind Mac, Fitz and their like."""
_SMALL = frozenset(
    ("van", "von", "der", "den", "de", "di", "da", "du", "del", "la", "le", "y", "and", "of", "the")
)
NAMES_KEPT = 8192
"""Names remembered: given names recur, and each is asked for several times."""
_LEAST = 2
"""Letters from which on a word without small ones counts as typed in capitals."""


_TOLD = re.compile(r"\b(?P<begins>Ma?c|Fitz|De|Del|Di|Du|La|Le|Van)(?P<rest>[A-ZÀ-Ý]{3,})\b")
"""Capitals that tell where the second one stands by the small letters before it: "McKAY"."""


def is_single_case(text: str) -> bool:
    """True when a text has letters and all of them are capitals, or all small.

    Scripts without capitals have no case: never true of Hebrew, Arabic or Chinese alone, nor of
    Georgian, whose capitals set whole lines and begin no name (Unicode 16.0, 7.7,
    from memory).

    >>> [is_single_case(text) for text in ("PENHEW", "McPENHEW", "Penhew", "דן כהן", "ნინო")]
    [True, True, False, False, False]
    >>> [is_single_case(text) for text in ("jo", "JJ")]
    [True, False]
    """
    if text.isascii() and text[-1:].islower() and not text.islower():
        return False  # most names: a small letter at the end is in no word of capitals
    text = _TOLD.sub(lambda found: found[0].upper(), text)
    if text.isascii() and not (text.isupper() or text.islower()):
        return False  # most names: no letter need be looked at
    if not any(mark.lower() != mark.title() or mark.isupper() for mark in text):
        return False
    letters = [mark for mark in text if mark.isalpha()]
    longest = max((len(word) for word in re.findall(r"[^\W\d_]+", text)), default=0)
    if longest < _LEAST or (longest == _LEAST and not text.islower()):
        return False  # "JJ" may be initials, "jo" is a name
    capitals = all(not mark.islower() for mark in letters)
    return capitals or all(not mark.isupper() for mark in letters)


def recase(text: str, *, particle_first: bool = False) -> str:
    """A name in capitals and small letters: "BARNABY O'FARRELLY III" is Barnaby O'Farrelly III.

    With `particle_first` the first of several words may be a particle: "VAN DER LARKMOOR" alone.

    >>> recase("LUDO VAN DER LARKMOOR-MCKAY"), recase("MacKAY")
    ('Ludo van der Larkmoor-McKay', 'MacKay')
    """
    words = text.split(" ")
    particle = particle_first and len(words) > 1
    return " ".join(
        _word(word, first=place == 0 and not particle) for place, word in enumerate(words)
    )


def is_unsure(text: str) -> bool:
    """True when a name in one case hides where its capitals stand (data/capital_words.tsv).

    >>> [is_unsure(name) for name in ("MCLARKMOOR", "DE LARKMOOR", "LEBRUNNE", "LEWIS", "DAVID")]
    [True, True, True, False, False]
    """
    hidden = (word for word in re.split(r"[ \-]", text) if not _TOLD.fullmatch(word))
    return any(_hides(word.casefold().strip(".,")) for word in hidden)


def _hides(word: str) -> bool:
    """True for a word in small letters that may bear a second capital, or none."""
    known = _capital_words()
    mark, apostrophe, behind = word.replace("’", "'").partition("'")
    if word in known["particle"] or (apostrophe and behind and mark in known["mark"]):
        return True
    if any(rest in known["behind"] for rest in _rests(word, "double")):
        return True
    if word in known["plain"] or word in _given_names():
        return False
    joined = any(len(rest) >= _JOINED for rest in _rests(word, "joined"))
    return joined or any(_NAME.match(rest) for rest in _rests(word, "article"))


def _rests(word: str, kind: str) -> Iterator[str]:
    """What stands behind each beginning of a kind that a word has."""
    return (word.removeprefix(each) for each in _capital_words()[kind] if word.startswith(each))


@cache
def _capital_words() -> dict[str, tuple[str, ...]]:
    """The words of each kind in capital_words.tsv."""
    found: dict[str, tuple[str, ...]] = {}
    for row in table("capital_words"):
        found[row["kind"]] = (*found.get(row["kind"], ()), row["word"])
    return found


@cache
def _given_names() -> frozenset[str]:
    """Given names that are known, in small letters."""
    men = (name for row in table("mens_names") for name in row["names"].split())
    forms = (row[key] for row in table("name_forms") for key in ("one", "other"))
    return frozenset((*(row["name"] for row in table("given_names")), *men, *forms))


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
    told = _TOLD.fullmatch(part)
    if told is not None:
        return told["begins"] + told["rest"].title()
    low = part.casefold() if part.isupper() else part
    plain = low[:1].title() + low[1:]  # Georgian letters stay as they are
    if re.match(r"^[ODLodl]['’]\w", low):
        return low[0].upper() + low[1] + low[2:3].upper() + low[3:]
    if re.match(r"^mc\w{2}", low):
        return "Mc" + low[2:3].upper() + low[3:]
    return plain


def cased_firm(text: str) -> str:
    """A firm or building typed in one case; letters that spell no word stay capitals.

    >>> cased_firm("LARKMOOR BBQ CO."), cased_firm("THE ST JOHN HALL"), cased_firm("Larkmoor LLC")
    ('Larkmoor BBQ Co.', 'The St John Hall', 'Larkmoor LLC')
    """
    if not is_single_case(text):
        return text
    set_so = recase(text).split(" ")
    pairs = zip(set_so, text.split(" "), strict=True)
    return " ".join(word if _spells(word) else was for word, was in pairs)


def hides_letters(text: str) -> bool:
    """True for a firm in capitals with a short word that may be letters: IBM, but not THE.

    >>> [hides_letters(each) for each in ("IBM CORP.", "THE LARKMOOR CO.", "Larkmoor IBM")]
    [True, False, False]
    """
    words = [word.strip(".,&'") for word in text.split() if is_single_case(text) and text.isupper()]
    return any(1 < len(word) <= _LETTERS and not _is_known(word.casefold()) for word in words)


def _is_known(word: str) -> bool:
    known = word in _SMALL or word in _capital_words()["short"] or word in _given_names()
    return known or word in _company_words() or not _spells(word)


def _spells(word: str) -> bool:
    """False for two to four consonants that are no short form: BBQ, but not St. or Mr."""
    plain = word.strip(".,").casefold()
    return _CONSONANTS.fullmatch(plain) is None or plain in _capital_words()["short"]


@cache
def _company_words() -> frozenset[str]:
    rows = (row for row in table("name_words") if row["kind"].startswith("company"))
    return frozenset(row["word"] for row in rows)


_CONSONANTS = re.compile(r"[bcdfghjklmnpqrstvwxz]{2,4}")
_LETTERS = 3
"""Letters of a word that may stand for as many words."""


@lru_cache(NAMES_KEPT)
def cased(text: str | None) -> str | None:
    """A name typed in one case as names are set; a mixed-case name as it is."""
    return recase(text) if text and is_single_case(text) else text
