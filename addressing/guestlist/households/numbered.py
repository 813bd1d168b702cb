"""Which households a remark speaks of by the numbers with which the list counts its rows."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from addressing.guestlist.files.by_number import numbers_in, rows_in
from addressing.guestlist.grid import Table
from addressing.records.guests import Cited, Household

_NEXT = re.compile(
    r"(?<=[\w)][.!?;])(?<!\b[Nn]o\.)(?<!\b[Nn]r\.)(?<!\b[Nn]os\.) "
    r"(?=\(?#?\d+\)?(?:['’]s)? [a-z])"
)
"""Between two sentences of which the second opens with a number; a street has a capital there."""
Counted = Mapping[tuple[str | None, int], tuple[str, ...]]
"""The numbers of a list by sheet and row."""


@dataclass(frozen=True, slots=True)
class Numbered:
    """The households (by place) of each number; one number has several where two lists count."""

    homes: Mapping[str, Collection[int]] = field(default_factory=dict)
    rows: Mapping[str, Collection[int]] = field(default_factory=dict)
    """Of a list that doesn't count its rows, the households of each row of the sheet."""

    @classmethod
    def of(cls, households: Sequence[Household], counted: Counted) -> "Numbered":
        """The numbers of a list's households."""
        homes: dict[str, set[int]] = {}
        rows: dict[str, set[int]] = {}
        for place, home in enumerate(households):
            for row in home.rows:
                for number in counted.get((row.sheet, row.row or 0), ()):
                    homes.setdefault(number, set()).add(place)
                rows.setdefault(str(row.row), set()).add(place)
        return cls(homes, {} if counted else rows)

    def of_sentence(self, sentence: str, *, aside: bool = False) -> set[int]:
        """The households whose numbers a sentence names; `aside` where it is a cell's remark."""
        rows = rows_in(sentence) if aside and self.rows else ()
        found = {home for row in rows for home in self.rows.get(row, ())}
        said = self._said(sentence, aside=aside)
        return found | {home for number in said for home in self.homes.get(number, ())}

    def parts(self, said: Cited) -> tuple[Cited, ...]:
        """A sentence cut before each number with which another one opens: "Strike 12. 3 moved"."""
        if not self.homes:
            return (said,)
        parts = [part.strip() for part in _NEXT.split(said.text)]
        return tuple(Cited(part, said.cells) for part in parts if part)

    def names_nobody(self, sentence: str, *, aside: bool = False) -> bool:
        """True where a sentence names a number that no row has."""
        if aside and self.rows:
            return any(row not in self.rows for row in rows_in(sentence))
        return any(number not in self.homes for number in self._said(sentence, aside=aside))

    def _said(self, sentence: str, *, aside: bool) -> tuple[str, ...]:
        return numbers_in(sentence, self.homes, aside=aside) if self.homes else ()


NOBODY = Numbered()
"""Of a list that doesn't count its rows."""


def counted_in(tables: Sequence[Table]) -> Counted:
    """The numbers of all tables."""
    return {
        (table.sheet, row): numbers for table in tables for row, numbers in table.numbers.items()
    }
