"""An address as the list gives it, before it is understood: words by column, each with its cell."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from addressing.records.guests import Cited
from addressing.records.swiftly import swiftly


@swiftly
@dataclass(frozen=True, slots=True)
class Written:
    """The address cells of one row. `lines` are the street cells in order, or the one cell."""

    lines: tuple[Cited, ...] = ()
    unit: Cited | None = None
    extra: Cited | None = None
    city: Cited | None = None
    region: Cited | None = None
    postcode: Cited | None = None
    country: Cited | None = None
    zip_shown: str | None = None
    """The ZIP as the cell's number format shows it ("02116"), where that differs."""
    unit_word: str | None = None
    """The designator that the header of the unit's column gives, "Apartment"; None if several."""
    zip_number: bool = False
    """True when the ZIP cell holds a number, so that zeros in front were lost."""

    @property
    def cited(self) -> tuple[Cited, ...]:
        """Everything that is written, in the order of an address."""
        fields = (self.unit, self.extra, self.city, self.region, self.postcode, self.country)
        return (*self.lines, *(field for field in fields if field is not None))

    @property
    def empty(self) -> bool:
        """True when the row gives no address at all."""
        return not (self.lines or self.city or self.postcode or self.unit or self.extra)

    def with_lines(self, lines: Iterable[Cited]) -> "Written":
        """The same with other street cells; itself where they are as they were, as mostly."""
        own = tuple(lines)
        return self if own == self.lines else replace(self, lines=own)


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong or doubtful with an address, before its household has a key.

    `code` is the finding's; `repair` (was, now) is set where something was mended.
    """

    code: str
    text: str
    mend: str
    cited: Cited | None = None
    repair: tuple[str, str] | None = None
    likely: tuple[tuple[str, str], ...] = ()
    """Values that may be right: (field, value), as a finding has them."""
    quoted: str = ""
    """The list's own words, where the question is about them."""


def joined(lines: tuple[Cited, ...], mark: str = "\n") -> Cited:
    """Several cited words as one, with all their cells, each once."""
    cells = tuple(dict.fromkeys(cell for line in lines for cell in line.cells))
    return Cited(mark.join(line.text for line in lines), cells)
