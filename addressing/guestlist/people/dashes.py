"""Cells that put the family name before a dash: "Hatcher – Leo and Viv", read as with a comma.

What stands behind a dash is else a remark ("Leo Hatcher - usher"), which `remarks.py` takes out.
"""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.people.asides import is_aside
from addressing.guestlist.people.names import known_title, take_titles
from addressing.guestlist.people.news import is_marker
from addressing.guestlist.people.vocabulary import is_given, may_be_given, words

_DASHED = re.compile(
    r"^\s*(?P<family>[^\s,;:&+/()\d][^,;:&+()\d]*?)\s+[-–—]{1,2}\s+(?P<names>\S.*)$"
)
_JOINT = re.compile(r"\s*(?:[&+/;,\n]|(?<!\S)(?:and|und|et|y|with)(?!\S)|\bw/)\s*", re.IGNORECASE)
_NAME = re.compile(r"[A-ZÀ-Ý][\w'’.-]*(?:\s+\(?\d{1,2}\)?)?")
_BRACKET = re.compile(r"\s*\([^()]*\)")
_MOST_GIVEN = 2


def comma_for_dash(text: str, *, trusted: bool = False) -> str:
    """The cell with a comma in place of the dash behind a family name; else as it is.

    `trusted` says that the column is known to put family names first, so that names which aren't
    known as given ones may stand behind the dash too.

    >>> comma_for_dash("Hatcher – Leo and Viv"), comma_for_dash("Hatcher - Mr. & Mrs. Leo")
    ('Hatcher, Leo and Viv', 'Hatcher, Mr. & Mrs. Leo')
    >>> comma_for_dash("Leo Hatcher - usher"), comma_for_dash("Hatcher - Cousins")
    ('Leo Hatcher - usher', 'Hatcher - Cousins')
    """
    found = _DASHED.match(text)
    if found is None or not _is_family(found["family"].split()):
        return text
    names = found["names"]
    if is_aside(names) or is_marker(names) or re.search(r"\s[-–—]\s", names):
        return text
    first, *rest = [part for part in _JOINT.split(_BRACKET.sub("", names)) if part]
    if not _is_named(first, trusted=trusted) and not _titles_for_two(first, rest):
        return text
    return f"{found['family']}, {names}"


def _is_family(said: list[str]) -> bool:
    """One name with its particles, and none that is a given name, a title or a word for guests."""
    *before, last = said
    group = words("guest") | words("family") | words("children") | words("company")
    if is_given(last) or known_title(last) is not None or fold(last) in group:
        return False
    return last[:1].isupper() and all(fold(word) in words("particle") for word in before)


def _is_named(said: str, *, trusted: bool) -> bool:
    """True for "Leo", "Dr. Leo", "Aunt Jo"; of a trusted column for any one name."""
    found, rest = take_titles(said.split())
    if len(rest) != 1 or not _NAME.fullmatch(rest[0]):
        return bool(rest) and len(rest) <= _MOST_GIVEN and may_be_given(rest[0])
    return bool(found) or trusted or may_be_given(rest[0])


def _titles_for_two(first: str, rest: list[str]) -> bool:
    """True for the "Mr. & Mrs. Leo" behind a dash."""
    titled, names = take_titles(first.split())
    return bool(titled and not names and rest and take_titles(rest[0].split())[0])
