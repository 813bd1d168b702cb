"""The words of each piece: ranked wordings, with the places where a line may break."""

from dataclasses import dataclass
from enum import StrEnum

from addressing.where import Where


class Role(StrEnum):
    """What a line says."""

    NAME = "name"
    EXTRA = "extra"
    """Care of, a company, a building."""
    STREET = "street"
    PLACE = "place"
    COUNTRY = "country"


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


@dataclass(frozen=True, slots=True)
class Wording:
    """One way to word a piece. `why` is empty for the first choice, else what it gives up."""

    lines: tuple[Line, ...]
    why: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """One thing to print: `kind` is "outer", "inner", "return", "reply".

    `wordings` are ranked, best first; typesetting takes the first that fits. A static piece has
    no household: one page serves all.
    """

    kind: str
    household: str | None
    name: str
    """What to call it on a proof: the household's name, or the hosts'."""
    wordings: tuple[Wording, ...]
