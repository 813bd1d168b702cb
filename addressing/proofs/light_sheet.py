"""The sheet to hold to the light: an envelope's outline at true size, with its words.

Printed on plain paper on any printer; an envelope laid on the outline and held to the light shows
where the words will stand.
"""

from collections.abc import Callable
from pathlib import Path

from addressing.proofs.envelope import WHITE, Paint, Spot, draw_envelope, draw_flap
from addressing.proofs.flow import Block, Imprint, Pen, Sheet, sheet_for, text_block, write_sheets
from addressing.proofs.look import FAINT, FOOTING, GREY, HEAD, INK, SECTION, SMALL
from addressing.proofs.words import size_words
from addressing.records.proofs import Trial
from addressing.units import mm_to_pt

EDGE = mm_to_pt(12)
"""Free paper around an envelope that is larger than the usual sheet."""


def light_sheet(path: Path, trial: Trial) -> int:
    """Draw the sheet to `path` (a working name); returns its number of pages.

    Upright where the envelope fits so, else the paper lies across; an envelope too large for both
    gets a sheet of its own size and a little more.

    Raises:
        OSError: the place can't be written.
    """
    layout = trial.layout
    sheet = _paper(trial)
    size = size_words(layout.width, layout.height, trial.country)
    head = text_block((f"Hold to the light: {layout.title}, {size}",), SECTION)
    told = text_block(
        (
            "Print it at 100 %. Lay an envelope on the outline and hold both to the light.",
            "The dashes are what stays free (stamp, bar code); the thin line is the flap.",
        ),
        SMALL,
    )
    drawing = Block(layout.height + 12, _drawing(trial))
    imprint = Imprint(
        title=f"Hold to the light {layout.key}",
        producer=f"addressing {trial.version}",
        footer="If the outline isn't as large as the envelope, the page was scaled.",
    )
    return write_sheets(path, sheet, (head, told, drawing), imprint)


def _paper(trial: Trial) -> Sheet:
    """The country's sheet, as it must lie for the envelope."""
    usual = sheet_for(trial.country)
    wide, high = trial.layout.width, trial.layout.height
    needed = high + HEAD + FOOTING + 70
    for sheet in (usual, Sheet(usual.height, usual.width)):
        if wide + 2 * EDGE <= sheet.width and needed <= sheet.height:
            return sheet
    return Sheet(max(wide + 2 * EDGE, usual.width), max(needed, usual.height))


def _drawing(trial: Trial) -> Callable[[Pen, float, float], None]:
    layout = trial.layout
    paper = _paper(trial)

    def draw(pen: Pen, left: float, top: float) -> None:
        del left
        spot = Spot((paper.width - layout.width) / 2, top - 12 - layout.height, 1.0)
        paint = Paint(paper=WHITE, ink=INK, edge=INK)
        draw_envelope(pen, spot, trial.shown, trial.shown.pages[0], paint)
        draw_flap(pen, spot, layout, Paint(paper=WHITE, ink=GREY, edge=GREY))
        canvas = pen.canvas
        canvas.saveState()
        canvas.setStrokeColorRGB(*FAINT)
        canvas.setDash(2, 2)
        canvas.setLineWidth(0.5)
        for _, area in layout.clear:
            canvas.rect(spot.x + area.left, spot.y + area.bottom, area.width, area.height, fill=0)
        canvas.restoreState()

    return draw
