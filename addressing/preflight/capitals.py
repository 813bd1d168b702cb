"""Words in capitals: which they are, and how they are cased among small capitals."""

import re


def in_capitals(word: str, *, codes: bool = False) -> bool:
    """True for a word with two capitals in a row, no small letter and no figure.

    With `codes` also for one of capitals and figures.
    """
    shape = re.sub(r"(?s).", lambda one: _kind(one[0]), word)
    if "l" in shape:
        return False
    return ("u" in shape and codes) if "9" in shape else "uu" in shape


def _kind(letter: str) -> str:
    """A sign for a capital, a small letter, a figure, anything else."""
    if letter.isupper():
        return "u"
    return "l" if letter.islower() else "9" if letter.isdigit() else "-"


def small(word: str) -> str:
    """A word in small letters, if it is in capitals."""
    return word.lower() if in_capitals(word) else word
