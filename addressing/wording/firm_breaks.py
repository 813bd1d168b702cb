"""Where the long name of a firm, a church or a family may go on in a new line.

A household that names nobody stands as it is listed, and such names are the longest of a list: one
that must stay whole would make the whole row of envelopes small.
"""

from functools import cache
from itertools import pairwise

from addressing.tables import table
from addressing.wording.persons import written_titles


def firm_breaks(text: str) -> tuple[int, ...]:
    """The offsets where a new line may begin, best first.

    Best before "and", "of" and their like, last first; then behind a comma; then elsewhere, the
    nearest to the middle first. Never behind a word that leans on the next, nor before "Inc."; and
    where somebody stands in it with a title, no name is parted.

    >>> name = "Quillfeather, Goddenham & Daughters Larkmoor LLP"
    >>> [name[place:].split(" ")[0] for place in firm_breaks(name)]
    ['&', 'Goddenham', 'Larkmoor']
    >>> family = "The Family of Mr. and Mrs. Tobias Penhew"
    >>> [family[place:] for place in firm_breaks(family)]
    ['of Mr. and Mrs. Tobias Penhew']
    """
    words = text.split(" ")
    titled = not written_titles().isdisjoint(words)
    places = []
    at = 0
    for before, word in pairwise(words):
        at += len(before) + 1
        if before in written_titles() or _are_one(_plain(before), _plain(word)):
            continue
        if _plain(word) in _words("opens"):
            places.append((0, -at, at))
        elif before.endswith(","):
            places.append((1, -at, at))
        elif not titled:
            places.append((2, abs(2 * at - len(text)), at))
    return tuple([at for _, _, at in sorted(places)])


def _are_one(before: str, word: str) -> bool:
    """Whether two words stay on one line."""
    leans = before in _words("opens") or before in _words("clings")
    return leans or word in _words("stays")


def _plain(word: str) -> str:
    return word.strip(".,").casefold()


@cache
def _words(kind: str) -> frozenset[str]:
    return frozenset(row["word"] for row in table("firm_breaks") if row["kind"] == kind)
