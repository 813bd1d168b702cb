"""The parts of a workbook's package, each streamed when it is asked for."""

import posixpath
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass

from addressing.guestlist.files.markup import Attributes, BrokenPartError, follow, given

_BLOCK = 1 << 18
_MOST_READ = 400_000_000
"""Bytes of all parts together; sheets that are one part again and again end here."""


@dataclass(frozen=True, slots=True)
class Relation:
    """What one part says of another: its kind (the last word of the type) and the part's name."""

    kind: str
    target: str


class Package:
    """The parts of an opened zip by name, whatever case a program wrote the names in."""

    def __init__(self, archive: zipfile.ZipFile) -> None:
        """`archive` must stay open while parts are read."""
        self._archive = archive
        self._read = 0
        self._entries = {name.lower().lstrip("/"): name for name in archive.namelist()}

    def __contains__(self, part: str) -> bool:
        """Whether a part is there."""
        return part.lower() in self._entries

    def __iter__(self) -> Iterator[str]:
        """The parts' names, in small letters."""
        return iter(self._entries)

    def blocks(self, part: str) -> Iterator[bytes]:
        """The bytes of a part as they unpack.

        Raises:
            KeyError: there is no such part; zipfile's and zlib's errors go through.
        """
        with self._archive.open(self._entries[part.lower()]) as stream:
            while block := stream.read(_BLOCK):
                self._read += len(block)
                if self._read > _MOST_READ:
                    message = "the parts are read too often"
                    raise BrokenPartError(message)
                yield block

    def relations(self, part: str) -> dict[str, Relation]:
        """The relations of a part by their id; "" asks for the package's own."""
        folder, name = posixpath.split(part)
        listed = posixpath.join(folder, "_rels", f"{name}.rels")
        found = _Relations(folder)
        if listed in self:
            follow(self.blocks(listed), found)
        return found.relations


class _Relations:
    """Gathers the relations of a part, those to outside left out: no link is ever followed."""

    def __init__(self, folder: str) -> None:
        self.folder = folder
        self.relations: dict[str, Relation] = {}

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if name != "rel:Relationship" or attributes.get("TargetMode") == "External":
            return
        target = posixpath.join("/", self.folder, attributes.get("Target", ""))
        kind = attributes.get("Type", "").rpartition("/")[2]
        path = posixpath.normpath(target).lstrip("/")
        self.relations[attributes.get("Id", "")] = Relation(kind, path)

    def end(self, name: str) -> None:
        """A tag closes."""

    def text(self, data: str) -> None:
        """Text says nothing here."""


@dataclass(frozen=True, slots=True)
class SheetName:
    """A sheet as the workbook lists it."""

    name: str
    part: str
    hidden: bool


@dataclass(frozen=True, slots=True)
class Contents:
    """What a workbook consists of; part names, None where there is none. Epoch 1904 is Mac's."""

    sheets: tuple[SheetName, ...]
    strings: str | None
    styles: str | None
    theme: str | None
    since_1904: bool
    macros: bool


def contents(package: Package) -> Contents:
    """Find the sheets and what they share.

    Raises:
        BrokenPartError, KeyError: the workbook's own part is broken or missing.
    """
    main = next(
        (r.target for r in package.relations("").values() if r.kind == "officeDocument"),
        "xl/workbook.xml",
    )
    main = main if main in package else "xl/workbook.xml"
    book = _Book()
    follow(package.blocks(main), book)
    relations = package.relations(main)
    sheets = tuple(
        SheetName(name, relation.target, state not in ("", "visible"))
        for name, state, key in book.sheets
        if (relation := relations.get(key)) is not None and relation.kind == "worksheet"
    )
    shared = {relation.kind: relation.target for relation in relations.values()}
    there = {kind: part for kind, part in shared.items() if part in package}
    macros = any(name.endswith("vbaproject.bin") for name in package)
    return Contents(
        sheets, there.get("sharedStrings"), there.get("styles"), there.get("theme"),
        book.since_1904, macros,
    )  # fmt: skip


class _Book:
    """Gathers the sheets of a workbook: name, state and the id of their part."""

    def __init__(self) -> None:
        self.sheets: list[tuple[str, str, str]] = []
        self.since_1904 = False

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if name == "x:sheet":
            state = attributes.get("state", "")
            self.sheets.append((attributes.get("name", ""), state, given(attributes, "r:id")))
        elif name == "x:workbookPr":
            self.since_1904 = attributes.get("date1904") in ("1", "true")

    def end(self, name: str) -> None:
        """A tag closes."""

    def text(self, data: str) -> None:
        """Text says nothing here."""
