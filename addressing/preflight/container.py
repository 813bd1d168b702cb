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

from addressing.preflight.source import WINDOW, Source
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
_CLOSE = b"\nendobj\n"
_STREAM = re.compile(rb"(<<[^<>]*>>)\nstream\n")
_ENDSTREAM = b"\nendstream\nendobj\n"


@dataclass(frozen=True, slots=True)
class Container:
    """A file whose outer build was found right.

    `starts[n]` and `ends[n]` bound the bytes of object n; index 0 is not used.
    """

    source: Source
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

    def raw(self, number: int) -> bytes:
        """All bytes of an object that is there, its number and its end included."""
        return self.source[self.starts[number] : self.ends[number]]

    def plain(self, number: int) -> bytes:
        """The text of an object that has no stream.

        Raises:
            Objection: there is no such object, or it is built otherwise.
        """
        text = self._value(number)
        end = text.find(_CLOSE, max(0, len(text) - 16))
        if end < 0 or end + len(_CLOSE) != len(text):
            raise Objection(f"Object {number} of the file doesn't end as an object must.")
        return text[:end]

    def open_stream(self, number: int) -> tuple[dict[str, Value], bytes]:
        """The dictionary and the bytes of a stream that isn't packed.

        Raises:
            Objection: it isn't exactly one stream of the length that it states.
        """
        return self._held(number, None, "plain")

    def stream(self, number: int, most: int = 0) -> tuple[dict[str, Value], bytes]:
        """The dictionary and the inflated bytes of a stream; `most` of them, if not INFLATED.

        Raises:
            Objection: it isn't exactly one deflated stream of the length that it states.
        """
        keys, packed = self._held(number, "FlateDecode", "plainly deflated")
        return keys, inflate(packed, number, most or INFLATED)

    def _held(self, number: int, packing: str | None, said: str) -> tuple[dict[str, Value], bytes]:
        """A stream's dictionary and its bytes as they are, packed by this filter or by none."""
        text = self._value(number)
        match = _STREAM.match(text)
        if match is None:
            raise Objection(f"Object {number} of the file should be a stream and isn't.")
        keys = read_dict(match[1])
        length = keys.get("Length")
        if (
            keys.get("Filter") != packing
            or not isinstance(length, float)
            or not length.is_integer()
        ):
            raise Objection(f"The stream in object {number} isn't {said}.")
        stop = match.end() + int(length)
        if text[stop:] != _ENDSTREAM:
            raise Objection(f"The stream in object {number} doesn't end where its length says.")
        return keys, text[match.end() : stop]

    def _value(self, number: int) -> bytes:
        """An object behind its own number, its end included."""
        if not 0 < number < len(self.starts):
            raise Objection(f"The file refers to object {number}, which isn't there.")
        text = self.raw(number)
        match = _OPEN.match(text)
        if match is None or int(match[1]) != number:
            raise Objection(f"Object {number} isn't where the table of the file says.")
        return text[match.end() :]


def inflate(packed: bytes, number: int, most: int = INFLATED) -> bytes:
    """Inflate one stream, with a limit and nothing left over.

    Raises:
        Objection: damaged, unfinished, too large, or followed by other bytes.
    """
    plain = unpacked(packed, number, most)
    weigh(packed, plain, number)
    return plain


def unpacked(packed: bytes, number: int, most: int = INFLATED) -> bytes:
    """The same of a stream that is weighed elsewhere: it may be larger than it need be.

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
    return plain


def weigh(packed: bytes, plain: bytes, number: int) -> int:
    """The most bytes that a stream with this content may have.

    Raises:
        Objection: it has more.
    """
    most = len(zlib.compress(plain, 1)) + SLACK
    if len(packed) > most:
        raise Objection(f"The stream in object {number} is larger than what it holds needs.")
    return most


def read_container(path: Path, pages: int) -> Container:
    """Read a plate that should have `pages` pages and find its objects.

    Raises:
        Objection: the file can't be read or its outer build is not that of a plate.
    """
    source = Source(path)
    if len(source) > BESIDES + PER_PAGE * pages:
        raise Objection("The file is far larger than a plate of so many pages can be.")
    header = _HEADER.match(source[:32])
    if header is None:
        raise Objection("The file doesn't begin as a plate does (PDF 1.6).")
    last = max(0, len(source) - 64)
    tail = _TAIL.search(source[last:])
    if tail is None:
        raise Objection("The file doesn't end where a plate ends: it is cut short or added to.")
    return _indexed(source, header.end(), int(tail[1]), last + tail.start())


def _indexed(source: Source, body: int, table: int, end: int) -> Container:
    """The objects between the header and the table, each by its number."""
    head = _XREF.match(source[table : table + 32])
    size = int(head[1]) if head is not None else 0
    rows = table + (head.end() if head is not None else 0)
    if head is None or rows + size * _ENTRY > end:
        raise Objection("The table of the file (cross-references) isn't where it should be.")
    trailer = _TRAILER.match(source[rows + size * _ENTRY : end])
    if trailer is None:
        raise Objection("The file's trailer isn't that of a plate.")
    starts = _offsets(source, rows, size)
    order = sorted(range(1, size), key=starts.__getitem__)
    ends = array("Q", bytes(8 * size))
    for number, following in pairwise(order):
        ends[number] = starts[following]
    if order:
        ends[order[-1]] = table
    if not order or starts[order[0]] != body:
        raise Objection("There are bytes before the first object that belong to nothing.")
    keys = read_dict(trailer[1])
    digest = _digest(source, table)
    return Container(source, starts, ends, keys, table, keys.get("ID") == (digest, digest))


def _digest(source: Source, end: int) -> bytes:
    """What the ID must be: of all bytes before the table."""
    digest = hashlib.sha256()
    for start in range(0, end, WINDOW):
        digest.update(source[start : min(start + WINDOW, end)])
    return digest.digest()[:16]


def _offsets(source: Source, start: int, size: int) -> "array[int]":
    """Where each object begins, by the table; every entry but the first is in use."""
    rows = source[start : start + size * _ENTRY]
    if not rows.startswith(_FREE):
        raise Objection("The table of the file (cross-references) is damaged.")
    offsets = array("Q", [0])
    for at in range(_ENTRY, len(rows), _ENTRY):
        place = rows[at : at + 10]
        if rows[at + 10 : at + _ENTRY] != b" 00000 n \n" or not place.isdigit():
            raise Objection("The table of the file (cross-references) is damaged.")
        offsets.append(int(place))
    return offsets
