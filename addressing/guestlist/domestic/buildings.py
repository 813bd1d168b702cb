"""A building's name behind a street, without a comma between (`data/building_words.tsv`)."""

import re

from addressing.guestlist.domestic.dwellings import direction_words
from addressing.guestlist.folding import fold
from addressing.tables import lookup

_FEWEST = 5
"""A number, a name, a suffix; a building's name and its word."""


def building_start(street: str) -> int:
    """Where the name of a building begins behind a street's suffix; 0 where none does.

    >>> building_start("14 Larkmoor St SE Farrenby Lofts"), building_start("14 Larkmoor Gardens")
    (18, 0)
    """
    roads = lookup("building_words", "word", "road")
    words = [(found.start(), fold(found[0])) for found in re.finditer(r"[^\s,]+", street)]
    if len(words) < _FEWEST or roads.get(words[-1][1]) != "":
        return 0
    for place in range(len(words) - 3, 1, -1):
        if roads.get(words[place][1]) == "yes":
            behind = place + 1 + (words[place + 1][1] in direction_words())
            return words[behind][0] if behind < len(words) - 1 else 0
    return 0
