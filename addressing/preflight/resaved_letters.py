"""The letters of a file that another program saved, against the font."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

import pikepdf

from addressing.preflight.faces import Faces
from addressing.preflight.forms import CUT, VARIABLE_SLACK, furthest
from addressing.preflight.letters import closed
from addressing.preflight.values import Objection
from addressing.records.pages import Segment
from addressing.records.plates import PlateOrder

_NAME = re.compile(r"/g([0-9]{1,9})")
"""How a plate names its letters."""
_NUMBERS = {"m": 2, "l": 2, "c": 6, "h": 0}
_MOST = 1 << 16
"""Words of a letter's drawing; more is none."""
_LEVEL = [1, 0, 0, 1, 0, 0]
_KEYS = {"/Type", "/Subtype", "/FormType", "/BBox", "/Matrix", "/Resources", "/Length", "/Filter"}
_KEYS |= {"/DecodeParms"}
"""What any program may say of a letter's drawing; the rest hides, softens or replaces it."""


def letter_faults(pages: Sequence[pikepdf.Page], order: PlateOrder, faces: Faces) -> Iterator[str]:
    """Each letter that isn't drawn as its face draws it, once; and what of the letters wasn't held.

    Of a letter that has several drawings the page is told that begins with a wrong one.

    `faces` are those of the plate's letters. A base's letters, which are drawn in, and fonts that
    are embedded aren't compared.
    """
    if order.live:
        yield "The fonts in the file were written anew, and weren't compared."
        return
    if order.chokes or order.layers:
        yield "The file's letters were written anew, and their drawings weren't compared."
        return
    first: dict[tuple[int, tuple[int, int]], tuple[int, pikepdf.Stream]] = {}
    for index, page in enumerate(pages):
        for name, form in page.resources.get("/XObject", {}).items():
            match = _NAME.fullmatch(str(name))
            if match is not None and isinstance(form, pikepdf.Stream):
                first.setdefault((int(match[1]), form.objgen), (index, form))
    forms = Counter(glyph for glyph, _ in first)
    for (glyph, _), (index, form) in first.items():
        faults = tuple(_faults(form, glyph, faces))
        if faults and forms[glyph] > 1:
            key = order.households[index] if index < len(order.households) else None
            whose = f" ({key})" if key else ""
            yield f"Page {index + 1}{whose} has a drawing of its own of letter {glyph}."
        else:
            yield from faults


def _faults(form: pikepdf.Stream, glyph: int, faces: Faces) -> Iterator[str]:
    for key in sorted(set(form.keys()) - _KEYS):
        yield f"The drawing of letter {glyph} holds what no plate may hold: {key[1:]}."
    try:
        wanted = faces.letter(glyph).outline
        outline = _outline(form.read_bytes().decode("latin-1"))
    except Objection as objection:
        yield str(objection)
        return
    except (pikepdf.PdfError, ValueError):
        yield f"Letter {glyph} isn't drawn as the face draws it: it can't be read."
        return
    worst = furthest(closed(list(outline)), wanted)
    if worst is None:
        yield f"Letter {glyph} isn't drawn as the face draws it: other contours."
    elif worst > VARIABLE_SLACK:
        yield f"Letter {glyph} isn't drawn as the face draws it: a point is {worst:.3g} units off."
    matrix = [float(each) for each in form.get("/Matrix", _LEVEL)]
    if matrix != _LEVEL:
        yield f"Letter {glyph} isn't drawn as the face draws it: it is turned, scaled or moved."
    elif not _held([float(each) for each in form.get("/BBox", ())], outline):
        yield CUT.format(f"The drawing of letter {glyph}")


def _outline(drawing: str) -> tuple[Segment, ...]:
    """The steps of a drawing, however its numbers and blanks are written.

    Raises:
        ValueError: it holds more than one outline, filled at its end.
    """
    words = drawing.split()
    if words[-1:] != ["f"] or len(words) > _MOST:
        raise ValueError
    steps: list[Segment] = []
    numbers: list[float] = []
    for word in words[:-1]:
        if word not in _NUMBERS:
            numbers.append(float(word))
            continue
        if len(numbers) != _NUMBERS[word]:
            raise ValueError
        steps.append((word, tuple(numbers)))
        numbers = []
    if numbers or not steps:
        raise ValueError
    return tuple(steps)


def _held(frame: Sequence[float], outline: Sequence[Segment]) -> bool:
    """True where a frame cuts nothing off."""
    if len(frame) != 4:  # noqa: PLR2004
        return False
    left, bottom, right, top = frame
    xs = [x for _, numbers in outline for x in numbers[::2]]
    ys = [y for _, numbers in outline for y in numbers[1::2]]
    return left <= min(xs) and bottom <= min(ys) and max(xs) <= right and max(ys) <= top
