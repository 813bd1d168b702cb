"""Live type: a face as a font of a plate (ISO 32000-1, 9.7), with the letters that it uses alone.

A composite font whose codes are the glyphs' numbers in the face (Identity-H), so that what a page
draws is what was shaped. Nothing in it has a date; its tag is made of its program.
"""

import hashlib
import math
import zlib
from collections.abc import Mapping, Sequence

from addressing.plates.drawing import LEVEL
from addressing.plates.numbers import number
from addressing.plates.programs import compact, truetype
from addressing.plates.writer import ObjectWriter
from addressing.records.live import LiveFace
from addressing.records.pages import Segment

EM = 1000
"""Units of an em in which a font of a PDF tells widths and heights (9.2.4)."""
STEM = 80
"""A stem's width, which must be told and which nothing here is reckoned from (common practice)."""
ROWS = 100
"""Rows of a block of a CMap at most (Adobe Technical Note 5014)."""

_TO_UNICODE = """\
/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
{blocks}endcmap
CMapName currentdict /CMap defineresource pop
end
end
"""


def write_font(
    writer: ObjectWriter, face: LiveFace, letters: Mapping[int, Sequence[Segment]]
) -> int:
    """Write a face with these letters and no others; the object that is the font."""
    build = compact if face.cubic else truetype
    program, box = build(face, letters)
    name = f"{_tag(program)}+{face.name}"
    packed = zlib.compress(program, LEVEL)
    if face.cubic:
        stream = writer.put_stream("/Subtype /CIDFontType0C ", packed)
    else:
        stream = writer.put_stream(f"/Length1 {len(program)} ", packed)
    descriptor = writer.put(_descriptor(face, box, name, stream))
    widths = " ".join(f"{glyph} [{_width(face, glyph)}]" for glyph in sorted(letters))
    kind, more = ("0", "") if face.cubic else ("2", " /CIDToGIDMap /Identity")
    descendant = writer.put(
        f"<< /Type /Font /Subtype /CIDFontType{kind} /BaseFont /{name}"
        " /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>"
        f" /FontDescriptor {descriptor} 0 R /W [{widths}]{more} >>"
    )
    words = writer.put_stream("", zlib.compress(_words(face, letters), LEVEL))
    return writer.put(
        f"<< /Type /Font /Subtype /Type0 /BaseFont /{name} /Encoding /Identity-H"
        f" /DescendantFonts [{descendant} 0 R] /ToUnicode {words} 0 R >>"
    )


def _tag(program: bytes) -> str:
    """Six capitals by which two subsets of one face are told apart (9.6.4)."""
    rest = int.from_bytes(hashlib.sha256(program).digest()[:8], "big")
    letters = ""
    for _ in range(6):
        rest, letter = divmod(rest, 26)
        letters += chr(ord("A") + letter)
    return letters


def _width(face: LiveFace, glyph: int) -> str:
    return number(face.advances[glyph] * EM / face.units)


def _descriptor(face: LiveFace, box: tuple[int, int, int, int], name: str, stream: int) -> str:
    """What stands beside the program: a box around all letters, and heights that follow from it."""
    low = [math.floor(edge * EM / face.units) for edge in box[:2]]
    high = [math.ceil(edge * EM / face.units) for edge in box[2:]]
    file = "FontFile3" if face.cubic else "FontFile2"
    return (
        f"<< /Type /FontDescriptor /FontName /{name} /Flags 4"
        f" /FontBBox [{low[0]} {low[1]} {high[0]} {high[1]}] /ItalicAngle 0"
        f" /Ascent {high[1]} /Descent {low[1]} /CapHeight {high[1]} /StemV {STEM}"
        f" /{file} {stream} 0 R >>"
    )


def _words(face: LiveFace, letters: Mapping[int, Sequence[Segment]]) -> bytes:
    """Which characters each letter stands for, so that words are found in the file (9.10.3)."""
    rows = [
        f"<{glyph:04X}> <{face.texts[glyph].encode('utf-16-be').hex().upper()}>\n"
        for glyph in sorted(letters)
        if glyph in face.texts
    ]
    blocks = [rows[start : start + ROWS] for start in range(0, len(rows), ROWS)]
    told = [f"{len(block)} beginbfchar\n{''.join(block)}endbfchar\n" for block in blocks]
    return _TO_UNICODE.format(blocks="".join(told)).encode("ascii")
