"""Business cards as text (vCard, RFC 6350): each a household with its names, address and note.

A card may stand in a mail, or a file may hold nothing else.
"""

import re
from collections.abc import Iterator, Sequence

from addressing.guestlist.files.blocks import NAME, NOTES, STREETS, Slots
from addressing.guestlist.files.mail_lines import Line

_OPENS, _CLOSES = "begin:vcard", "end:vcard"
_PART = re.compile(r"(?<!\\)((?:\\\\)*);")
_ESCAPED = re.compile(r"\\(.)")
_PROPERTY = re.compile(r"(?:[\w-]+\.)?([A-Za-z][\w-]*)((?:;[^:\"]*(?:\"[^\"]*\"[^:\"]*)*)?):(.*)")
"""Group, name, parameters, value (RFC 6350, 3.3)."""
_ORDER = (3, 1, 2, 0, 4)
"""Of N: family, given, additional, prefixes, suffixes (RFC 6350, 6.2.2)."""
_BOX, _EXTENDED, _STREET, _TOWN, _REGION, _CODE, _COUNTRY = range(7)
"""Of ADR (RFC 6350, 6.3.1)."""
_TOP = 3
Property = tuple[str, str, Line]
"""Name in capitals, value as written, and the line that it begins on."""


def is_cards(text: str) -> bool:
    """True for a text that begins with a card."""
    return text.lstrip("\ufeff \t\r\n")[: len(_OPENS)].casefold() == _OPENS


def without_cards(lines: Sequence[Line]) -> tuple[list[tuple[int, Slots]], list[Line]]:
    """The households of the cards among some lines, and the other lines, a blank for each card.

    A card that never ends is none.
    """
    homes: list[tuple[int, Slots]] = []
    rest: list[Line] = []
    place = 0
    while place < len(lines):
        end = _end(lines, place)
        home = _home(lines[place : end + 1]) if end else None
        if home is None:
            rest.append(lines[place])
            place += 1
        else:
            homes.append((lines[place].number, home))
            rest.append(Line(lines[place].number, ""))
            place = end + 1
    return homes, rest


def _end(lines: Sequence[Line], place: int) -> int:
    """The place of a card's last line; 0 where none begins, or where it never ends."""
    if lines[place].text.casefold() != _OPENS:
        return 0
    for at in range(place + 1, len(lines)):
        said = lines[at].text.casefold()
        if said == _OPENS:
            return 0
        if said == _CLOSES:
            return at
    return 0


def _home(card: Sequence[Line]) -> Slots | None:
    """The household of a card; None for one without a name."""
    first: dict[str, tuple[str, Line]] = {}
    for name, value, line in _properties(card[1:-1]):
        first.setdefault(name, (value, line))
    named = next((first[key] for key in ("N", "FN", "ORG") if key in first and first[key][0]), None)
    name = _name(*named, first.get("FN")) if named is not None else ""
    if named is None or not name:
        return None
    slots: Slots = {NAME: [Line(named[1].number, name, more=tuple(card[1:]))]}
    if "ADR" in first:
        value, line = first["ADR"]
        for slot, text in zip(STREETS, _address(value), strict=False):
            slots[slot] = [Line(line.number, text)]
    if "NOTE" in first:
        value, line = first["NOTE"]
        slots[NOTES] = [Line(line.number, _plain(value))]
    return slots


def _properties(lines: Sequence[Line]) -> Iterator[Property]:
    """The properties of a card, those that go over several lines unfolded (RFC 6350, 3.2)."""
    whole: list[tuple[str, Line]] = []
    for line in lines:
        raw = line.raw or line.text
        if whole and raw[:1] in (" ", "\t"):
            whole[-1] = (whole[-1][0] + raw[1:], whole[-1][1])
        else:
            whole.append((raw.strip(), line))
    for text, line in whole:
        found = _PROPERTY.fullmatch(text)
        if found is not None:
            yield found[1].upper(), found[3].strip(), line


def _name(value: str, _: Line, full: tuple[str, Line] | None) -> str:
    """The names of N in the order in which they are said; of FN where N has no parts."""
    parts = _parts(value)
    if len(parts) == 1:
        return _plain(full[0] if full is not None else value)
    parts += [""] * (max(_ORDER) + 1 - len(parts))
    return " ".join(parts[place] for place in _ORDER if parts[place])


def _address(value: str) -> Iterator[str]:
    """The lines of ADR: box, what is extended and street, then the town's line, the country."""
    parts = _parts(value)
    parts += [""] * (_COUNTRY + 1 - len(parts))
    yield from (parts[place] for place in range(_TOP) if parts[place])
    town = ", ".join(part for part in (parts[_TOWN], parts[_REGION]) if part)
    yield from (line for line in (f"{town} {parts[_CODE]}".strip(), parts[_COUNTRY]) if line)


def _parts(value: str) -> list[str]:
    return [_plain(part) for part in _PART.sub("\\1\0", value).split("\0")]


def _plain(value: str) -> str:
    """A value without its escapes (RFC 6350, 3.4)."""
    said = _ESCAPED.sub(lambda found: " " if found[1] in "nN" else found[1], value)
    return " ".join(said.split())
