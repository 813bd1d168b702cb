"""The fonts of a plate of live type: what each must say, what its program must hold."""

import hashlib
import re
from collections.abc import Iterator, Sequence
from math import ceil, floor

from addressing.preflight.container import Container
from addressing.preflight.faces import Faces
from addressing.preflight.fonts import Font
from addressing.preflight.forms import VARIABLE_SLACK, furthest
from addressing.preflight.letters import Letters
from addressing.preflight.meaning import map_of, meanings
from addressing.preflight.programs import Program, read_compact, read_truetype
from addressing.preflight.values import Objection, Ref, Value, spelled
from addressing.records.pages import FACE, Segment
from addressing.records.shelf import Face

LARGEST = 1 << 23
"""Bytes of a font program, inflated."""
STATIC_SLACK, WHOLE = 0.01, 0.51
"""Font units: how far a point may be off; in TrueType one that isn't at a whole unit is rounded."""
CLOSED = ((0x0002, 0x000C), (0x0100, 0), (0x0200, 0))
"""Bits of fsType (OpenType 1.9, OS/2) by which a subset may not be embedded, and bits that undo it:
no embedding, whole fonts only, bitmaps only."""
_ODD = re.compile(r"[^A-Za-z0-9-]")


def font_faults(file: Container, font: Font, faces: Faces) -> Iterator[str]:
    """Everything that is wrong with a font: what it says of itself, its letters, its program."""
    what = f"Font F{font.face}"
    if not font.face < faces.count:
        yield f"{what} is of a face that the set doesn't have."
        return
    face, letters = faces.faces[font.face], faces.opened(font.face)
    if not _permitted(letters):
        yield f"{what} may not be embedded: the face says so itself."
    name = _named(face, letters)
    keys, data = file.stream(font.objects[3], LARGEST)
    program, own = _program(data, letters, what, name)
    if list(keys.items())[:-2] != list(own.items()):
        yield f"{what} has a program that isn't marked as one of its kind."
    if data != program.again:
        yield f"{what} has a program that holds more than its letters, or is built otherwise."
    said = _said(font, letters, program, f"{_tag(data)}+{name}")
    for part, (number, wanted) in zip(("font", "widths", "descriptor"), said, strict=True):
        if file.plain(number) != spelled(wanted):
            yield f"{what} says something else of itself than it should (its {part})."
    keys, words = file.stream(font.objects[4])
    told = map_of(font.letters, meanings(letters.data, face.index))
    if list(keys) != ["Length", "Filter"] or words != told:
        yield f"{what} names other characters for its letters than the face does (ToUnicode)."
    yield from _letter_faults(font, faces, program)


def _program(
    data: bytes, letters: Letters, what: str, name: str
) -> tuple[Program, dict[str, Value]]:
    """A program read, and how its stream must be marked.

    Raises:
        Objection: it isn't one of a plate's, or can't be read.
    """
    units = letters.units_per_em
    try:
        if letters.cubic:
            return read_compact(data, units, what, name), {"Subtype": "CIDFontType0C"}
        return read_truetype(data, units, what), {"Length1": float(len(data))}
    except Objection:
        raise
    except Exception as error:  # a damaged font breaks fontTools in many ways
        raise Objection(f"{what} has a program that can't be read.") from error


def _permitted(letters: Letters) -> bool:
    """Whether the face's own flag allows a subset in a file."""
    flag = letters.permission
    return not any(flag & bit and not flag & undone for bit, undone in CLOSED)


def _named(face: Face, letters: Letters) -> str:
    """The PostScript name of a face, of letters that every reader takes."""
    return _ODD.sub("", letters.name)[:63] or _ODD.sub("", face.family) or "Type"


def _tag(data: bytes) -> str:
    """Six capitals of a program's SHA-256: its first eight bytes, by 26, the least first."""
    number = int(hashlib.sha256(data).hexdigest()[:16], 16)
    return "".join(chr(65 + number // 26**place % 26) for place in range(6))


def _said(
    font: Font, letters: Letters, program: Program, name: str
) -> Iterator[tuple[int, dict[str, Value]]]:
    """What font, descendant and descriptor must say, each with the number of its object."""
    number, descendant, descriptor, file, words = font.objects
    yield (
        number,
        {
            "Type": "Font",
            "Subtype": "Type0",
            "BaseFont": name,
            "Encoding": "Identity-H",
            "DescendantFonts": (Ref(descendant),),
            "ToUnicode": Ref(words),
        },
    )
    units = letters.units_per_em
    widths: list[Value] = []
    for glyph in sorted(program.outlines):
        widths += [float(glyph), (round(program.widths[glyph] * 1000 / units, 3),)]
    more: dict[str, Value] = {} if letters.cubic else {"CIDToGIDMap": "Identity"}
    yield (
        descendant,
        {
            "Type": "Font",
            "Subtype": f"CIDFontType{0 if letters.cubic else 2}",
            "BaseFont": name,
            "CIDSystemInfo": {"Registry": b"Adobe", "Ordering": b"Identity", "Supplement": 0.0},
            "FontDescriptor": Ref(descriptor),
            "W": tuple(widths),
            **more,
        },
    )
    left, bottom = (float(floor(edge * 1000 / units)) for edge in program.box[:2])
    right, top = (float(ceil(edge * 1000 / units)) for edge in program.box[2:])
    yield (
        descriptor,
        {
            "Type": "FontDescriptor",
            "FontName": name,
            "Flags": 4.0,
            "FontBBox": (left, bottom, right, top),
            "ItalicAngle": 0.0,
            "Ascent": top,
            "Descent": bottom,
            "CapHeight": top,
            "StemV": 80.0,
            f"FontFile{3 if letters.cubic else 2}": Ref(file),
        },
    )


def _letter_faults(font: Font, faces: Faces, program: Program) -> Iterator[str]:
    """The letters of a program against the face: outlines point by point, widths."""
    letters = faces.opened(font.face)
    if set(program.outlines) != set(font.letters):
        yield f"Font F{font.face} has other letters in its program than it has widths for."
    for glyph, outline in program.outlines.items():
        number = font.face * FACE + glyph
        wanted = letters.letter(glyph).outline
        worst = furthest(outline, wanted)
        if worst is None:
            yield f"Letter {number} isn't drawn as the face draws it: other contours."
        elif worst > _slack(letters, wanted):
            yield (
                f"Letter {number} isn't drawn as the face draws it: a point is {worst:.3g} units "
                "off."
            )
        width = program.widths[glyph]
        if abs(width - letters.width(glyph)) > (WHOLE if letters.variable else 0):
            yield f"Letter {number} has another width than the face gives it: {width:g} units."


def _slack(letters: Letters, wanted: Sequence[Segment]) -> float:
    """How far a point may be off: TrueType has whole units, and places on axes are none."""
    if letters.cubic:
        return VARIABLE_SLACK if letters.variable else STATIC_SLACK
    if letters.variable:
        return WHOLE + VARIABLE_SLACK
    sixths = (value * 6 for _, values in wanted for value in values)  # of quadratics, raised
    whole = all(abs(value - round(value)) < STATIC_SLACK for value in sixths)
    return STATIC_SLACK if whole else WHOLE + STATIC_SLACK
