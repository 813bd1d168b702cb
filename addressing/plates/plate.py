"""The door: pages in, one PDF that carries one ink out, by the grammar in DEVELOPERS.md."""

from collections.abc import Iterable
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import write_fault
from addressing.plates.content import Drawer
from addressing.plates.glyphs import form_box, form_operators
from addressing.plates.inks import separation
from addressing.plates.numbers import number, string
from addressing.plates.writer import ObjectWriter
from addressing.records.pages import Outlines, Page
from addressing.records.plates import PlateOrder

BRANCH = 200
"""Pages on one branch of the page tree: a flat tree of many thousands is slow in viewers."""


def write_plate(path: Path, order: PlateOrder, pages: Iterable[Page], outlines: Outlines) -> None:
    """Write a plate to `path` (a working name), page by page as the pages come.

    The same order, pages and outlines give the same bytes. Memory does not grow with the pages
    but by 16 bytes each.

    Raises:
        Fault: the file can't be written, the disk is full (exit 4); the pages are not those of
            the order (exit 70).
    """
    try:
        with ObjectWriter(path) as writer:
            _Plate(order, outlines, writer).write(pages)
    except OSError as error:
        raise write_fault(path, error) from error


class _Plate:
    """One plate in the making."""

    def __init__(self, order: PlateOrder, outlines: Outlines, writer: ObjectWriter) -> None:
        self._order = order
        self._outlines = outlines
        self._writer = writer
        self._drawer = Drawer(order.ink, outlines)
        self._tree = writer.reserve()
        self._resources = writer.reserve()
        self._branches: list[tuple[int, int]] = []
        width, height = (number(length) for length in order.trim)
        box = f"[0 0 {width} {height}]"
        self._page_entries = (
            f"/MediaBox {box} /BleedBox {box} /TrimBox {box} /Resources {self._resources} 0 R"
        )

    def write(self, pages: Iterable[Page]) -> None:
        count = self._write_pages(pages)
        self._write_tree(count)
        self._write_resources()
        order = self._order
        root = self._writer.put(f"<< /Type /Catalog /Pages {self._tree} 0 R >>")
        info = self._writer.put(
            f"<< /Title {string(order.name)} /Producer {string(f'addressing {order.version}')}"
            " /Trapped /False >>"
        )
        self._writer.finish(root, info)

    def _write_pages(self, pages: Iterable[Page]) -> int:
        households = self._order.households
        kids: list[int] = []
        branch = count = 0
        for count, page in enumerate(pages, 1):
            if count > len(households) or page.household != households[count - 1]:
                raise self._not_as_ordered(count)
            if not kids:
                branch = self._writer.reserve()
            kids.append(self._write_page(page, branch))
            if len(kids) == BRANCH:
                self._close_branch(branch, kids)
                kids = []
        if kids:
            self._close_branch(branch, kids)
        if count != len(households):
            raise self._not_as_ordered(count)
        return count

    def _write_page(self, page: Page, branch: int) -> int:
        content = self._writer.put_stream("", self._drawer.page(page))
        return self._writer.put(
            f"<< /Type /Page /Parent {branch} 0 R {self._page_entries} /Contents {content} 0 R >>"
        )

    def _close_branch(self, branch: int, kids: list[int]) -> None:
        self._writer.put(
            f"<< /Type /Pages /Parent {self._tree} 0 R /Kids [{_references(kids)}]"
            f" /Count {len(kids)} >>",
            branch,
        )
        self._branches.append((branch, len(kids)))

    def _write_tree(self, count: int) -> None:
        kids = _references(branch for branch, _ in self._branches)
        self._writer.put(f"<< /Type /Pages /Kids [{kids}] /Count {count} >>", self._tree)

    def _write_resources(self) -> None:
        forms = []
        for glyph in self._drawer.used():
            outline = self._outlines.glyphs[glyph]
            box = " ".join(str(edge) for edge in form_box(outline))
            entries = f"/Type /XObject /Subtype /Form /BBox [{box}] "
            form = self._writer.put_stream(entries, form_operators(outline))
            forms.append(f"/g{glyph} {form} 0 R")
        spaces = ""
        if self._order.ink.channel is None:
            ink = self._writer.put(separation(self._order.ink))
            spaces = f" /ColorSpace << /Ink {ink} 0 R >>"
        body = f"<< /XObject << {' '.join(forms)} >>{spaces} >>"
        self._writer.put(body, self._resources)

    def _not_as_ordered(self, count: int) -> Fault:
        return Fault(
            Exit.INTERNAL,
            "plate-not-as-ordered",
            f"Page {count} of {self._order.name} is not the one that was ordered.",
            "Nothing was kept. This is a fault of the program, please report it.",
        )


def _references(objects: Iterable[int]) -> str:
    return " ".join(f"{number} 0 R" for number in objects)
