"""A plate's own bytes with a page tree of some of its pages behind them, for another reader.

A reader that is asked for page 9 000 walks through all pages before it and keeps them. So the tree
is written anew behind the file's end, as an update (ISO 32000-1, 7.5.6): the pages that are to be
seen and no others. Everything that they draw, and what they inherit, is read from the plate itself;
that its own tree has the right pages in the right order is for the skeleton and for pikepdf.
"""

import io
from collections.abc import Sequence

from addressing.preflight.container import Container
from addressing.preflight.skeleton import Skeleton


class Excerpt(io.RawIOBase):
    """A file to read from: a plate, and behind it the tree of some of its pages."""

    def __init__(self, file: Container, skeleton: Skeleton, indices: Sequence[int]) -> None:
        """`indices` are those of the pages (from 0) that are to be seen."""
        super().__init__()
        self._data = file.data
        self._behind = _update(file, skeleton, indices)
        self._end = len(file.data) + len(self._behind)
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
        own = len(self._data)
        part = self._data[self._at : self._at + len(buffer)] if self._at < own else b""
        if len(part) < len(buffer):
            behind = max(0, self._at - own)
            part += self._behind[behind : behind + len(buffer) - len(part)]
        buffer[: len(part)] = part
        self._at += len(part)
        return len(part)


def _update(file: Container, skeleton: Skeleton, indices: Sequence[int]) -> bytes:
    """The tree's root written anew, its place, and a trailer that leads back to the plate's."""
    start = len(file.data)
    kids = b" ".join(b"%d 0 R" % skeleton.pages[index] for index in indices)
    tree = b"%d 0 obj\n<< /Type /Pages /Kids [%b] /Count %d >>\nendobj\n"
    tree %= (skeleton.top, kids, len(indices))
    table = b"xref\n%d 1\n%010d 00000 n \n" % (skeleton.top, start)
    trailer = b"trailer\n<< /Size %d /Root %d 0 R /Prev %d >>\n"
    trailer %= (file.count + 1, skeleton.root, file.table)
    return b"%b%b%bstartxref\n%d\n%%%%EOF\n" % (tree, table, trailer, start + len(tree))
