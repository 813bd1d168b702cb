"""Which households a remark speaks of by the numbers with which the list counts its rows."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from addressing.guestlist.files.by_number import numbers_in
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.tables.totals import REMARK
from addressing.records.guests import Cited, Household, UnusedRow

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

    @classmethod
    def of(cls, households: Sequence[Household], counted: Counted) -> "Numbered":
        """The numbers of a list's households."""
        homes: dict[str, set[int]] = {}
        for place, home in enumerate(households if counted else ()):
            for row in home.rows:
                for number in counted.get((row.sheet, row.row or 0), ()):
                    homes.setdefault(number, set()).add(place)
        return cls(homes)

    def of_sentence(self, sentence: str) -> set[int]:
        """The households whose numbers a sentence names."""
        return {home for number in self._said(sentence) for home in self.homes.get(number, ())}

    def parts(self, said: Cited) -> tuple[Cited, ...]:
        """A sentence cut before each number with which another one opens: "Strike 12. 3 moved"."""
        if not self.homes:
            return (said,)
        parts = [part.strip() for part in _NEXT.split(said.text)]
        return tuple(Cited(part, said.cells) for part in parts if part)

    def names_nobody(self, sentence: str) -> bool:
        """True where a sentence names a number that no row has."""
        return any(number not in self.homes for number in self._said(sentence))

    def _said(self, sentence: str) -> tuple[str, ...]:
        return numbers_in(sentence, self.homes) if self.homes else ()


NOBODY = Numbered()
"""Of a list that doesn't count its rows."""


def without_remarks(
    tables: Sequence[Table],
) -> tuple[tuple[Table, ...], tuple[UnusedRow, ...]]:
    """The tables without rows of nothing but a remark on others ("12 declined"), and those rows."""
    known = {number for numbers in counted_in(tables).values() for number in numbers}
    kept: list[Table] = []
    unused: list[UnusedRow] = []
    for table in tables:
        said = [row for row in table.rows if known and _says_a_number(row, known)]
        unused += [UnusedRow(table.sheet, row.number, REMARK) for row in said]
        aside = (Cited(row.filled[0].text, (row.filled[0].where,)) for row in said)
        rows = tuple(row for row in table.rows if row not in said)
        kept.append(replace(table, rows=rows, aside=(*table.aside, *aside)) if said else table)
    return tuple(kept), tuple(unused)


def _says_a_number(row: Row, known: Collection[str]) -> bool:
    return len(row.texts) == 1 and bool(numbers_in(row.texts[0][1], known))


def counted_in(tables: Sequence[Table]) -> Counted:
    """The numbers of all tables."""
    return {
        (table.sheet, row): numbers for table in tables for row, numbers in table.numbers.items()
    }
