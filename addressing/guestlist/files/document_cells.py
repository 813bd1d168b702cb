"""What a cell of an OpenDocument sheet holds: words, or a number or date and how it is shown."""

import re
from dataclasses import dataclass, field, replace

from addressing.guestlist.files.formats import iso_moment, moment_text, number_text
from addressing.guestlist.files.looks import Look
from addressing.guestlist.files.markup import Attributes, given
from addressing.guestlist.files.sheet_cells import LONGEST, CellMaker, TooLongError
from addressing.guestlist.files.sheet_strings import Run
from addressing.guestlist.grid import Cell
from addressing.where import Where

_ERROR = re.compile(r"#(?:REF|N/A|NAME|VALUE|DIV/0|NUM|NULL)[!?]?|Err:\d+")
_NUMBERS = frozenset(("float", "currency", "percentage"))


@dataclass(slots=True)
class DocumentCell:
    """A cell on the way: what it says of itself, and its words by run."""

    attributes: Attributes
    look: Look
    covered: bool
    words: list[Run] = field(default_factory=list)
    note: list[str] = field(default_factory=list)


def held_by(maker: CellMaker, cell: DocumentCell, where: Where) -> str | Cell | None:
    """What a cell holds: its words, or its number or date with what is shown of it."""
    said = "".join(run.text for run in cell.words)
    if len(said) > LONGEST:
        raise TooLongError(str(where))
    held = _content(maker, cell, said, where)
    if held is None or not cell.look.unseen:
        return held
    return replace(held if isinstance(held, Cell) else Cell(held, where), unseen=True)


def _content(maker: CellMaker, cell: DocumentCell, said: str, where: Where) -> str | Cell | None:
    kind = given(cell.attributes, "office:value-type")
    formula = given(cell.attributes, "table:formula")
    struck = cell.look.struck
    if formula and _ERROR.fullmatch(said.strip()):
        return Cell("", where, "error", shown=said.strip())
    if formula and not kind and not said.strip():
        return Cell("", where, "formula", shown=formula.partition(":")[2] or formula)
    if kind in _NUMBERS:
        return _number(given(cell.attributes, "office:value"), said.strip(), where, struck=struck)
    if kind in ("date", "boolean"):
        return _other(kind, cell, said.strip(), where)
    if any(run.struck is not None for run in cell.words):
        return maker.rich(tuple(cell.words), where, struck=struck)
    stored = given(cell.attributes, "office:string-value")
    return maker.words(said or stored, where, struck=struck)


def _number(value: str, shown: str, where: Where, *, struck: bool) -> Cell | None:
    """A number; of what its format shows, only noughts in front and hyphens tell more."""
    try:
        text = number_text(float(value))
    except (ValueError, OverflowError):
        return Cell("", where, "error", shown=shown or value) if shown or value else None
    digits = shown.replace("-", "").lstrip("0")
    tells = shown != text and digits == text and shown.replace("-", "").isdecimal()
    return Cell(text, where, "number", (text,) if struck else (), shown=shown if tells else None)


def _other(kind: str, cell: DocumentCell, shown: str, where: Where) -> Cell:
    """A date, as ISO 8601 and as it is shown, or a box that is checked or not."""
    if kind == "boolean":
        true = given(cell.attributes, "office:boolean-value") == "true"
        word = "TRUE" if true else "FALSE"
        return Cell(word, where, kind, (word,) if cell.look.struck else ())
    value = given(cell.attributes, "office:date-value")
    moment = iso_moment(value)
    text = moment_text(moment) if moment is not None else value or shown
    return Cell(text, where, kind, (text,) if cell.look.struck else (), shown=shown or None)
