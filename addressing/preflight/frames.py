"""A page as the file frames it: its dictionary, its boxes, where its drawing is."""

import re
from collections.abc import Iterator
from functools import lru_cache

from addressing.preflight.container import Container
from addressing.preflight.laying import Laid
from addressing.preflight.skeleton import Skeleton, key_faults, written
from addressing.preflight.values import Objection, Ref, read_dict
from addressing.records.shelf import Box

_CONTENTS = re.compile(rb" /Contents ([1-9][0-9]{0,9}) 0 R >>\Z")
_PAGE_KEYS = ("Type", "Parent", "MediaBox", "BleedBox", "TrimBox", "Resources")
BOXES = ("MediaBox", "BleedBox", "TrimBox")


def framed(
    file: Container, skeleton: Skeleton, at: Laid, index: int
) -> tuple[int, tuple[str, ...]]:
    """The object of a page's drawing, and what is wrong with the page's dictionary.

    Raises:
        Objection: it has none.
    """
    text = file.plain(skeleton.pages[index])
    found = _CONTENTS.search(text)
    if found is None:
        raise Objection("it has no drawing, or not as the last of its parts.")
    rest = text[: found.start()] + b" >>"
    boxes = boxes_of(at)
    right = _frame_fits(rest, skeleton.parents[index], skeleton.resources, boxes)
    return int(found[1]), () if right else tuple(_frame_faults(text, skeleton, at, index))


@lru_cache(maxsize=4)
def boxes_of(at: Laid) -> tuple[tuple[float, ...], ...]:
    """The page's boxes as they are written: the page, the piece with its bleed, the piece."""
    piece, over = at.piece, at.over
    bleed = Box(
        piece.left - over, piece.bottom - over, piece.width + 2 * over, piece.height + 2 * over
    )
    edges = ((box.left, box.bottom, box.right, box.top) for box in (at.page, bleed, piece))
    return tuple(written(each) for each in edges)


@lru_cache(maxsize=64)
def _frame_fits(
    rest: bytes, parent: int, resources: int, boxes: tuple[tuple[float, ...], ...]
) -> bool:
    """True for a right page dictionary without its contents (alike on all pages of a branch)."""
    keys = read_dict(rest)
    return (
        tuple(keys) == _PAGE_KEYS
        and keys["Type"] == "Page"
        and keys["Parent"] == Ref(parent)
        and keys["Resources"] == Ref(resources)
        and all(keys[name] == box for name, box in zip(BOXES, boxes, strict=True))
    )


def _frame_faults(text: bytes, skeleton: Skeleton, at: Laid, index: int) -> Iterator[str]:
    """Name what a page's dictionary has too many, too few, or wrong."""
    keys = read_dict(text)
    yield from (fault.strip() for fault in key_faults(keys, (*_PAGE_KEYS, "Contents"), ""))
    for name, box in zip(BOXES, boxes_of(at), strict=True):
        if name in keys and keys[name] != box:
            wide, high = box[2] - box[0], box[3] - box[1]
            place = f" at {box[0]:g}, {box[1]:g}" if box[0] or box[1] else ""
            yield f"isn't {wide:g} × {high:g} pt{place} (its {name})"
    if keys.get("Resources") != Ref(skeleton.resources):
        yield "has resources of its own"
    if keys.get("Type") != "Page" or keys.get("Parent") != Ref(skeleton.parents[index]):
        yield "isn't joined to the page tree as a page"
