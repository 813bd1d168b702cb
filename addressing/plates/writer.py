"""Objects written straight to a file as they come; only their places are kept."""

import hashlib
from array import array
from pathlib import Path
from types import TracebackType
from typing import Self

HEADER = b"%PDF-1.6\n%\xe2\xe3\xcf\xd3\n"
"""The version, and four bytes that tell transfer programs that the file is binary."""

_ENTRY = b"%010d 00000 n \n"


class ObjectWriter:
    """Writes numbered objects, then the cross-reference table and the trailer.

    The places are kept as 8 bytes an object, so memory stays flat.
    """

    def __init__(self, path: Path) -> None:
        """Open a file and write the header.

        Raises:
            OSError: it can't be written.
        """
        self._stream = path.open("wb", buffering=1 << 18)
        self._digest = hashlib.sha256()
        self._at = 0
        self._places = array("Q")
        self._write(HEADER)

    def __enter__(self) -> Self:
        """The writer itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the file, whatever happened."""
        self._stream.close()

    def reserve(self) -> int:
        """A number for an object that is written later."""
        self._places.append(0)
        return len(self._places)

    def put(self, body: str, reserved: int | None = None) -> int:
        """Write an object, under a reserved number or the next; its number."""
        return self._object(body.encode("ascii"), reserved)

    def put_stream(self, entries: str, packed: bytes) -> int:
        """Write a deflated stream; `entries` are the dictionary's own, before Length and Filter."""
        head = f"<< {entries}/Length {len(packed)} /Filter /FlateDecode >>\nstream\n"
        return self._object(head.encode("ascii") + packed + b"\nendstream", None)

    def put_plain(self, entries: str, data: bytes) -> int:
        """Write a stream as it is; `entries` as for `put_stream`."""
        head = f"<< {entries}/Length {len(data)} >>\nstream\n"
        return self._object(head.encode("ascii") + data + b"\nendstream", None)

    def finish(self, root: int, info: int) -> None:
        """Write the table and the trailer; the ID is the digest of all that came before.

        Raises:
            RuntimeError: an object was reserved and never written.
        """
        identity = self._digest.hexdigest()[:32].upper()
        start = self._at
        count = len(self._places) + 1
        self._write(f"xref\n0 {count}\n0000000000 65535 f \n".encode("ascii"))
        for first in range(0, len(self._places), 1000):
            block = self._places[first : first + 1000]
            if not all(block):
                raise RuntimeError("an object of the plate was reserved and never written")
            self._write(b"".join([_ENTRY % place for place in block]))
        trailer = (
            f"trailer\n<< /Size {count} /Root {root} 0 R /Info {info} 0 R"
            f" /ID [<{identity}> <{identity}>] >>\nstartxref\n{start}\n%%EOF\n"
        )
        self._write(trailer.encode("ascii"))
        self._stream.flush()

    def _object(self, body: bytes, reserved: int | None) -> int:
        number = reserved if reserved is not None else self.reserve()
        self._places[number - 1] = self._at
        self._write(b"%d 0 obj\n%b\nendobj\n" % (number, body))
        return number

    def _write(self, data: bytes) -> None:
        self._stream.write(data)
        self._digest.update(data)
        self._at += len(data)
