"""Slips to lay on each pile that comes out: which it is, from whom to whom, how many."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from addressing.proofs.flow import Block, Imprint, Pen, gap, sheet_for, write_sheets
from addressing.proofs.lettering import wrap
from addressing.proofs.look import CAPTION, FAINT, NAME, SECTION
from addressing.proofs.words import kind_name, many, mark
from addressing.records.pieces import CARDS
from addressing.records.plates import PlateFile
from addressing.records.proofs import ProofJob

DEEP = 106.0
"""A slip's height, points; six stand on a sheet."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One pile: numbers and names of its first and last envelope, read from the top."""

    path: str
    kind: str
    ink: str
    batch: int
    batches: int
    first: int
    last: int
    first_name: str
    last_name: str
    feeds: int
    """The number of the envelope that is printed first."""

    @property
    def count(self) -> int:
        """How many envelopes it has."""
        return self.last - self.first + 1


def slips_of(files: Sequence[PlateFile], backs: Collection[str] = ()) -> tuple[Slip, ...]:
    """A slip for each plate of a set that is printed in batches, in order of print.

    `backs` are the kinds that are the other side of a card: they make no pile.
    """
    sets: dict[tuple[str, str], list[PlateFile]] = {}
    for one in files:
        if one.households and one.kind not in backs:
            sets.setdefault((one.kind, one.ink), []).append(one)
    return tuple(slip for piles in sets.values() for slip in _slips(piles))


def _slips(piles: Sequence[PlateFile]) -> Iterator[Slip]:
    for batch, one in enumerate(piles, start=1):
        names = one.names[::-1] if one.reverse else one.names
        last = one.first + len(one.names) - 1
        yield Slip(
            path=one.path,
            kind=one.kind,
            ink=one.ink,
            batch=batch,
            batches=len(piles),
            first=one.first,
            last=last,
            first_name=names[0],
            last_name=names[-1],
            feeds=last if one.reverse else one.first,
        )


def slip_sheets(path: Path, job: ProofJob, slips: Sequence[Slip]) -> int:
    """Draw the slips to `path` (a working name), to be cut apart; the number of sheets.

    Raises:
        OSError: the place can't be written.
    """
    sheet = sheet_for(job.country)
    blocks = [part for slip in slips for part in (_block(slip, sheet.measure), gap(6))]
    imprint = Imprint(
        title=f"Batch slips {mark(job)}",
        producer=f"addressing {job.version}",
        footer=f"Cut apart; a slip goes with its pile. Proof no. {mark(job)}",
    )
    return write_sheets(path, sheet, blocks, imprint)


def _block(slip: Slip, measure: float) -> Block:
    name = PurePosixPath(slip.path).name
    title = f"{kind_name(slip.kind)} · batch {slip.batch} of {slip.batches}"
    numbers = f"{slip.first} to {slip.last}" if slip.count > 1 else f"{slip.first}"
    numbers = f"print{'s' if slip.count > 1 else ''} {numbers}"
    half = measure / 2 - 20

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.canvas.setLineWidth(0.5)
        pen.canvas.setStrokeColorRGB(*FAINT)
        pen.canvas.rect(left, top - DEEP, measure, DEEP, fill=0)
        pen.words(left + 12, top - 24, title, SECTION)
        pen.words(left + measure - 12, top - 24, numbers, SECTION, align="right")
        pen.words(left + 12, top - 40, f"{name} · {slip.ink}", CAPTION)
        counted = many(slip.count, "card" if slip.kind in CARDS else "envelope")
        pen.words(left + measure - 12, top - 40, counted, CAPTION, align="right")
        for x, head, number, who in (
            (left + 12, "First, on top", slip.first, slip.first_name),
            (left + measure / 2 + 6, "Last", slip.last, slip.last_name),
        ):
            pen.words(x, top - 62, f"{head}: print {number}", CAPTION)
            for row, line in enumerate(wrap(who, NAME, half)[:2]):
                pen.words(x, top - 76 - row * NAME.leading, line, NAME)
        ticks = ("printed", "counted", "dry", "checked")
        for place, word in enumerate(ticks):
            x = left + measure - 12 - (len(ticks) - place) * 62
            pen.canvas.rect(x, top - DEEP + 8, 7, 7, fill=0)
            pen.words(x + 11, top - DEEP + 9, word, CAPTION)

    return Block(DEEP, draw)
