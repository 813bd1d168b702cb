"""How names are built elsewhere: two Spanish family names, and family names that stand first.

"Luis García Pérez" is Mr. García Pérez; "Nagy Zsófia" is Ms. Nagy. Only the inner envelope shows
the family name alone, so the order is asked about where a title makes it do so, and nowhere else.
What the words can't settle is asked about, not guessed. The names are rows of `family_names.tsv`.
"""

import re
from dataclasses import replace
from functools import cache

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import GIVEN_GLUE, GLUE, is_initial
from addressing.guestlist.people.parts import Doubt, Part
from addressing.guestlist.people.vocabulary import given_names, is_given, words
from addressing.records.guests import Kind
from addressing.tables import table

_LEAST = 3
"""Words of a name that may end in two family names."""
_PAIR = 2
_SYLLABLES = re.compile(r"[^\W\d_]{1,5}-(?=[^\W\d_]{1,5}$)[a-z]+")
"""A Korean or Chinese given name as it is often written: "Min-jun"."""
_MOST_EAST = 4
"""Words of a name whose family name may stand first."""


def settle_families(parts: tuple[Part, ...]) -> tuple[tuple[Part, ...], tuple[Doubt, ...]]:
    """Parts whose two Spanish family names are kept together, and what only the client can tell."""
    settled: list[Part] = []
    doubts: list[Doubt] = []
    for part in parts:
        names = part.names.names
        told = _two_families(names) if part.kind is not Kind.GUEST else False
        if told:
            part = replace(part, names=replace(part.names, names=_together(names)))  # noqa: PLW2901 - the same part, joined
        settled.append(part)
        if told is None:
            doubts.append(Doubt("family-words-doubtful", " ".join(names)))
        elif part.names.titles and _may_stand_first(names):
            doubts.append(Doubt("name-order-doubtful", " ".join(names)))
    return tuple(settled), tuple(doubts[:1])


@cache
def _known(kind: str) -> frozenset[str]:
    """The folded names of one kind in `family_names.tsv`: east, iberian, iberian-given."""
    return frozenset(fold(row["name"]) for row in table("family_names") if row["kind"] == kind)


def _two_families(names: tuple[str, ...]) -> bool | None:
    """True where the last two words are a family name, None where they may be, else False."""
    if len(names) < _LEAST or any(GLUE in name or GIVEN_GLUE in name for name in names):
        return False
    one, other = names[-2:]
    if fold(names[0]) not in _known("iberian-given"):
        return False
    if fold(one) in words("particle"):
        return _before_particle(names)
    if is_initial(one) or fold(other) in words("particle") or "-" in one:
        return False
    family = _known("iberian")
    may_be_given = is_given(one) or fold(one) in given_names("both") | _known("iberian-given")
    if fold(one) in family:
        return None if may_be_given else True
    return False if may_be_given else None


def _before_particle(names: tuple[str, ...]) -> bool | None:
    """None for "Ana Sofía Montes de Oca": Montes may be of the family name, and no given one."""
    end = len(names) - 1
    while end > 0 and fold(names[end - 1]) in words("particle"):
        end -= 1
    if end < _LEAST - 1:
        return False
    one = fold(names[end - 1])
    given = one in given_names("single") | given_names("both") | _known("iberian-given")
    return False if given or is_initial(names[end - 1]) else None


def _together(names: tuple[str, ...]) -> tuple[str, ...]:
    return (*names[:-2], GLUE.join(names[-2:]))


def _may_stand_first(names: tuple[str, ...]) -> bool:
    """True for "Sato Yuki" and "Nguyễn Thị Minh"; "Li Wang" may be either and stays as it is."""
    if not 1 < len(names) <= _MOST_EAST or any(GLUE in name for name in names):
        return False
    if len(names) == _PAIR and _SYLLABLES.fullmatch(names[1]) and "-" not in names[0]:
        return True
    return fold(names[0]) in _known("east") and fold(names[-1]) not in _known("east")
