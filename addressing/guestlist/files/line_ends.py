"""Where a line of a mail ends what it says, though no stop tells so.

A mailer breaks a line where the next word doesn't fit. Where it would have fitted the writer ended
the line: corrections typed below each other are a sentence each, in small letters too.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from addressing.guestlist.files.mail_lines import Line, is_courtesy, is_pronoun, is_verb
from addressing.guestlist.files.prose_words import is_one_of, prose_pattern, prose_words
from addressing.guestlist.files.spans import spans
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import partner_words, row_words, words

_LEAST = 2
"""Words of a line that says something by itself."""
_CAPITAL = re.compile(r"(?<![.!?]\s)(?<!^)\b[^\W\d_a-z][\w'’-]+")
"""A name, as far as a capital tells."""


def ends_itself(lines: Sequence[str], at: int, *, placed: bool = False) -> bool:
    """True for a line that its writer ended, before one in small letters.

    `placed` is for one that ends in a code, and with it an address.

    >>> said = ["move the Penhews to no. 16", "take out Kit", "the Orrs", "and Wren too"]
    >>> [ends_itself(said, at) for at in range(4)]
    [True, True, False, False]
    """
    following = lines[at + 1] if at + 1 < len(lines) else ""
    if not following or lines[at][-1:] in ",;–—-(&+" or len(lines[at].split()) < _LEAST:
        return False
    first, last = fold(following.split(maxsplit=1)[0]), fold(lines[at].rsplit(maxsplit=1)[-1])
    goes_on = is_verb(first) or first in prose_words("line-opens")
    return (placed or _is_listed(lines)) and not goes_on and last not in prose_words("line-ends")


def _is_listed(lines: Sequence[str]) -> bool:
    """True for lines of which one ends though the next word would have stood in it."""
    widest = max(map(len, lines))
    return any(
        len(line) + 1 + len(following.split(maxsplit=1)[0]) <= widest
        for line, following in pairwise(lines)
        if following
    )


def parted(paragraph: Sequence[Line]) -> Iterator[tuple[Line, ...]]:
    """The sentences of lines below each other, parted where one speaks of nobody above it.

    One that points back ("they", "her", "the same") stays with those before, and so does an
    address alone.
    """
    part: list[Line] = []
    for said in paragraph:
        below = bool(part) and said.number != _last(part[-1])
        if below and not _points_back(said.text):
            yield tuple(part)
            part = []
        part.append(said)
    if part:
        yield tuple(part)


def goes_on(text: str) -> bool:
    """True for what goes on with the household just above: "but HOLD that one", "no children"."""
    first = text.split(maxsplit=1)[0]
    small = text[:1].islower() and _CAPITAL.search(text) is None and first[-1:] != "."
    small = small and fold(first) not in prose_words("own-subject")
    below = is_one_of("goes-below", first) or is_pronoun(first) or _is_of_them(first)
    below = below or changes_above(text)
    return (below or small or _tells_partner(text)) and not is_courtesy(text)


def changes_above(text: str) -> bool:
    """True for "make that Ms.", which is of the household above, be it a blank line away."""
    return prose_pattern("of-above").match(text.strip(" -–—*•(")) is not None


def _tells_partner(text: str) -> bool:
    """True for "Kit is her husband": who somebody just above is married to.

    >>> _tells_partner("Kit is her husband"), _tells_partner("Kit is Ada's husband")
    (True, False)
    """
    *_, being, whose, who = ("", "", "", *map(fold, text.strip(" .!").split()))
    return is_verb(being) and whose in ("his", "her", "their") and who in partner_words()


def _is_of_them(first: str) -> bool:
    """True for "kids are Kit and Wren", "her sister Kit": somebody of those above."""
    folded = fold(first)
    whose = folded in prose_words("points-back") or folded in row_words("relative")
    return first[:1].islower() and (whose or folded in partner_words() | words("children"))


def _last(said: Line) -> int:
    return said.more[-1].number if said.more else said.number


def _points_back(text: str) -> bool:
    first = fold(text.split(maxsplit=1)[0])
    back = prose_pattern("points-back").search(text) is not None
    alone = _CAPITAL.search(text) is None and first in prose_words("goes-below")
    alone = alone or _is_of_them(text.split(maxsplit=1)[0])
    return back or alone or any(span.whole for span in spans(text))
