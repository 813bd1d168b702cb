"""Telephone numbers, e-mail addresses and "call first" in the cells of an address: taken out.

No line of an address has them. The words are the rows of kind anywhere in address_remarks.tsv.
"""

import re
from dataclasses import replace
from functools import cache

from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.tables import table

_MAIL = re.compile(r"(?:e-?mail:?\s+)?[^\s,;:<>()]+@[\w.-]+\.\w{2,}", re.IGNORECASE)
_HOME = r"(?:\+?1[-. ]?)?(?:\(\d{3}\)\s?|\d{3}[-. ])\d{3}[-. ]\d{4}|\d{10}"
_ABROAD = r"\+\d{1,3}(?:[-. ]?\(?\d{1,5}\)?){2,5}"
_WORD = r"(?:tel(?:ephone)?|ph(?:one)?|cell|mobile|fax|call|text)"
_LABEL = rf"{_WORD}(?:\s*(?:/|or)\s*{_WORD})?\b[.:]?\s*"
_PHONE = re.compile(
    rf"(?<![\w-])(?:(?:{_LABEL}|\#\s*)?(?:{_HOME}|{_ABROAD})|{_LABEL}\d{{3}}[-. ]\d{{4}})(?![\w-])",
    re.IGNORECASE,
)
_PLACE = re.compile(r"\b\d{5}(?:-\d{4})?\b")
_STATE = re.compile(r",\s*[A-Z]{2}\.?\s*$|\b[A-Z]{2}\s$")
"""The code of a state: ten figures behind it are two ZIP codes run together, or one worn."""
_FIGURES = re.compile(r"\d{3}\)?[-.\s]?\d{3}|\+\d")
"""What every telephone number has, and hardly any address: looked for first, as that is fast."""
_EDGES = " ,:*-–—"
_LEFT = re.compile(r"\s*(?:\(\s*\)|\[\s*\])")
_MARKS = re.compile(r"[\s\-–—:;(/|.*]+(?=[,\n]|$)|(?<=\n)[\s\-–—:;,/|*]+")


def take_calls(written: Written, remarks: list[str]) -> Written:
    """The address without what belongs to a telephone; what is taken out goes to `remarks`.

    >>> said: list[str] = []
    >>> line = Cited("23 Larkmoor Lane call first 207-555-0188")
    >>> take_calls(Written(lines=(line,)), said).lines[0].text, said
    ('23 Larkmoor Lane', ['call first 207-555-0188'])
    """
    before = len(remarks)
    lines = tuple(kept for line in written.lines if (kept := _without(line, remarks)) is not None)
    unit, extra, city = (
        _without(cited, remarks) for cited in (written.unit, written.extra, written.city)
    )
    if len(remarks) == before:
        return written
    return replace(written, lines=lines, unit=unit, extra=extra, city=city)


def _without(cited: Cited | None, remarks: list[str]) -> Cited | None:
    if cited is None:
        return None
    taken: list[str] = []

    def take(found: re.Match[str]) -> str:
        taken.append(found[0].strip(_EDGES))
        return ""

    text = _said().sub(lambda found: _words_only(found, taken), cited.text)
    text = _MAIL.sub(take, text) if "@" in text else text
    if _FIGURES.search(text):
        text = _PHONE.sub(lambda found: found[0] if _is_account(found) else take(found), text)
    if not taken:
        return cited
    remarks.extend(taken)
    text = _MARKS.sub("", _LEFT.sub("", text))
    text = re.sub(r"[ \t]{2,}", " ", re.sub(r"(?:,\s*)+,", ",", text)).strip(" ,;\n")
    return replace(cited, text=text) if text else None


def _is_account(found: re.Match[str]) -> bool:
    """True for figures behind a number sign or a state that are no telephone's.

    Bare figures are none, nor do area codes begin with 0 or 1 (NANP; from memory).
    """
    behind = found[0].removeprefix("#").strip()
    if behind == found[0]:
        return behind.isdecimal() and _STATE.search(found.string[: found.start()]) is not None
    return behind.isdecimal() or behind[:1] in ("0", "1")


def _words_only(found: re.Match[str], taken: list[str]) -> str:
    """Take "call first" with what follows it in its part, unless a ZIP stands there too."""
    behind = found["behind"]
    if _PLACE.search(behind) and not _PHONE.search(behind):
        taken.append(found["words"])
        return behind
    taken.append(found[0].strip(_EDGES))
    return ""


@cache
def _said() -> re.Pattern[str]:
    words = (row["words"] for row in table("address_remarks") if row["kind"] == "anywhere")
    ways = "|".join(re.escape(each).replace(r"\ ", r"\s+") for each in sorted(words, key=len))
    return re.compile(
        rf"(?:(?<=[\s,;(])|^)(?P<words>(?:please\s+|pls\s+)?(?:{ways})\b)(?P<behind>[^,;\n()]*)",
        re.IGNORECASE,
    )
