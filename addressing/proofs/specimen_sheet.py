"""The sheet of faces: each face with its set lines, its rights, and what of a list it can set."""

import io
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium

from addressing.proofs.flow import (
    Block,
    Imprint,
    Pen,
    Sheet,
    gap,
    sheet_for,
    text_block,
    write_sheets,
)
from addressing.proofs.lettering import Cut, Style, wrap
from addressing.proofs.look import (
    CAPTION,
    GREY,
    INK,
    KICKER,
    NAME,
    SEVERITY,
    SMALL,
    SUBTITLE,
    TITLE,
)
from addressing.proofs.words import many
from addressing.records.specimens import Coverage, Sample, Specimen

LABEL = Style(Cut.ITALIC, CAPTION.size, CAPTION.leading, GREY)
LABELS = 92.0
"""Width of the column with the features' names, points."""
AIR = 7.0
SHOWN = 8
"""So many lines that can't be set are told of one by one."""
PER_INCH = 110
"""Of the pictures: pixels an inch."""
EMBEDDING = {
    "installable": "may be embedded",
    "editable": "may be embedded, also in documents that are edited",
    "preview-and-print": "may be embedded for viewing and printing only",
}


def draw_specimens(path: Path, shown: Sequence[Specimen]) -> int:
    """Write the sheet of faces to `path` (a working name) and return its number of sheets.

    The same faces give the same bytes.
    """
    sheet = sheet_for("US")
    return write_sheets(path, sheet, _blocks(shown, sheet), _imprint(shown))


def draw_specimen_pictures(shown: Sequence[Specimen]) -> tuple[bytes, ...]:
    """The same sheets as pictures (PNG)."""
    sheet = sheet_for("US")
    drawn = io.BytesIO()
    write_sheets(drawn, sheet, _blocks(shown, sheet), _imprint(shown))
    with closing(pdfium.PdfDocument(drawn.getvalue())) as document:
        return tuple(_picture(document, number) for number in range(len(document)))


def _picture(document: pdfium.PdfDocument, number: int) -> bytes:
    with closing(document[number]) as page, closing(page.render(scale=PER_INCH / 72)) as bitmap:
        written = io.BytesIO()
        bitmap.to_pil().save(written, "PNG")
        return written.getvalue()


def _imprint(shown: Sequence[Specimen]) -> Imprint:
    return Imprint("Faces", "addressing", f"{many(len(shown), 'face')} on the shelf")


def _blocks(shown: Sequence[Specimen], sheet: Sheet) -> Iterator[Block]:
    homes = next((one.coverage.households for one in shown if one.coverage is not None), None)
    said = "on the shelf" if homes is None else f"for a list of {many(homes, 'household')}"

    def head(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - TITLE.size, "Faces", TITLE)
        pen.words(left, top - TITLE.leading - SUBTITLE.size, said, SUBTITLE)

    yield Block(TITLE.leading + SUBTITLE.leading + 14, head)
    for one in shown:
        yield from _face(one, sheet)


def _face(one: Specimen, sheet: Sheet) -> Iterator[Block]:
    """One face; its parts stay on one sheet."""
    parts = [_heading(one, sheet)]
    parts += [_sample(each, sheet) for each in one.samples]
    parts.append(Block(AIR / 2, lambda _pen, _left, _top: None))
    parts += [
        text_block(wrap(words, style, sheet.measure), style)
        for words, style in _facts(one)
        if words
    ]
    yield from (replace(part, keep=True) for part in parts[:-1])
    yield parts[-1]
    yield gap(20)


def _heading(one: Specimen, sheet: Sheet) -> Block:
    def draw(pen: Pen, left: float, top: float) -> None:
        pen.rule(left, top, sheet.measure)
        pen.words(left, top - NAME.leading - 3, one.family or one.key, NAME)
        pen.words(left + sheet.measure, top - NAME.leading - 3, one.key, KICKER, align="right")

    return Block(NAME.leading + AIR + 3, draw)


def _sample(sample: Sample, sheet: Sheet) -> Block:
    """A set line, made smaller where it would be wider than the sheet."""
    words = sample.words
    indent = LABELS if sample.label else 0.0
    left_, lowest, right_, highest = words.ink
    across = (right_ - left_) / words.em
    size = min(sample.size, (sheet.measure - indent) / across) if across > 0 else sample.size
    top_, bottom = max(highest, 0.0) / words.em * size, min(lowest, 0.0) / words.em * size

    def draw(pen: Pen, left: float, top: float) -> None:
        line = top - AIR / 2 - top_
        if sample.label:
            pen.words(left, line, sample.label, LABEL)
        _draw_words(pen, sample, (left + indent - left_ / words.em * size, line), size)

    return Block(top_ - bottom + AIR, draw)


def _draw_words(pen: Pen, sample: Sample, place: tuple[float, float], size: float) -> None:
    """The outlines of a line, filled."""
    words, canvas = sample.words, pen.canvas
    em = size / words.em
    canvas.saveState()
    canvas.setFillColorRGB(*INK)
    canvas.transform(em, 0, 0, em, *place)
    path = canvas.beginPath()
    for glyph, gx, gy in words.placed():
        for operator, numbers in sample.outlines.glyphs[glyph]:
            at = [value + (gy if odd % 2 else gx) for odd, value in enumerate(numbers)]
            match operator:
                case "m":
                    path.moveTo(*at)
                case "l":
                    path.lineTo(*at)
                case "c":
                    path.curveTo(*at)
                case _:
                    path.close()
    canvas.drawPath(path, stroke=0, fill=1, fillMode=1)  # nonzero, as on plates
    canvas.restoreState()


def _facts(one: Specimen) -> Iterator[tuple[str, Style]]:
    """What is to be known of a face, in lines."""
    if one.fault:
        yield f"Can't be used: {one.fault}", SEVERITY["stop"]
        yield one.mend, CAPTION
        if one.coverage is not None:
            yield "Besides, it lacks letters of this list:", SMALL
            yield from list(_covered(one.coverage))[1:]
        return
    if one.coverage is not None:
        yield from _covered(one.coverage)
    figures = f"Figures: {', '.join(one.figures)}"
    choices = f"offers {', '.join(one.choices)}" if one.choices else "no features to choose"
    yield f"{figures}; {choices}.", SMALL
    licence = one.licence or "Licence not stated here: read the one that came with it"
    yield f"{licence}; {EMBEDDING.get(one.embedding, one.embedding)}.", CAPTION


def _covered(coverage: Coverage) -> Iterator[tuple[str, Style]]:
    """How much of the list can be set, and what can't, with its cells."""
    if not coverage.unset:
        yield f"All {many(coverage.households, 'household')} can be set.", SEVERITY["note"]
        return
    yield (
        f"{coverage.able:,} of {many(coverage.households, 'household')} can be set.",
        SEVERITY["stop"],
    )
    for unset in coverage.unset[:SHOWN]:
        cells = ", ".join(str(cell) for cell in unset.cells if cell.cell)
        yield (
            f"“{unset.text}” lacks {' '.join(unset.letters)}" + (f" ({cells})" if cells else ""),
            SMALL,
        )
    if (more := len(coverage.unset) - SHOWN) > 0:
        yield f"and {many(more, 'line')} more", SMALL
