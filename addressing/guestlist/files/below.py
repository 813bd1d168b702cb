"""What stands right below a household's address in a mail: it is said of that household.

Behind a state and its ZIP code an address ends; a country, a unit and another guest may follow.
"""

import re
from collections.abc import Sequence

from addressing.guestlist.domestic.dwellings import Segment, kind_of
from addressing.guestlist.domestic.tail import state_at_end
from addressing.guestlist.files.entries import entry_of, is_somebody
from addressing.guestlist.files.mail_lines import Line, is_name, is_place, is_town, labelled
from addressing.guestlist.files.running import is_prose
from addressing.guestlist.people.news import says_out
from addressing.guestlist.people.note_words import is_unsure
from addressing.guestlist.places.countries import country_of_cell

_ENDED = re.compile(r"(?P<before>.*[^\W\d_]{2,}\.?),?\s+\d{5}(?:-\d{4})?[.,; ]*")
_OF_PLACE = (Segment.UNIT, Segment.BARE_UNIT, Segment.EXTRA)
_PLUS = re.compile(r"[ \t]*\+[ \t]+\S")


def is_said_below(lines: Sequence[Line], place: int) -> bool:
    """True for a remark behind a whole address: "don't send yet", "and guest", "Maybe".

    >>> said = "Kit Orr", "9 Elm St", "Bath, ME 04530", "USA", "+ guest"
    >>> [is_said_below([Line(0, each) for each in said], at) for at in range(5)]
    [False, False, False, False, True]
    """
    return any(map(_ends, lines[:place])) and _is_said(lines[place].text)


def ends_address(block: Sequence[Line], place: int) -> bool:
    """True for the last line of a block that begins with names and has its whole address above."""
    entries = any(entry_of(line.text) for line in block[: place + 1])
    last = place + 1 == len(block)
    return last and not entries and is_said_below(block, place)


def is_bullet_below(block: Sequence[Line], line: Line) -> bool:
    """True for the bullet of a remark below a household: "- ask Odile before you do this one"."""
    first = block[0]
    if (first.opens and line.indent <= first.indent) or not _is_said(line.text):
        return False
    return any(is_town(each.text) for each in block) and not is_prose(block)


def is_plus_below(block: Sequence[Line], line: Line) -> bool:
    """True for "+ guest" and "+ Zora" below a household or its names: there it is no bullet."""
    if not _PLUS.match(line.raw) or block[0].opens or entry_of(line.text) is not None:
        return False
    placed = any(is_town(each.text) for each in block) and not is_prose(block)
    return placed or all(is_name(each.text) and is_somebody(each.text) for each in block)


def _ends(line: Line) -> bool:
    found = _ENDED.fullmatch(line.text)
    return found is not None and state_at_end(found["before"].rstrip(" ,.")) is not None


def _is_said(text: str) -> bool:
    """True for a line that is no part of an address, and names nobody who may live elsewhere."""
    if country_of_cell(text) is not None or kind_of(text) in _OF_PLACE:
        return False
    if text[:1].islower() and kind_of(text) is Segment.WORDS:  # "new address: 9 Elm St, …"
        return True
    if is_place(text) or entry_of(text) is not None or labelled(Line(0, text)) is not None:
        return False
    open_ = is_unsure(text) or says_out(text)
    return open_ or not (text[:1].isupper() and is_name(text) and is_somebody(text))
