"""The town that is meant where a list writes one misspelt, shortened, or its county's name."""

import re

from rapidfuzz import fuzz

from addressing.guestlist.places.places import fold_town

_NEAR = 78
"""From this likeness (of 100) on, an unknown town is taken for a misspelt one and asked about.

Of 40 000 random pairs of towns of the open ZIP data 8 are so alike, from 85 on one (measured).
"""
_SHORT = 6
"""Letters of a shortened town at most ("Phila", "Bklyn")."""


def town_meant(city: str, towns: tuple[str, ...]) -> str:
    """The one of a ZIP's towns that `city`, which is none of them, seems to mean; "" for none."""
    return _nearly(city, towns) or _without_county(city, towns)


def is_short(city: str, town: str) -> bool:
    """True for letters of a town's name in its order, the first in front; no word of it whole.

    >>> is_short("NYC", "New York"), is_short("Bklyn", "Brooklyn"), is_short("Keene", "Kent")
    (True, True, False)
    >>> is_short("Newton", "Newton Center")
    False
    """
    short = fold_town(city)
    words = [fold_town(word) for word in town.split()]
    whole = f"{''.join(words)}city"
    if not 1 < len(short) <= _SHORT or 2 * len(short) >= len(whole):
        return False
    runs = {"".join(words[at:to]) for at in range(len(words)) for to in range(at, len(words) + 1)}
    letters = iter(whole)
    inside = short[:1] == whole[:1] and all(letter in letters for letter in short)
    return inside and short not in runs


def is_initials(city: str, town: str) -> bool:
    """True for the first letters of a town's words, parted by points or not.

    >>> is_initials("L.A.", "Los Angeles"), is_initials("La", "Los Angeles")
    (True, False)
    """
    letters = re.sub(r"[.\s]", "", city)
    first = "".join(word[:1] for word in town.split())
    return len(first) > 1 and letters.isupper() and letters == first.upper()


def _nearly(city: str, towns: tuple[str, ...]) -> str:
    """The town that is spelled nearly like the one written, or shortened so, or ""."""
    wanted = fold_town(city)
    alike = (
        town
        for town in towns
        if fuzz.ratio(wanted, fold_town(town)) >= _NEAR or is_short(city, town)
    )
    return next(alike, "")


def _without_county(city: str, towns: tuple[str, ...]) -> str:
    """The town where a county of that name stands in its place, or ""."""
    named = re.sub(r"\s+(?:county|co|parish)\.?$", "", city, flags=re.IGNORECASE)
    wanted = fold_town(named) if named != city else ""
    return next((town for town in towns if fold_town(town) == wanted), "")
