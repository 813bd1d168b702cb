"""How a text file's letters are stored: its mark, Unicode, or the likeliest of some old encodings.

Statistics of languages go wrong on short lists (measured), so readings are weighed letter by
letter: which letters names have, and where capitals and signs can't stand.
"""

import codecs
import unicodedata
from functools import cache

from ftfy import fix_encoding

from addressing.tables import table

MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_LOOKED_AT = 4_000
_WIDE = 0.3
"""So many noughts at every other byte are the empty halves of Latin letters in UTF-16."""
_AGAINST = {"letter": 0, "sign": -3, "control": -6}
_MISPLACED = -2
_SOME = 2_000
"""Letters beyond ASCII that are weighed; more tell no more."""


def unicode_of(data: bytes) -> str | None:
    """The Unicode encoding that bytes are in, by their mark or by their look; None for others.

    >>> unicode_of("Bea".encode("utf-16-le")), unicode_of("José".encode("cp1252"))
    ('utf-16-le', None)
    """
    for mark, name in MARKS:
        if data.startswith(mark):
            return name
    sample = data[:_LOOKED_AT]
    for first, name in ((1, "utf-16-le"), (0, "utf-16-be")) if len(data) % 2 == 0 else ():
        halves, others = sample[first::2], sample[1 - first :: 2]
        if halves.count(0) > len(halves) * _WIDE and not others.count(0):
            return name
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return None
    return "utf-8"


def old_readings(data: bytes) -> list[str]:
    """What bytes may say in old encodings, each reading once, the likeliest first; never empty.

    A reading that shows letters of UTF-8 one by one ("RenÃ©e") counts as what is meant by them:
    lists are joined from several files, and repaired later.
    """
    readings: dict[str, float] = {}
    for name in _encodings():
        try:
            text = data.decode(name)
        except UnicodeDecodeError:
            continue
        readings.setdefault(text, _weight(fix_encoding(text)))
    if not readings:
        readings[data.decode("latin-1")] = 0.0
    return sorted(readings, key=lambda text: -readings[text])


@cache
def _encodings() -> tuple[str, ...]:
    return tuple(row["what"] for row in table("old_encodings") if row["kind"] == "encoding")


@cache
def _letters() -> dict[str, int]:
    rows = [row for row in table("old_encodings") if row["kind"] == "letters"]
    return {char: int(row["weight"]) for row in reversed(rows) for char in row["what"]}


def _weight(text: str) -> float:
    """How likely the characters beyond ASCII are where they stand."""
    total, seen = 0, 0
    for place, char in enumerate(text):
        if char.isascii():
            continue
        total += _one(text, place, char)
        seen += 1
        if seen == _SOME:
            break
    return total / max(seen, 1)


def _one(text: str, place: int, char: str) -> int:
    kind = unicodedata.category(char)
    what = {"L": "letter", "C": "control"}.get(kind[0], "sign")
    weight = _letters().get(char, _AGAINST[what])
    before, behind = text[place - 1 : place], text[place + 1 : place + 2]
    odd = (
        (kind == "Lu" and before.islower())
        or (kind == "Ll" and behind.isupper())
        or (kind == "Ll" and not before.isalpha() and behind.isalpha())
        or (kind[0] == "L" and not before.isalpha() and not behind.isalpha())
    )
    return weight + _MISPLACED if odd else weight
