"""Families that a sentence brings by nothing but their name: "I forgot the Penhews!"."""

import re

from addressing.guestlist.files.mentions import Mention
from addressing.guestlist.files.prose_plain import denies
from addressing.guestlist.files.prose_words import masked, prose_pattern

_FAMILY = re.compile(r"\b[Tt]he\s+(?P<family>[^\W\d_a-z][\w-]{2,}s)\b(?!['’]|\s+[A-Z])")
_FAR = 5
"""Words between what is to be done and the family at most."""


def families_told(text: str) -> list[Mention]:
    """The families whom a sentence adds; none where it denies that, or names their door only.

    >>> [each.text for each in families_told("I nearly forgot the Penhews and the Orrs!")]
    ['The Penhews', 'The Orrs']
    >>> families_told("Don't add the Penhews."), families_told("Add a card for the Penhews' aunt")
    ([], [])
    """
    shown = masked(text)
    brings = prose_pattern("brings").search(shown)
    if brings is None:
        return []
    found = list(_FAMILY.finditer(shown, brings.end()))
    between = shown[brings.end() : found[0].start()] if found else ""
    if len(between.split()) > _FAR or _is_denied(shown, brings):
        return []
    return [Mention(m.start(), m.end(), f"The {m['family']}", sure=False) for m in found]


def _is_denied(text: str, brings: re.Match[str]) -> bool:
    """True for "don't add", not for "don't forget"."""
    return denies(text[: brings.start()]) and not brings[0].casefold().startswith("forg")
