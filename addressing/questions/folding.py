"""Names as they are compared."""

import unicodedata


def folded(words: str | None) -> str:
    """For comparing names: one case, no accents."""
    parts = unicodedata.normalize("NFKD", words or "")
    return "".join(mark for mark in parts if not unicodedata.combining(mark)).casefold()
