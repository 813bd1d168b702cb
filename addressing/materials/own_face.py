"""A font file from outside, looked over before anything trusts it.

It promises that the tables which setting and judging need are there and can be read, and what the
font's own flag allows. It doesn't promise that the outlines are beautiful, or whole.
"""

import io
import struct
import unicodedata
from dataclasses import dataclass
from pathlib import Path
from string import ascii_letters
from typing import Any

from addressing.faults import Exit, Fault
from addressing.where import Where

LARGEST = 50 * 1024 * 1024
"""Bytes. The largest faces for Chinese and Japanese stay below half of it."""

SIGNATURES = (b"\x00\x01\x00\x00", b"OTTO", b"true", b"ttcf")
"""TrueType, CFF, the old mark of TrueType, a collection (OpenType 1.9, Font File)."""

FOREIGN = (
    (b"wOF", "it is a web font (WOFF), packed for pages"),
    (b"%!", "it is a Type 1 font, an older kind"),
    (b"\x80\x01", "it is a Type 1 font, an older kind"),
    (b"PK\x03\x04", "it is a ZIP archive: unpack it first"),
)
"""How files begin that are often handed over for a font, and what they are (WOFF File Format 1.0
and 2.0; Adobe Type 1 Font Format; from memory)."""

NEEDED = ("cmap", "head", "hhea", "hmtx", "maxp", "OS/2")
OUTLINES = ("glyf", "CFF ", "CFF2")

PICTURES = ("CBDT", "sbix", "SVG ", "EBDT")
"""Tables of letters that are pictures (OpenType 1.9)."""

SYMBOLS = (3, 0)
"""The platform and encoding of symbols (OpenType 1.9, cmap)."""

LATIN = "LATIN"
"""In Unicode's names of all Latin letters."""

MOST_CHARACTERS = 0x110000
"""Code points in Unicode: a character map that claims more is hostile."""

FSTYPE_WORDS = ((0x0002, "restricted"), (0x0004, "preview-and-print"), (0x0008, "editable"))
"""OpenType 1.9, OS/2, fsType: bits of the usage permission."""


BITMAPS_ONLY = 0x0200
"""The same table: outlines may not be embedded, and outlines are all that we draw."""


@dataclass(frozen=True, slots=True)
class FaceFacts:
    """What a font file says of itself."""

    family: str
    embedding: str
    axes: tuple[tuple[str, float, float], ...]
    """Tag, least and most of each axis of a variable face."""
    features: frozenset[str]
    """The tags of its substitutions and placements (GSUB, GPOS)."""


def face_facts(path: Path, index: int = 0) -> FaceFacts:
    """Look a font file over; `index` is the face's in a collection, from 0.

    Raises:
        Fault: exit 3; `face-missing`, `face-too-large`, or `face-damaged` with what is wrong.
    """
    where = Where(str(path))
    try:
        size = path.stat().st_size
        with path.open("rb") as stream:
            signature = stream.read(4)
    except OSError as error:
        reason = error.strerror or str(error)
        raise Fault(
            Exit.INPUT,
            "face-missing",
            f"{path} can't be read: {reason}.",
            "Put the font file back, or choose another face.",
            where,
        ) from error
    if size > LARGEST:
        raise Fault(
            Exit.INPUT,
            "face-too-large",
            f"{path.name} is larger than 50 MB.",
            "Ask the foundry for a file with the scripts that you need.",
            where,
        )
    if signature not in SIGNATURES:
        known = (what for begin, what in FOREIGN if signature.startswith(begin))
        raise damaged(path, next(known, "it isn't a TrueType or OpenType font"))
    return _opened(path, index)


def damaged(path: Path, why: str) -> Fault:
    """The Fault for a font that can't be trusted."""
    return Fault(
        Exit.INPUT,
        "face-damaged",
        f"{path.name} can't be used: {why}.",
        "Get the file from its foundry again, as TTF or OTF, or choose another face.",
        Where(str(path)),
    )


def _without_outlines(path: Path, font: Any) -> Fault:  # noqa: ANN401 - as in _facts
    """The Fault for a font that can't be drawn: whole, where it holds pictures in colour."""
    if not any(tag in font for tag in PICTURES):
        return damaged(path, "it has no outlines")
    return Fault(
        Exit.INPUT,
        "face-damaged",
        f"{path.name} can't be used: its letters are pictures in colour, and ink needs outlines.",
        "Choose another face for the lines that were to be set in it, or a font of signs that "
        "has outlines; a sign in a name can be left out by an answer.",
        Where(str(path)),
    )


def _opened(path: Path, index: int) -> FaceFacts:
    # Only here: a job that asks for no face, or a docket alone, needn't wait for it (29 ms).
    from fontTools.ttLib import TTFont, TTLibFileIsCollectionError  # noqa: PLC0415 - see above

    try:
        # From memory: fontTools leaves a file open when it can't make sense of it.
        with TTFont(io.BytesIO(path.read_bytes()), fontNumber=index, lazy=True) as font:
            return _facts(path, font)
    except Fault:
        raise
    except TTLibFileIsCollectionError as error:
        raise damaged(path, f"it is a collection, and has no face of number {index}") from error
    except Exception as error:
        raise damaged(path, "its tables can't be read") from error


def _facts(path: Path, font: Any) -> FaceFacts:  # noqa: ANN401 - fontTools has no types
    absent = [tag.strip() for tag in NEEDED if tag not in font]
    if absent:
        raise damaged(path, f"its table {absent[0]} is missing")
    if not any(tag in font and len(font.reader[tag]) > 0 for tag in OUTLINES):
        raise _without_outlines(path, font)
    if mapped_characters(font.reader["cmap"]) > MOST_CHARACTERS:
        raise damaged(path, "its character map claims more than all of Unicode")
    if not font.getBestCmap():
        symbols = font["cmap"].getcmap(*SYMBOLS) is not None
        said = "its letters are filed as symbols, not as letters of Unicode (an old encoding)"
        raise damaged(path, said if symbols else "it maps no characters of Unicode")
    if _holds_pictures(font):
        raise damaged(path, "its letters are signs or letters of another script (a symbol font)")
    if not 16 <= font["head"].unitsPerEm <= 16384:  # noqa: PLR2004 - OpenType 1.9, head
        raise damaged(path, "its units per em are out of range")
    if font["maxp"].numGlyphs < 1 or font["hhea"].numberOfHMetrics < 1:
        raise damaged(path, "it has no glyphs")
    axes = font["fvar"].axes if "fvar" in font else ()
    return FaceFacts(
        family=_family(font),
        embedding=embedding_of(font["OS/2"].fsType),
        axes=tuple((axis.axisTag, axis.minValue, axis.maxValue) for axis in axes),
        features=frozenset(_features(font)),
    )


def _holds_pictures(font: Any) -> bool:  # noqa: ANN401 - fontTools has no types
    """True where most Latin letters are mapped to what is named as something else: Alpha, a star.

    Such fonts map Unicode's letters too, so that a name would be printed as signs. Names of
    letters: Adobe Glyph List and its list for Zapf Dingbats, in fontTools.
    """
    from fontTools import agl  # noqa: PLC0415 - as fontTools above

    mapped = font.getBestCmap()
    letters = [mapped[ord(letter)] for letter in ascii_letters if ord(letter) in mapped]
    meant = [agl.toUnicode(name, isZapfDingbats=True) for name in letters]
    other = [one for one in meant if len(one) == 1 and LATIN not in unicodedata.name(one, LATIN)]
    return len(other) * 2 > len(letters)


def _family(font: Any) -> str:  # noqa: ANN401 - fontTools has no types
    if "name" not in font:
        return ""
    names = font["name"]
    return str(names.getDebugName(16) or names.getDebugName(1) or "").strip()[:80]


def _features(font: Any) -> set[str]:  # noqa: ANN401 - fontTools has no types
    tables = [font[tag].table for tag in ("GSUB", "GPOS") if tag in font]
    lists = [table.FeatureList for table in tables if table.FeatureList is not None]
    return {record.FeatureTag for each in lists for record in each.FeatureRecord}


def embedding_of(fs_type: int) -> str:
    """What fsType allows; when several bits are set the least restrictive counts.

    Source: OpenType 1.9, OS/2, fsType (versions 0 to 2 let several bits be set).

    >>> embedding_of(0), embedding_of(2), embedding_of(0x0108)
    ('installable', 'restricted', 'editable')
    """
    if fs_type & BITMAPS_ONLY:
        return "restricted"
    words = [word for bit, word in FSTYPE_WORDS if fs_type & bit]
    return words[-1] if words else "installable"


def mapped_characters(cmap: bytes) -> int:
    """The most characters that one subtable of a raw `cmap` claims, before it is unpacked.

    A few bytes of format 4, 12 or 13 may claim thousands of millions, which a reader would lay out
    in memory one by one.

    Raises:
        struct.error: the table is cut short.
    """
    (count,) = struct.unpack_from(">H", cmap, 2)
    offsets = {struct.unpack_from(">I", cmap, 8 + 8 * i)[0] for i in range(count)}
    return max((_claimed(cmap, offset) for offset in offsets), default=0)


def _claimed(cmap: bytes, offset: int) -> int:
    (form,) = struct.unpack_from(">H", cmap, offset)
    if form == 4:  # noqa: PLR2004 - OpenType 1.9, cmap, format 4
        (doubled,) = struct.unpack_from(">H", cmap, offset + 6)
        segments = doubled // 2
        ends = struct.unpack_from(f">{segments}H", cmap, offset + 14)
        starts = struct.unpack_from(f">{segments}H", cmap, offset + 16 + doubled)
        return sum(max(0, end - start + 1) for start, end in zip(starts, ends, strict=True))
    if form in {12, 13}:
        (groups,) = struct.unpack_from(">I", cmap, offset + 12)
        whole = struct.unpack_from(f">{groups * 3}I", cmap, offset + 16)
        pairs = zip(whole[::3], whole[1::3], strict=True)
        return sum(max(0, end - start + 1) for start, end in pairs)
    return 0
