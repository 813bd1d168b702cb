"""Faces: the catalogue, a user's own files, and files that want to do harm."""

import random
import shutil
import struct
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import uharfbuzz as hb
from fontTools.ttLib import TTFont

from addressing.faults import Exit, Fault
from addressing.job.lettering import faces_for
from addressing.materials.faces import (
    face_sources,
    figures_of,
    read_face,
    slug,
    with_features,
    with_small_capitals,
)
from addressing.materials.own_face import LARGEST, embedding_of, face_facts, mapped_characters
from addressing.materials.shelf import open_shelf
from addressing.records.docket import AddressChoice, Docket, PieceChoice
from addressing.records.shelf import Face
from addressing.tables import table
from addressing.typesetting.fontfile import read_font
from addressing.where import Where

SHELF = open_shelf(None)


def fault_of(path: Path) -> Fault:
    with pytest.raises(Fault) as caught:
        read_face("mine", path)
    assert caught.value.exit is Exit.INPUT
    assert caught.value.mend
    return caught.value


def code_of(path: Path) -> str | None:
    """What a font file is refused for, or None when it is taken."""
    try:
        face_facts(path)
    except Fault as fault:
        return fault.code
    return None


@pytest.mark.parametrize("key", SHELF.faces())
def test_every_face_of_the_catalogue_opens_and_is_free_to_embed(key: str) -> None:
    face = SHELF.face(key)
    assert face.path.is_file()
    assert len(face.sha256) == 64
    assert face.embedding == "installable"
    assert face.licence == "SIL Open Font License 1.1"
    assert dict(face.features).get("lnum") == 1 or "lnum" not in face.offers


def test_the_catalogue_has_scripts_romans_and_a_fallback() -> None:
    expected = (
        "great-vibes dancing-script cormorant-garamond cormorant-garamond-italic eb-garamond "
        "eb-garamond-italic playfair-display noto-serif frank-ruhl-libre amiri"
    )
    assert set(expected.split()) <= set(SHELF.faces())


def test_cormorant_is_set_heavier_than_its_own_default_of_light() -> None:
    face = SHELF.face("cormorant-garamond")
    default = {axis.axisTag: axis.defaultValue for axis in TTFont(face.path)["fvar"].axes}
    assert default["wght"] == 300
    assert dict(face.axes)["wght"] >= 500


def test_a_users_font_file_is_a_face_by_the_slug_of_its_name(ruler: Face, tmp_path: Path) -> None:
    (tmp_path / "fonts").mkdir()
    shutil.copy(ruler.path, tmp_path / "fonts" / "Penhew Script_1.TTF")
    shelf = open_shelf(tmp_path)
    assert "penhew-script-1" in shelf.faces()
    face = shelf.face("penhew-script-1")
    assert (face.family, face.sha256) == ("Ruler", ruler.sha256)
    assert dict(face.features) == {"kern": 1, "liga": 1, "calt": 1, "lnum": 1}


def test_a_users_own_face_comes_before_the_packages(ruler: Face, tmp_path: Path) -> None:
    (tmp_path / "fonts").mkdir()
    shutil.copy(ruler.path, tmp_path / "fonts" / "great vibes.ttf")
    assert open_shelf(tmp_path).face("great-vibes").sha256 == ruler.sha256


def test_a_toml_beside_a_font_file_chooses_its_axes_and_features(tmp_path: Path) -> None:
    garamond = SHELF.face("eb-garamond")
    shutil.copy(garamond.path, tmp_path / "Mine.ttf")
    (tmp_path / "mine.toml").write_text(
        'family = "Mine"\nfile = "Mine.ttf"\naxes = { wght = 700 }\nfeatures = { swsh = 1 }\n',
        encoding="utf-8",
    )
    sources = face_sources(tmp_path)
    assert list(sources) == ["mine"]
    face = read_face("mine", sources["mine"])
    assert (face.axes, face.features) == ((("wght", 700.0),), (("swsh", 1),))


CATALOGUE = {
    "an axis beyond its end": ("axes = { wght = 900 }", "face-wrong", "axes.wght"),
    "an axis that isn't there": ("axes = { slnt = 9 }", "face-wrong", "axes.slnt"),
    "a tag that is none": ("axes = { weight = 400 }", "face-wrong", "axes.weight"),
    "a feature that isn't there": ("features = { ss20 = 1 }", "face-wrong", "features.ss20"),
    "a key that nobody knows": ("weight = 400", "face-wrong", "weight"),
}


@pytest.mark.parametrize("hurt", CATALOGUE)
def test_an_entry_that_asks_for_what_the_font_lacks_is_told(hurt: str, tmp_path: Path) -> None:
    line, code, told = CATALOGUE[hurt]
    shutil.copy(SHELF.face("eb-garamond").path, tmp_path / "Mine.ttf")
    path = tmp_path / "mine.toml"
    path.write_text(f'family = "Mine"\nfile = "Mine.ttf"\n{line}\n', encoding="utf-8")
    fault = fault_of(path)
    assert fault.code == code
    assert told in fault.text


def test_axes_for_a_face_that_is_not_variable_are_refused(ruler: Face, tmp_path: Path) -> None:
    shutil.copy(ruler.path, tmp_path / "r.ttf")
    path = tmp_path / "mine.toml"
    path.write_text('family = "Mine"\nfile = "r.ttf"\naxes = { wght = 5 }\n', encoding="utf-8")
    assert "isn't variable" in fault_of(path).mend


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ('file = "gone.ttf"', "face-missing"),
        ('file = "../../etc/passwd"', "face-wrong"),
        ('package = "fontpkg_never_made"\nfile = "files/x.ttf"', "face-missing"),
    ],
    ids=["no file", "a file elsewhere", "no package"],
)
def test_an_entry_without_its_file_is_told(line: str, code: str, tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(f'family = "Mine"\n{line}\n', encoding="utf-8")
    assert fault_of(path).code == code


def changed(ruler: Face, folder: Path, change: Callable[[TTFont], None]) -> Path:
    """The ruler face, hurt in one way."""
    path = folder / "hurt.ttf"
    with TTFont(ruler.path) as font:
        change(font)
        font.save(path)
    return path


@pytest.mark.parametrize("tag", ["cmap", "head", "hhea", "maxp", "OS/2", "glyf"])
def test_a_font_without_a_needed_table_is_damaged(tag: str, ruler: Face, tmp_path: Path) -> None:
    data = bytearray(ruler.path.read_bytes())
    at = data.index(tag.encode(), 12)
    data[at : at + 4] = b"zzzz"
    path = tmp_path / "hurt.ttf"
    path.write_bytes(data)
    assert fault_of(path).code == "face-damaged"


@pytest.mark.parametrize(
    ("fs_type", "code"), [(0x0002, "face-restricted"), (0x0200, "face-restricted")]
)
def test_a_font_that_forbids_embedding_is_refused(
    fs_type: int, code: str, ruler: Face, tmp_path: Path
) -> None:
    def forbid(font: TTFont) -> None:
        font["OS/2"].fsType = fs_type

    fault = fault_of(changed(ruler, tmp_path, forbid))
    assert fault.code == code
    assert "foundry" in fault.mend


@pytest.mark.parametrize(
    ("fs_type", "word"),
    [
        # OpenType 1.9, OS/2, fsType; of several bits the least restrictive counts.
        (0x0000, "installable"),
        (0x0002, "restricted"),
        (0x0004, "preview-and-print"),
        (0x0008, "editable"),
        (0x0006, "preview-and-print"),
        (0x0104, "preview-and-print"),
        (0x0208, "restricted"),
    ],
)
def test_the_permission_flag_is_read_as_opentype_says(fs_type: int, word: str) -> None:
    assert embedding_of(fs_type) == word


def test_a_preview_and_print_font_is_taken_and_says_so(ruler: Face, tmp_path: Path) -> None:
    def limit(font: TTFont) -> None:
        font["OS/2"].fsType = 0x0004

    face = read_face("mine", changed(ruler, tmp_path, limit))
    assert face.embedding == "preview-and-print"


@pytest.mark.parametrize(
    "content",
    [b"", b"not a font", bytes(44), b"OTTO" + bytes(40), b"wOFF" + bytes(60), b"wOF2" + bytes(60),
     b"\x00\x01\x00\x00\xff\xff" + bytes(100), b"ttcf" + bytes(40)],
    ids=["nothing", "words", "zeros", "a bare mark", "woff", "woff2", "65535 tables", "collection"],
)  # fmt: skip
def test_what_is_no_font_is_damaged(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "hurt.otf"
    path.write_bytes(content)
    assert fault_of(path).code == "face-damaged"


def test_a_font_cut_short_anywhere_never_crashes(ruler: Face, tmp_path: Path) -> None:
    data = ruler.path.read_bytes()
    path = tmp_path / "hurt.ttf"
    for length in range(0, len(data) - 1, 97):
        path.write_bytes(data[:length])
        assert code_of(path) in {None, "face-damaged"}


def test_a_font_with_bytes_changed_anywhere_never_crashes(ruler: Face, tmp_path: Path) -> None:
    data = ruler.path.read_bytes()
    path = tmp_path / "hurt.ttf"
    dice = random.Random(269)  # noqa: S311 - a fixed row of trials, no secret
    for _ in range(300):
        hurt = bytearray(data)
        for _ in range(4):
            hurt[dice.randrange(len(hurt))] = dice.randrange(256)
        path.write_bytes(hurt)
        assert code_of(path) in {None, "face-damaged"}


def cmap_of(*subtables: bytes) -> bytes:
    """A raw character map."""
    head = struct.pack(">HH", 0, len(subtables))
    offset = 4 + 8 * len(subtables)
    for number, each in enumerate(subtables):
        head += struct.pack(">HHI", 3, 10 if number else 1, offset)
        offset += len(each)
    return head + b"".join(subtables)


def groups(form: int, *pairs: tuple[int, int]) -> bytes:
    """A subtable of format 12 or 13."""
    body = b"".join(struct.pack(">III", start, end, 1) for start, end in pairs)
    return struct.pack(">HHIII", form, 0, 16 + len(body), 0, len(pairs)) + body


@pytest.mark.parametrize("form", [12, 13])
def test_a_character_map_that_claims_thousands_of_millions_is_damaged(
    form: int, ruler: Face, tmp_path: Path
) -> None:
    bomb = cmap_of(groups(form, (0, 0xFFFFFFFF)))
    assert mapped_characters(bomb) == 1 << 32
    data = bytearray(ruler.path.read_bytes())
    entry = data.index(b"cmap", 12)
    struct.pack_into(">II", data, entry + 8, len(data), len(bomb))
    path = tmp_path / "hurt.ttf"
    path.write_bytes(bytes(data) + bomb)
    assert "more than all of Unicode" in fault_of(path).text


def test_overlapping_segments_are_counted_each() -> None:
    segments = 1000
    body = struct.pack(">HHHH", segments * 2, 0, 0, 0)
    body += struct.pack(">H", 0xFFFF) * segments + bytes(2) + struct.pack(">H", 0) * segments
    assert mapped_characters(cmap_of(struct.pack(">HHH", 4, 0, 0) + body)) == segments * 65536


def test_the_catalogues_maps_claim_no_more_than_unicode_has() -> None:
    for key in SHELF.faces():
        with TTFont(SHELF.face(key).path) as font:
            claimed = mapped_characters(font.reader["cmap"])
            assert len(font.getBestCmap()) <= claimed <= 0x110000


def test_a_file_larger_than_50_mb_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "large.ttf"
    with path.open("wb") as stream:
        stream.truncate(LARGEST + 1)
    assert fault_of(path).code == "face-too-large"


def test_a_font_that_is_gone_is_missing(tmp_path: Path) -> None:
    assert fault_of(tmp_path / "gone.ttf").code == "face-missing"


def test_a_key_has_small_letters_and_hyphens_only() -> None:
    assert slug("Ärger – Font[wght,opsz]") == "rger-font-wght-opsz"
    assert slug("!!") == "face"


def test_reading_a_docket_or_listing_faces_opens_no_font() -> None:
    code = (
        "import sys; from addressing.materials.shelf import open_shelf; "
        "import addressing.materials.docket; assert open_shelf(None).faces(); "
        "print('fontTools' in sys.modules)"
    )
    done = subprocess.run(  # noqa: S603 - our own words
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"


HERE = Where("docket.toml")


def test_a_dockets_features_are_laid_over_the_faces_own() -> None:
    face = with_features(SHELF.face("eb-garamond-italic"), [("swsh", 1), ("liga", 0)], HERE)
    assert dict(face.features) == {"kern": 1, "liga": 0, "calt": 1, "lnum": 1, "swsh": 1}


def test_old_style_figures_switch_the_lining_ones_off() -> None:
    features = dict(with_features(SHELF.face("eb-garamond"), [("onum", 1)], HERE).features)
    assert (features["onum"], features["lnum"]) == (1, 0)


def test_a_feature_that_the_font_lacks_is_refused_with_those_that_it_has(ruler: Face) -> None:
    with pytest.raises(Fault) as caught:
        with_features(SHELF.face("great-vibes"), [("ss01", 1), ("swsh", 1)], HERE)
    assert (caught.value.code, caught.value.where) == ("feature-unknown", HERE)
    assert '"swsh"' in caught.value.text
    assert "salt, sinf, ss01, ss02" in caught.value.mend
    with pytest.raises(Fault) as caught:
        with_features(ruler, [("ss01", 1)], HERE)
    assert "It has none" in caught.value.mend


def test_figures_are_told_as_the_font_draws_them() -> None:
    """As seen in specimens: Cormorant and Playfair come with old-style figures (from memory)."""
    first = {key: figures_of(SHELF.face(key))[0] for key in SHELF.faces()}
    old = {key for key, figures in first.items() if figures == "old-style"}
    assert old == {"cormorant-garamond", "cormorant-garamond-italic", "playfair-display"}
    assert figures_of(SHELF.face("dancing-script")) == ("lining",)


def test_every_feature_of_the_catalogue_has_plain_words() -> None:
    known = {row["tag"] for row in table("features")}
    offered = {tag for key in SHELF.faces() for tag in SHELF.face(key).offers}
    assert len(offered) > 40
    assert {tag for tag in offered if not {tag, f"{tag[:2]}##"} & known} == set()


def test_a_docket_sets_the_words_of_a_hand_apart_before_the_faces_own_record() -> None:
    shelf = open_shelf(None)
    choice = PieceChoice("outer", "a7", "great-vibes", "White", "deep-green")
    own = shelf.face("great-vibes").word_space
    address = AddressChoice("eb-garamond", word_space=70)
    both = faces_for(replace(choice, address=address), shelf, Docket())
    assert isinstance(both, tuple)
    assert tuple(face.word_space for face in both) == (own, 70)
    alone = faces_for(replace(choice, word_space=0), shelf, Docket())
    assert isinstance(alone, Face)
    assert alone.word_space == 0


@pytest.mark.parametrize("key", [key for key in SHELF.faces() if "smcp" in SHELF.face(key).offers])
def test_figures_beside_small_capitals_stand_as_high_as_capitals(key: str) -> None:
    face = with_small_capitals(SHELF.face(key), Where(key))
    font = hb.Font(hb.Face(hb.Blob(read_font(face))))
    font.set_variations(dict(face.axes))

    def height(text: str) -> list[int]:
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(font, buffer, dict(face.features))
        extents = (font.get_glyph_extents(info.codepoint) for info in buffer.glyph_infos)
        return [each.y_bearing for each in extents if each is not None]

    (capital,) = height("H")
    small, figures = height("a"), height("0123456789")
    assert max(small) < 0.9 * capital
    assert all(figure > 0.9 * capital for figure in figures)
