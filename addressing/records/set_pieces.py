"""Set pieces kept in columns, so that a large set takes little memory."""

from array import array
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, overload

from addressing.records.pieces import Role
from addressing.records.set_lines import SetPiece, set_lines

Form = tuple[
    int,
    str,
    tuple[tuple[int, str], ...],
    tuple[Role, ...],
    tuple[int, ...],
    tuple[float, ...],
    tuple[float, ...],
    tuple[int, ...],
]
"""What many pieces have in common: wording, why, fallbacks, and of their lines the roles, the
sources, the heights, the sizes, and how much closer the letters stand."""


Row = tuple[str | None, Form, list[str], "array[float]"]
"""A piece as it is kept: whose it is, its form, the words and left ends of its lines."""


class SetColumns:
    """What differs from piece to piece, a column each; the lines of all pieces in a row."""

    def __init__(self) -> None:
        """There are none at first."""
        self.households: list[str | None] = []
        self.names: list[str] = []
        self.texts: list[str] = []
        self.xs = array("d")
        self._forms: list[Form] = []
        self._known: dict[Form, int] = {}
        self._form_of = array("I")
        self._ends = array("I", [0])

    def number_of(self, form: Form) -> int:
        """The number by which a form is known here."""
        number = self._known.get(form)
        if number is None:
            number = self._known[form] = len(self._forms)
            self._forms.append(form)
        return number

    def put(
        self,
        household: str | None,
        name: str,
        form: int,
        texts: Iterable[str],
        xs: Iterable[float],
    ) -> None:
        """One piece more: its form's number, and the words and left ends of its lines."""
        self._form_of.append(form)
        self.households.append(household)
        self.names.append(name)
        self.texts.extend(texts)
        self.xs.extend(xs)
        self._ends.append(len(self.xs))

    def put_piece(self, piece: SetPiece) -> None:
        """One piece more that is a record already."""
        columns: Any = zip(*piece.lines, strict=True) if piece.lines else ((),) * 7
        texts, roles, sources, xs, ys, sizes, tighter = columns
        form = piece.wording, piece.why, piece.fallbacks, roles, sources, ys, sizes, tighter
        self.put(piece.household, piece.name, self.number_of(form), texts, xs)

    def form_of(self, number: int) -> int:
        """The form of a piece, a number."""
        return self._form_of[number]

    def row(self, number: int) -> Row:
        """The piece of this number as it is kept."""
        form = self._forms[self._form_of[number]]
        start, end = self._ends[number], self._ends[number + 1]
        return self.households[number], form, self.texts[start:end], self.xs[start:end]

    def piece(self, number: int) -> SetPiece:
        """The piece of this number, made anew."""
        household, form, texts, xs = self.row(number)
        wording, why, fallbacks, roles, sources, ys, *others = form
        lines = set_lines(texts, roles, sources, xs, ys, *others)
        return SetPiece(household, self.names[number], wording, lines, why, fallbacks)


class SetPieces(Sequence[SetPiece]):
    """Set pieces that are made anew each time they are asked for, equal to what was put in.

    Of heights and sizes a set has few; kept once, they leave about 100 bytes for a piece where
    records take 700. A part of them shares their columns.
    """

    __slots__ = ("_columns", "_numbers")

    def __init__(self, pieces: Iterable[SetPiece] = ()) -> None:
        """Take them one by one, as they come."""
        columns = SetColumns()
        for piece in pieces:
            columns.put_piece(piece)
        self._columns = columns
        self._numbers: range | array[int] = range(len(columns.names))

    @classmethod
    def of(cls, columns: SetColumns) -> "SetPieces":
        """All pieces of some columns, to which no more are put."""
        made = cls()
        made._columns, made._numbers = columns, range(len(columns.names))
        return made

    def __len__(self) -> int:
        """How many they are."""
        return len(self._numbers)

    @overload
    def __getitem__(self, which: int) -> SetPiece: ...

    @overload
    def __getitem__(self, which: slice) -> "SetPieces": ...

    def __getitem__(self, which: int | slice) -> "SetPiece | SetPieces":
        """One piece, or some of them."""
        if isinstance(which, int):
            return self._columns.piece(self._numbers[which])
        return self._with(self._numbers[which])

    def picked(self, which: Iterable[int]) -> "SetPieces":
        """Those at these places (from 0), in this order."""
        return self._with(array("I", [self._numbers[place] for place in which]))

    def _with(self, numbers: "range | array[int]") -> "SetPieces":
        some = SetPieces.__new__(SetPieces)
        some._columns, some._numbers = self._columns, numbers  # noqa: SLF001 - its own
        return some

    def __iter__(self) -> Any:  # noqa: ANN401 - as Sequence has it
        """All, one by one."""
        return map(self._columns.piece, self._numbers)

    def rows(self) -> Iterator[Row]:
        """All as they are kept, one by one."""
        return map(self._columns.row, self._numbers)

    @property
    def households(self) -> tuple[str | None, ...]:
        """Whose they are."""
        keys = self._columns.households
        return tuple([keys[number] for number in self._numbers])

    @property
    def forms(self) -> tuple[int, ...]:
        """Of each a number that others have whose lines have the same heights, sizes and roles."""
        return tuple(map(self._columns.form_of, self._numbers))

    def __eq__(self, other: object) -> bool:
        """True for the same pieces in the same order, however they are kept."""
        if not isinstance(other, Sequence) or len(self) != len(other):
            return False
        return all(mine == theirs for mine, theirs in zip(self, other, strict=True))

    def __hash__(self) -> int:
        """That of their tuple."""
        return hash(tuple(self))

    def __repr__(self) -> str:
        """As their tuple."""
        return f"SetPieces({tuple(self)!r})"


def picked(pieces: Sequence[SetPiece], which: Iterable[int]) -> SetPieces:
    """Those of some set pieces that are at these places (from 0), in this order."""
    return columned(pieces).picked(which)


def columned(pieces: Sequence[SetPiece]) -> SetPieces:
    """Some set pieces in columns, where they aren't already."""
    return pieces if isinstance(pieces, SetPieces) else SetPieces(pieces)


def households_of(pieces: Sequence[SetPiece]) -> tuple[str | None, ...]:
    """Whose set pieces are, in order; None for one that is the same for all."""
    return columned(pieces).households


def forms_of(pieces: Sequence[SetPiece]) -> tuple[int, ...]:
    """Of each set piece a number that others have whose lines stand at the same heights.

    They have the same roles and sizes too: what is asked of one form is answered for all of it.
    """
    return columned(pieces).forms
