"""Opens the client's file: what kind it is, its fingerprint, and whether it is safe to read.

The file is read once, into memory, and never touched. Limits are judgement: a guest list has a
few thousand rows, so whatever is far beyond that is a fault of the file or an attack.
"""

import hashlib
import io
import zipfile
import zlib
from dataclasses import dataclass, field
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.guestlist.files.decoding import unicode_of
from addressing.guestlist.files.own_files import refuse_mark
from addressing.where import Where

MAX_FILE = 60_000_000
MAX_ENTRIES = 5_000
MAX_UNPACKED = 200_000_000
MAX_RATIO = 100
RATIO_FROM = 10_000_000

_LONGEST_TYPE = 200

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
    (b"<", "a web page or another marked-up file"),
)
_ZIP_KINDS = (
    ("word/document.xml", "a Word document"),
    ("ppt/presentation.xml", "a presentation"),
    ("xl/workbook.bin", "a binary workbook (.xlsb)"),
    ("Index/Document.iwa", "a Numbers or Pages document"),
    ("Index.zip", "a Numbers or Pages document"),
)
_SAVE_AS = "Save it as .xlsx or .csv in your spreadsheet program, then give that file."


@dataclass(frozen=True, slots=True)
class OpenedList:
    """A file that is safe to hand to a reader; `kind` is "workbook", "opendocument" or "text".

    `name` is the file's name without its folders, and is the `Where.file` of every cell.
    """

    path: Path
    name: str
    kind: str
    sha256: str
    data: bytes = field(repr=False)


def open_list(path: Path) -> OpenedList:
    """Read a guest list's bytes and make sure that a reader can be let near them.

    How far its cells reach is measured as they are read.

    Raises:
        Fault: exit 3; `list-open`, `list-missing`, `list-empty`, `list-not-a-spreadsheet`,
            `list-old-format`, `list-password`, `list-too-large` or `list-damaged`.
    """
    refuse_mark(path)
    data = _bytes_of(path)
    kind = _kind_of(path, data)
    if kind == "zip":
        kind = _guard_zip(path, data)
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
    """Tell a zip from text by the bytes, never by the file's name."""
    if data.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return "zip"
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
    if b"\x00" in data and not (unicode_of(data) or "").startswith(("utf-16", "utf-32")):
        raise _fault(path, "list-not-a-spreadsheet", "is neither workbook nor text.", _SAVE_AS)
    return "text"


def _old_office(path: Path, data: bytes) -> Fault:
    """The Fault for an OLE container: a workbook with a password, an old .xls, or another."""

    def has(name: str) -> bool:
        return name.encode("utf-16-le") in data

    if has("EncryptedPackage"):
        return protected(path)
    if has("WordDocument"):
        return _fault(path, "list-not-a-spreadsheet", "is an old Word document.", _SAVE_AS)
    text = "is an old workbook (.xls)." if has("Workbook") or has("Book") else "is an old file."
    mend = "Open it in your spreadsheet program and save it as .xlsx, then give that file."
    return _fault(path, "list-old-format", text, mend)


def _guard_zip(path: Path, data: bytes) -> str:
    """Tell what kind of workbook a zip is, and refuse what would unpack to too much."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = archive.infolist()
            kind = _kind_of_zip(path, archive, {entry.filename for entry in entries})
            _guard_sizes(path, entries)
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
    return kind


def damaged(path: Path) -> Fault:
    """The Fault for a workbook that is broken in its build."""
    mend = "Open it in your spreadsheet program and save it again, or ask for the file anew."
    return _fault(path, "list-damaged", "is damaged: it can't be read as a workbook.", mend)


def protected(path: Path) -> Fault:
    """The Fault for a workbook that only opens with a password."""
    mend = "Open it, save it without a password (File, Protect, take the password out)."
    return _fault(path, "list-password", "is protected by a password.", mend)


def too_far(opened: OpenedList, cell: str) -> Fault:
    """The Fault for a sheet that reaches further than a list's can."""
    text = f"has a sheet that reaches too far for a guest list (to {cell})."
    mend = "Delete what stands far right of or below the list, and save it again."
    return _fault(opened.path, "list-too-large", text, mend)


def too_long(opened: OpenedList, cell: str) -> Fault:
    """The Fault for a cell with more letters than a list's can have."""
    text = f"has a cell that is longer than a book's chapter ({cell})."
    mend = "Empty that cell, or split its words over the rows that they belong to."
    return _fault(opened.path, "list-too-large", text, mend)


def _kind_of_zip(path: Path, archive: zipfile.ZipFile, names: set[str]) -> str:
    if any(name.lower() == "xl/workbook.xml" for name in names):
        return "workbook"
    if "content.xml" in names:
        return _kind_of_document(path, archive, names)
    for name, what in _ZIP_KINDS:
        if name in names:
            raise _fault(path, "list-not-a-spreadsheet", f"is {what}.", _SAVE_AS)
    # A workbook may keep its parts elsewhere; then at least the list of parts is there.
    if "[Content_Types].xml" not in names:
        text = "is a compressed folder, no spreadsheet."
        raise _fault(path, "list-not-a-spreadsheet", text, "Unpack it and give the list inside.")
    return "workbook"


def _kind_of_document(path: Path, archive: zipfile.ZipFile, names: set[str]) -> str:
    """OpenDocument says what it is in a part of its own (OpenDocument 1.2 part 3, 3.3)."""
    said = b""
    if "mimetype" in names:
        with archive.open("mimetype") as stream:
            said = stream.read(_LONGEST_TYPE)
    if said and b"opendocument.spreadsheet" not in said:
        kind = "an OpenDocument text or drawing" if b"opendocument" in said else "another document"
        raise _fault(path, "list-not-a-spreadsheet", f"is {kind}, no spreadsheet.", _SAVE_AS)
    return "opendocument"


def _guard_sizes(path: Path, entries: list[zipfile.ZipInfo]) -> None:
    """Refuse what unpacks to far more than a list can need (zipfile reads no more than stated)."""
    if any(entry.flag_bits & 1 for entry in entries):
        raise protected(path)
    swollen = any(
        entry.file_size > RATIO_FROM and entry.file_size > MAX_RATIO * max(entry.compress_size, 1)
        for entry in entries
    )
    unpacked = sum(entry.file_size for entry in entries)
    if len(entries) > MAX_ENTRIES or unpacked > MAX_UNPACKED or swollen:
        text = "unpacks to far more than a guest list holds."
        mend = "Copy the rows of the list into a new workbook and give that one."
        raise _fault(path, "list-too-large", text, mend)
