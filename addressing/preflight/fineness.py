"""The finest stroke and the narrowest gap on a plate, at the sizes at which its letters stand."""

from collections.abc import Iterable
from functools import lru_cache
from math import inf

from addressing.preflight.faces import Faces
from addressing.preflight.strokes import finest
from addressing.records.pages import FACE, Segment, Setting, faces_of, hand_of
from addressing.records.plates import PlateOrder
from addressing.records.set_pieces import forms_of


def fineness(
    setting: Setting, order: PlateOrder, faces: Faces, letters: Iterable[int]
) -> tuple[float, float]:
    """(stroke, gap) in points, of the letters of a plate by its numbers; infinite without any.

    A letter counts at the smallest size of its face in that ink; words that another face sets, at
    the size of the line's own.
    """
    sizes = _smallest(setting, order)
    stroke = gap = inf
    for number in letters:
        size = sizes.get(number // FACE)
        if size is None:
            continue
        thin, narrow = _measured(faces.letter(number).outline)
        scale = size / faces.units_per_em(number)
        stroke, gap = min(stroke, thin * scale), min(gap, narrow * scale)
    return stroke, gap


@lru_cache(maxsize=4096)
def _measured(outline: tuple[Segment, ...]) -> tuple[float, float]:
    return finest(outline)


def _smallest(setting: Setting, order: PlateOrder) -> dict[int, float]:
    """The smallest size (points) of each face of a set, by the face's number, on a plate."""
    by_hand: dict[int, float] = {}
    firsts = {form: number for number, form in enumerate(forms_of(setting.pieces))}
    lines = (line for number in firsts.values() for line in setting.pieces[number].lines)
    for role, size in {(line.role, line.size) for line in lines}:
        if order.bears(setting, role):
            hand = hand_of(role) % len(setting.hands)
            by_hand[hand] = min(by_hand.get(hand, inf), size)
    numbers = {face.drawing: at for at, face in enumerate(faces_of(setting.hands))}
    sizes: dict[int, float] = {}
    for hand, size in by_hand.items():
        face = setting.hands[hand]
        for each in (face, *(other.face for other in face.fallbacks)):
            number = numbers[each.drawing]
            sizes[number] = min(sizes.get(number, inf), size)
    return sizes
