"""How prints are named in a command: by a household's name or key, or by numbers."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from addressing.job.which_prints import Numbers

_MOST = 1_000_000
_PLACES = {"print": "print", "prints": "print", "proof": "proof", "card": "proof"}
"""What may stand before a number: its place in the order of print, or the household's own number,
on the proof and the reply card."""

HOW = """Name the household, as the print does or by its key, in quotation marks. Or give a
number and say where it stands: print:12 (or print:40-42, print:2,10) is its place in the order of
print, by which slips, job sheet and stuffing list go; proof:12 the household's own number, on the
proof and its reply card; 01-outer-white.pdf:12 a page of that file. A bare 12 is taken where all of
these are the same, and asked about where not. A run is one plate printed once: outer and inner are
runs of their own, and so is each reprint. Without --run the last printing of that --kind is
meant."""


class Which(click.ParamType["Numbers | str"]):
    """Numbers and where they were read (12, print:40-42, proof:7); else a household's name."""

    name = "prints"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> "Numbers | str":
        """The numbers, or the name."""
        from addressing.job.marking import FILE
        from addressing.job.which_prints import PRINT, PROOF, Numbers

        text = str(value).strip()
        place, colon, numbers = text.rpartition(":")
        if not re.fullmatch(r"[0-9, -]*", numbers):
            return text
        place = place.strip()
        where = "" if not colon else _PLACES.get(place.casefold(), place)
        if colon and where not in (PRINT, PROOF) and not where.casefold().endswith(FILE):
            self.fail(f"say where {numbers} stands: print:12, proof:12 or FILE.pdf:12.", param, ctx)
        return Numbers(where, tuple(self._spans(numbers, param, ctx)))

    def _spans(
        self, numbers: str, param: click.Parameter | None, ctx: click.Context | None
    ) -> Iterator[int]:
        """12, 40-42 and 3,7,9 as numbers."""
        for part in numbers.split(","):
            first, dash, last = (each.strip() for each in part.partition("-"))
            sound = first.isdecimal() and (last.isdecimal() or not dash)
            begin, end = (int(first), int(last or first)) if sound else (0, 0)
            if not 1 <= begin <= end <= _MOST:
                self.fail("write numbers as 12, 40-42 or 3,7,9, from 1.", param, ctx)
            yield from range(begin, end + 1)
