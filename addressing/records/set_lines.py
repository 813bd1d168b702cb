"""Pieces as they will stand on paper, in words and places."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import repeat
from typing import NamedTuple

from addressing.records.pieces import Role
from addressing.records.swiftly import swiftly


class SetLine(NamedTuple):
    """Words at their place: the baseline's origin in points from the envelope's lower left corner.

    In a zone that bends or turns its lines this is where they stand before that.

    `source` is the number of the worded line that this one is, or is a part of.
    """  # made anew whenever a piece is asked for: a tuple is made in a third of the time

    text: str
    role: Role
    source: int
    x: float
    y: float
    size: float
    tighter: int = 0
    """How much closer its letters stand than its hand's, in thousandths of an em."""


_made = tuple.__new__
"""`SetLine._make` without its own call, which takes four times as long."""


def set_lines(*columns: Iterable[object]) -> tuple[SetLine, ...]:
    """The lines of a piece from columns, one for each field."""
    return tuple(map(_made, repeat(SetLine), zip(*columns, strict=True)))


@swiftly
@dataclass(frozen=True, slots=True)
class SetPiece:
    """One piece as it will stand on paper, in words and places (glyphs come when pages stream).

    `wording` is the number of the wording that was taken; `why` explains anything out of the
    common run ("set 2 pt smaller: …"), else is empty.
    """

    household: str | None
    name: str
    wording: int
    lines: tuple[SetLine, ...]
    why: str = ""
    fallbacks: tuple[tuple[int, str], ...] = ()
    """The hand and the script of each face that sets words for another here, in order."""
