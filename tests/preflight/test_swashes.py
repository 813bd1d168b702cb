"""Swashes hang out of the words and never out of the room, and their plates are proved."""

import hashlib
import itertools
import string
from dataclasses import replace
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen

from addressing.materials.shelf import open_shelf
from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.preflight.hands import HandLines
from addressing.preflight.lines import Lines
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import CROWDED, Box, Face, Fallback, Ink, Layout, Zone
from addressing.typesetting import fit, live_faces, stream
from addressing.typesetting.lettering import open_hands

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
ROOM = Box(100, 100, 322, 120)
LEFT, HIGH = -900, 1600
"""How far a swash reaches to the left of its letter and above the line (thousandths of an em)."""


def build_swashes(path: Path) -> None:
    """A CFF font whose Q, on request, has a swash; each letter's upper edge is two strokes."""
    letters = string.ascii_letters + string.digits + " ,.-"
    names = {character: f"u{ord(character):04x}" for character in letters}
    shapes = {".notdef": (0, 0, 0), **dict.fromkeys(names.values(), (40, 460, 700))}
    shapes[names[" "]] = (0, 0, 0)
    shapes["Q.swash"] = (LEFT, 460, HIGH)
    builder = FontBuilder(1000, isTTF=False)
    builder.setupGlyphOrder(list(shapes))
    builder.setupCharacterMap({ord(character): name for character, name in names.items()})
    drawn = {name: _charstring(*shape) for name, shape in shapes.items()}
    builder.setupCFF("Swash-Regular", {"FullName": "Swash"}, drawn, {})
    builder.setupHorizontalMetrics({name: (500, shape[0]) for name, shape in shapes.items()})
    builder.setupHorizontalHeader(ascent=900, descent=-200)
    builder.setupNameTable({"familyName": "Swash", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=700, sxHeight=700)
    builder.setupPost()
    builder.addOpenTypeFeatures(f"feature swsh {{ sub {names['Q']} by Q.swash; }} swsh;")
    builder.updateHead(created=0, modified=0)
    builder.font.recalcTimestamp = False
    builder.save(path)


def _charstring(left: float, right: float, top: float) -> object:
    """A bar; its upper edge is drawn as two level strokes in a row, as some fonts have it."""
    pen = T2CharStringPen(500, None)
    if top:
        pen.moveTo((left, 0))
        for point in ((right, 0), (right, top), ((left + right) / 2, top), (left, top)):
            pen.lineTo(point)
        pen.closePath()
    return pen.getCharString(optimize=False)


@pytest.fixture(scope="module")
def swashes(tmp_path_factory: pytest.TempPathFactory) -> Face:
    """The face with its swashes on."""
    path = tmp_path_factory.mktemp("faces") / "swashes.otf"
    build_swashes(path)
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face("swashes", "Swashes", path, digest, features=(("swsh", 1),))


def worded(name: str, second: str = "14 Larkmoor Lane") -> Piece:
    lines = (Line(name, Role.NAME), Line(second, Role.STREET), Line("Lorne", Role.PLACE))
    return Piece("outer", name, name, (Wording(lines),))


PIECES = (worded("Tobias Wexcombe"), worded("Quentin Penhew"), worded("Odile Lorne", "9 Q Lane"))


def set_in(face: Face, align: str, valign: str, size: float | None = None) -> Setting:
    zone = Zone("outer", ROOM, align, valign)
    layout = Layout("a7", "A7", 522, 378, "euro", 90, (zone,), Box(18, 18, 486, 342), (), "none")
    choice = PieceChoice("outer", "a7", "x", "White", "deep-green", smallest=5.0, size=size)
    setting, findings = fit(PIECES, choice, layout, (face, face), WHITE, 14.17)
    assert not [found for found in findings if found.holds]
    return setting


def ink_of(face: Face, setting: Setting, piece: int) -> Box:
    """The box (pt) around the ink of a piece, from the letters' places by the font's own rule."""
    lefts, rights, tops, bottoms = [], [], [], []
    for line in setting.pieces[piece].lines:
        unit = line.size / 1000
        for place, character in enumerate(line.text):
            if character == " ":
                continue
            swash = character == "Q" and bool(dict(face.features).get("swsh"))
            at = line.x + place * 500 * unit
            lefts.append(at + (LEFT if swash else 40) * unit)
            rights.append(at + 460 * unit)
            tops.append(line.y + (HIGH if swash else 700) * unit)
            bottoms.append(line.y)
    return Box(min(lefts), min(bottoms), max(rights) - min(lefts), max(tops) - min(bottoms))


@pytest.mark.parametrize("valign", ["top", "middle", "bottom"])
@pytest.mark.parametrize("align", ["left", "right", "centre"])
def test_no_swash_leaves_the_room_whatever_the_block_hangs_by(
    swashes: Face, align: str, valign: str
) -> None:
    setting = set_in(swashes, align, valign)
    for number in range(len(PIECES)):
        ink = ink_of(swashes, setting, number)
        assert ink.left >= ROOM.left - 0.01
        assert ink.right <= ROOM.right + 0.01
        assert ink.top <= ROOM.top + 0.01
        assert ink.bottom >= ROOM.bottom - 0.01


def test_only_the_block_whose_swash_would_leave_the_room_is_lowered(swashes: Face) -> None:
    plain = replace(swashes, features=())
    size = 14.0
    without, with_swash = (set_in(face, "centre", "top", size=size) for face in (plain, swashes))
    before, after = (
        [piece.lines[0].y for piece in setting.pieces] for setting in (without, with_swash)
    )
    assert len(set(before)) == 1
    assert after[0] == before[0]
    assert after[1] == pytest.approx(ROOM.top - HIGH / 1000 * size, abs=0.01)
    assert after[1] < before[1]


@pytest.mark.parametrize("live", [False, True], ids=["outlines", "live"])
@pytest.mark.parametrize("valign", ["top", "middle"])
def test_a_plate_with_swashes_is_proved(
    swashes: Face, tmp_path: Path, valign: str, *, live: bool
) -> None:
    setting = set_in(swashes, "centre", valign)
    keys = tuple(piece.household for piece in setting.pieces)
    order = PlateOrder("01-outer-white", "outer", WHITE, (522, 378), keys, 1, "0.1.0", live=live)
    pages, outlines = stream(setting)
    if live:
        outlines = replace(outlines, live=live_faces(setting))
    write_plate(tmp_path / "plate.pdf", order, pages, outlines)
    judged = judge_plate(tmp_path / "plate.pdf", order, setting, PIECES)
    assert judged.proved, judged


def crowded(face: Face) -> Face:
    """The face with its swashes off where they would take the blank before their word."""
    bare = replace(face, features=tuple((tag, 0) for tag, _ in face.features))
    return replace(face, fallbacks=(Fallback(CROWDED, bare, 1.0),))


@pytest.mark.parametrize(
    ("key", "features"),
    [
        ("eb-garamond-italic", (("swsh", 1),)),
        ("cormorant-garamond-italic", (("cv01", 1), ("cv03", 1))),
        ("great-vibes", (("ss02", 1), ("salt", 1))),
        ("dancing-script", (("salt", 1),)),
    ],
)
@pytest.mark.parametrize("word_space", [0, 150])
def test_setter_and_judge_find_the_same_words_crowded(
    key: str, features: tuple[tuple[str, int], ...], word_space: int
) -> None:
    own = replace(open_shelf(None).face(key), features=features, word_space=word_space)
    face = crowded(own)
    (hand,) = open_hands((face,))
    lines = {each: Lines(each) for each in (face, face.fallbacks[0].face)}
    judged = HandLines(face, lines[face], [(face.fallbacks[0], lines[face.fallbacks[0].face])])
    for first, second in itertools.product(string.ascii_uppercase, repeat=2):
        text = f"{first}ill {second}ann {first}uy"
        mixed = hand.mixed(text)
        scripts = [part.script for part in mixed.parts] if mixed is not None else []
        assert [part.script for part in judged.line(text).parts] == scripts
        assert scripts[:1] != [CROWDED]  # what begins a line takes no blank


def test_the_judge_refuses_a_swash_that_takes_the_blank_where_it_should_be_off(
    tmp_path: Path,
) -> None:
    own = replace(open_shelf(None).face("eb-garamond-italic"), features=(("swsh", 1),))
    zone = Zone("outer", ROOM, "centre", "middle")
    layout = Layout("a7", "A7", 522, 378, "euro", 100, (zone,), Box(0, 0, 522, 378), (), "made up")
    piece = Piece("outer", "h-a", "A", (Wording((Line("Yorick Quigley", Role.NAME),)),))
    choice = PieceChoice("outer", "a7", own.key, "White", "deep-green")
    order = PlateOrder("01-outer-white", "outer", WHITE, (522, 378), ("h-a",), 1, "0")
    settings = [fit([piece], choice, layout, face, WHITE, 0.0)[0] for face in (own, crowded(own))]
    for made, said in itertools.product(settings, repeat=2):
        write_plate(tmp_path / "plate.pdf", order, *stream(made))
        verdict = judge_plate(tmp_path / "plate.pdf", order, said, [piece])
        assert verdict.proved is (made is said)
