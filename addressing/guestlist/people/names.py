"""One person's words: title, given names, family name with its particles, suffix, credentials."""

import re
from dataclasses import dataclass
from functools import lru_cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import LONGEST_TITLE, Title, meanings, titles, words

GLUE = "\u2060"
"""Stands for a blank inside a family name that a column of its own keeps together."""

GIVEN_GLUE = "\u2063"
"""Stands for a blank between two given names that are known to be such."""

LEAST_NAMES_BEFORE_LETTERS = 2
"""Without a comma, letters count as a credential only behind a given and a family name."""


@dataclass(frozen=True, slots=True)
class NameParts:
    """One part of a name cell, between two connecting words.

    `titles` are those that stand before the names; `names` are the words left.
    """

    titles: tuple[Title | str, ...] = ()
    names: tuple[str, ...] = ()
    suffix: str | None = None
    credentials: tuple[str, ...] = ()
    nickname: str | None = None
    age: int | None = None


_EVERYDAY = frozenset({"civil", "doctor"})
"""Groups of titles that stand with no office, rank or order behind them."""


_LETTERS_APART = re.compile(r"[A-Z](?:(?:\.\s?|\s)[A-Z])+\.?|[a-z](?:\.[a-z])+\.?")
"""Initials that would be a title without their points or blanks: "M.R.", "D. R.", "L T"."""


def take_titles(tokens: list[str]) -> tuple[tuple[Title | str, ...], list[str]]:
    """Take the titles off the front; the longest form wins ("The Right Reverend").

    A title that is also a name ("Dean Penhew") counts as one only before two or more words, and
    never behind an everyday title ("Mr. Dean Penhew").
    """
    taken: list[Title] = []
    while tokens:
        match = _longest_title(tokens, taken[-1] if taken else None)
        if match is None:
            break
        title, length = match
        taken.append(title)
        tokens = tokens[length:]
    return tuple(taken), tokens


def _longest_title(tokens: list[str], before: Title | None) -> tuple[Title, int] | None:
    for length in range(min(LONGEST_TITLE, len(tokens)), 0, -1):
        title = known_title(" ".join(tokens[:length]))
        if title is None:
            continue
        if title.also_a_name and _is_name(title, tokens[length - 1], before, len(tokens) - length):
            continue
        return title, length
    return None


def _is_name(title: Title, written: str, before: Title | None, left: int) -> bool:
    """True for "Dean" in "Dean Penhew" and "Mr. Dean Penhew", not in "The Very Rev. Dean Penhew".

    `left` is how many words follow; a shortened word ("Gen.", "MM.") is no name.
    """
    if written.endswith("."):
        return False
    if before is None:
        return left == 1
    return before.group in _EVERYDAY and title.group not in _EVERYDAY


@lru_cache(maxsize=16_384)  # some sixteen times a cell (measured)
def known_title(words_of_it: str) -> Title | None:
    """The title that these words are, by their capitals where the table tells forms apart by them.

    >>> known_title("SrA").canonical, known_title("Sra.").canonical
    ('Senior Airman', 'Señora')
    >>> known_title("M.R.") is None  # somebody's initials
    True
    """
    if _LETTERS_APART.fullmatch(words_of_it):
        return None
    exact = titles().get(words_of_it.replace(".", ""))
    return exact or titles().get(fold(words_of_it))


def take_endings(
    tokens: list[str], *, after_comma: bool, titled: bool = False
) -> tuple[list[str], str | None, tuple[str, ...]]:
    """Take suffix and credentials off the end: (words left, suffix, credentials).

    `after_comma` says that the words stood behind a comma, where letters such as MA can hardly be
    a name; `titled` that a title stands in front ("Dr. Wexcombe MD").
    """
    least = LEAST_NAMES_BEFORE_LETTERS - titled
    suffix: str | None = None
    credentials: list[str] = []
    while tokens:
        word = fold(tokens[-1])
        if after_comma and len(tokens) > 1 and fold(" ".join(tokens[-2:])) in words("credential"):
            credentials.insert(0, " ".join(tokens[-2:]))  # "US Navy"
            tokens = tokens[:-1]
        elif _is_suffix(tokens, after_comma=after_comma):
            suffix = meanings("suffix").get(word, tokens[-1].strip(","))
        elif word in words("credential") and (
            _may_be_letters(tokens) if after_comma else _are_letters(tokens, least)
        ):
            credentials.insert(0, tokens[-1])
        else:
            break
        tokens = tokens[:-1]
    return tokens, suffix, tuple(credentials)


_PAIR = 2
_INITIALS = re.compile(r"(?:[^\W\d_]\.){2,4}|[^\W\d_]\.[^\W\d_]")


def _is_suffix(tokens: list[str], *, after_comma: bool) -> bool:
    """A single letter (V) is a suffix only behind two names; J.R. are initials."""
    word = fold(tokens[-1])
    if word not in words("suffix") or _INITIALS.fullmatch(tokens[-1]):
        return False
    before = LEAST_NAMES_BEFORE_LETTERS if len(word) == 1 else 1
    return after_comma or len(tokens) > before


def take_inner_suffix(names: list[str]) -> tuple[list[str], str | None]:
    """The Jr. of "Hal Jr. Moss", which stands before the family name: (words left, suffix)."""
    *before, said, family = names if len(names) > _PAIR else ["", "", ""]
    if len(fold(said)) < _PAIR or fold(said) not in words("suffix"):
        return names, None
    return [*before, family], meanings("suffix").get(fold(said), said.strip(","))


def may_be_initials(word: str) -> bool:
    """True for "J.R.", "J.D.", "MD": alone behind a family name they may be somebody's initials."""
    return bool(_INITIALS.fullmatch(word)) or (len(word) == _PAIR and word.isupper())


def _may_be_letters(tokens: list[str]) -> bool:
    """Behind a comma; "Wexcombe, Jo" names somebody."""
    return _is_marked(tokens[-1]) or len(tokens[-1]) > _PAIR


def _are_letters(tokens: list[str], least: int) -> bool:
    """In capitals or with points behind `least` names; Esq may look like a name."""
    kind = meanings("credential").get(fold(tokens[-1]))
    if kind == "name" and "".join(tokens).isupper() and "." not in tokens[-1]:
        # "MARY ANN DO": in a list in capitals they mark nothing, save behind others ("USMC RET")
        return len(tokens) > least + 1 and _is_sure_letters(tokens[-_PAIR])
    return (_is_marked(tokens[-1]) or kind == "plain") and len(tokens) > least


def _is_sure_letters(word: str) -> bool:
    """True for letters that no family name is."""
    return fold(word) in words("credential") and not meanings("credential").get(fold(word))


def _is_marked(word: str) -> bool:
    return word.isupper() or "." in word or not word.istitle()


def split_family(names: tuple[str, ...]) -> tuple[str | None, str | None]:
    """(given, family) of two or more words: the last word is the family name, with its particles.

    >>> split_family(("Ludo", "van", "der", "Larkmoor"))
    ('Ludo', 'van der Larkmoor')
    >>> split_family(("Van", "Penhew"))
    ('Van', 'Penhew')
    """
    if not names:
        return None, None
    if len(names) == 1:
        return names[0], None
    start = len(names) - 1
    if _begins_with_particle(names):
        return None, _ungluing(names)
    if start > _PAIR and _joins_families(names[start - 1], names):
        start -= 2  # Iberian double family names: "Ortega y Larkmoor"
    while start > 1 and _is_particle(names[start - 1]):
        start -= 1
    return _ungluing(names[:start]), _ungluing(names[start:])


def _is_particle(word: str) -> bool:
    """True for van, de, and for the und of "von und zu", which is marked as kept together.

    So for the "Molen-de" of a double name whose second half has a particle ("Molen-de Wit").
    """
    _, hyphen, half = word.rpartition("-")
    if hyphen and half.islower() and fold(half) in words("particle"):
        return True
    return word.startswith(GLUE) or (fold(word) in words("particle") and not is_initial(word))


def _joins_families(word: str, names: tuple[str, ...]) -> bool:
    """True for the y of "Ruiz y Vega"; a small e or i in a name of small letters is an initial."""
    if word == "y" or (word == "Y" and "".join(names).isupper()):
        return True
    return word in ("e", "i") and not "".join(names).islower()


def _begins_with_particle(names: tuple[str, ...]) -> bool:
    """True for "von Larkmoor": a small particle in front leaves no given name."""
    small = names[0].islower() and fold(names[0]) in words("particle")
    return small and not any(name.islower() for name in names[-1:])


def is_initial(word: str) -> bool:
    """True for one letter, with or without a point; O. and Ó. are initials, Ó a particle."""
    return len(word.rstrip(".")) == 1 and (word.isascii() or word.endswith("."))


def _ungluing(names: tuple[str, ...]) -> str | None:
    return unglued(" ".join(names)) or None


def unglued(text: str) -> str:
    """Names with plain blanks for the signs that kept them together."""
    return " ".join(text.replace(GLUE, " ").replace(GIVEN_GLUE, " ").split())


def combined_title(found: tuple[Title | str, ...]) -> str | None:
    """Several titles of one person as one: "The Reverend" and "Dr." are The Reverend Doctor."""
    written = [title if isinstance(title, str) else title.canonical for title in found]
    if not written:
        return None
    whole = known_title(" ".join(written))
    return whole.canonical if whole else " ".join(written)
