"""A file that isn't built as a plate, read by pikepdf: which page differs, and in what.

Such a file is never proved. What is compared are its pages' boxes, what they draw, and the drawings
of its letters; what can't be compared is told.
"""

import zlib
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pikepdf

from addressing.preflight.bench import Bench, Part, by_household, on_sheets, opened_for
from addressing.preflight.container import BESIDES, INFLATED, PER_PAGE, Container
from addressing.preflight.frames import BOXES, boxes_of
from addressing.preflight.laying import Laid, laid
from addressing.preflight.pages import judge_drawing
from addressing.preflight.resaved_file import ink_faults, whole_faults
from addressing.preflight.resaved_letters import letter_faults
from addressing.preflight.shares import FaultyPage, Share
from addressing.preflight.skeleton import Skeleton, openings_of
from addressing.preflight.source import Source
from addressing.preflight.telling import page_faults

_KEYS = {*(f"/{box}" for box in BOXES), "/Type", "/Parent", "/Resources", "/Contents"}
_NEAR = 0.002
"""Points by which another program may write a box otherwise."""
_HEAD = 1024
"""Bytes at a file's beginning in which a PDF says what it is (ISO 32000-1, annex H.3.4.1)."""
_FEW = 3
"""So many pages may be drawn in a way that can't be compared before that is said of the file."""


def resaved_faults(path: Path, parts: Sequence[Part]) -> Iterator[str]:
    """Sentences on a file: what it is, if no PDF; else on each page that differs."""
    many = sum(len(order.households) for order, *_ in parts)
    source = Source(path)
    if len(source) > BESIDES + PER_PAGE * many:
        return
    if other := _other_kind(source[:_HEAD]):
        yield other
        return
    try:
        with pikepdf.open(path, suppress_warnings=True) as document:
            yield from _differing(document, parts, source)
    except pikepdf.PasswordError:
        yield "The file is protected by a password."
    except pikepdf.PdfError:
        yield "The file can't be opened by another reader either: it is damaged."


def _other_kind(head: bytes) -> str | None:
    """What a file is that is no PDF; None of a PDF."""
    if not head:
        return "The file is empty."
    if b"%PDF-" in head:
        return None
    page = head.lstrip(b"\xef\xbb\xbf \t\r\n").lower().startswith((b"<!doctype html", b"<html"))
    return "The file isn't a PDF: it is a web page." if page else "The file isn't a PDF."


def _differing(document: pikepdf.Pdf, parts: Sequence[Part], source: Source) -> Iterator[str]:
    """Each page against what it should draw, in order."""
    if document.is_encrypted:
        yield "The file is protected by a password."
    pages = list(document.pages)
    layers = _layers(parts, len(pages), source)
    order = layers[0].order
    if len(pages) != len(order.households):
        yield f"The plate has {len(pages)} pages; {len(order.households)} were ordered."
    yield from whole_faults(document, parts[0][0])
    yield from dict.fromkeys(text for page in pages for text in ink_faults(page, parts[0][0]))
    yield from letter_faults(pages, parts[0][0], layers[0].faces)
    faulty = []
    for index, page in enumerate(pages):
        stream, wrong = _drawing(page), tuple(_framed(page, layers[0].at))
        reading = judge_drawing(layers, index, stream, (0, wrong))
        if reading.wrong:
            faulty.append(FaultyPage(index, reading.wrong, reading.bodies))
    unread = [each for each in faulty if any("can't be read" in text for text in each.wrong)]
    if len(unread) > max(_FEW, len(pages) // 2):
        yield "The file's pages were written anew, and can't be compared line by line."
        return
    yield from page_faults(layers, Share(array("Q"), 0, 0, {}, tuple(faulty)))


def _layers(parts: Sequence[Part], many: int, source: Source) -> list[Bench]:
    """The benches of the plate's inks; nothing of the file's own build is held against them."""
    first = parts[0][0]
    none = array("Q", [0])
    file = Container(source, none, none, {}, 0, sealed=False)
    skeleton = Skeleton(0, 0, (), range(many), (0,) * many, 0, {}, openings_of(first), ())
    layers = []
    for number, opening in enumerate(skeleton.openings):
        benches = [
            Bench(
                file,
                skeleton,
                opening,
                own,
                its,
                by_household(own, pieces),
                faces,
                laid(own),
                sound=False,
            )
            for own, its, pieces, faces in opened_for(parts, number)
        ]
        layers.append(on_sheets(benches))
    return [replace(each, sound=False) for each in layers]


def _drawing(page: pikepdf.Page) -> bytes:
    """What a page draws; b"" where it is packed in an unusual way or too large."""
    contents = page.obj.get("/Contents")
    streams = list(contents) if isinstance(contents, pikepdf.Array) else [contents]
    drawn = []
    for stream in streams:
        if not isinstance(stream, pikepdf.Stream):
            return b""
        raw, packing = stream.read_raw_bytes(), stream.get("/Filter")
        if packing is not None and str(packing) != "/FlateDecode":
            return b""
        drawn.append(raw if packing is None else zlib.decompressobj().decompress(raw, INFLATED))
    return b"\n".join(drawn)


def _framed(page: pikepdf.Page, at: Laid) -> Iterator[str]:
    """A page's parts that no plate has, and its boxes."""
    for key in sorted(set(page.obj.keys()) - _KEYS):
        if key != "/Rotate" or page.obj[key] % 360:  # a whole turn turns nothing
            by = f" by {page.obj[key]}" if key == "/Rotate" else ""
            yield f"holds what no plate may hold: {key[1:]}{by}"
    for name, box in zip(BOXES, boxes_of(at), strict=True):
        own = [float(each) for each in page.obj.get(f"/{name}", page.mediabox)]
        if any(abs(one - two) > _NEAR for one, two in zip(own, box, strict=True)):
            yield f"isn't {box[2] - box[0]:g} × {box[3] - box[1]:g} pt (its {name})"
