"""The words of `prose_words.tsv`, and text with its brackets and quotations out of sight."""

import re
from functools import cache

from addressing.guestlist.folding import fold
from addressing.tables import table

_ASIDE = re.compile(r"\([^()]*\)|\[[^\[\]]*\]|[\"“][^\"“”]*[\"”]")

_ADDRESS = re.compile(r"\d+[A-Za-z]?\s+[^\W\d_].*\s\d{5}(?:-\d{4})?")


@cache
def prose_words(kind: str) -> frozenset[str]:
    """The words of a kind."""
    return frozenset(row["word"] for row in table("prose_words") if row["kind"] == kind)


@cache
def prose_pattern(kind: str) -> re.Pattern[str]:
    """The words of a kind as they stand in a text, in any case, longer ones first."""
    longest = sorted(prose_words(kind), key=len, reverse=True)
    ways = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in longest)
    return re.compile(rf"(?<![\w'’])(?:{ways})(?![\w])", re.IGNORECASE)


@cache
def number_word() -> str:
    """A pattern for a house's number that is written as a word: "Six Gooseberry Hill"."""
    return "(?:" + "|".join(sorted(map(str.capitalize, prose_words("house-number")))) + ")"


def is_one_of(kind: str, text: str) -> bool:
    """True for a text that is a word of a kind, whatever marks stand around it."""
    return fold(text) in prose_words(kind)


def masked(text: str) -> str:
    """The text with a blank for each letter in brackets or quotation marks.

    An address in brackets is none of an aside: commas stand for its brackets.

    >>> masked("Kit (9) Orr"), masked("Kit Orr (9 Elm St, Bath ME 04530)")
    ('Kit     Orr', 'Kit Orr ,9 Elm St, Bath ME 04530,')
    """
    return _ASIDE.sub(
        lambda found: f",{found[0][1:-1]}," if _is_address(found[0]) else " " * len(found[0]), text
    )


def _is_address(aside: str) -> bool:
    return aside[0] in "([" and _ADDRESS.fullmatch(aside[1:-1].strip()) is not None


def asides(text: str) -> list[str]:
    """What stands in round and square brackets."""
    found = (hit[0] for hit in _ASIDE.finditer(text) if hit[0][0] in "([")
    return [aside[1:-1] for aside in found if not _is_address(aside)]
