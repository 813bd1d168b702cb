"""Blanks and line breaks that were lost between the words of a US address, opened again.

Only where nothing else can be meant: a suffix that runs into a capital ("LaneLitchfield"), a state
that runs into the town before it ("LitchfieldCT 06759"), a ZIP or a house number into a word. A
semicolon is read as a comma.
"""

import re

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import state_code

_LEAST = 3
"""Letters of a suffix that may run into a town: St and Dr are other words too often."""
_RUN = re.compile(r"(?<![\w'’])([A-Z]?[a-z]{2,})\.?([A-Z][a-z]{2,})(?![\w'’])")
_STATE = re.compile(r"(?<=[a-z]{3})([A-Z]{2})(?=[\s,.]*\d{5}(?!\d))")
_BEHIND_ZIP = re.compile(r"(?<!\d)(\d{5}(?:-\d{4})?)(?=[A-Z][A-Za-z]{2})")
_NUMBER = re.compile(r"^(\d{1,5})(?=[A-Z][a-z]{3})")


def open_seams(text: str) -> str:
    """The text with its lost blanks back.

    >>> open_seams("14 Larkmoor LaneLitchfield,CT06759")
    '14 Larkmoor Lane, Litchfield,CT06759'
    """
    text = _RUN.sub(_apart, re.sub(r"\s*;\s*", ", ", text) if ";" in text else text)
    text = _STATE.sub(lambda found: f" {found[1]}" if state_code(found[1]) else found[0], text)
    text = _BEHIND_ZIP.sub(r"\1 ", text)
    return _NUMBER.sub(r"\1 ", text)


def _apart(found: re.Match[str]) -> str:
    known = suffix_words()
    if fold(found[1]) not in known or fold(found[0]) in known or len(found[1]) < _LEAST:
        return found[0]
    return f"{found[1]}, {found[2]}"
