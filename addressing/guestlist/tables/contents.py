"""What a column holds, told by its cells: each looks like something, and the cells vote."""

import re
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from itertools import islice

from addressing.guestlist.domestic.dwellings import direction_words, suffix_words
from addressing.guestlist.grid import Cell, Row
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.tables.meanings import fold, signs
from addressing.tables import table

SAMPLE = 200
STRONG = 0.6

_ZIP = r"\d{5}(?:-?\d{4})?"
_ABROAD = r"[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}|[A-Z]\d[A-Z] ?\d[A-Z]\d"
_POSTCODE = re.compile(rf"(?:[A-Z]{{1,2}}-)?\d{{4,5}}|{_ZIP}|{_ABROAD}", re.IGNORECASE)
_BOX = re.compile(
    r"(?:p\.? ?o\.?|post office) ?box\b|postfach\b|rural route\b|rr \d", re.IGNORECASE
)
_NUMBER_FIRST = re.compile(r"\d+[A-Za-z]?(?:[-/ ]\d+[A-Za-z/]*)? +[^\W\d_].*", re.DOTALL)
_NUMBER_LAST = re.compile(
    r"[^\d,]*(?:stra(?:ß|ss)e|str\.|weg|gasse|platz|allee|calle|rue|via|straat)[^\d,]*\d+ ?[a-z]?",
    re.IGNORECASE,
)
_PLACE = re.compile(rf"[^\d]+[,\s]+[A-Za-z.]{{2,}}[,\s]+{_ZIP}|\d{{4,5}} [^\d]+|[^\d]+ {_ABROAD}")
_WHOLE = re.compile(
    rf"(?:\d|p\.? ?o\.? ?box).*[,\n].*(?:\b{_ZIP}|\b(?:{_ABROAD}))[\s,.A-Za-z]*|"
    r"[^\d,\n]+ \d+ ?[a-z]?[,\n]+ ?\d{4,5} [^\d]+",
    re.IGNORECASE | re.DOTALL,
)
_CODE = re.compile(rf"\b(?:\d{{4,6}}|\d{{3}} \d{{2,3}})\b|\b(?:{_ABROAD})\b")
_CARE = re.compile(r"c/o\b|care of\b|attn\b", re.IGNORECASE)
_LONGEST_LINE = 6
_AGE = re.compile(r"\s*\(\s*\d{1,2}\s*\)")
_PHONE = re.compile(r"\+?[\d\s().\-/x]{7,}")
_PHONE_DIGITS = 7
_TWO_WORDS = 2
_FRONT = 400
"""Letters that are looked at: some patterns take the square of a text's length."""
_MOST_WORDS = 12
_SENTENCE = 4
"""Of a text with more words than this to a capital nobody would say that it names people."""


def votes(rows: Iterable[Row], index: int) -> dict[str, float]:
    """The share of a column's filled cells that look like each kind; empty for an empty column.

    Kinds: email, phone, postcode, mark, region, suffix, title, address, place, street, name, word.
    """
    counts: dict[str, int] = {}
    seen = 0
    for cell in _cells(rows, index):
        seen += 1
        kind = kind_of(cell)
        counts[kind] = counts.get(kind, 0) + 1
        if seen == SAMPLE:
            break
    return {kind: count / seen for kind, count in counts.items()}


def words_a_cell(rows: Iterable[Row], index: int) -> float:
    """How many words the filled cells of a column hold on average; 0 for an empty column."""
    counts = [len(cell.text.split()) for cell in islice(_cells(rows, index), SAMPLE)]
    return sum(counts) / len(counts) if counts else 0.0


def figures(rows: Iterable[Row], index: int) -> float:
    """The share of a column's filled cells that begin with a figure; 0 where they count the rows.

    1, 2, 3 and so on number a list, and no street has such doors one below the other.
    """
    texts = [cell.text for cell in islice(_cells(rows, index), SAMPLE)]
    begun = sum(text[:1].isdecimal() for text in texts)
    counts = texts == [str(number) for number in range(1, len(texts) + 1)]
    return begun / len(texts) if texts and not (counts and len(texts) > 1) else 0.0


def leading(shares: Mapping[str, float]) -> str | None:
    """The kind that most cells look like, when the vote is clear."""
    best = max(shares.items(), key=lambda item: item[1], default=None)
    return best[0] if best is not None and best[1] >= STRONG else None


def holds_homes(shares: Mapping[str, float]) -> bool:
    """True for whole addresses, some of them with less than all: a street without its ZIP."""
    homes = sum(shares.get(kind, 0.0) for kind in ("address", "street", "place"))
    return shares.get("address", 0.0) > 0 and homes >= STRONG


def _cells(rows: Iterable[Row], index: int) -> Iterable[Cell]:
    for row in rows:
        cell = row.cell(index)
        if cell is not None and cell.filled and cell.text:
            yield cell


def kind_of(cell: Cell) -> str:
    """What one cell looks like, the surest sign first."""
    if cell.kind in {"date", "boolean"}:
        return cell.kind
    return kind_of_text(cell.shown or cell.text)


def kind_of_text(text: str) -> str:
    """What a text looks like; of a long one the front tells.

    >>> [kind_of_text(t) for t in ("04496", "ME", "12 Larkmoor Lane", "Mr. Tobias Penhew", "yes")]
    ['postcode', 'region', 'street', 'name', 'mark']
    """
    return _kind_of_front(text[:_FRONT])


@lru_cache(maxsize=4096)
def _kind_of_front(text: str) -> str:
    tests = (
        ("email", lambda: "@" in text and " " not in text),
        ("postcode", lambda: _POSTCODE.fullmatch(text)),
        ("number", lambda: text.replace(".", "").isdecimal() and len(text) < _PHONE_DIGITS),
        (
            "phone",
            lambda: _PHONE.fullmatch(text) and sum(map(str.isdecimal, text)) >= _PHONE_DIGITS,
        ),
        ("mark", lambda: fold(text) in signs("mark-sign")),
        ("region", lambda: fold(text) in _regions()),
        ("suffix", lambda: fold(text) in words("suffix") | words("credential")),
        ("title", lambda: _is_titles(text)),
        ("address", lambda: _WHOLE.fullmatch(text) or _is_block(text)),
        ("place", lambda: _PLACE.fullmatch(text) and not _ends_street(text)),
        ("street", lambda: _is_street(text)),
        ("name", lambda: _is_name(text)),
    )
    return next((kind for kind, test in tests if test()), "word")


@cache
def _regions() -> frozenset[str]:
    return frozenset(fold(row[key]) for row in table("states") for key in ("code", "name"))


def _is_block(text: str) -> bool:
    """An address on lines of its own: short ones, the first with a figure, a code further down."""
    first, *others = text.split("\n")
    begins = _CARE.match(first) or any(map(str.isdecimal, first))
    short = all(len(line.split()) <= _LONGEST_LINE for line in others)
    return bool(begins) and short and any(map(_CODE.search, others))


def _is_titles(text: str) -> bool:
    """True for "Mr." and "Mr. & Mrs.": titles and what joins them, and no name."""
    said = text.replace("&", " and ").replace("/", " and ").split()
    return any(map(known_title, said)) and all(
        known_title(word) or fold(word) in words("and") for word in said
    )


def _is_street(text: str) -> bool:
    return bool(_BOX.match(text) or _NUMBER_FIRST.fullmatch(text) or _NUMBER_LAST.match(text))


def _ends_street(text: str) -> bool:
    """True for "1301 Lamar Blvd" and "1301 Lamar Blvd NW", where "8010 Graz" is a town."""
    words = fold(text).split()
    last = words.pop() if words[-1] not in direction_words() else words[-2]
    return text[:1].isdecimal() and last in suffix_words()


def _is_name(text: str) -> bool:
    """Two words or more that begin with capitals, or a title, or an "and"; no digits."""
    words = _AGE.sub("", text).replace("&", " and ").split()
    if not _TWO_WORDS <= len(words) <= _MOST_WORDS or any(
        char.isdecimal() for char in "".join(words)
    ):
        return False
    if any(fold(word) in signs("name-sign") for word in words):
        return True
    capitals = sum(word[:1].isupper() for word in words)
    return capitals >= _TWO_WORDS and capitals * _SENTENCE >= len(words)
