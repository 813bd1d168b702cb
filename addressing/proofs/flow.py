"""Blocks, one under another, onto sheets: laid out before anything is drawn.

So the number of sheets is known when the first is drawn, and nothing is cut in two.
"""

import zlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from reportlab import rl_config
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFStream
from reportlab.pdfgen.canvas import Canvas

from addressing.proofs.lettering import Cut, Style, face, runs, seal_width, width
from addressing.proofs.look import FOOT, FOOTING, HAIRLINE, HEAD, MARGIN
from addressing.proofs.words import LETTER_COUNTRIES
from addressing.records.proofs import BLANK_SEAL, SEAL


class Pen:
    """Draws on a sheet; the origin is its lower left corner, lengths are points."""

    def __init__(self, canvas: Canvas) -> None:
        """Take the canvas that everything goes onto; `drawn` names the forms that it holds."""
        self.canvas = canvas
        self.drawn: set[str] = set()

    def words(self, x: float, y: float, text: str, style: Style, align: str = "left") -> None:
        """One line of words on the baseline `y`; `align` tells which end stands at `x`."""
        if align != "left":
            whole = width(text, style) - style.tracking
            x -= whole if align == "right" else whole / 2
        before, mark, after = text.partition(SEAL)
        if mark:
            self.words(x, y, before, style)
            x += width(before, style)
            self._seal(x, y, style)
            self.words(x + width(mark, style), y, after, style)
            return
        line = self.canvas.beginText(x, y)
        line.setFillColorRGB(*style.colour)
        line.setCharSpace(style.tracking)
        for cut, run in runs(text, style.cut):
            line.setFont(face(cut).fontName, style.size)
            line.textOut(run)
        line.setCharSpace(0)
        self.canvas.drawText(line)

    def _seal(self, x: float, y: float, style: Style) -> None:
        """The seal of the plates; it stands in the file once, in a form that isn't packed."""
        canvas, name = self.canvas, "seal"
        if name not in self.drawn:
            self.drawn.add(name)
            canvas.beginForm(name, 0, -1, seal_width() / 1000, 1)
            line = canvas.beginText(0, 0)
            line.setFont(face(Cut.ROMAN).fontName, 1)
            line.textOut(BLANK_SEAL)
            canvas.drawText(line)
            canvas.endForm(compression=0)
        canvas.saveState()
        canvas.setFillColorRGB(*style.colour)
        canvas.transform(style.size, 0, 0, style.size, x, y)
        canvas.doForm(name)
        canvas.restoreState()

    def bookmark(self, title: str) -> None:
        """Let readers of the file jump to this sheet by its heading."""
        self.canvas.bookmarkPage(title)
        self.canvas.addOutlineEntry(title, title)

    def rule(self, x: float, y: float, length: float, colour: Sequence[float] = HAIRLINE) -> None:
        """A level hairline that begins at (x, y)."""
        self.canvas.setLineWidth(0.5)
        self.canvas.setStrokeColorRGB(*colour)
        self.canvas.line(x, y, x + length, y)


@dataclass(frozen=True, slots=True)
class Block:
    """Something `height` points high that draws itself with its top at a given place.

    `draw(pen, left, top)`. `keep` ties it to the block below; `fresh` begins a new sheet; `part`
    does so unless half of this one is free; `space` says that it is white and falls away at the
    head of a sheet. `under` stands once more above it where it begins a sheet: a table's headings.
    """

    height: float
    draw: Callable[[Pen, float, float], None]
    keep: bool = False
    fresh: bool = False
    part: bool = False
    space: bool = False
    under: "Block | None" = None


def gap(height: float) -> Block:
    """White space; it falls away at the head of a sheet."""
    return Block(height, lambda _pen, _left, _top: None, space=True)


def text_block(
    lines: Sequence[str], style: Style, *, indent: float = 0.0, keep: bool = False
) -> Block:
    """Lines of words, as they are."""

    def draw(pen: Pen, left: float, top: float) -> None:
        for number, line in enumerate(lines):
            pen.words(left + indent, top - style.size - number * style.leading, line, style)

    return Block(len(lines) * style.leading, draw, keep=keep)


@dataclass(frozen=True, slots=True)
class Sheet:
    """The paper that proofs are drawn on: width and height in points."""

    width: float
    height: float

    @property
    def measure(self) -> float:
        """The width that blocks may fill."""
        return self.width - 2 * MARGIN

    @property
    def depth(self) -> float:
        """The height that blocks may fill."""
        return self.height - HEAD - FOOTING


def sheet_for(country: str) -> Sheet:
    """US Letter where it is the custom, else ISO 216 A4."""
    return Sheet(*(LETTER if country in LETTER_COUNTRIES else A4))


PART_GAP = 26.0
"""White above a part that begins on a sheet with others, in points."""


def paginate(blocks: Iterable[Block], depth: float) -> tuple[tuple[Block, ...], ...]:
    """The blocks, sheet by sheet. A block that is tied to the next moves on together with it.

    A block that is higher than a sheet gets one of its own.
    """
    pages: list[tuple[Block, ...]] = []
    page: list[Block] = []
    for group in _groups(blocks):
        height = sum(block.height for block in group)
        used = sum(block.height for block in page)
        part = group[0].part
        needed = used + height + part * PART_GAP
        full = needed > depth or (part and used > depth / 2)
        if page and (group[0].fresh or full):
            pages.append(tuple(page))
            page = [group[0].under] if group[0].under is not None else []
        elif page and part:
            page.append(gap(PART_GAP))
        if page or not group[0].space:
            page.extend(group)
    return (*pages, tuple(page)) if page else tuple(pages)


def _groups(blocks: Iterable[Block]) -> Iterable[list[Block]]:
    """Blocks that must stay together."""
    group: list[Block] = []
    for block in blocks:
        group.append(block)
        if not block.keep:
            yield group
            group = []
    if group:
        yield group


@dataclass(frozen=True, slots=True)
class Imprint:
    """What the file says of itself, and the line at the foot of every sheet."""

    title: str
    producer: str
    footer: str
    seal: str | None = None
    """What stands where words have SEAL; BLANK_SEAL while their fingerprint is taken."""


def write_sheets(
    path: Path | BytesIO, sheet: Sheet, blocks: Iterable[Block], imprint: Imprint
) -> int:
    """Draw the blocks into a PDF at `path`, or in memory, and return the number of sheets.

    The same blocks give the same bytes, but for the seal's own figures. The first font is one of
    ours, so that no page carries a font that isn't embedded.
    """
    pages = paginate(blocks, sheet.depth)
    rl_config.useA85 = 0  # plain deflate, without ASCII85 on top: smaller and quicker
    drawn = BytesIO()
    canvas = Canvas(
        drawn,
        pagesize=(sheet.width, sheet.height),
        invariant=1,
        pageCompression=1,
        lang="en-US",
        initialFontName=face(Cut.ROMAN).fontName,  # type: ignore[arg-type] # the stubs err
    )
    canvas.setTitle(imprint.title)
    canvas.setAuthor("")
    canvas.setSubject("")
    canvas.setCreator(imprint.producer)
    canvas.setProducer(imprint.producer)
    pen, forms = Pen(canvas), PDFDictionary()
    for number, page in enumerate(pages, start=1):
        _draw_page(pen, sheet, page, f"{number} / {len(pages)}", imprint.footer)
        canvas.showPage()
        _pack(canvas, forms)
    canvas.save()
    sheets = sealed(drawn.getvalue(), imprint.seal)
    if isinstance(path, Path):
        path.write_bytes(sheets)
    else:
        path.write(sheets)
    return len(pages)


def sealed(sheets: bytes, seal: str | None) -> bytes:
    """Sheets that were drawn with a blank seal, with these figures in its place."""
    if seal is None:
        return sheets
    return sheets.replace(_seal_drawn(BLANK_SEAL), _seal_drawn(seal))


def _seal_drawn(seal: str) -> bytes:
    return f"({seal}) Tj".encode("ascii")


def _pack(canvas: Canvas, forms: PDFDictionary) -> None:
    """Deflate the page that was just shown; reportlab keeps all as they were drawn until the last.

    It then writes the same bytes. `forms` becomes one list of the forms of all pages: a list for
    each would be nine tenths of the file.
    """
    page = canvas._doc.Pages.pages[-1]  # type: ignore[attr-defined] # noqa: SLF001 - no door
    packed = PDFDictionary({"Filter": PDFArray([PDFName("FlateDecode")])})
    page.Contents = PDFStream(packed, zlib.compress(page.stream.encode()))
    page.stream = ""
    if page.XObjects:
        forms.dict.update(page.XObjects.dict)
        page.XObjects = canvas._doc.Reference(forms)  # type: ignore[attr-defined] # noqa: SLF001


def _draw_page(pen: Pen, sheet: Sheet, page: Sequence[Block], folio: str, footer: str) -> None:
    top = sheet.height - HEAD
    for block in page:
        block.draw(pen, MARGIN, top)
        top -= block.height
    pen.rule(MARGIN, FOOTING - 18, sheet.measure)
    pen.words(MARGIN, FOOTING - 30, footer, FOOT)
    pen.words(sheet.width - MARGIN, FOOTING - 30, folio, FOOT, align="right")
