"""Whether words in a cell by themselves speak of the guests of a list, by number or by name."""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from addressing.guestlist.files.added import adds
from addressing.guestlist.files.by_number import numbers_in, opens_with
from addressing.guestlist.files.mail_lines import has_verb, speaks_in_verbs, without_brackets
from addressing.guestlist.files.number_patterns import number_words
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.people.vocabulary import words as kind_of_words
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.headings import says_whose
from addressing.guestlist.tables.meanings import signs
from addressing.guestlist.tables.totals import is_remark, sums_up

_WORD = re.compile(r"[^\W_]+(?:['’]\w+)?")
_OWNED = re.compile(r"['’]s?$")
_JOINED = re.compile(r"\s*(?:[+&]|and\b|with\b)", re.IGNORECASE)
"""Companions of the row above: "+ kids: Tess 7"."""
_CALLS = re.compile(r"[a-z]! +\w|\d{3}-\d{4}")
"""A call and what follows it ("Thanks! Call me"), a telephone number: nobody's name."""
BETWEEN = " – "
"""Between the cells of a row that are told as one remark."""
_BEHIND = re.compile(r"\s+[-–—]+\s+")
_SHORTEST = 3
"""Letters of a name that a remark can be known by."""
_SAID = 2
"""Words of a remark at least."""


@dataclass(frozen=True, slots=True)
class Listed:
    """The numbers by which a list counts its rows, and the words of its guests' names, folded."""

    numbers: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    sheets: tuple[str, ...] = ()
    """The names of the sheets."""

    @classmethod
    def of(cls, tables: Iterable[Table]) -> "Listed":
        """The numbers and names of the tables' rows."""
        numbers: set[str] = set()
        names: set[str] = set()
        sheets: dict[str, None] = {}
        for table in tables:
            sheets |= {table.sheet: None} if table.sheet else {}
            numbers.update(number for row in table.numbers.values() for number in row)
            guests = (row for row in table.rows if len(row.texts) > 1)
            names.update(name for row in guests for name in names_of(table, row))
        return cls(frozenset(numbers), frozenset(names), tuple(sheets))

    def by_number(self, text: str) -> bool:
        """True for a remark on somebody by number."""
        return bool(self.numbers and numbers_in(text, self.numbers, aside=True))

    def tells(self, text: str) -> bool:
        """True for a remark on somebody listed: a number or a name, and something said of it.

        >>> listed = Listed(frozenset("7"), frozenset(("penhew",)))
        >>> [listed.tells(each) for each in ("7 no kids", "The Penhews are out", "Penhew family")]
        [True, True, False]
        """
        if self.by_number(text):
            return True
        bare = without_brackets(text)
        return self._named(_words(bare)) and _says_something(bare)

    def names_somebody(self, text: str) -> bool:
        """True for words among which is a name of the list's."""
        return self._named(_words(text))

    def mentions(self, text: str) -> bool:
        """True where a cell on a sheet without guests has more of somebody than the name."""
        if self.tells(text):
            return True
        bare = without_brackets(text)
        more = (word for word in _words(bare) if word.islower() and not _is_common(fold(word)))
        return self._named(_words(bare)) and any(len(word) >= _SHORTEST for word in more)

    def speaks(self, text: str) -> bool:
        """True for such a remark, and for a sentence that speaks of nobody or of somebody else."""
        if says_whose(text) or sums_up(text):
            return False
        return self.says(text) or adds(text) or self.mentions(text)

    def says(self, text: str) -> bool:
        """True for such words beside a row, where whom they mention is mostly a friend's name."""
        remark = len(text.split()) >= _SAID and is_remark(text)
        return remark or has_verb(text) or self.tells(text)

    def may_count(self, text: str) -> bool:
        """True for a remark whose first number is small and may count things: "3 no nuts"."""
        first = opens_with(text, self.numbers)
        small = bool(first) and all(len(number) == 1 for number in first)
        return small and not numbers_in(text, self.numbers)

    def is_of_number(self, text: str, own: Collection[str]) -> bool:
        """True for a note that opens with the numbers of other rows, and counts nothing.

        "#5" of a list that counts no rows is its own row's, a door as a rule.
        """
        if not self.numbers and text.lstrip().startswith("#"):
            return False
        first = opens_with(text, self.numbers)
        return bool(first) and set(first).isdisjoint(own) and not self.may_count(text)

    def is_by_itself(self, text: str) -> bool:
        """True for words beside a row that say themselves of whom they are, or add somebody.

        They begin with a number or a name; "Penhew's cousin" is said of the row that it stands by.
        """
        if opens_with(text, self.numbers) or adds(text):
            return True
        words = _without_title(_words(text))
        if not words or not words[0][:1].isupper() or not self._named(words[:1]):
            return False
        kin = any(fold(word) in row_words("relative") for word in words[1:2])
        return not kin and _says_something(text)

    def _named(self, words: Sequence[str]) -> bool:
        shown = any(word[:1].isupper() for word in words)
        return any(
            (word[:1].isupper() or not shown) and not self.names.isdisjoint(_own_forms(word))
            for word in words
        )


NOBODY = Listed()


def is_of_a_sheet(text: str, sheets: Iterable[str]) -> bool:
    """True for words about a sheet, whose name they give as one.

    >>> [is_of_a_sheet(t, ["Ours"]) for t in ("“Ours” is typed over", "the Ours tab", "ours moved")]
    [True, True, False]
    """
    return any(
        re.search(rf"[“\"']{re.escape(name)}[”\"'’]|\b{re.escape(name)}\s+(?:sheet|tab)\b", text)
        for name in sheets
    )


def names_of(table: Table, row: Row) -> Iterator[str]:
    """The words of a row's names, folded, without titles and the like."""
    for column in table.columns:
        cell = row.cell(column.index) if column.meaning in NAMES else None
        for word in _words(cell.text) if cell is not None else ():
            folded = fold(word)
            if len(folded) >= _SHORTEST and not _is_common(folded):
                yield folded


def is_sentence(text: str) -> bool:
    """True for a row of words with a verb; what a dash or brackets part from a name doesn't count.

    >>> [is_sentence(t) for t in ("Fred is coming after all", "Kit – he is 7", "will and may orr")]
    [True, False, False]
    """
    front = _BEHIND.split(without_brackets(text), maxsplit=1)[0]
    if "=" in front or _CALLS.search(text) is not None:
        return True
    return speaks_in_verbs(front) and any(map(str.isupper, text))


def is_companion(text: str) -> bool:
    """True for words that go on with the row above: "+ kids: Tess 7", "and baby Finn"."""
    return _JOINED.match(text) is not None


def is_addressed(table: Table) -> bool:
    """True for a table with a column of addresses, where words alone in a row are no guest."""
    return any(column.meaning in ADDRESSES for column in table.columns)


def _words(text: str) -> list[str]:
    return _WORD.findall(text)


def _without_title(words: Sequence[str]) -> Sequence[str]:
    while words and (fold(words[0]) == "the" or known_title(fold(words[0])) is not None):
        words = words[1:]
    return words


def _own_forms(word: str) -> set[str]:
    folded = fold(_OWNED.sub("", word))
    forms = {folded, folded.removesuffix("s"), folded.removesuffix("es")}
    return {form for form in forms if len(form) >= _SHORTEST}


def _is_common(folded: str) -> bool:
    plain = ("children", "family", "guest", "spouse", "partner")
    common = (
        folded == "the"
        or folded in signs("name-sign")
        or any(folded in kind_of_words(kind) for kind in plain)
    )
    return common or folded in row_words("relative") or known_title(folded) is not None


def _says_something(text: str) -> bool:
    """True where more is said than names: "Penhew no kids", not "Penhew family"."""
    folded = [fold(word) for word in _words(text) if word.islower()]
    return (
        speaks_in_verbs(text)
        or "=" in text
        or not _telling().isdisjoint(folded)
        or any(f" {way} " in f" {' '.join(folded)} " for way in _ways())
    )


@cache
def _telling() -> frozenset[str]:
    kinds = ("says", "says-many", "tells")
    return row_words("remark").union(*map(number_words, kinds))


@cache
def _ways() -> tuple[str, ...]:
    return tuple(way for way in _telling() if " " in way)
