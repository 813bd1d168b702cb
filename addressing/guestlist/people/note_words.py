"""The words of a note that change an envelope, found in a text: rows of note_words.tsv."""

import re
from collections.abc import Iterator
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import meanings, row_words, words
from addressing.tables import table

_GAP = r"(?:(?!to\b)[^\s.,;:!?]+\s+){0,3}?"
"""What "…" in a row's words stands for; behind "need to" comes no thing that is needed."""
_NEAR = 2
"""Words before a phrase among which a "no" is of it."""


def is_unsure(note: str) -> bool:
    """True for words that leave open whether somebody is invited.

    >>> is_unsure("only if there's room"), is_unsure("the room upstairs")
    (True, False)
    >>> is_unsure("check w/ Sue"), is_unsure("checked w/ Sue"), is_unsure("check w/ florist")
    (True, False, False)
    """
    bare = re.sub(r"\([^()]*\)", "", note)  # "MAYBE (if the hall is big enough)"
    bare = re.sub(r"\bw/\s*", "with ", bare)
    alone = fold(bare) in words_of_kind("unsure-alone")
    return alone or _waits_for_somebody(bare) or says("unsure", note)


def _waits_for_somebody(note: str) -> bool:
    """True for "ask Jim": nothing else is said, and a name in capitals is no thing."""
    found = re.fullmatch(rf"\W*{ways('unsure-of')}\s+((?:[A-ZÀ-Ý][\w'’.-]*\s*){{1,2}})\W*", note)
    return found is not None and row_words("thing").isdisjoint(fold(found[1]).split())


def says(kind: str, note: str) -> bool:
    """True where words of a kind stand in a note and aren't of a thing."""
    return next(_phrases(kind, note), None) is not None


def denied(kind: str, note: str) -> bool | None:
    """Whether the words of a kind stand behind a "no" ("no plus one"); None without them."""
    told = None
    for found in _phrases(kind, note):
        before = fold(note[: found.start()]).replace("'", "").split()[-_NEAR:]
        told = not _denials().isdisjoint(before)
        if not told:
            return False
    return told


def _phrases(kind: str, note: str) -> Iterator[re.Match[str]]:
    """The words of a kind in a note, save those that are of a thing ("need email address")."""
    for found in note_words(kind).finditer(note):
        behind = fold(note[found.end() :]).split()[:1]
        if row_words("thing").isdisjoint((*fold(found[0]).split()[1:-1], *behind)):
            yield found


def ways(kind: str, after: str | None = None) -> str:
    """A pattern for the words of a kind, or for those with this `after`; longer ones first."""
    rows = (row for row in table("note_words") if row["kind"] == kind)
    known = (row["words"] for row in rows if after is None or row["after"] == after)
    longest = sorted(known, key=len, reverse=True)
    return f"(?<![\\w'’])(?i:{'|'.join(map(_loose, longest))})(?![\\w'’])"


def _loose(said: str) -> str:
    """A row's words with any blanks, either apostrophe or none, and up to three words for "…".

    "<n>" is a number in figures or a word, "<kin>" somebody's mother, friend or nurse.
    """
    marked = said.replace("…", "\0").replace("<n>", "\1").replace("<kin>", "\2")
    escaped = re.sub(r"['’]", "['’]?", re.escape(marked))
    escaped = escaped.replace("\1", rf"(?:\d{{1,2}}|{'|'.join(meanings('number'))})")
    escaped = escaped.replace("\2", rf"(?:(?:her|his|their|an?|the)\s+)?(?:{_kin()})")
    return escaped.replace("\\ \0\\ ", rf"\s+{_GAP}").replace(r"\ ", r"\s+")


@cache
def _kin() -> str:
    known = row_words("relative") | words("kin")
    return "|".join(map(re.escape, sorted(known, key=len, reverse=True)))


def counted(note: str) -> int | None:
    """How many people a note speaks of, where it counts them all.

    >>> counted("family of 5"), counted("four people"), counted("table 4")
    (5, 4, None)
    """
    for found in _phrases("people-counted", note):
        for word in fold(found[0]).split():
            number = word if word.isdecimal() else meanings("number").get(word)
            if number is not None:
                return int(number)
    return None


@cache
def note_words(kind: str) -> re.Pattern[str]:
    """The words of a kind as a pattern."""
    return re.compile(ways(kind))


@cache
def words_of_kind(kind: str) -> frozenset[str]:
    """The words of a kind as the table has them."""
    return frozenset(row["words"] for row in table("note_words") if row["kind"] == kind)


def _denials() -> frozenset[str]:
    return words_of_kind("negation")
