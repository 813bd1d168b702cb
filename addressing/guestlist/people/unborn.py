"""A child to be born, told among names: no guest yet, so a remark ("& baby girl due in June")."""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import row_words, words

_JOINT = re.compile(r"(\s*(?:[,;&+\n]|(?<!\S)(?:and|plus)(?!\S))\s*)", re.IGNORECASE)
_BORN = frozenset(("new baby",))
"""Words of a child's column that may well mean one who is born."""


def without_unborn(text: str) -> tuple[str, tuple[str, ...]]:
    """(a cell of names without such parts, these).

    >>> without_unborn("Odile, Linnet (4) & baby girl due in June")
    ('Odile, Linnet (4)', ('baby girl due in June',))
    >>> without_unborn("Tobias Due & Odile")
    ('Tobias Due & Odile', ())
    """
    first, *rest = _JOINT.split(text)
    kept, said = first, []
    for joint, part in zip(rest[::2], rest[1::2], strict=True):
        if _is_unborn(part):
            said.append(part.strip())
        else:
            kept += joint + part
    return (kept, tuple(said)) if said else (text, ())


def _is_unborn(part: str) -> bool:
    folded = f" {' '.join(fold(part).split())} "
    child = words("children") | {"expecting", "one"}
    told = any(f" {said} " in folded for said in row_words("unborn") - _BORN)
    return told and part.lstrip()[:1].islower() and not child.isdisjoint(folded.split())
