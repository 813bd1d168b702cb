"""The sheet that finds out where a device truly prints: rulers, marks, an arrow, one ink alone.

It is drawn for the page that the device takes, as the plates are, in the ink's one channel and
nothing else: so the same sheet shows whether a swapped cartridge prints alone.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from addressing.proofs.lettering import Cut, Style, face, runs, width, wrap
from addressing.proofs.look import INK
from addressing.records.affine import moved_box, on_page, size_turned, turned, undone
from addressing.records.proofs import Trial
from addressing.records.shelf import Box
from addressing.units import mm_to_pt

if TYPE_CHECKING:
    from addressing.records.lays import Lay

SMALL = Style(Cut.ROMAN, 7.5, 9.5, INK)
PLAIN = Style(Cut.ROMAN, 9.0, 12.0, INK)
LETTER = Style(Cut.ROMAN, 11.0, 13.0, INK)
ARM = mm_to_pt(5)
"""From a mark's middle to the end of its arms."""
RULER = 20
"""Millimetres of each edge's ruler; its nought is the paper's edge."""
HAIR = 0.35
PATCH = mm_to_pt(20)
LIGHT = 0.8
"""An ink whose colours are all above this isn't seen on white paper."""
WAYS = {
    "envelope": "on a page of its own size",
    "turned": "turned, on a page of its own size",
    "sheet": "on a larger sheet",
    "carrier": "on a carrier sheet",
}


def test_sheet(path: Path, trial: Trial) -> int:
    """Draw the sheet to `path` (a working name); its number of pages.

    First as the device prints by itself, for measuring; with a calibration once more, corrected;
    last, where an ink has a slot or a driver may mix it, a patch and lines that must come out in
    that ink alone. The same trial gives the same bytes.

    Raises:
        OSError: the place can't be written.
    """
    rl_config.useA85 = 0
    canvas = Canvas(
        str(path),
        pagesize=trial.lay.page,
        invariant=1,
        pageCompression=1,
        lang="en-US",
        initialFontName=face(Cut.ROMAN).fontName,  # type: ignore[arg-type] # the stubs err
    )
    canvas.setTitle(f"Test sheet {trial.layout.key}")
    canvas.setAuthor("")
    canvas.setSubject("")
    canvas.setCreator(f"addressing {trial.version}")
    canvas.setProducer(f"addressing {trial.version}")
    plain = replace(trial.lay, calibration=None)
    pages: list[tuple[Lay, Callable[[_Nib], None]]] = [(plain, _to_measure)]
    if trial.lay.calibration is not None:
        pages.append((trial.lay, _to_check))
    if trial.device.slots or trial.device.takes == "rgb":
        pages.append((plain, _alone))
    for lay, draw in pages:
        nib = _Nib(canvas, trial)
        canvas.transform(*on_page(lay, (trial.layout.width, trial.layout.height)))
        draw(nib)
        canvas.showPage()
    canvas.save()
    return len(pages)


class _Nib:
    """Draws in the trial's one ink, in the piece's own points."""

    def __init__(self, canvas: Canvas, trial: Trial) -> None:
        self.canvas = canvas
        self.trial = trial
        self.width, self.height = trial.layout.width, trial.layout.height
        channel = trial.ink.channel
        if channel in (None, "grey"):
            canvas.setFillGray(0)
            canvas.setStrokeGray(0)
            return
        parts = [float(channel == each) for each in ("cyan", "magenta", "yellow", "black")]
        canvas.setFillColorCMYK(*parts)
        canvas.setStrokeColorCMYK(*parts)

    def words(self, x: float, y: float, text: str, style: Style, align: str = "left") -> None:
        """One line of words on the baseline `y`, in the ink that is set."""
        if align != "left":
            whole = width(text, style)
            x -= whole if align == "right" else whole / 2
        line = self.canvas.beginText(x, y)
        for cut, run in runs(text, style.cut):
            line.setFont(face(cut).fontName, style.size)
            line.textOut(run)
        self.canvas.drawText(line)

    def line(self, *ends: float, weight: float = HAIR) -> None:
        """A straight line from (x, y) to (x, y)."""
        self.canvas.setLineWidth(weight)
        self.canvas.line(*ends)


def _to_measure(nib: _Nib) -> None:
    rows = (
        f"Print at 100 %, on {nib.trial.paper} cut to the envelope's size.",
        "Measure each cross with a ruler, in mm: from the left edge,",
        "then from the top, the words upright. Then say:",
        "addressing calibrate … --mark A=left,top --mark B=… C D E",
    )
    _position(nib, rows)


def _to_check(nib: _Nib) -> None:
    away = "; ".join(f"{name} {left:g}, {top:g}" for name, left, top in nib.trial.marks)
    rows = (
        "Corrected by the calibration.",
        "Measured again, in mm from the left and from the top, the crosses stand at",
        f"{away}.",
    )
    _position(nib, rows)


def _position(nib: _Nib, rows: Sequence[str]) -> None:
    """Edge, rulers, marks, arrow, and what to do."""
    _edge(nib)
    _rulers(nib)
    for name, left, top in nib.trial.marks:
        _mark(nib, name, mm_to_pt(left), nib.height - mm_to_pt(top))
    _arrow(nib)
    _told(nib, rows)


def _mark(nib: _Nib, name: str, x: float, y: float) -> None:
    nib.line(x - ARM, y, x + ARM, y)
    nib.line(x, y - ARM, x, y + ARM)
    nib.canvas.circle(x, y, mm_to_pt(1.5), stroke=1, fill=0)
    nib.words(x + mm_to_pt(2), y + mm_to_pt(2), name, LETTER)


def _rulers(nib: _Nib) -> None:
    """From the middle of each edge inwards, a tick each millimetre; they show what is cut off."""
    wide, high = nib.width, nib.height
    for edge in ("left", "right", "bottom", "top"):
        for step in range(RULER + 1):
            deep = mm_to_pt(step)
            tick = mm_to_pt(3.0 if step % 10 == 0 else 2.2 if step % 5 == 0 else 1.2)
            x = {"left": deep, "right": wide - deep}.get(edge)
            y = {"bottom": deep, "top": high - deep}.get(edge)
            if x is not None:
                nib.line(x, high / 2, x, high / 2 + tick)
                if step and step % 5 == 0:
                    nib.words(x, high / 2 - 8, str(step), SMALL, "centre")
            elif y is not None:
                nib.line(wide / 2, y, wide / 2 + tick, y)
                if step and step % 5 == 0:
                    nib.words(wide / 2 - 3, y - 2.2, str(step), SMALL, "right")


def _edge(nib: _Nib) -> None:
    """Dashes where the record says that the unprinted edge ends."""
    free = _free(nib.trial)
    nib.canvas.saveState()
    nib.canvas.setDash(2, 2)
    nib.canvas.setLineWidth(HAIR)
    nib.canvas.rect(free.left, free.bottom, free.width, free.height, stroke=1, fill=0)
    nib.canvas.restoreState()


def _free(trial: Trial) -> Box:
    """Within the device's edges, in the piece's own points."""
    trim, edges = (trial.layout.width, trial.layout.height), trial.lay.edges
    across, along = size_turned(trial.lay.feed, trim)
    fed = Box(
        edges.left, edges.trail, across - edges.left - edges.right, along - edges.lead - edges.trail
    )
    return moved_box(undone(turned(trial.lay.feed, trim)), fed)


def _arrow(nib: _Nib) -> None:
    """Which edge goes in first: an arrow beside the mark in the middle."""
    canvas = nib.canvas
    canvas.saveState()
    across = nib.width / 2 + mm_to_pt(20)
    level = nib.trial.lay.feed in {90, 270}
    middle = nib.height / 2 + (2 if level else mm_to_pt(9))
    canvas.translate(across, middle)
    canvas.rotate({0: 90, 90: 0, 180: 270, 270: 180}[nib.trial.lay.feed])
    long = mm_to_pt(8)
    canvas.setLineWidth(1.2)
    canvas.line(-long, 0, long, 0)
    canvas.line(long, 0, long - 8, 5)
    canvas.line(long, 0, long - 8, -5)
    canvas.restoreState()
    side = {0: "top", 90: "right", 180: "bottom", 270: "left"}[nib.trial.lay.feed]
    label = f"{side} edge first"
    if level:
        nib.words(across, middle - 12, label, SMALL, "centre")
    else:
        nib.words(across + 8, middle - 2, label, SMALL)


def _told(nib: _Nib, rows: Sequence[str]) -> None:
    """What this is and what to do, between the marks."""
    trial = nib.trial
    top = nib.height - mm_to_pt(RULER) - 12
    head = (
        f"{trial.device.title} · {trial.layout.title} · {WAYS[trial.lay.way]} · tray {trial.tray}"
    )
    room = nib.width - mm_to_pt(56)
    across = nib.width / 2
    flap = "This side is printed. The flap's edge is above."
    for line in (*wrap(head, PLAIN, room), *wrap(flap, SMALL, room)):
        nib.words(across, top, line, SMALL, "centre")
        top -= SMALL.leading
    low = nib.height / 2 - 27
    for row in rows:
        for line in wrap(row, SMALL, room):
            nib.words(across, low, line, SMALL, "centre")
            low -= SMALL.leading


def _alone(nib: _Nib) -> None:
    """A patch and lines that must come out in the one ink."""
    trial, canvas = nib.trial, nib.canvas
    high, across = nib.height, nib.width / 2
    size = min(PATCH, high / 4)
    canvas.rect(across - size - 10, high / 2 - size / 4, size, size, stroke=0, fill=1)
    for step, weight in enumerate((0.25, 0.5, 1.0, 2.0)):
        y = high / 2 - size / 4 + size * (step + 0.5) / 4
        nib.line(across + 10, y, across + 10 + size * 1.5, y, weight=weight)
        nib.words(across + 14 + size * 1.5, y - 2.3, f"{weight:g} pt", SMALL)
    title = f"{trial.ink.key} alone"
    nib.words(across, high / 2 + size * 3 / 4 + 14, title, LETTER, "centre")
    low = high / 2 - size / 4 - 14
    for row in _of_ink(trial):
        for line in wrap(row, SMALL, nib.width - mm_to_pt(60)):
            nib.words(across, low, line, SMALL, "centre")
            low -= SMALL.leading


def _of_ink(trial: Trial) -> tuple[str, ...]:
    """How the device must be set, and what is wrong when it isn't."""
    channel = dict(trial.device.slots).get(trial.ink.key)
    if trial.device.takes == "rgb":
        setting = trial.device.black_only or "black only"
        return (
            f"The driver makes RGB of all: set “{setting}”, so that only the black prints.",
            "Under a loupe the edges are clean. Coloured dots beside the lines: it still mixes.",
        )
    swapped = channel is not None and trial.ink.key.casefold() != channel
    paper = "on dark paper, " if swapped and min(trial.ink.screen) > LIGHT else ""
    return (
        f"Print this {paper}as a PDF, as it is: it asks for the {channel} slot and no other.",
        f"Patch and lines must come out in {trial.ink.key} alone.",
        "Any colour at an edge or in a line: the driver mixes. Switch off colour matching,",
        "trapping and rich black, then print it again.",
    )
