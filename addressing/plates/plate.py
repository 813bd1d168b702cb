"""The second door: sheaves in, one PDF out, by the grammar in DEVELOPERS.md."""

import zlib
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import write_fault
from addressing.plates.choking import Beside, Choked
from addressing.plates.drawing import LEVEL, Sheaf, draw_pages
from addressing.plates.exchange import claims
from addressing.plates.glyphs import form_box, form_operators
from addressing.plates.imposing import page_households
from addressing.plates.inks import OVERPRINT, inks_named, separation
from addressing.plates.laying import page_boxes
from addressing.plates.numbers import string
from addressing.plates.writer import ObjectWriter
from addressing.records.pages import FACE, Outlines, Page, Segment
from addressing.records.plates import PlateOrder

BRANCH = 200
"""Pages on one branch of the page tree: a flat tree of many thousands is slow in viewers."""


def write_plate(path: Path, order: PlateOrder, pages: Iterable[Page], outlines: Outlines) -> None:
    """Draw pages and bind them into a plate at `path` (a working name), as the pages come.

    Raises:
        Fault: as for `bind_plate`.
    """
    bind_plate(path, order, draw_pages(pages, order, outlines), outlines)


def bind_plate(path: Path, order: PlateOrder, sheaves: Iterable[Sheaf], outlines: Outlines) -> None:
    """Write a plate to `path` (a working name), sheaf by sheaf as they come.

    The same order, pages and outlines give the same bytes. Memory does not grow with the pages
    but by 16 bytes each.

    Raises:
        Fault: the file can't be written, the disk is full (exit 4); the pages are not those of
            the order (exit 70).
    """
    try:
        with ObjectWriter(path) as writer:
            _Plate(order, outlines, writer).write(sheaves)
    except OSError as error:
        raise write_fault(path, error) from error


class _Plate:
    """One plate in the making."""

    def __init__(self, order: PlateOrder, outlines: Outlines, writer: ObjectWriter) -> None:
        self._order = order
        self._outlines = outlines
        self._glyphs_drawn = _drawings(order, outlines)
        self._writer = writer
        self._glyphs: set[int] = set()
        self._tree = writer.reserve()
        self._resources = writer.reserve()
        self._branches: list[tuple[int, int]] = []
        self._page_entries = f"{page_boxes(order)} /Resources {self._resources} 0 R"

    def write(self, sheaves: Iterable[Sheaf]) -> None:
        self._write_pages(self._contents(sheaves))
        self._write_tree()
        self._write_resources()
        order = self._order
        said = claims(self._writer, order)
        root = self._writer.put(f"<< /Type /Catalog /Pages {self._tree} 0 R{said.catalogue} >>")
        info = self._writer.put(
            f"<< /Title {string(order.name)} /Producer {string(f'addressing {order.version}')}"
            f"{said.dates} /Trapped /False{said.version} >>"
        )
        self._writer.finish(root, info)

    def _contents(self, sheaves: Iterable[Sheaf]) -> Iterator[bytes]:
        """The pages one by one, each seen to be the one that was ordered."""
        households = page_households(self._order)
        count = 0
        for sheaf in sheaves:
            for household, content in zip(sheaf.households, sheaf.contents, strict=True):
                if count >= len(households) or household != households[count]:
                    raise self._not_as_ordered(count + 1)
                yield content
                count += 1
            self._glyphs |= sheaf.glyphs
        if count != len(households):
            raise self._not_as_ordered(count)

    def _write_pages(self, contents: Iterable[bytes]) -> None:
        kids: list[int] = []
        branch = 0
        for content in contents:
            if not kids:
                branch = self._writer.reserve()
            kids.append(self._write_page(content, branch))
            if len(kids) == BRANCH:
                self._close_branch(branch, kids)
                kids = []
        if kids:
            self._close_branch(branch, kids)

    def _write_page(self, content: bytes, branch: int) -> int:
        stream = self._writer.put_stream("", content)
        return self._writer.put(
            f"<< /Type /Page /Parent {branch} 0 R {self._page_entries} /Contents {stream} 0 R >>"
        )

    def _close_branch(self, branch: int, kids: list[int]) -> None:
        self._writer.put(
            f"<< /Type /Pages /Parent {self._tree} 0 R /Kids [{_references(kids)}]"
            f" /Count {len(kids)} >>",
            branch,
        )
        self._branches.append((branch, len(kids)))

    def _write_tree(self) -> None:
        count = sum(pages for _, pages in self._branches)
        kids = _references(branch for branch, _ in self._branches)
        self._writer.put(f"<< /Type /Pages /Kids [{kids}] /Count {count} >>", self._tree)

    def _write_resources(self) -> None:
        letters = self._write_type() if self._order.live else self._write_forms()
        spots = [
            f"/{name} {self._writer.put(separation(ink))} 0 R"
            for name, ink in inks_named(self._order)
            if ink.channel is None
        ]
        spaces = f" /ColorSpace << {' '.join(spots)} >>" if spots else ""
        over = OVERPRINT if self._order.overprints else ""
        self._writer.put(f"<< {letters}{spaces}{over} >>", self._resources)

    def _write_forms(self) -> str:
        """Each letter's outline as a drawing of its own; their entry in the resources."""
        forms = []
        for glyph in sorted(self._glyphs):
            outline = self._glyphs_drawn[glyph]
            box = " ".join(str(edge) for edge in form_box(outline))
            entries = f"/Type /XObject /Subtype /Form /BBox [{box}] "
            drawing = zlib.compress(form_operators(outline), LEVEL)
            form = self._writer.put_stream(entries, drawing)
            forms.append(f"/g{glyph} {form} 0 R")
        return f"/XObject << {' '.join(forms)} >>"

    def _write_type(self) -> str:
        """Each face that is used as a font with its letters alone; their entry in the resources."""
        from addressing.plates.live import write_font  # noqa: PLC0415 - live type alone needs it

        fonts = []
        for number, face in enumerate(self._outlines.live):
            first = number * FACE
            used = sorted(glyph for glyph in self._glyphs if glyph // FACE == number)
            letters = {glyph - first: self._glyphs_drawn[glyph] for glyph in used}
            if letters:
                fonts.append(f"/F{number} {write_font(self._writer, face, letters)} 0 R")
        return f"/Font << {' '.join(fonts)} >>"

    def _not_as_ordered(self, count: int) -> Fault:
        return Fault(
            Exit.INTERNAL,
            "plate-not-as-ordered",
            f"Page {count} of {self._order.name} is not the one that was ordered.",
            "Nothing was kept. This is a fault of the program, please report it.",
        )


def _drawings(order: PlateOrder, outlines: Outlines) -> Mapping[int, tuple[Segment, ...]]:
    """The drawing of each letter by the plate's number; a base's letters are drawn in."""
    base = next((one.chokes for one in order.apart if one.chokes), ())
    if not base:
        return outlines.glyphs
    drawn_in = Choked(outlines.glyphs, base)
    return Beside(outlines.glyphs, drawn_in) if order.layers else drawn_in


def _references(objects: Iterable[int]) -> str:
    return " ".join(f"{number} 0 R" for number in objects)
