"""The package for a shop: a zip whose bytes depend on what is in it, and on nothing else."""

import hashlib
import re
import zipfile
from collections.abc import Iterable, Sequence
from pathlib import Path

from addressing.records.tickets import DataRow

CHECKSUMS = "checksums.sha256"
"""In the form that `sha256sum --check` reads."""
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,149}(?:/[A-Za-z0-9][A-Za-z0-9._-]{0,149})?")
"""Names that every file system and every mail gateway takes (POSIX.1, portable file names)."""
_EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The first moment that a zip can name (APPNOTE 4.4.6, from memory): the clock stays out of it."""
_MODE = 0o100644 << 16
_UNIX = 3
_DANGEROUS = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")
"""First characters that a spreadsheet may take for a formula's (OWASP, "CSV Injection", from
memory)."""


def write_package(path: Path, files: Sequence[tuple[str, Path | bytes]]) -> None:
    """Write a zip to `path` (a working name): the files as named, and their checksums.

    The files are stored, not packed: plates are deflated already, and so the bytes depend on no
    packer's version.

    Raises:
        ValueError: a name isn't safe everywhere, or is there twice.
        OSError: the place can't be written.
    """
    names = [name for name, _ in files]
    for name in names:
        if not NAME.fullmatch(name) or names.count(name) > 1:
            message = f"not a name for a package: {name}"
            raise ValueError(message)
    sums = []
    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as package:
        for name, source in files:
            data = source.read_bytes() if isinstance(source, Path) else source
            sums.append(f"{hashlib.sha256(data).hexdigest()}  {name}\n")
            package.writestr(_entry(name), data)
        package.writestr(_entry(CHECKSUMS), "".join(sums))


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, _EARLIEST)
    entry.create_system = _UNIX
    entry.external_attr = _MODE
    return entry


def data_file(rows: Iterable[DataRow]) -> bytes:
    """What stands on each page, as text between tabs: UTF-8, a head, line feeds.

    A field that a spreadsheet could take for a formula gets an apostrophe before it.
    """
    held = tuple(rows)
    most = max((len(row.lines) for row in held), default=0)
    head = ["plate", "page", "copies", "key", *(f"line{n}" for n in range(1, most + 1))]
    told = [head]
    for row in held:
        lines = [*row.lines, *[""] * (most - len(row.lines))]
        told.append([row.plate, str(row.page), str(row.copies), row.key or "", *lines])
    return "".join("\t".join(map(_plain, row)) + "\n" for row in told).encode()


def _plain(field: str) -> str:
    words = " ".join(field.split())
    return f"'{words}" if words.startswith(_DANGEROUS) else words
