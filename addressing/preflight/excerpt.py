"""A plate's own bytes with a table of some of its parts behind them, for another reader.

Other readers keep whatever they have met: asked for page 9 000, pdfium walks through all pages
before it; pikepdf makes a record of every object when it opens a file. So the plate is given to
them with an end of another kind. Every object that they read is read from the plate itself; its own
table and tree, with all pages in their order, are what container and skeleton prove.
"""

import io
from collections.abc import Sequence

from addressing.preflight.container import Container
from addressing.preflight.skeleton import BRANCH, Skeleton

AT_ONCE = 50 * BRANCH
"""Pages that are looked at in one go: pikepdf takes 2 kB for each object (measured). A larger plate
is given to it in parts."""


class Excerpt(io.RawIOBase):
    """A file to read from: a plate, and something behind it."""

    def __init__(self, file: Container, behind: bytes) -> None:
        """`behind` must be an end of a PDF file."""
        super().__init__()
        self._source = file.source
        self._behind = behind
        self._end = len(file.source) + len(behind)
        self._at = 0

    def readable(self) -> bool:
        """True."""
        return True

    def seekable(self) -> bool:
        """True."""
        return True

    def seek(self, offset: int, whence: int = io.SEEK_SET) -> int:
        """Go to a place, from the beginning, from here or from the end."""
        self._at = offset + {io.SEEK_SET: 0, io.SEEK_CUR: self._at, io.SEEK_END: self._end}[whence]
        return self._at

    def tell(self) -> int:
        """Where the next byte is read."""
        return self._at

    def readinto(self, buffer) -> int:  # type: ignore[no-untyped-def]  # noqa: ANN001 - no name for it before 3.12
        """Fill a buffer with the bytes from here on; how many there were."""
        own = len(self._source)
        part = self._source[self._at : self._at + len(buffer)] if self._at < own else b""
        if len(part) < len(buffer):
            behind = max(0, self._at - own)
            part += self._behind[behind : behind + len(buffer) - len(part)]
        buffer[: len(part)] = part
        self._at += len(part)
        return len(part)


def with_pages(file: Container, skeleton: Skeleton, indices: Sequence[int]) -> Excerpt:
    """The plate with an update (ISO 32000-1, 7.5.6): a page tree of the pages of these indices.

    What they inherit they have from their own branches still.
    """
    tree = _tree(skeleton, [skeleton.pages[index] for index in indices], len(indices))
    rows = [(skeleton.top, len(file.source))]
    return Excerpt(file, _ended(file, skeleton, tree, rows, b" /Prev %d" % file.table))


def with_branches(file: Container, skeleton: Skeleton, first: int, last: int) -> io.BytesIO:
    """The parts that some pages of the plate need, byte for byte: from `first` up to `last`.

    A page tree has their branches and no others; what they draw isn't there. (pikepdf goes to and
    fro in a file for each object: through an Excerpt that takes half as long again.)
    """
    pages = skeleton.pages[first:last]
    branches = tuple(dict.fromkeys(skeleton.parents[first:last]))
    needed = {*skeleton.shared, *branches, *pages, file.count} - {skeleton.top}
    numbers = sorted(needed, key=file.starts.__getitem__)
    made = io.BytesIO()
    made.write(file.source[: min(file.starts[1:])])
    rows = []
    for number in numbers:
        rows.append((number, made.tell()))
        made.write(file.raw(number))
    rows.append((skeleton.top, made.tell()))
    made.write(_ended(file, skeleton, _tree(skeleton, branches, len(pages)), rows, b""))
    made.seek(0)
    return made


def _tree(skeleton: Skeleton, kids: Sequence[int], pages: int) -> bytes:
    """The root of the page tree written anew."""
    below = b" ".join(b"%d 0 R" % kid for kid in kids)
    tree = b"%d 0 obj\n<< /Type /Pages /Kids [%b] /Count %d >>\nendobj\n"
    return tree % (skeleton.top, below, pages)


def _ended(
    file: Container, skeleton: Skeleton, tree: bytes, rows: Sequence[tuple[int, int]], more: bytes
) -> bytes:
    """A tree, a table of (object, place), the tree's last, a trailer with the root and `more`."""
    at = rows[-1][1]
    table = b"".join([b"%d 1\n%010d 00000 n \n" % row for row in sorted(rows)])
    trailer = b"trailer\n<< /Size %d /Root %d 0 R%b >>\n" % (file.count + 1, skeleton.root, more)
    end = b"startxref\n%d\n%%%%EOF\n" % (at + len(tree))
    head = b"xref\n0 1\n0000000000 65535 f \n"
    return b"".join((tree, head, table, trailer, end))
