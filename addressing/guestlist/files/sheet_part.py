"""One sheet of a workbook as its part streams by: cells and looks, hidden rows and columns."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import ClassVar, NamedTuple, Protocol

from addressing.guestlist.files.looks import PLAIN, Look
from addressing.guestlist.files.markup import Attributes, BrokenPartError
from addressing.guestlist.files.ranges import LAST_COLUMN, LAST_ROW, box, place
from addressing.guestlist.files.sheet_rules import SheetRules
from addressing.guestlist.files.sheet_strings import Strings, Text
from addressing.guestlist.grid import Merge

MAX_CELLS = 4_000_000
MAX_MERGES = 20_000
_UNSEEN_HEIGHT = 2.0
"""Points; a row or column that is less high or wide than a hair can't be read."""


class TooFarError(ValueError):
    """A sheet that reaches further than a list can; its text is the cell."""


class RawCell(NamedTuple):  # one a cell: a frozen dataclass would take three times as long
    """A cell as it is stored. `formula` is "" for a formula whose text stands in another cell."""

    value: Text | None
    kind: str
    look: Look
    formula: str | None = None


@dataclass(slots=True)
class RawSheet:
    """What is gathered from a sheet besides its rows; columns count from 0."""

    hidden_columns: set[int] = field(default_factory=set)
    merges: list[Merge] = field(default_factory=list)
    cells: int = 0


class TakeRow(Protocol):
    """Takes a row of a sheet: its number, its cells by column (0 is A), whether it is hidden."""

    def __call__(self, number: int, cells: Mapping[int, RawCell], *, hidden: bool) -> None:
        """Take the row."""


class SheetPart:
    """Listens to a sheet and hands its rows on: number, hidden, and column (0 is A) → cell."""

    def __init__(self, strings: Sequence[Text], looks: Sequence[Look], take: TakeRow) -> None:
        """`take` is called for each row that has a cell with a value or a colour."""
        self.found = RawSheet()
        self.rules = SheetRules()
        self._strings, self._looks, self._take = strings, looks, take
        self._number = self._column = 0
        self._columns_given = 0
        self._hidden = False
        self._cells: dict[int, RawCell] = {}
        self._kind, self._look = "n", PLAIN
        self._value: str | None = None
        self._formula: str | None = None
        self._formulas: dict[str, str] = {}
        self._shared: str | None = None
        self._inline: Strings | None = None
        self._words: list[str] | None = None

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        act = self._STARTS.get(name)
        if act is not None:
            act(self, attributes)
        elif self._inline is not None:
            self._inline.start(name, attributes)

    def end(self, name: str) -> None:
        """A tag closes."""
        if self._inline is not None:
            self._inline.end(name)
        act = self._ENDS.get(name)
        if act is not None:
            act(self)

    def text(self, data: str) -> None:
        """Some of the text."""
        if self._words is not None:
            self._words.append(data)
        elif self._inline is not None:
            self._inline.text(data)

    def _start_row(self, attributes: Attributes) -> None:
        self._number = int(attributes["r"]) if "r" in attributes else self._number + 1
        self._column = 0
        self._cells = {}
        height = attributes.get("ht")
        self._hidden = attributes.get("hidden") in ("1", "true") or (
            height is not None and float(height) < _UNSEEN_HEIGHT
        )

    def _end_row(self) -> None:
        if self._cells:
            self._take(self._number, self._cells, hidden=self._hidden)
            self._cells = {}

    def _start_cell(self, attributes: Attributes) -> None:
        name = attributes.get("r")
        if name is None:
            self._column += 1
        else:
            self._column, number = place(name)
            if number != self._number:
                self._move(number)
        self._kind = attributes.get("t", "n")
        style = attributes.get("s")
        self._look = PLAIN if style is None else self._look_of(int(style))
        self._value = self._formula = None
        self.found.cells += 1
        if self.found.cells > MAX_CELLS or self._column > LAST_COLUMN or self._number > LAST_ROW:
            raise TooFarError(name or str(self._number))

    def _look_of(self, style: int) -> Look:
        return self._looks[style] if style < len(self._looks) else PLAIN

    def _move(self, number: int) -> None:
        """A cell that names another row than its own: the cell's name holds."""
        self._end_row()
        self._number = number

    def _end_cell(self) -> None:
        value: Text | None = self._value
        kind = self._kind
        if self._inline is not None:
            value = self._inline.texts[-1] if self._inline.texts else None
            self._inline, kind = None, "inlineStr"
        elif kind == "s" and self._value is not None:
            value = self._string(self._value)
        if value is None and self._formula is None and self._look.colour is None:
            return
        self._cells[self._column - 1] = RawCell(value, kind, self._look, self._formula)

    def _string(self, number: str) -> Text:
        place_of_it = int(number)
        if place_of_it < len(self._strings):
            return self._strings[place_of_it]
        message = f"no shared text {number}"
        raise BrokenPartError(message)

    def _start_words(self, attributes: Attributes) -> None:
        del attributes
        self._words = []

    def _end_value(self) -> None:
        self._value, self._words = "".join(self._words or ()), None

    def _start_formula(self, attributes: Attributes) -> None:
        self._words = []
        self._shared = attributes.get("si") if attributes.get("t") == "shared" else None

    def _end_formula(self) -> None:
        """A formula that is shared stands in the first cell only."""
        formula, self._words = "".join(self._words or ()), None
        if self._shared is not None:
            formula = formula or self._formulas.get(self._shared, "")
            self._formulas[self._shared] = formula
        self._formula = formula

    def _start_inline(self, attributes: Attributes) -> None:
        del attributes
        self._inline = Strings()

    def _column_given(self, attributes: Attributes) -> None:
        self._columns_given += 1
        if self._columns_given > LAST_COLUMN:
            message = "more columns than a sheet can have"
            raise BrokenPartError(message)
        width = attributes.get("width")
        unseen = width is not None and float(width) * 7 < _UNSEEN_HEIGHT  # some 7 points a letter
        if attributes.get("hidden") in ("1", "true") or unseen:
            first, last = int(attributes["min"]), int(attributes["max"])
            self.found.hidden_columns.update(range(first - 1, min(last, LAST_COLUMN)))

    def _start_rules(self, attributes: Attributes) -> None:
        self.rules.start_format(attributes)

    def _start_rule(self, attributes: Attributes) -> None:
        self.rules.start_rule(attributes)

    def _rules_look(self, attributes: Attributes) -> None:
        del attributes
        self.rules.look()

    def _end_condition(self) -> None:
        said, self._words = "".join(self._words or ()), None
        self.rules.condition(said)

    def _end_ranges(self) -> None:
        said, self._words = "".join(self._words or ()), None
        self.rules.ranges(said)

    def _end_rule(self) -> None:
        self.rules.end_rule()

    def _end_rules(self) -> None:
        self.rules.end_format()

    def _merge(self, attributes: Attributes) -> None:
        left, top, right, bottom = box(attributes.get("ref", ""))
        self.found.merges.append(Merge(top, left - 1, bottom, right - 1))
        if len(self.found.merges) > MAX_MERGES:
            raise TooFarError(attributes.get("ref", ""))

    # What to do at a tag. Bound methods, kept in the object, would hold it and all its rows.
    _STARTS: ClassVar[Mapping[str, Callable[["SheetPart", Attributes], None]]] = {
        "x:c": _start_cell,
        "x:v": _start_words,
        "x:f": _start_formula,
        "x:row": _start_row,
        "x:is": _start_inline,
        "x:col": _column_given,
        "x:mergeCell": _merge,
        "x:conditionalFormatting": _start_rules,
        "x:cfRule": _start_rule,
        "x:formula": _start_words,
        "x14:conditionalFormatting": _start_rules,
        "x14:cfRule": _start_rule,
        "x14:dxf": _rules_look,
        "xm:f": _start_words,
        "xm:sqref": _start_words,
    }
    _ENDS: ClassVar[Mapping[str, Callable[["SheetPart"], None]]] = {
        "x:c": _end_cell,
        "x:cfRule": _end_rule,
        "x:formula": _end_condition,
        "x:conditionalFormatting": _end_rules,
        "x14:conditionalFormatting": _end_rules,
        "x14:cfRule": _end_rule,
        "xm:f": _end_condition,
        "xm:sqref": _end_ranges,
        "x:v": _end_value,
        "x:f": _end_formula,
        "x:row": _end_row,
    }
