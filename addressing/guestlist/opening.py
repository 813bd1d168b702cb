"""Opens the client's file: what kind it is, its fingerprint, and whether it is safe to read.

The file is read once, into memory, and never touched. Limits are judgement: a guest list has a
few thousand rows, so whatever is far beyond that is a fault of the file or an attack.
"""

import hashlib
import io
import re
import zipfile
import zlib
from dataclasses import dataclass, field
from pathlib import Path
from xml.etree.ElementTree import ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser

from addressing.faults import Exit, Fault
from addressing.where import Where, cell_name

MAX_FILE = 60_000_000
MAX_ENTRIES = 5_000
MAX_UNPACKED = 200_000_000
MAX_RATIO = 100
RATIO_FROM = 10_000_000
MAX_BOX = 2_000_000
MAX_MERGES = 20_000
MAX_DEPTH = 200

_BLOCK = 1 << 18
_CORNER = re.compile(r"([A-Za-z]{0,3})([0-9]*)")
_LAST_ROW, _LAST_COLUMN = 1_048_576, 16_384
_LONGEST_LIST = 50_000
_RANGED = {"mergeCell", "hyperlink", "comment"}

_OTHER_KINDS = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture (PNG)"),
    (b"\xff\xd8\xff", "a picture (JPEG)"),
    (b"GIF8", "a picture (GIF)"),
    (b"II*\x00", "a picture (TIFF)"),
    (b"MM\x00*", "a picture (TIFF)"),
    (b"{\\rtf", "a text document (RTF)"),
    (b"\x1f\x8b", "a compressed file (gzip)"),
    (b"7z\xbc\xaf", "a compressed file (7z)"),
    (b"Rar!", "a compressed file (RAR)"),
    (b"BEGIN:VCARD", "an address book (vCard)"),
    (b"<", "a web page or another marked-up file"),
)
_ZIP_KINDS = (
    ("word/document.xml", "a Word document"),
    ("ppt/presentation.xml", "a presentation"),
    ("xl/workbook.bin", "a binary workbook (.xlsb)"),
    ("Index/Document.iwa", "a Numbers or Pages document"),
    ("Index.zip", "a Numbers or Pages document"),
    ("content.xml", "an OpenDocument file"),
)
_SAVE_AS = "Save it as .xlsx or .csv in your spreadsheet program, then give that file."


@dataclass(frozen=True, slots=True)
class OpenedList:
    """A file that is safe to hand to a reader; `kind` is "workbook" or "text".

    `name` is the file's name without its folders, and is the `Where.file` of every cell.
    """

    path: Path
    name: str
    kind: str
    sha256: str
    data: bytes = field(repr=False)


def open_list(path: Path) -> OpenedList:
    """Read a guest list's bytes and make sure that a reader can be let near them.

    Raises:
        Fault: exit 3; `list-missing`, `list-empty`, `list-not-a-spreadsheet`, `list-old-format`,
            `list-password`, `list-too-large` or `list-damaged`.
    """
    data = _bytes_of(path)
    kind = _kind_of(path, data)
    if kind == "workbook":
        _guard_workbook(path, data)
    return OpenedList(path, path.name, kind, hashlib.sha256(data).hexdigest(), data)


def _fault(path: Path, code: str, text: str, mend: str, sheet: str | None = None) -> Fault:
    return Fault(Exit.INPUT, code, f"{path.name} {text}", mend, Where(str(path), sheet))


def _bytes_of(path: Path) -> bytes:
    if path.is_dir():
        mend = "Give the spreadsheet itself, not the folder that it lies in."
        raise _fault(path, "list-missing", "is a folder.", mend)
    try:
        with path.open("rb") as stream:
            data = stream.read(MAX_FILE + 1)
    except FileNotFoundError as error:
        mend = "Check the name and the folder."
        raise _fault(path, "list-missing", "is not there.", mend) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        mend = "Close it in other programs, or copy it elsewhere and try the copy."
        raise _fault(path, "list-missing", f"can't be read: {reason}.", mend) from error
    if not data:
        mend = "Ask for the file again: it may not have been copied whole."
        raise _fault(path, "list-empty", "is empty.", mend)
    if len(data) > MAX_FILE:
        text = f"is larger than {MAX_FILE // 1_000_000} MB."
        raise _fault(path, "list-too-large", text, "Take pictures and other sheets out of it.")
    return data


def _kind_of(path: Path, data: bytes) -> str:
    """Tell workbook from text by the bytes, never by the file's name."""
    if data.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return "workbook"
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise _old_office(path, data)
    if path.suffix.casefold() == ".toml":
        text = "is a docket or another TOML file, no guest list."
        raise _fault(
            path, "list-not-a-spreadsheet", text, "Name the list first, the docket behind --docket."
        )
    start = data.removeprefix(b"\xef\xbb\xbf")[:512].lstrip()
    for magic, what in _OTHER_KINDS:
        if start.upper().startswith(magic.upper()):
            raise _fault(path, "list-not-a-spreadsheet", f"is {what}, no spreadsheet.", _SAVE_AS)
    if data[4:8] == b"ftyp":
        raise _fault(path, "list-not-a-spreadsheet", "is a picture or a film.", _SAVE_AS)
    if b"\x00" in data and not data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _fault(path, "list-not-a-spreadsheet", "is neither workbook nor text.", _SAVE_AS)
    return "text"


def _old_office(path: Path, data: bytes) -> Fault:
    """The Fault for an OLE container: a workbook with a password, an old .xls, or another."""

    def has(name: str) -> bool:
        return name.encode("utf-16-le") in data

    if has("EncryptedPackage"):
        mend = "Open it, save it without a password (File, Protect, take the password out)."
        return _fault(path, "list-password", "is protected by a password.", mend)
    if has("WordDocument"):
        return _fault(path, "list-not-a-spreadsheet", "is an old Word document.", _SAVE_AS)
    text = "is an old workbook (.xls)." if has("Workbook") or has("Book") else "is an old file."
    mend = "Open it in your spreadsheet program and save it as .xlsx, then give that file."
    return _fault(path, "list-old-format", text, mend)


def _guard_workbook(path: Path, data: bytes) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            _guard_kind(path, {entry.filename for entry in entries})
            _guard_sizes(path, entries)
            for entry in entries:
                _guard_part(path, archive, entry)
    except (
        zipfile.BadZipFile,
        zlib.error,
        EOFError,
        OSError,
        ValueError,
        NotImplementedError,
        RuntimeError,
        OverflowError,
        LookupError,  # a part without a name, in zipfile
    ) as error:
        raise damaged(path) from error


def damaged(path: Path) -> Fault:
    """The Fault for a workbook that is broken in its build."""
    mend = "Open it in your spreadsheet program and save it again, or ask for the file anew."
    return _fault(path, "list-damaged", "is damaged: it can't be read as a workbook.", mend)


def _guard_kind(path: Path, names: set[str]) -> None:
    if any(name.lower() == "xl/workbook.xml" for name in names):
        return
    for name, what in _ZIP_KINDS:
        if name in names:
            raise _fault(path, "list-not-a-spreadsheet", f"is {what}.", _SAVE_AS)
    # A workbook may keep its parts elsewhere; then at least the list of parts is there.
    if "[Content_Types].xml" not in names:
        text = "is a compressed folder, no spreadsheet."
        raise _fault(path, "list-not-a-spreadsheet", text, "Unpack it and give the list inside.")


def _guard_sizes(path: Path, entries: list[zipfile.ZipInfo]) -> None:
    """Refuse what unpacks to far more than a list can need (zipfile reads no more than stated)."""
    if any(entry.flag_bits & 1 for entry in entries):
        mend = "Save it without a password."
        raise _fault(path, "list-password", "is protected by a password.", mend)
    swollen = any(
        entry.file_size > RATIO_FROM and entry.file_size > MAX_RATIO * max(entry.compress_size, 1)
        for entry in entries
    )
    unpacked = sum(entry.file_size for entry in entries)
    if len(entries) > MAX_ENTRIES or unpacked > MAX_UNPACKED or swollen:
        text = "unpacks to far more than a guest list holds."
        mend = "Copy the rows of the list into a new workbook and give that one."
        raise _fault(path, "list-too-large", text, mend)


def _guard_part(path: Path, archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> None:
    """Stream one part and measure it, when it is XML, without building anything."""
    if entry.is_dir():
        return
    measure = _Measure(path, entry.filename)
    parser = DefusedXMLParser(target=measure, forbid_dtd=True)
    with archive.open(entry) as stream:
        block = stream.read(_BLOCK)
        if b"<" not in block[:200]:
            return
        try:
            while block:
                parser.feed(block)
                block = stream.read(_BLOCK)
        except DefusedXmlException as error:
            if entry.filename.startswith("xl/media/"):
                return
            raise damaged(path) from error
        except (ParseError, LookupError, UnicodeError):
            return  # No reader gets further either, and some harmless parts are written so.


class _Measure:
    """Follows the tags of a part: how far its cells reach, how many ranges, how deep."""

    def __init__(self, path: Path, part: str) -> None:
        self.path, self.part = path, part
        self.depth = self.cells = self.ranges = self.covered = 0
        self.row = self.column = self.last_row = self.last_column = 0

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """A tag opens."""
        self.depth += 1
        if self.depth > MAX_DEPTH:
            raise damaged(self.path)
        name = tag.rpartition("}")[2]
        if len(attributes.get("sqref", "")) > _LONGEST_LIST:
            raise damaged(self.path)
        if name == "c":
            self._cell(attributes.get("r", ""))
        elif name == "row":
            self._row(attributes.get("r", ""))
        elif name in _RANGED:
            self._range(attributes.get("ref", ""))

    def end(self, tag: str) -> None:
        """A tag closes."""
        del tag
        self.depth -= 1

    def _row(self, number: str) -> None:
        self.row = int(float(number)) if number else self.row + 1
        self.column = 0

    def _cell(self, name: str) -> None:
        self.cells += 1
        self.column += 1
        match = _CORNER.fullmatch(name)
        if match and match[1] and match[2]:
            self.column, self.row = _column_number(match[1]), int(match[2])
        self._reach(self.row, self.column)

    def _range(self, reference: str) -> None:
        corners = [_CORNER.fullmatch(c) for c in reference.replace("$", "").split(":")]
        known = [corner for corner in corners if corner and corner[0]]
        if not known:
            return
        self.ranges += 1
        # "A:C" is whole columns, "2:5" whole rows.
        rows = [int(c[2]) if c[2] else end for c in known for end in (1, _LAST_ROW)]
        columns = [_column_number(c[1]) if c[1] else e for c in known for e in (1, _LAST_COLUMN)]
        self.covered += (max(rows) - min(rows) + 1) * (max(columns) - min(columns) + 1)
        self._reach(max(rows), max(columns))

    def _reach(self, row: int, column: int) -> None:
        self.last_row = max(self.last_row, row)
        self.last_column = max(self.last_column, column)
        box = max(self.last_row * self.last_column, self.cells, self.covered)
        if box > MAX_BOX or self.ranges > MAX_MERGES:
            corner = cell_name(self.last_column, self.last_row)
            text = f"has a sheet that reaches to {corner} ({self.part})."
            mend = "Delete what stands far right of or below the list, and save it again."
            raise _fault(self.path, "list-too-large", text, mend)


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number
