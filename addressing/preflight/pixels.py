"""The plate as pdfium sees it: ink where it should be, as much as the letters cover, of one colour.

pdfium must never be called from two threads; it is called here in one go, and closed.
"""

import io
import math
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass

import pikepdf
import pypdfium2 as pdfium

from addressing.preflight.bench import Bench
from addressing.preflight.excerpt import Excerpt, with_pages
from addressing.preflight.frames import framed
from addressing.preflight.lines import DrawnLine
from addressing.preflight.pages import layer_parts
from addressing.preflight.placing import ink_box
from addressing.preflight.skeleton import CHANNELS
from addressing.preflight.values import quoted
from addressing.records.shelf import Box, Ink

ALL_UP_TO = 200
"""Plates of so many pages are seen page by page."""
SAMPLE = 40
"""Of larger plates so many pages are seen (the first, the last, and evenly spaced between), and
those in which a letter stands for the first time: each of the plate's letters is seen."""
EDGE = 1.0
"""Pixels (points, at 72 dpi) by which anti-aliasing may overstep."""
LESS, MORE, STEPS = 0.15, 0.02, 2.0
"""How far the seen area may differ from the letters' areas: shares of it, and grey steps a pixel.

Letters that overlap cover less than their sum; pdfium rounds each pixel towards the ink. Over six
faces from 6 to 24 pt and four inks the seen area was 0.2 % less at most, and never more than 1 %
and 1.5 steps above. The rest is room for faces whose strokes overlap much. A letter that is one
level rectangle is rounded out to whole pixels: up to one more in width and in height.
"""
TYPE, TYPE_MORE, FINEST = 30, 0.06, 6
"""Live type is seen so much finer that its letters are of so many pixels, but FINEST times at most:
pdfium draws small type from pictures of its letters, and fuller than their outlines. Over three
faces from 8 to 24 pt that was 4 % more at 30 pixels, 8 % at 16 and 3 % at 48."""
FAINT = 24
"""Grey steps between paper and ink below which nothing can be judged by sight."""
BOX_SLACK = 0.0006
"""Points, by which another reader may see a box otherwise (single precision)."""
WHITE = b"\xff"


@dataclass(frozen=True, slots=True)
class Swatch:
    """How pdfium shows the plate's ink.

    `channel` is where it is darkest (0 blue, 1 green, 2 red); `values` are those of all three.
    """

    channel: int
    values: tuple[int, int, int]

    @property
    def darkest(self) -> int:
        """The value of pure ink in the channel that is read."""
        return self.values[self.channel]


@dataclass(frozen=True, slots=True)
class Picture:
    """A page in pixels, `finer` of them a point: its rows from the first to the last with anything.

    `wide` and `high` are the whole page's; `first` is that row's number from the top, 0 where
    nothing is shown (there is one row then). `channels` are blue, green and red.
    """

    wide: int
    high: int
    finer: int
    first: int
    channels: tuple[bytes, bytes, bytes]


def sample(pages: int) -> tuple[int, ...]:
    """The indices (from 0) of the pages that are seen as pixels.

    >>> sample(3), len(sample(10_000)), sample(10_000)[-1]
    ((0, 1, 2), 40, 9999)
    """
    if pages <= ALL_UP_TO:
        return tuple(range(pages))
    return tuple(round(step * (pages - 1) / (SAMPLE - 1)) for step in range(SAMPLE))


def pixel_faults(layers: Sequence[Bench], indices: Sequence[int]) -> Iterator[tuple[int, str]]:
    """What pdfium sees wrong: (page's index, sentence without the page's name).

    Of several inks each is looked at alone: what one lays over another can't be seen in it. An ink
    that can't be seen at all is told of the first page looked at.
    """
    if not indices:
        return
    if len(layers) == 1:
        excerpt = with_pages(layers[0].file, layers[0].skeleton, indices)
        yield from _seen_faults(layers[0], indices, excerpt)
        return
    for number, bench in enumerate(layers):
        alone = layer_alone(layers, number, indices)
        for index, fault in _seen_faults(bench, indices, alone):
            yield index, f"{fault}, in the layer of {quoted(bench.order.ink.spot)}"


def layer_alone(layers: Sequence[Bench], number: int, indices: Sequence[int]) -> bytes:
    """A file of some of the plate's pages with one of its inks only.

    Raises:
        Objection: a page can't be parted into its inks.
    """
    file, skeleton = layers[0].file, layers[0].skeleton
    with pikepdf.open(io.BytesIO(file.source[:])) as whole, pikepdf.new() as made:
        for index in indices:
            contents, _ = framed(file, skeleton, layers[0].at, index)
            _, stream = file.stream(contents)
            part = layer_parts(stream, layers)[number]
            step = b"" if layers[0].at.plain else stream.split(b"\n", 3)[2] + b"\n"
            made.pages.append(whole.pages[index])
            made.pages[-1].Contents = made.make_stream(step + part)
        with io.BytesIO() as out:
            made.save(out)
            return out.getvalue()


def _seen_faults(
    bench: Bench, indices: Sequence[int], data: bytes | Excerpt
) -> Iterator[tuple[int, str]]:
    """The pages of a plate of one ink; the file of these bytes has them and no others."""
    swatch = seen_swatch(bench.order.ink)
    if WHITE[0] - swatch.darkest < FAINT:
        yield indices[0], "can't be judged by sight: the ink's alternate is all but invisible"
        return
    with closing(pdfium.PdfDocument(data)) as document:
        for place, index in enumerate(indices):
            with closing(document[place]) as page:
                for fault in _page_faults(bench, index, page, swatch):
                    yield index, fault


def _page_faults(bench: Bench, index: int, page: pdfium.PdfPage, swatch: Swatch) -> Iterator[str]:
    """One page: boxes as pdfium reads them, then its picture."""
    for box, wanted in (
        (page.get_mediabox(fallback_ok=False), bench.at.page),
        (page.get_trimbox(fallback_ok=False), bench.at.piece),
    ):
        edges = (wanted.left, wanted.bottom, wanted.right, wanted.top)
        if box is None or any(abs(a - b) > BOX_SLACK for a, b in zip(box, edges, strict=True)):
            yield "isn't of the ordered size as another reader sees it"
            return
    finer = _finer(bench, index)
    picture = _picture(page, finer)
    for value, channel in zip(swatch.values, picture.channels, strict=True):
        if channel.translate(None, bytes(range(max(0, value - 2), 256))):
            yield "shows another colour than the plate's ink"
    yield from _ink_faults(bench, index, picture, swatch)


def _finer(bench: Bench, index: int) -> int:
    """How many times finer than 72 dpi a page is seen: outlines at that, live type by its size."""
    placed = bench.expected(index)
    if not bench.order.live or placed is None or not placed.lines:
        return 1
    return min(FINEST, math.ceil(TYPE / min(line.size for line in placed.lines)))


def _picture(page: pdfium.PdfPage, finer: int = 1) -> Picture:
    """A page seen so many times finer than 72 dpi."""
    with closing(page.render(scale=finer, prefer_bgrx=True)) as bitmap:
        raw = bytes(bitmap.buffer)
        wide, high = bitmap.width, bitmap.height
    blank = WHITE * (4 * wide)
    shown = [row for row in range(high) if not raw.startswith(blank, row * len(blank))] or [0]
    raw = raw[shown[0] * len(blank) : (shown[-1] + 1) * len(blank)]
    return Picture(wide, high, finer, shown[0], (raw[0::4], raw[1::4], raw[2::4]))


def _ink_faults(bench: Bench, index: int, picture: Picture, swatch: Swatch) -> Iterator[str]:
    """Where the ink is and how much of it there is."""
    placed = bench.expected(index)
    seen = picture.channels[swatch.channel]
    ink = seen.translate(None, WHITE)
    own = bench.own(placed) if placed is not None else ()
    if not ink or not own:
        if ink or placed is None or own:
            yield "shows ink where no line stands" if ink else "looks blank"
        return
    ready = [(line, bench.faces.line(line)) for line in own]
    bounds = _pixel_bounds(picture, seen)
    turned = [each.box for each in bench.turned(placed, own)] if placed is not None else []
    boxes = [bench.at.around(box) for box in turned or [ink_box(*each) for each in ready]]
    boxes += bench.marks
    if not _around([bench.at.around(bench.setting.room)], EDGE).holds(bounds):
        yield "shows ink outside its room"
    elif not _around(boxes, EDGE).holds(bounds):
        yield "shows ink where none of its lines stands"
    wanted = sum(words.area * line.size**2 for line, words in ready) * bench.at.stretch
    wanted += sum(box.width * box.height for box in bench.marks)
    pixel = (bench.at.page.width / picture.wide) * (bench.at.page.height / picture.high)
    contrast = 255 - swatch.darkest
    covered = (255 * len(ink) - sum(ink)) / contrast * pixel
    over = (TYPE_MORE if bench.order.live else MORE) * wanted + STEPS * len(ink) * pixel / contrast
    over += sum(_rounded_out(line.size, words) for line, words in ready)
    over += sum(box.width + box.height + 1 for box in bench.marks)
    if not -LESS * wanted <= covered - wanted <= over:
        yield f"shows {covered:.0f} square points of ink where its letters cover {wanted:.0f}"


def _rounded_out(size: float, words: DrawnLine) -> float:
    """Square points that pdfium may add to level rectangles; its pixel is a point."""
    return words.edges * size + words.letters if words.edges else 0.0


def _pixel_bounds(picture: Picture, seen: bytes) -> Box:
    """The rectangle of pixels that aren't paper, in points from the lower left corner."""
    wide = picture.wide
    first = (len(seen) - len(seen.lstrip(WHITE))) // wide
    last = (len(seen.rstrip(WHITE)) - 1) // wide
    rows = [seen[row * wide : (row + 1) * wide] for row in range(first, last + 1)]
    left = min(wide - len(row.lstrip(WHITE)) for row in rows)
    right = max(len(row.rstrip(WHITE)) for row in rows)
    bottom = picture.high - picture.first - last - 1
    edges = (left, bottom, right - left, last + 1 - first)
    return Box(*(edge / picture.finer for edge in edges))


def _around(boxes: Sequence[Box], edge: float) -> Box:
    """The rectangle around all boxes, out to whole pixels, and an edge more."""
    left = math.floor(min(box.left for box in boxes)) - edge
    bottom = math.floor(min(box.bottom for box in boxes)) - edge
    right = math.ceil(max(box.right for box in boxes)) + edge
    top = math.ceil(max(box.top for box in boxes)) + edge
    return Box(left, bottom, right - left, top - bottom)


def seen_swatch(ink: Ink) -> Swatch:
    """How pdfium shows a full square of the ink, on a page made for that alone."""
    with pikepdf.new() as made, io.BytesIO() as stream:
        made.add_blank_page(page_size=(8, 8))
        page = made.pages[0]
        operator = CHANNELS.get(ink.channel or "")
        if operator is None:
            operator = b"%.4f %.4f %.4f %.4f k" % ink.alternate
        page.Contents = made.make_stream(operator + b" 0 0 8 8 re f")
        made.save(stream)
        drawn = stream.getvalue()
    with closing(pdfium.PdfDocument(drawn)) as document, closing(document[0]) as shown:
        seen = _picture(shown)
    blue, green, red = (channel[len(channel) // 2] for channel in seen.channels)
    values = (blue, green, red)
    return Swatch(values.index(min(values)), values)
