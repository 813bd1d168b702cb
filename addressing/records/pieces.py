"""The words of each piece: ranked wordings, with the places where a line may break."""

from dataclasses import dataclass
from enum import StrEnum

from addressing.records.swiftly import swiftly
from addressing.where import Where


class Role(StrEnum):
    """What a line says."""

    NAME = "name"
    EXTRA = "extra"
    """Care of, a company, a building."""
    STREET = "street"
    PLACE = "place"
    COUNTRY = "country"
    SEAT = "seat"
    """The table, on an escort card."""
    NUMBER = "number"
    """The number on a reply card."""


ENVELOPES = ("outer", "inner", "return", "reply")
CARDS = ("place-card", "escort-card", "reply-number")
"""Place cards, a guest each; escort cards, a party each with its table; numbered reply cards."""
STATIC = ("return", "reply")
"""Pieces that are the same for all: one page and a quantity."""
TELLS = {
    "outer": "a guest's name and address",
    "inner": "a guest's name",
    "place-card": "a guest's name",
    "escort-card": "a guest's name",
}
"""What a piece tells of a guest to whoever finds it; a reply card's number tells nothing."""
_CARD = "."


def card_key(household: str, number: int) -> str:
    """The key of a household's card; its first has the household's own.

    >>> card_key("h-abcdefgh", 1), card_key("h-abcdefgh", 2)
    ('h-abcdefgh', 'h-abcdefgh.2')
    """
    return household if number == 1 else f"{household}{_CARD}{number}"


def household_of(key: str) -> str:
    """The household of a piece's key.

    >>> household_of("h-abcdefgh.2"), household_of("h-abcdefgh")
    ('h-abcdefgh', 'h-abcdefgh')
    """
    return key.partition(_CARD)[0]


@swiftly
@dataclass(frozen=True, slots=True)
class Line:
    """One line of a piece as etiquette words it.

    `breaks` are offsets into `text` where a new line may begin, best first; the blank before the
    offset falls away there. An empty tuple means that the line must stay whole.
    """

    text: str
    role: Role
    cells: tuple[Where, ...] = ()
    breaks: tuple[int, ...] = ()


@swiftly
@dataclass(frozen=True, slots=True)
class Wording:
    """One way to word a piece. `why` is empty for the first choice, else what it gives up."""

    lines: tuple[Line, ...]
    why: str = ""


@swiftly
@dataclass(frozen=True, slots=True)
class Piece:
    """One thing to print; `kind` is one of ENVELOPES or CARDS.

    `wordings` are ranked, best first; typesetting takes the best that fits. A static piece has
    no household: one page serves all. Of cards a household may have several: then `household` is
    its key with the card's number behind (`card_key`).
    """

    kind: str
    household: str | None
    name: str
    """What to call it on a proof: the household's name, or the hosts'."""
    wordings: tuple[Wording, ...]
