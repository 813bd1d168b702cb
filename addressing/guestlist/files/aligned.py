"""Tables whose columns are aligned by blanks, as they come out of a mail or a printout."""

from itertools import pairwise

_GAP = 2
"""So many blanks below each other part two columns."""
_ENOUGH = 2


def aligned_records(text: str) -> list[list[str]] | None:
    r"""The cells of each line, cut where all lines have blanks; None where no line is so parted.

    >>> aligned_records("Name           Town\nTobias Penhew  Bar Harbor")
    [['Name', 'Town'], ['Tobias Penhew', 'Bar Harbor']]
    """
    lines = text.expandtabs().splitlines()
    filled = [line for line in lines if line.strip()]
    if len(filled) < _ENOUGH:
        return None
    starts = _starts(filled)
    if len(starts) < _ENOUGH:
        return None
    edges = list(pairwise([*starts, max(map(len, filled))]))
    return [[line[left:right].strip() for left, right in edges] for line in lines]


def _starts(lines: list[str]) -> list[int]:
    """Where columns begin: after a gap that goes through all lines."""
    width = max(map(len, lines))
    used = bytearray(width)
    for line in lines:
        for place, mark in enumerate(line):
            if mark != " ":
                used[place] = 1
    starts, gap = [], _GAP
    for place in range(width):
        if used[place]:
            if gap >= _GAP:
                starts.append(place)
            gap = 0
        else:
            gap += 1
    return starts
