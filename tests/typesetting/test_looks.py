"""What the eye would object to, in a script and three romans of the shelf."""

import hashlib
from importlib.resources import files
from pathlib import Path

import pytest

from addressing.records.docket import PieceChoice
from addressing.records.pages import Page, Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, stream

SHELF = {
    "great-vibes": ("fontpkg_great_vibes", "GreatVibes-Regular.ttf", ()),
    "cormorant": ("fontpkg_cormorant_garamond", "CormorantGaramond[wght].ttf", (("wght", 500.0),)),
    "eb-garamond": ("fontpkg_eb_garamond", "EBGaramond[wght].ttf", (("wght", 400.0),)),
    "dancing": ("fontpkg_dancing_script", "DancingScript[wght].ttf", (("wght", 400.0),)),
}


@pytest.fixture(params=SHELF)
def face(request: pytest.FixtureRequest) -> Face:
    package, file, axes = SHELF[request.param]
    path = Path(str(files(package) / "files" / file))
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(request.param, request.param, path, digest, axes=axes)


def set_one(face: Face, layout: Layout, ink: Ink, *texts: str) -> tuple[Setting, Page]:
    wording = Wording(tuple(Line(text, Role.NAME) for text in texts))
    choice = PieceChoice("outer", "trial", face.key, "White", "deep-green")
    setting, findings = fit(
        [Piece("outer", "h-a", "A", (wording,))], choice, layout, face, ink, 0.0
    )
    assert not findings
    return setting, next(stream(setting)[0])


def test_neighbouring_lines_do_not_touch_even_with_accents_over_descenders(
    face: Face, envelope: Layout, white: Ink
) -> None:
    _, page = set_one(
        face, envelope, white, "Peggy Quigley", "Ágnes Öhlkopf", "Haypenny Way", "Élan by Ûrfold"
    )
    em = page.lines[0][0].em
    for (upper, _, y_upper, size), (lower, _, y_lower, _) in zip(
        page.lines, page.lines[1:], strict=False
    ):
        assert y_upper + upper.bottom * size / em > y_lower + lower.top * size / em


def test_each_line_stands_in_the_middle_by_its_ink_swashes_included(
    face: Face, envelope: Layout, white: Ink
) -> None:
    setting, page = set_one(face, envelope, white, "Katarina Farfield", "Jasper Quay", "Ely")
    em = page.lines[0][0].em
    middle = (setting.room.left + setting.room.right) / 2
    for line, x, _, size in page.lines:
        assert x + (line.left + line.right) / 2 * size / em == pytest.approx(middle, abs=0.001)


def test_proof_and_plate_draw_from_the_same_outlines(
    face: Face, envelope: Layout, white: Ink
) -> None:
    setting, page = set_one(face, envelope, white, "Tobias Wexcombe")
    _, first = stream(setting)
    _, second = stream(setting)
    for glyph in page.lines[0][0].glyphs:
        assert first.glyphs[glyph] is second.glyphs[glyph]
    assert len(first.glyphs) == len(list(first.glyphs)) > max(page.lines[0][0].glyphs)
    with pytest.raises(KeyError):
        first.glyphs[len(first.glyphs)]
