"""The stuffing list: every addressed envelope in the order of print, with boxes to tick."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from addressing.proofs.cover import title_blocks
from addressing.proofs.flow import Block, Imprint, Pen, gap, sheet_for, text_block, write_sheets
from addressing.proofs.lettering import wrap
from addressing.proofs.look import ASIDE, FAINT
from addressing.proofs.passages import listed
from addressing.proofs.ruled import Column, ruled
from addressing.proofs.words import many, mark
from addressing.records.findings import told_left_out
from addressing.records.proofs import BOXES, SEAL, ProofJob, Stuffed

_BOX = 8.5
_COLUMNS = (
    Column("Print", 1.1, right=True),
    Column("Household", 4.4),
    Column("To", 3.0),
    Column("Proof", 1.0, right=True),
    Column("Inside", 2.6),
    *(Column(box.capitalize(), 1.5) for box in BOXES),
)


def stuffing_list(path: Path, job: ProofJob, rows: Sequence[Stuffed]) -> int:
    """Write the list to `path` (a working name); returns its number of sheets.

    "Print" is an envelope's place in the order of print, "Proof" its household's own number.

    Raises:
        OSError: the place can't be written.
    """
    sheet = sheet_for(job.country)
    cells = [
        (r.number, r.name, r.place, r.reply, ", ".join(r.inside), *("" for _ in BOXES))
        for r in rows
    ]
    waits = sum(household.held for household in job.households)
    told = (
        f"{many(len(rows), 'envelope')} in the order of print; tick each box as it is done. “Print”"
        " is the place in that order, “Proof” the household's number on the proof and its reply"
        " card."
    )
    if waits:
        told += f" {many(waits, 'household')} held back: not here, on the job sheet."
    told_cells = [tuple("" if c is None else str(c) for c in row) for row in cells]
    head, *lines = ruled(_COLUMNS, told_cells, sheet.measure)
    blocks = [
        *title_blocks(job, "Stuffing list", sheet),
        text_block(wrap(told, ASIDE, sheet.measure), ASIDE),
        *listed("Left out", told_left_out(job.findings), sheet),
        gap(8),
        head,
        *(replace(_ticked(line, sheet.measure), under=head) for line in lines),
    ]
    imprint = Imprint(
        title=f"Stuffing list {mark(job)}",
        producer=f"addressing {job.version}",
        footer="   ·   ".join(
            (
                f"Stuffing list to proof no. {mark(job)}",
                *(() if job.seal is None else (f"seal of the plates {SEAL}",)),
                "it names guests: shred it after the job",
            )
        ),
        seal=job.seal,
    )
    return write_sheets(path, sheet, blocks, imprint)


def _ticked(line: Block, measure: float) -> Block:
    """A row with its four boxes."""
    whole = sum(column.share for column in _COLUMNS)
    starts = [
        sum(c.share for c in _COLUMNS[:at]) / whole * measure
        for at in range(len(_COLUMNS) - len(BOXES), len(_COLUMNS))
    ]

    def draw(pen: Pen, left: float, top: float) -> None:
        line.draw(pen, left, top)
        pen.canvas.setLineWidth(0.5)
        pen.canvas.setStrokeColorRGB(*FAINT)
        for start in starts:
            pen.canvas.rect(left + start, top - 4.5 - _BOX, _BOX, _BOX, fill=0)

    return replace(line, draw=draw)
