"""The bytes of a font file, looked over before HarfBuzz gets them."""

import hashlib

import uharfbuzz as hb

from addressing.faults import Exit, Fault
from addressing.records.shelf import Face
from addressing.where import Where

NEEDED_TABLES = frozenset({"cmap", "head", "hhea", "hmtx", "maxp"})
"""Without these there is nothing to set (OpenType 1.9, required tables)."""


def read_font(face: Face) -> bytes:
    """The bytes of a face's font file.

    HarfBuzz takes any bytes without a word and then sets blanks, so the tables are asked for.

    Raises:
        Fault: the file is missing, damaged, or another than the shelf looked over (exit 3).
    """
    try:
        data = face.path.read_bytes()
    except OSError as error:
        reason = error.strerror or str(error)
        raise _unusable(face, f"can't be read: {reason}") from error
    if face.sha256 and hashlib.sha256(data).hexdigest() != face.sha256:
        raise _unusable(face, "has changed since the face was looked over")
    opened = hb.Face(hb.Blob(data), face.index)
    if not opened.glyph_count or NEEDED_TABLES.difference(opened.table_tags):
        raise _unusable(face, "is damaged, or is not a font")
    return data


def _unusable(face: Face, what: str) -> Fault:
    return Fault(
        Exit.INPUT,
        "face-unusable",
        f"The font file of {face.family} {what}.",
        "Put the font file back, or choose another face.",
        Where(str(face.path)),
    )
