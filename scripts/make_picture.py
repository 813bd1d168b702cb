# ruff: noqa: INP001 - a script, run by its path
"""Draws one envelope of the demo list as the README's picture, docs/envelope.png.

Run it from the top of the checkout with the project's Python. The picture is the proof's own
drawing of what goes onto the plate, on the paper's colour, at 144 dots an inch.
"""

import tempfile
from pathlib import Path

import pypdfium2
from reportlab.pdfgen.canvas import Canvas

from addressing.job.proofs import proof_sets
from addressing.job.reading import read_job
from addressing.proofs.envelope import Spot, draw_envelope, paint_of
from addressing.proofs.flow import Pen

HOUSEHOLD = 14
"""Which household of the demo list is shown, counted from 0."""
EDGE = 18.0
"""White around the envelope, points."""


def main() -> None:
    """Write docs/envelope.png."""
    top = Path(__file__).resolve().parent.parent
    reading = read_job(top / "demo_guests.xlsx", top / "demo_docket.toml", None)
    shown = proof_sets(reading)[0]
    layout = shown.setting.layout
    size = (layout.width + 2 * EDGE, layout.height + 2 * EDGE)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "envelope.pdf"
        canvas = Canvas(str(path), pagesize=size)
        page = shown.pages[HOUSEHOLD]
        draw_envelope(Pen(canvas), Spot(EDGE, EDGE, 1.0), shown, page, paint_of(shown))
        canvas.save()
        pdf = pypdfium2.PdfDocument(path)
        pdf[0].render(scale=2).to_pil().save(top / "docs" / "envelope.png", optimize=True)
        pdf.close()


if __name__ == "__main__":
    main()
