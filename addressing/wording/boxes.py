"""Post office boxes, rural and highway contract routes in their standard form, by table.

Publication 28, 24 (rural), 25 (highway contract), 28 (boxes), 285 (private mailboxes).
"""

import re

from addressing.wording.words import style_words

_VALUE = r"[A-Za-z0-9][\w\-]*"
_MAILBOX = rf"(?P<mailbox>(?:[\s,]+(?:PMB\s*#?|#)\s*{_VALUE})?)"
_BOX = re.compile(
    rf"^(?P<box>[A-Za-z. ]*?[A-Za-z.])[\s,]*(?:\bno\.?|#)?\s*"
    rf"(?P<number>-?(?:[A-Za-z]-?)?\d[\w\-]*|(?<![A-Za-z])[A-Za-z])"
    rf"{_MAILBOX}$",
    re.IGNORECASE,
)
_ROUTE = re.compile(
    rf"^(?P<route>[A-Za-z. ]+?)\s*(?:\bno\.?|#)?\s*0*(?P<number>[1-9]\d*[A-Za-z]?)"
    rf"(?:[\s,]+(?:(?:box|bzn|buz[oó]n)\b\.?\s*#?|#)\s*(?P<box>{_VALUE}){_MAILBOX}"
    rf"(?:[\s,]+(?P<rest>[A-Za-z].*))?)?$",
    re.IGNORECASE,
)
_OFFICE = re.compile(r"p\.?\s*o\.?|post\s+office", re.IGNORECASE)
_LEAST_BOX = 5
"""Digits of a box number whose leading zeros stand as a hyphen in a postal file (282)."""


def box_line(street: str, *, formal: bool) -> str | None:
    """A post office box in full or in short, or None.

    >>> box_line("POB 12", formal=True), box_line("Drawer L", formal=False)
    ('Post Office Box 12', 'PO BOX L')
    """
    found = _BOX.match(street)
    pair = _pair("box", found["box"]) if found else None
    if found is None or pair is None:
        return None
    number = found["number"]
    if number.isalpha() and _OFFICE.fullmatch(found["box"].strip()):
        return None  # "PO West" shortened: a letter wants the word box before it
    if number.startswith("-"):  # 282: the hyphen stands for the zeros in front
        number = number[1:].rjust(_LEAST_BOX, "0")
    return f"{pair[0 if formal else 1]} {number}{_private(found['mailbox'], formal=formal)}"


def lockbox_line(street: str) -> str | None:
    """A bank's lockbox in full, or None: beside a street it is in its house and no post office's.

    >>> lockbox_line("lbx # 77"), lockbox_line("PO Box 77")
    ('Lockbox 77', None)
    """
    line = box_line(street, formal=True)
    return line if line is not None and line.startswith("Lockbox") else None


def route_line(street: str, *, formal: bool) -> str | None:
    """A rural or highway contract route in full or in short, or None.

    Postal style leaves off a street behind the box (245, 254); formal style keeps it.

    >>> route_line("RFD ROUTE 4 #87A", formal=False)
    'RR 4 BOX 87A'
    """
    found = _ROUTE.match(street)
    if found is None:
        return None
    boxed = found["box"] is not None
    kinds = ("route", "route-pointed", *(("route-box",) if boxed else ()))
    pair = next((pair for kind in kinds if (pair := _pair(kind, found["route"]))), None)
    if pair is None or (found["rest"] and not boxed):
        return None
    line = f"{pair[0 if formal else 1]} {found['number']}"
    if not boxed:
        return line
    if not formal:
        box = found["box"].replace("-", "") if _spanish(street) else found["box"]
        return f"{line} BOX {box}{_private(found['mailbox'], formal=False)}"
    rest = f", {found['rest']}" if found["rest"] else ""
    word = "Buzón" if _spanish(street) else "Box"
    return f"{line}, {word} {found['box']}{_private(found['mailbox'], formal=True)}{rest}"


def is_boxed(street: str) -> bool:
    """True for a line that is a box or a route: no house, in which a unit could be.

    >>> is_boxed("Post Office Box 130"), is_boxed("56 Main Street")
    (True, False)
    """
    return any(line(street, formal=True) is not None for line in (box_line, route_line))


def _spanish(street: str) -> bool:
    """True where the box is a buzón: its hyphen goes (I51.6)."""
    return re.search(r"\b(?:bzn|buz[oó]n)\b", street, re.IGNORECASE) is not None


def _pair(kind: str, words: str) -> tuple[str, str] | None:
    """(formal, postal) of the words before a number; points and lost blanks don't matter."""
    known = style_words(kind)
    key = " ".join(words.replace(".", " ").split()).upper()
    return known.get(key) or known.get(key.replace(" ", ""))


def _private(mailbox: str, *, formal: bool) -> str:
    """A private mailbox behind a box: # stands for PMB there (285)."""
    value = re.sub(r"^[\s,]*(?:PMB\s*#?|#)\s*", "", mailbox, flags=re.IGNORECASE)
    return f"{', PMB' if formal else ' PMB'} {value}" if value else ""
