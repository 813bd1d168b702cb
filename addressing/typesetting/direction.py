"""Which way a line is read.

HarfBuzz gives a whole line one direction, so a line with words both ways ("Dan דן", a Hebrew
street with its number) would come out reversed in part. Lines all one way are set; lines of both
are found here and put to the client's designer, never set wrong.

Not done: reordering a mixed line by the bidirectional algorithm (Unicode Annex 9).
"""

import unicodedata

_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN", "RLE", "RLO", "RLI"})
_LEFT_TO_RIGHT = frozenset({"L", "EN", "LRE", "LRO", "LRI"})


def is_mixed(text: str) -> bool:
    """True when a line holds words or numbers of both directions.

    >>> is_mixed("Dan Wexcombe"), is_mixed("דן"), is_mixed("Dan דן"), is_mixed("הרצל 12")
    (False, False, True, True)
    """
    if text.isascii():
        return False
    classes = {unicodedata.bidirectional(character) for character in text}
    return not classes.isdisjoint(_RIGHT_TO_LEFT) and not classes.isdisjoint(_LEFT_TO_RIGHT)
