"""A small writer of plates for the judge's tests, made from the grammar in DEVELOPERS.md alone.

It can be hurt at any place before it is written; table and ID are always made to fit, so that a
hurt plate is an otherwise whole file.
"""

import hashlib
import io
import re
import zlib
from collections.abc import Callable
from dataclasses import dataclass, field
from importlib.resources import files
from math import ceil, floor
from pathlib import Path
from typing import Any

import uharfbuzz as hb
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from addressing.preflight.judge import judge_plate
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.set_lines import SetLine, SetPiece
from addressing.records.shelf import Box, Face, Ink, Layout, Zone

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
TRIM = (522.0, 378.0)
ROOM = Box(100.0, 80.0, 322.0, 200.0)
LEADING = 32.0

NAMES = ("Tobias Wexcombe", "Ottoline Farrenby", "Aurelia Penhew", "Cosmo Larkmoor", "Ida Quill")
STREETS = ("14 Larkmoor Lane", "2 Hollin Row", "77 Vesper Street", "9 Amberley Court")


def face_of(package: str, file: str, **axes: float) -> Face:
    """A face from the font package of that name."""
    path = Path(str(files(package) / "files" / file))
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(package, package, path, digest, axes=tuple(axes.items()), features=(("kern", 1),))


@dataclass
class Draft:
    """A plate before it is written: the text of each object, and the streams of those with one."""

    texts: dict[int, bytes] = field(default_factory=dict)
    streams: dict[int, bytes] = field(default_factory=dict)
    pages: list[int] = field(default_factory=list)
    contents: list[int] = field(default_factory=list)
    forms: dict[int, int] = field(default_factory=dict)
    root: int = 0
    tree: int = 0
    branches: list[int] = field(default_factory=list)
    info: int = 0
    resources: int = 0
    ink: int = 0
    extra: bytes = b""
    behind: bytes = b""

    def add(self, text: bytes, stream: bytes | None = None) -> int:
        """One more object; `text` of a stream's dictionary is without its length."""
        number = len(self.texts) + 1
        self.texts[number] = text
        if stream is not None:
            self.streams[number] = stream
        return number

    def swap(self, number: int, old: bytes, new: bytes) -> None:
        """Change the text of an object; it must have held `old`."""
        assert old in self.texts[number], self.texts[number]
        self.texts[number] = self.texts[number].replace(old, new)

    def redraw(self, number: int, change: Callable[[bytes], bytes]) -> None:
        """Change what a stream draws; the change must change something."""
        changed = change(self.streams[number])
        assert changed != self.streams[number]
        self.streams[number] = changed

    def write(self, path: Path) -> Path:
        """The file, with the right table and ID."""
        out = bytearray(b"%PDF-1.6\n%\xe2\xe3\xcf\xd3\n")
        places = []
        for number, text in self.texts.items():
            places.append(len(out))
            out += b"%d 0 obj\n" % number
            if number in self.streams:
                packed = zlib.compress(self.streams[number], 6)
                length = b"/Length %d /Filter /FlateDecode >>" % len(packed)
                out += text.replace(b">>", length) + b"\nstream\n" + packed + b"\nendstream"
            else:
                out += text
            out += b"\nendobj\n"
        seal = hashlib.sha256(out).hexdigest()[:32].upper().encode()
        table = len(out)
        out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(places) + 1)
        for place in places:
            out += b"%010d 00000 n \n" % place
        out += b"trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%s> <%s>]%s >>\n" % (
            len(places) + 1, self.root, self.info, seal, seal, self.extra,
        )  # fmt: skip
        out += b"startxref\n%d\n%%%%EOF\n" % table + self.behind
        path.write_bytes(bytes(out))
        return path


_OBJECT = re.compile(rb"([0-9]+) 0 obj\n")
_LENGTH = re.compile(rb"/Length ([0-9]+) /Filter /FlateDecode >>\nstream\n")


def taken_apart(path: Path) -> Draft:
    """A plate of any writer's as a draft that can be hurt; written again it is right as before."""
    data = path.read_bytes()
    table = int(data[data.rindex(b"startxref\n") :].split()[1])
    count = int(data[table:].split()[2]) - 1
    first = data.index(b"\n", table + 5) + 21
    places = [int(data[first + 20 * n : first + 20 * n + 10]) for n in range(count)]
    draft = Draft()
    for number, place in enumerate(places, start=1):
        start = _OBJECT.match(data, place).end()  # type: ignore[union-attr]
        end = data.index(b"\nendobj\n", start)
        packed = _LENGTH.search(data, start, data.index(b"\n", start) + 8)
        if packed is None:
            draft.texts[number] = data[start:end]
            continue
        stop = packed.end() + int(packed[1])
        draft.texts[number] = data[start : packed.start()] + b">>"
        draft.streams[number] = zlib.decompress(data[packed.end() : stop])
    _find_parts(draft, data[table:])
    return draft


def _find_parts(draft: Draft, end: bytes) -> None:
    """Where the parts of a draft are that was taken apart."""

    def led(text: bytes, key: bytes) -> list[int]:
        found = re.search(rb"/%b (?:\[([^]]*)\]|([0-9]+) 0 R)" % key, text)
        assert found is not None
        return [int(found[2])] if found[2] else [int(n) for n in found[1].split()[::3]]

    (draft.root,), (draft.info,) = led(end, b"Root"), led(end, b"Info")
    (draft.tree,) = led(draft.texts[draft.root], b"Pages")
    draft.branches = led(draft.texts[draft.tree], b"Kids")
    draft.pages = [kid for branch in draft.branches for kid in led(draft.texts[branch], b"Kids")]
    draft.contents = [led(draft.texts[page], b"Contents")[0] for page in draft.pages]
    (draft.resources,) = led(draft.texts[draft.pages[0]], b"Resources")
    shared = draft.texts[draft.resources]
    draft.forms = {int(g): int(n) for g, n in re.findall(rb"/g([0-9]+) ([0-9]+) 0 R", shared)}
    if b"/Ink" in shared:
        (draft.ink,) = led(shared, b"Ink")


class Compositor:
    """Sets and draws lines of one face, centred by ink."""

    def __init__(self, face: Face) -> None:
        data = face.path.read_bytes()
        font = TTFont(io.BytesIO(data), lazy=True)
        self._names = font.getGlyphOrder()
        self._glyphs = font.getGlyphSet(location=dict(face.axes) or None)
        self.face = face
        self.upem = int(font["head"].unitsPerEm)
        self.font = hb.Font(hb.Face(hb.Blob(data)))
        self.font.set_variations(dict(face.axes))
        self._boxes: dict[int, tuple[float, ...]] = {}
        self._pens = hb.DrawFuncs()
        self._pens.set_move_to_func(lambda x, y, out: out.append((x, y, "m")))
        self._pens.set_line_to_func(lambda x, y, out: out.append((x, y, "l")))
        self._pens.set_cubic_to_func(lambda *six: six[-1].append((*six[:-1], "c")))
        self._pens.set_quadratic_to_func(_raised)
        self._pens.set_close_path_func(lambda out: out.append(("h",)))

    def box(self, glyph: int) -> tuple[float, ...]:
        """Exact bounds of a glyph, empty for a blank."""
        if glyph not in self._boxes:
            pen = BoundsPen(self._glyphs)
            self._glyphs[self._names[glyph]].draw(pen)
            self._boxes[glyph] = pen.bounds or ()
        return self._boxes[glyph]

    def shape(self, text: str) -> list[tuple[int, int, int]]:
        """Glyph, x, y of everything with ink."""
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(self.font, buffer, dict(self.face.features))
        placed, pen = [], 0
        for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
            if self.box(info.codepoint):
                placed.append((info.codepoint, pen + place.x_offset, place.y_offset))
            pen += place.x_advance
        return placed

    def set_line(self, line: Line, source: int, y: float, size: float) -> SetLine:
        """A line centred by its ink in the room."""
        placed = self.shape(line.text)
        left = min(x + self.box(g)[0] for g, x, _ in placed)
        right = max(x + self.box(g)[2] for g, x, _ in placed)
        x = (ROOM.left + ROOM.right) / 2 - (left + right) / 2 * size / self.upem
        return SetLine(line.text, line.role, source, round(x, 3), round(y, 3), size)

    def draw(self, line: SetLine) -> bytes:
        """A line's operators."""
        scale = f"{line.size / self.upem:.8f}".rstrip("0")
        out = [f"q {scale} 0 0 {scale} {line.x:g} {line.y:g} cm\n"]
        last = (0, 0)
        for glyph, x, y in self.shape(line.text):
            out.append(f"1 0 0 1 {x - last[0]} {y - last[1]} cm /g{glyph} Do\n")
            last = (x, y)
        return "".join([*out, "Q\n"]).encode()

    def outline(self, glyph: int) -> list[tuple[Any, ...]]:
        """Numbers and operator of each step."""
        out: list[tuple[Any, ...]] = []
        self.font.draw_glyph(glyph, self._pens, out)
        return out

    def form(self, glyph: int) -> tuple[bytes, bytes]:
        """Dictionary and drawing."""
        steps = self.outline(glyph)
        xs = [round(v, 3) for step in steps for v in step[:-1][::2]]
        ys = [round(v, 3) for step in steps for v in step[:-1][1::2]]
        frame = (floor(min(xs)), floor(min(ys)), ceil(max(xs)), ceil(max(ys)))
        text = b"<< /Type /XObject /Subtype /Form /BBox [%d %d %d %d] >>" % frame
        rows = [" ".join([*(_number(v) for v in step[:-1]), step[-1]]) for step in steps]
        return text, "\n".join([*rows, "f\n"]).encode()


def _number(value: float) -> str:
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def _raised(x1: float, y1: float, x: float, y: float, out: list[tuple[Any, ...]]) -> None:
    x0, y0 = out[-1][-3:-1]
    first = (x0 + 2 / 3 * (x1 - x0), y0 + 2 / 3 * (y1 - y0))
    second = (x + 2 / 3 * (x1 - x), y + 2 / 3 * (y1 - y))
    out.append((*first, *second, x, y, "c"))


@dataclass(frozen=True)
class Job:
    """Everything that the judge is given, and the draft that it is to judge."""

    order: PlateOrder
    setting: Setting
    pieces: tuple[Piece, ...]
    draft: Draft
    compositor: Compositor

    def judge(self, path: Path) -> Verdict:
        """Write the draft and judge it."""
        return judge_plate(self.draft.write(path), self.order, self.setting, self.pieces)


def worded(number: int) -> Piece:
    """Three invented lines, a different household each time."""
    lines = (
        Line(f"Mr. and Mrs. {NAMES[number % 5]}", Role.NAME, breaks=(12,)),
        Line(f"{number} {STREETS[number % 4]}", Role.STREET),
        Line("Rotheringweather, Vermont 05201", Role.PLACE),
    )
    return Piece("outer", f"h-{number:08d}", f"Household {number}", (Wording(lines),))


def set_piece(compositor: Compositor, piece: Piece, size: float) -> SetPiece:
    """The first wording, one line below the other."""
    lines = piece.wordings[0].lines
    placed = tuple(
        compositor.set_line(line, n, 220.0 - LEADING * n, size) for n, line in enumerate(lines)
    )
    return SetPiece(piece.household, piece.name, 0, placed)


def drafted(order: PlateOrder, setting: Setting, compositor: Compositor) -> Draft:
    """A right plate, object by object."""
    draft = Draft()
    draft.root = draft.add(b"<< /Type /Catalog /Pages 3 0 R >>")
    title = order.name.encode(), order.version.encode()
    draft.info = draft.add(b"<< /Title (%s) /Producer (addressing %s) /Trapped /False >>" % title)
    draft.tree = draft.add(b"")
    glyphs = sorted(
        {g for p in setting.pieces for s in p.lines for g, *_ in compositor.shape(s.text)}
    )
    draft.forms = {glyph: draft.add(*compositor.form(glyph)) for glyph in glyphs}
    listed = b" ".join(b"/g%d %d 0 R" % pair for pair in draft.forms.items())
    spaces, opening = b"", _CHANNELS.get(order.ink.channel or "", b"")
    if order.ink.channel is None:
        numbers = b"%g %g %g %g" % order.ink.alternate
        draft.ink = draft.add(
            b"[/Separation /%s /DeviceCMYK << /FunctionType 2 /Domain [0 1] /C0 [0 0 0 0]"
            b" /C1 [%s] /N 1 >>]" % (order.ink.spot.replace(" ", "#20").encode(), numbers)
        )
        spaces, opening = b" /ColorSpace << /Ink %d 0 R >>" % draft.ink, b"/Ink cs 1 scn\n"
    draft.resources = draft.add(b"<< /XObject << %s >>%s >>" % (listed, spaces))
    for piece in setting.pieces:
        drawn = opening + b"".join(compositor.draw(line) for line in piece.lines)
        draft.contents.append(draft.add(b"<< >>", drawn))
        draft.pages.append(draft.add(b""))
    _hang(draft, order)
    return draft


_CHANNELS = {"black": b"0 0 0 1 k\n", "cyan": b"1 0 0 0 k\n"}


def _hang(draft: Draft, order: PlateOrder) -> None:
    """Two levels of 200."""
    box = b"[0 0 %g %g]" % order.trim
    for start in range(0, len(draft.pages), 200):
        kids = draft.pages[start : start + 200]
        branch = draft.add(b"")
        draft.texts[branch] = b"<< /Type /Pages /Parent %d 0 R /Kids [%s] /Count %d >>" % (
            draft.tree, b" ".join(b"%d 0 R" % kid for kid in kids), len(kids),
        )  # fmt: skip
        draft.branches.append(branch)
        for at, kid in enumerate(kids, start=start):
            draft.texts[kid] = (
                b"<< /Type /Page /Parent %d 0 R /MediaBox %s /BleedBox %s /TrimBox %s"
                b" /Resources %d 0 R /Contents %d 0 R >>"
                % (branch, box, box, box, draft.resources, draft.contents[at])
            )
    draft.texts[draft.tree] = b"<< /Type /Pages /Kids [%s] /Count %d >>" % (
        b" ".join(b"%d 0 R" % branch for branch in draft.branches), len(draft.pages),
    )  # fmt: skip


GREAT_VIBES = face_of("fontpkg_great_vibes", "GreatVibes-Regular.ttf")
CORMORANT = face_of("fontpkg_cormorant_garamond", "CormorantGaramond[wght].ttf", wght=500.0)


def job_of(count: int, *, face: Face = GREAT_VIBES, ink: Ink = WHITE, size: float = 24.0) -> Job:
    """A right job of so many households."""
    compositor = Compositor(face)
    pieces = tuple(worded(number) for number in range(count))
    placed = tuple(set_piece(compositor, piece, size) for piece in pieces)
    zone = Zone("outer", ROOM, "centre", "middle")
    whole = Box(0.0, 0.0, *TRIM)
    layout = Layout("a7", "A7", *TRIM, "euro", 100.0, (zone,), whole, (), "invented")
    setting = Setting("outer", layout, zone, ROOM, face, ink, size, LEADING, placed)
    households = tuple(piece.household for piece in pieces)
    order = PlateOrder("01-outer-white", "outer", ink, TRIM, households, 1, "0.1.0")
    return Job(order, setting, pieces, drafted(order, setting, compositor), compositor)
