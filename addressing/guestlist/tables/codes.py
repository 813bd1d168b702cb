"""Letters of the client's own in a column of replies: what "A", "H", "X" mean, only they know."""

from collections import Counter
from collections.abc import Sequence

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Column, Row
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.meanings import signs

_LONGEST = 2
"""Letters of a code."""
_CROSS = "x"
_MOST = 0.5
"""The part of the rows that may differ from the others by their code; more are no exception."""


def odd_codes(columns: Sequence[Column], rows: Sequence[Row]) -> frozenset[str]:
    """The codes, folded, that set a few rows of a column of replies apart from most.

    Known words ("y", "n") are none, nor is an X, which marks a yes as well as a no, save among
    codes. Empty where all have one code, or many have others.
    """
    places = [column.index for column in columns if column.meaning == "reply"]
    cells = [cell for row in rows for at in places if (cell := row.cell(at)) is not None]
    said = [fold(cell.text) for cell in cells if cell.filled]
    known = signs("mark-sign").keys() | row_words("said-no")
    letters = [text for text in said if text.isalpha() and len(text) <= _LONGEST]
    codes = Counter(text for text in letters if text not in known)
    if codes and _CROSS in letters:
        codes[_CROSS] = letters.count(_CROSS)
    (usual, _), *others = codes.most_common() or [("", 0)]
    few = 0 < sum(count for _, count in others) <= _MOST * len(said)
    return frozenset(codes) - {usual} if few else frozenset()


def crosses_of_rounds(columns: Sequence[Column], rows: Sequence[Row]) -> frozenset[str]:
    """The marks, folded, that stand for a no where most rows have the round they are invited in.

    A letter or a figure may be a round, save an X.
    """
    places = [column.index for column in columns if column.meaning == "wave"]
    cells = [cell for row in rows for at in places if (cell := row.cell(at)) is not None]
    said = [fold(cell.text) for cell in cells if cell.filled]
    noes = {_CROSS, *(word for word in row_words("said-no") if len(word) > 1)}
    crossed = [text for text in said if text in noes]
    return frozenset(crossed) if len(crossed) <= _MOST * len(said) else frozenset()
