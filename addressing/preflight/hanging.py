"""Where the words of a centred line begin and end, without the light marks that hang out."""

from collections.abc import Callable, Sequence
from functools import lru_cache

from addressing.preflight.faces import Faces
from addressing.preflight.lines import DrawnLine
from addressing.records.pages import Setting
from addressing.records.set_lines import SetLine

KEPT = 4096
"""Lines that are remembered: a set has few that differ and end with a mark."""

Ends = tuple[float, float]
"""Left and right end in em of the line's size."""

EndsOf = Callable[[SetLine, DrawnLine], Ends]
CENTRED = frozenset({"centre", "arch", "bowl"})


def hanging_ends(setting: Setting, faces: Faces) -> EndsOf | None:
    """What tells which ends of a line are centred; None where all ink is."""
    marks = setting.zone.hanging
    if not marks or setting.zone.align not in CENTRED:
        return None
    words = lru_cache(KEPT)(lambda drawn: _words(drawn, marks, faces))

    def ends(line: SetLine, drawn: DrawnLine) -> Ends:
        if line.text[:1] in marks or line.text[-1:] in marks:
            return words(drawn)
        return drawn.left, drawn.right

    return ends


def _words(drawn: DrawnLine, marks: str, faces: Faces) -> Ends:
    """The ends of the ink between the marks; of all ink where there are only marks."""
    spans: list[tuple[float, float, bool]] = []
    for part in drawn.drawn:
        for number, x, _ in faces.spelling.letters(part.line.body):
            letter, unit = faces.letter(number), part.share / part.line.units
            left, right = (part.start + (x + edge) * unit for edge in (letter.left, letter.right))
            spans.append((left, right, faces.stands_for(number, marks)))
    order = sorted(spans)
    while order and order[0][2]:
        order.pop(0)
    while order and order[-1][2]:
        order.pop()
    return _around(order) if order else (drawn.left, drawn.right)


def _around(spans: Sequence[tuple[float, float, bool]]) -> Ends:
    return min(left for left, _, _ in spans), max(right for _, right, _ in spans)
