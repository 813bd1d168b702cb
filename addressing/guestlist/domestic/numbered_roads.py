"""A numbered road: words of roads.tsv and a number, directions before or behind."""

import re

from addressing.guestlist.domestic.dwellings import direction_words, is_road

_ROAD_NUMBER = re.compile(
    r"\d{1,4}[a-z]?(?: (?:and|business|bypass|alternate|alt) \d{1,4})?|[a-z]{1,2}"
)


def is_numbered_road(words: list[str]) -> bool:
    """True for the folded words of a numbered road; directions may stand around.

    >>> is_numbered_road(["n", "state", "road", "7"]), is_numbered_road(["dixie", "hwy", "14"])
    (True, False)
    """
    words = without_directions(words)
    for place in range(len(words) - 1, 0, -1):
        number = " ".join(words[place:])
        before = [word for word in words[:place] if word not in ("no", "#")]
        named = bool(before) and not direction_words().issuperset(before)
        if named and _ROAD_NUMBER.fullmatch(number) and is_road(" ".join(before)):
            return True
    return False


def without_directions(words: list[str]) -> list[str]:
    """The words of a road without a direction before and behind, where two words are left."""
    known = direction_words()
    if len(words) > 2 and words[0] in known:  # noqa: PLR2004 - a road, a number
        words = words[1:]
    if len(words) > 2 and words[-1] in known:  # noqa: PLR2004 - a road, a number
        words = words[:-1]
    return words
