"""Makes the grid's cells of what a workbook stores: texts repaired, numbers as they are shown."""

import math
from dataclasses import dataclass, field, replace
from itertools import groupby

from addressing.guestlist.files.formats import (
    Moment,
    iso_moment,
    moment_of,
    moment_shown,
    moment_text,
    number_text,
    padded,
)
from addressing.guestlist.files.looks import Look
from addressing.guestlist.files.sheet_part import RawCell
from addressing.guestlist.files.sheet_strings import Run, plain
from addressing.guestlist.grid import Cell
from addressing.guestlist.repair import is_tidy, repair_text, turns
from addressing.records.guests import Repair
from addressing.where import Where

LONGEST = 32_767
"""Letters that spreadsheet programs allow in a cell; whatever is longer is broken."""
_TEXTS = frozenset(("s", "str", "inlineStr"))


class TooLongError(ValueError):
    """A cell of more letters than a list's can have; its text is the cell."""


@dataclass(slots=True)
class CellMaker:
    """Makes the cells of a file and logs what it repairs."""

    since_1904: bool = False
    repairs: list[Repair] = field(default_factory=list)

    def packed(self, raw: RawCell, where: Where) -> str | Cell | None:
        """A text for a plain cell, a Cell for one with more to it, None for an empty one."""
        if not raw.value:
            if raw.formula is None or (raw.kind == "str" and raw.value is not None):
                return None  # calculated, and the result is an empty text
            return Cell("", where, "formula", shown=_formula(raw.formula))
        cell = self._cell(raw, where)
        if cell is None or not raw.look.unseen:
            return cell
        return replace(cell if isinstance(cell, Cell) else Cell(cell, where), unseen=True)

    def _cell(self, raw: RawCell, where: Where) -> str | Cell | None:
        value, look = raw.value, raw.look
        if isinstance(value, tuple):
            return self.rich(value, where, struck=look.struck)
        text = value or ""
        if len(text) > LONGEST:
            raise TooLongError(str(where))
        if raw.kind in _TEXTS:
            return self.words(text, where, struck=look.struck)
        if raw.kind == "e":
            return Cell("", where, "error", shown=text)
        if raw.kind == "b":
            said = "TRUE" if text.strip() in ("1", "true") else "FALSE"
            return Cell(said, where, "boolean", (said,) if look.struck else ())
        return self._number(text.strip(), raw.kind, look, where)

    def words(self, text: str, where: Where, *, struck: bool) -> str | Cell | None:
        """A text in one font."""
        now, mended = repair_text(text, where)
        if not now:
            return None
        turned = bool(mended) and turns(text)
        self.repairs.extend(mended)
        if struck or turned:
            return Cell(now, where, struck=(now,) if struck else (), turned=turned)
        return now

    def rich(self, runs: tuple[Run, ...], where: Where, *, struck: bool) -> str | Cell | None:
        """Words in several fonts: the struck ones are taken out and listed."""
        said = [(run.text, struck if run.struck is None else run.struck) for run in runs]
        text = plain(runs)
        if len(text) > LONGEST:
            raise TooLongError(str(where))
        if not any(is_struck for words, is_struck in said if words.strip()):
            return self.words(text, where, struck=False)
        whole, mended = repair_text(text, where)
        if not whole:
            return None
        self.repairs.extend(mended)
        if all(is_struck for words, is_struck in said if words.strip()):
            return Cell(whole, where, struck=(whole,), turned=turns(text))
        out = tuple(
            words
            for is_struck, group in groupby(said, key=lambda run: run[1])
            if is_struck and (words := repair_text("".join(run[0] for run in group), where)[0])
        )
        left = "".join(words for words, is_struck in said if not is_struck)
        return Cell(repair_text(left, where)[0], where, struck=out, turned=turns(text))

    def _number(self, text: str, kind: str, look: Look, where: Where) -> Cell | None:
        if not text:
            return None
        moment = iso_moment(text) if kind == "d" else None
        try:
            number = int(text) if text.isdecimal() else float(text)
        except ValueError:
            number = math.nan
        if look.moment and math.isfinite(number):
            code = look.number_format
            moment = moment_of(number, since_1904=self.since_1904, number_format=code)
        if moment is not None:
            return self.moment(moment, look, where)
        if not math.isfinite(number):
            return Cell("", where, "error", shown=text)
        said, shown = number_text(number), padded(number, look.number_format)
        struck = (said,) if look.struck else ()
        return Cell(said, where, "number", struck, shown=shown if shown != said else None)

    def moment(self, moment: Moment, look: Look, where: Where) -> Cell:
        """A date or a time, and what its format shows."""
        said = moment_text(moment)
        struck = (said,) if look.struck else ()
        return Cell(said, where, "date", struck, shown=moment_shown(moment, look.number_format))


def is_plain(raw: RawCell) -> bool:
    """True for a text that needs no repair and has nothing more to it, as nearly all."""
    value, look = raw.value, raw.look
    return (
        isinstance(value, str)
        and raw.kind in _TEXTS
        and not look.struck
        and not look.unseen
        and len(value) <= LONGEST
        and is_tidy(value)
    )


def _formula(text: str) -> str:
    return f"={text}" if text else "A formula"
