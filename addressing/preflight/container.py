"""The file as bytes: header, objects laid end to end, one cross-reference table, one trailer.

Nothing is repaired and nothing skipped. Each object's bytes reach to the next one's, so that there
is no place in the file where anything unknown could lie.
"""

import hashlib
import re
import zlib
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from addressing.preflight.values import Objection, Value, read_dict

PER_PAGE = 1 << 16
BESIDES = 1 << 24
"""A plate may weigh 64 kB a page and 16 MB besides (a page of real plates weighs 0.7 kB)."""
SLACK = 32
"""Bytes by which a stream may be larger than its content, deflated fast: blocks without content
can hide data (of real plates none was larger at all)."""
INFLATED = 1 << 20
"""The most that one stream may hold once inflated: a page holds about 2 kB, a letter 2 kB."""

_HEADER = re.compile(rb"%PDF-1\.6\n%\xe2\xe3\xcf\xd3\n")
_TAIL = re.compile(rb"startxref\n([1-9][0-9]{0,11})\n%%EOF\n\Z")
_XREF = re.compile(rb"xref\n0 ([1-9][0-9]{0,7})\n")
_TRAILER = re.compile(rb"trailer\n(<<[^%]{1,600}>>)\n\Z", re.DOTALL)
_WINDOW = b"\x78"
"""How deflated data begins that looks back over 32 kB (RFC 1950, 2.2)."""
_FREE = b"0000000000 65535 f \n"
_ENTRY = 20
_OPEN = re.compile(rb"([1-9][0-9]{0,9}) 0 obj\n")
_CLOSE = re.compile(rb"\nendobj\n")
_STREAM = re.compile(rb"(<<[^<>]*>>)\nstream\n")
_ENDSTREAM = re.compile(rb"\nendstream\nendobj\n")


@dataclass(frozen=True, slots=True)
class Container:
    """A file whose outer build was found right.

    `starts[n]` and `ends[n]` bound the bytes of object n; index 0 is not used.
    """

    data: bytes
    starts: Sequence[int]
    ends: Sequence[int]
    trailer: dict[str, Value]
    table: int
    """Where the table of cross-references begins."""
    sealed: bool
    """True when both halves of ID are the digest of what they should be."""

    @property
    def count(self) -> int:
        """How many objects there are."""
        return len(self.starts) - 1

    def plain(self, number: int) -> bytes:
        """The text of an object that has no stream.

        Raises:
            Objection: there is no such object, or it is built otherwise.
        """
        start = self._start(number)
        close = _CLOSE.search(self.data, max(start, self.ends[number] - 16), self.ends[number])
        if close is None or close.end() != self.ends[number]:
            raise Objection(f"Object {number} of the file doesn't end as an object must.")
        return self.data[start : close.start()]

    def open_stream(self, number: int) -> tuple[dict[str, Value], bytes]:
        """The dictionary and the bytes of a stream that isn't packed.

        Raises:
            Objection: it isn't exactly one stream of the length that it states.
        """
        start, end = self._start(number), self.ends[number]
        match = _STREAM.match(self.data, start, end)
        if match is None:
            raise Objection(f"Object {number} of the file should be a stream and isn't.")
        keys = read_dict(match[1])
        length = keys.get("Length")
        if "Filter" in keys or not isinstance(length, float) or not length.is_integer():
            raise Objection(f"The stream in object {number} isn't plain.")
        stop = match.end() + int(length)
        if _ENDSTREAM.fullmatch(self.data, stop, end) is None:
            raise Objection(f"The stream in object {number} doesn't end where its length says.")
        return keys, self.data[match.end() : stop]

    def stream(self, number: int, most: int = 0) -> tuple[dict[str, Value], bytes]:
        """The dictionary and the inflated bytes of a stream; `most` of them, if not INFLATED.

        Raises:
            Objection: it isn't exactly one deflated stream of the length that it states.
        """
        start, end = self._start(number), self.ends[number]
        match = _STREAM.match(self.data, start, end)
        if match is None:
            raise Objection(f"Object {number} of the file should be a stream and isn't.")
        keys = read_dict(match[1])
        length = keys.get("Length")
        if (
            not isinstance(length, float)
            or not length.is_integer()
            or keys.get("Filter") != "FlateDecode"
        ):
            raise Objection(f"The stream in object {number} isn't plainly deflated.")
        stop = match.end() + int(length)
        if _ENDSTREAM.fullmatch(self.data, stop, end) is None:
            raise Objection(f"The stream in object {number} doesn't end where its length says.")
        return keys, inflate(self.data[match.end() : stop], number, most or INFLATED)

    def _start(self, number: int) -> int:
        """Where the value of an object begins, behind its own number."""
        if not 0 < number < len(self.starts):
            raise Objection(f"The file refers to object {number}, which isn't there.")
        match = _OPEN.match(self.data, self.starts[number], self.ends[number])
        if match is None or int(match[1]) != number:
            raise Objection(f"Object {number} isn't where the table of the file says.")
        return match.end()


def inflate(packed: bytes, number: int, most: int = INFLATED) -> bytes:
    """Inflate one stream, with a limit and nothing left over.

    Raises:
        Objection: damaged, unfinished, too large, or followed by other bytes.
    """
    unpacker = zlib.decompressobj()
    try:
        plain = unpacker.decompress(packed, most)
    except zlib.error as error:
        raise Objection(f"The stream in object {number} is damaged.") from error
    if not unpacker.eof:
        raise Objection(f"The stream in object {number} is cut short, or far too large.")
    if packed[:1] != _WINDOW:
        raise Objection(f"The stream in object {number} is deflated in an unusual way.")
    if unpacker.unused_data:
        raise Objection(f"The stream in object {number} carries bytes behind its end.")
    if len(packed) > len(zlib.compress(plain, 1)) + SLACK:
        raise Objection(f"The stream in object {number} is larger than what it holds needs.")
    return plain


def read_container(path: Path, pages: int) -> Container:
    """Read a plate that should have `pages` pages and find its objects.

    Raises:
        Objection: the file can't be read or its outer build is not that of a plate.
    """
    try:
        if path.stat().st_size > BESIDES + PER_PAGE * pages:
            raise Objection("The file is far larger than a plate of so many pages can be.")
        data = path.read_bytes()
    except OSError as error:
        raise Objection(
            f"The file can't be read: {error.strerror or 'no reason given'}."
        ) from error
    header = _HEADER.match(data)
    if header is None:
        raise Objection("The file doesn't begin as a plate does (PDF 1.6).")
    tail = _TAIL.search(data, max(0, len(data) - 64))
    if tail is None:
        raise Objection("The file doesn't end where a plate ends: it is cut short or added to.")
    return _indexed(data, header.end(), int(tail[1]), tail.start())


def _indexed(data: bytes, body: int, table: int, end: int) -> Container:
    """The objects between the header and the table, each by its number."""
    head = _XREF.match(data, table)
    size = int(head[1]) if head is not None else 0
    if head is None or head.end() + size * _ENTRY > end:
        raise Objection("The table of the file (cross-references) isn't where it should be.")
    trailer = _TRAILER.match(data[head.end() + size * _ENTRY : end])
    if trailer is None:
        raise Objection("The file's trailer isn't that of a plate.")
    starts = _offsets(data, head.end(), size)
    order = sorted(range(1, size), key=starts.__getitem__)
    ends = array("Q", bytes(8 * size))
    for number, following in pairwise(order):
        ends[number] = starts[following]
    if order:
        ends[order[-1]] = table
    if not order or starts[order[0]] != body:
        raise Objection("There are bytes before the first object that belong to nothing.")
    keys = read_dict(trailer[1])
    digest = hashlib.sha256(memoryview(data)[:table]).digest()[:16]
    return Container(data, starts, ends, keys, table, keys.get("ID") == (digest, digest))


def _offsets(data: bytes, start: int, size: int) -> "array[int]":
    """Where each object begins, by the table; every entry but the first is in use."""
    rows = data[start : start + size * _ENTRY]
    if not rows.startswith(_FREE):
        raise Objection("The table of the file (cross-references) is damaged.")
    offsets = array("Q", [0])
    for at in range(_ENTRY, len(rows), _ENTRY):
        place = rows[at : at + 10]
        if rows[at + 10 : at + _ENTRY] != b" 00000 n \n" or not place.isdigit():
            raise Objection("The table of the file (cross-references) is damaged.")
        offsets.append(int(place))
    return offsets
