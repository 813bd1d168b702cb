"""A plate taken apart byte by byte, to be hurt and put together again: table and ID made to fit."""

import hashlib
import re
import zlib
from collections.abc import Callable
from pathlib import Path

_OBJECT = re.compile(rb"([0-9]+) 0 obj\n(.*?)\nendobj\n", re.DOTALL)
_STREAM = re.compile(rb"(<<.*?)/Length [0-9]+ (/Filter /FlateDecode >>)\nstream\n", re.DOTALL)


class Plate:
    """A written plate taken apart, to be hurt and put together again with a right table and ID."""

    def __init__(self, path: Path) -> None:
        self.path = path
        data = path.read_bytes()
        table = data.rindex(b"\nxref\n") + 1
        self.objects = {int(n): body for n, body in _OBJECT.findall(data[15:table])}
        self.trailer = re.search(rb"trailer\n(<<.*?)/ID", data[table:], re.DOTALL)[1]  # type: ignore[index]

    def pages(self) -> list[int]:
        """The pages' objects in order of their branches, which stand in order of print."""
        kids = [body for body in self.objects.values() if b"/Kids" in body and b"/Parent" in body]
        return [
            int(n) for kid in kids for n in re.findall(rb"([0-9]+) 0 R", kid.split(b"/Kids")[1])
        ]

    def contents(self, page: int) -> int:
        """The stream of a page (its number counts from 1)."""
        found = re.search(rb"/Contents ([0-9]+) 0 R", self.objects[self.pages()[page - 1]])
        assert found is not None
        return int(found[1])

    def redraw(self, number: int, change: Callable[[bytes], bytes], level: int = 4) -> None:
        """Change what a stream draws."""
        head = _STREAM.match(self.objects[number])
        assert head is not None
        packed = self.objects[number][head.end() : -len(b"\nendstream")]
        plain = change(zlib.decompress(packed))
        packed = zlib.compress(plain, level)
        opening = b"%b/Length %d %b\nstream\n" % (head[1], len(packed), head[2])
        self.objects[number] = opening + packed + b"\nendstream"

    def write(self) -> None:
        """Put it together, sealed as a plate is."""
        out = bytearray(b"%PDF-1.6\n%\xe2\xe3\xcf\xd3\n")
        places = {}
        for number, body in self.objects.items():
            places[number] = len(out)
            out += b"%d 0 obj\n%b\nendobj\n" % (number, body)
        seal = hashlib.sha256(out).hexdigest()[:32].upper().encode()
        start = len(out)
        out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(places) + 1)
        for number in sorted(places):
            out += b"%010d 00000 n \n" % places[number]
        out += b"trailer\n%b/ID [<%b> <%b>] >>\nstartxref\n%d\n%%%%EOF\n" % (
            self.trailer, seal, seal, start,
        )  # fmt: skip
        self.path.write_bytes(bytes(out))
