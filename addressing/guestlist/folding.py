"""Words made comparable: case, accents, points and apostrophes fall away. Never printed."""

import re
import unicodedata
from functools import lru_cache

_UNDRAWN = re.compile("[.'’\u2018`\u00b4]")
_BREAKS = re.compile(r"[\W_]+")
_LETTERS = str.maketrans({"ß": "ss", "ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ð": "d"})


@lru_cache(maxsize=16_384)  # ninety times a row, and mostly the same words (measured)
def fold(text: str) -> str:
    """Text for comparing: lower case, no accents or points, other marks as single blanks.

    Letters of every script stay: "Ms. 林" is not "Ms.".

    >>> fold("O’Farrelly-Müller, Jr."), fold("M.D."), fold("Ms. 林")
    ('ofarrelly muller jr', 'md', 'ms 林')
    """
    plain = unicodedata.normalize("NFKD", text.casefold().translate(_LETTERS))
    plain = "".join(mark for mark in plain if not unicodedata.combining(mark))
    return _BREAKS.sub(" ", _UNDRAWN.sub("", plain)).strip() or _bare(text)


def _bare(text: str) -> str:
    """Words of nothing but marks keep them."""
    return " ".join(text.casefold().split())
