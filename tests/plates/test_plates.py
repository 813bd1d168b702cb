"""Plates, read back by libraries that had no part in writing them."""

import hashlib
import re
import subprocess
import sys
import tracemalloc
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from PIL import Image

from addressing.faults import Exit, Fault
from addressing.plates import write_plate
from addressing.records.docket import PieceChoice
from addressing.records.pages import Outlines, Page, ShapedLine, Word
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, stream

ADDRESSES = (
    ("TOBIAS WEXCOMBE", "14 Larkmoor Lane", "Farrenby"),
    ("THE PENHEWS", "Box 7"),
)

Plate = Callable[..., Path]


@pytest.fixture
def plate(ruler: Face, envelope: Layout, white: Ink, tmp_path: Path) -> Plate:
    """Sets and writes envelopes; face and ink may differ."""

    def make(
        addresses: tuple[tuple[str, ...], ...] = ADDRESSES,
        ink: Ink = white,
        face: Face = ruler,
        name: str = "plate.pdf",
    ) -> Path:
        choice = PieceChoice("outer", "trial", face.key, ink.key, "deep-green", size=16.0)
        pieces = [
            Piece(
                "outer",
                f"h-{number}",
                lines[0],
                (Wording(tuple(Line(text, Role.NAME) for text in lines)),),
            )
            for number, lines in enumerate(addresses)
        ]
        setting, findings = fit(pieces, choice, envelope, face, ink, 0.0)
        assert not findings
        pages, outlines = stream(setting)
        path = tmp_path / name
        write_plate(path, order_of(envelope, ink, len(pieces)), pages, outlines)
        return path

    return make


def order_of(layout: Layout, ink: Ink, pages: int) -> PlateOrder:
    households = tuple(f"h-{number}" for number in range(pages))
    trim = (layout.width, layout.height)
    return PlateOrder("01-outer-white", "outer", ink, trim, households, 1, "0.1.0")


BAR = (("m", (0.0, 0.0)), ("l", (500.0, 0.0)), ("l", (500.0, 700.0)), ("h", ()))
"""Half a letter: enough for pages made by hand."""


def by_hand(count: int) -> tuple[Iterator[Page], Outlines]:
    word = Word((7,), (0,), (0,), (500, 0, 0, 0, 500, 700))
    line = ShapedLine("X", (word,), 1000)
    pages = (Page(f"h-{number}", ((line, 100.0, 200.0, 10.0),)) for number in range(count))
    return pages, Outlines({7: BAR})


def test_a_plate_of_the_ruler_face_is_these_operators(plate: Plate) -> None:
    with pikepdf.open(plate((("AB A", "é".upper()),))) as pdf:
        page = pdf.pages[0]
        assert page.Contents.read_bytes().decode() == (
            "/Ink cs 1 scn\n"
            "q 0.016 0 0 0.016 245 193.8 cm\n"
            "1 0 0 1 0 0 cm /g34 Do\n"
            "1 0 0 1 500 0 cm /g35 Do\n"
            "1 0 0 1 1000 0 cm /g34 Do\n"
            "Q\n"
            "q 0.016 0 0 0.016 257 173 cm\n"
            "1 0 0 1 0 0 cm /g96 Do\n"
            "Q\n"
        )
        forms = page.Resources.XObject
        assert sorted(forms.keys()) == ["/g34", "/g35", "/g96"]
        form = forms["/g96"]
        assert form.read_bytes().decode() == "0 0 m\n0 900 l\n500 900 l\n500 0 l\n0 0 l\nh\nf\n"
        assert [int(edge) for edge in form.BBox] == [0, 0, 500, 900]


def test_the_file_is_one_section_with_a_table_that_points_at_every_object(plate: Plate) -> None:
    data = plate().read_bytes()
    assert data.startswith(b"%PDF-1.6\n%")
    assert all(byte > 127 for byte in data[10:14])
    assert data.endswith(b"\n%%EOF\n")
    assert (data.count(b"\nxref\n"), data.count(b"\ntrailer\n"), data.count(b"%%EOF")) == (1, 1, 1)
    start = int(data.rsplit(b"startxref\n", 1)[1].split()[0])
    head, entries = data[start:].split(b"\n", 2)[1:]
    count = int(head.split()[1])
    assert entries.startswith(b"0000000000 65535 f \n")
    for number in range(1, count):
        entry = entries[20 * number : 20 * number + 20]
        assert entry[10:] == b" 00000 n \n"
        assert data[int(entry[:10]) :].startswith(b"%d 0 obj\n" % number)
    digest = hashlib.sha256(data[:start]).hexdigest()[:32].upper().encode()
    trailer = data[data.index(b"trailer") :]
    assert trailer.count(b"<" + digest + b">") == 2
    assert set(re.findall(rb"/(\w+)", trailer)) == {b"Size", b"Root", b"Info", b"ID"}


def test_dictionaries_have_exactly_the_keys_of_the_grammar(plate: Plate) -> None:
    with pikepdf.open(plate()) as pdf:
        assert set(pdf.Root.keys()) == {"/Type", "/Pages"}
        assert dict(pdf.docinfo) == {
            "/Title": "01-outer-white",
            "/Producer": "addressing 0.1.0",
            "/Trapped": pikepdf.Name("/False"),
        }
        branch = pdf.Root.Pages.Kids[0]
        assert set(pdf.Root.Pages.keys()) == {"/Type", "/Kids", "/Count"}
        assert set(branch.keys()) == {"/Type", "/Parent", "/Kids", "/Count"}
        for page in pdf.pages:
            assert set(page.obj.keys()) == {
                "/Type", "/Parent", "/MediaBox", "/BleedBox", "/TrimBox", "/Resources", "/Contents",
            }  # fmt: skip
            assert page.Resources.objgen == pdf.pages[0].Resources.objgen
            assert set(page.Resources.keys()) == {"/XObject", "/ColorSpace"}
            for form in page.Resources.XObject.values():
                keys = {"/Type", "/Subtype", "/BBox", "/Length", "/Filter"}
                assert set(form.keys()) == keys
                assert form.read_bytes().endswith(b"\nf\n")


def test_the_ink_is_one_separation_with_its_alternate(plate: Plate) -> None:
    with pikepdf.open(plate()) as pdf:
        ink = pdf.pages[0].Resources.ColorSpace.Ink
        assert [str(part) for part in ink[:3]] == ["/Separation", "/White", "/DeviceCMYK"]
        tint = ink[3]
        assert set(tint.keys()) == {"/FunctionType", "/Domain", "/C0", "/C1", "/N"}
        assert [float(part) for part in tint.C1] == [0.1, 0, 0, 0.2]


@pytest.mark.parametrize(
    ("channel", "operators"),
    [
        ("cyan", "1 0 0 0 k"),
        ("magenta", "0 1 0 0 k"),
        ("yellow", "0 0 1 0 k"),
        ("black", "0 0 0 1 k"),
    ],
)
def test_an_ink_in_a_process_slot_is_that_channel_alone(
    plate: Plate, white: Ink, channel: str, operators: str
) -> None:
    with pikepdf.open(plate(ink=replace(white, channel=channel))) as pdf:
        page = pdf.pages[0]
        assert page.Contents.read_bytes().decode().startswith(f"{operators}\nq ")
        assert set(page.Resources.keys()) == {"/XObject"}


@pytest.mark.parametrize("spot", ["White Ink", "White (2) #1", "Wei/ss", "Weiß", "白", "50%<a>[b]"])
def test_the_name_of_a_spot_ink_reads_back_whole(plate: Plate, white: Ink, spot: str) -> None:
    with pikepdf.open(plate(ink=replace(white, spot=spot))) as pdf:
        assert str(pdf.pages[0].Resources.ColorSpace.Ink[1]) == f"/{spot}"


def test_pdfium_sees_the_boxes_and_the_ink_where_it_was_set(plate: Plate) -> None:
    pdf = pypdfium2.PdfDocument(plate((("AAAA",),)))
    try:
        page = pdf[0]
        for box in (page.get_mediabox, page.get_bleedbox, page.get_trimbox):
            assert box(fallback_ok=False) == (0, 0, 522, 378)
        picture = page.render(scale=0.25, grayscale=True).to_pil().convert("L")
    finally:
        pdf.close()
    rows = [
        "".join(".#"[picture.getpixel((x, y)) < 245] for x in range(55, 77)) for y in range(43, 51)
    ]
    # Four letters, 32 by 11.2 pt, from (245, 183.4); a sign is 4 pt, seen from (220, 206) down.
    assert rows == [
        "......................",
        "......................",
        "......................",
        "......#########.......",
        "......#########.......",
        "......#########.......",
        "......................",
        "......................",
    ]


def test_even_odd_is_never_used_and_overlapping_contours_leave_no_hole(
    white: Ink, tmp_path: Path, envelope: Layout
) -> None:
    square = (("m", (0.0, 0.0)), ("l", (800.0, 0.0)), ("l", (800.0, 800.0)), ("l", (0.0, 800.0)))
    outline = (
        *square,
        ("h", ()),
        *((op, tuple(v + 100 for v in at)) for op, at in square),
        ("h", ()),
    )
    word = Word((7,), (0,), (0,), (800, 0, 0, 0, 900, 900))
    line = ShapedLine("X", (word,), 1000)
    page = Page("h-0", ((line, 200.0, 100.0, 100.0),))
    path = tmp_path / "overlap.pdf"
    write_plate(path, order_of(envelope, white, 1), [page], Outlines({7: outline}))
    pdf = pypdfium2.PdfDocument(path)
    try:
        picture = pdf[0].render(scale=1, grayscale=True).to_pil().convert("L")
    finally:
        pdf.close()
    assert picture.getpixel((250, 378 - 150)) < 245, "a hole where contours overlap"


@pytest.mark.parametrize("name", ["White", "White Ink (2)"])
@pytest.mark.ghostscript
def test_ink_falls_on_the_spot_plate_and_on_no_process_plate(
    plate: Plate, white: Ink, ghostscript: str, tmp_path: Path, name: str
) -> None:
    path = plate(ink=replace(white, spot=name))
    out = tmp_path / "plate-%d.tif"
    command = [ghostscript, "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=tiffsep", "-r72"]
    subprocess.run([*command, f"-o{out}", str(path)], check=True, capture_output=True)  # noqa: S603
    darkest = {found.name: darkest_of(found) for found in tmp_path.glob("plate-1(*).tif")}
    assert darkest == {
        "plate-1(Cyan).tif": 255,
        "plate-1(Magenta).tif": 255,
        "plate-1(Yellow).tif": 255,
        "plate-1(Black).tif": 255,
        f"plate-1({name}).tif": 0,
    }


SLOTS = {name.lower(): name for name in ("Cyan", "Magenta", "Yellow", "Black")} | {"grey": "Black"}


@pytest.mark.parametrize("channel", SLOTS)
@pytest.mark.ghostscript
def test_an_ink_in_a_slot_falls_on_that_plate_alone(
    plate: Plate, white: Ink, ghostscript: str, tmp_path: Path, channel: str
) -> None:
    path = plate(ink=replace(white, channel=channel))
    out = tmp_path / "plate-%d.tif"
    command = [ghostscript, "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=tiffsep", "-r72"]
    subprocess.run([*command, f"-o{out}", str(path)], check=True, capture_output=True)  # noqa: S603
    seen = {found.name: darkest_of(found) for found in tmp_path.glob("plate-*(*).tif")}
    wanted = {
        f"plate-{page}({name}).tif": 0 if name == SLOTS[channel] else 255
        for page in (1, 2)
        for name in ("Cyan", "Magenta", "Yellow", "Black")
    }
    assert seen == wanted


def darkest_of(path: Path) -> int:
    with Image.open(path) as picture:
        return next(value for value, count in enumerate(picture.convert("L").histogram()) if count)


def test_pages_hang_on_branches_of_two_hundred(
    white: Ink, envelope: Layout, tmp_path: Path
) -> None:
    path = tmp_path / "many.pdf"
    write_plate(path, order_of(envelope, white, 450), *by_hand(450))
    with pikepdf.open(path) as pdf:
        assert [int(branch.Count) for branch in pdf.Root.Pages.Kids] == [200, 200, 50]
        assert int(pdf.Root.Pages.Count) == len(pdf.pages) == 450


def test_a_raised_mark_keeps_its_height_on_the_plate(
    white: Ink, envelope: Layout, tmp_path: Path
) -> None:
    first = Word((7, 3, 7), (0, 500, 250), (0, 0, -120), (800, 0, 0, 0, 0, 0))
    second = Word((3, 7), (0, 100), (0, 0), (600, 0, 0, 0, 0, 0))
    line = ShapedLine("X", (first, second), 1000)
    page = Page("h-0", ((line, 10.0, 20.0, 12.0),))
    path = tmp_path / "marks.pdf"
    write_plate(path, order_of(envelope, white, 1), [page], Outlines({3: (), 7: BAR}))
    with pikepdf.open(path) as pdf:
        drawn = re.findall(
            r"1 0 0 1 (\S+ \S+) cm /g7 Do", pdf.pages[0].Contents.read_bytes().decode()
        )
        assert drawn == ["0 0", "250 -120", "650 120"]
        assert list(pdf.pages[0].Resources.XObject.keys()) == ["/g7"]


def test_the_same_order_gives_the_same_bytes(plate: Plate, script: Face) -> None:
    first = plate(face=script, name="one.pdf").read_bytes()
    assert plate(face=script, name="two.pdf").read_bytes() == first


HASHED = """
import hashlib, sys
from pathlib import Path
from addressing.plates import write_plate
from addressing.records.pages import Outlines, Page
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Face, Ink
from addressing.typesetting import shape_line
from addressing.typesetting.typeface import open_typeface
font, out = Path(sys.argv[1]), Path(sys.argv[2])
face = Face("script", "Script", font, "")
ink = Ink("White", "White", (0.1, 0, 0, 0.2), (1, 1, 1))
texts = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane")
page = Page("h", tuple((shape_line(face, text), 9.0, 9.0, 24.0) for text in texts))
order = PlateOrder("p", "outer", ink, (522, 378), ("h",), 1, "0")
typeface = open_typeface(face)
write_plate(out, order, [page], Outlines(typeface.outlines))
print(hashlib.sha256(out.read_bytes()).hexdigest())
"""


def test_the_bytes_do_not_depend_on_how_python_hashes(script: Face, tmp_path: Path) -> None:
    digests = {
        subprocess.run(  # noqa: S603
            [sys.executable, "-c", HASHED, str(script.path), str(tmp_path / "plate.pdf")],
            env={"PYTHONHASHSEED": seed},
            check=True,
            capture_output=True,
        ).stdout
        for seed in ("0", "1", "4711")
    }
    assert len(digests) == 1


@pytest.mark.parametrize("count", [0, 1, 3])
def test_pages_that_were_not_ordered_are_refused(
    white: Ink, envelope: Layout, tmp_path: Path, count: int
) -> None:
    with pytest.raises(Fault) as caught:
        write_plate(tmp_path / "p.pdf", order_of(envelope, white, 2), *by_hand(count))
    assert caught.value.exit is Exit.INTERNAL


def test_pages_in_another_order_are_refused(white: Ink, envelope: Layout, tmp_path: Path) -> None:
    pages, outlines = by_hand(2)
    with pytest.raises(Fault, match="Page 1 of 01-outer-white") as caught:
        write_plate(
            tmp_path / "p.pdf", order_of(envelope, white, 2), reversed(list(pages)), outlines
        )
    assert caught.value.exit is Exit.INTERNAL


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_full_disk_is_a_fault_that_says_so(white: Ink, envelope: Layout) -> None:
    full = Path("/dev/full")  # Linux: a device that is always full
    with pytest.raises(Fault, match="No space left") as caught:
        write_plate(full, order_of(envelope, white, 2), *by_hand(2))
    assert caught.value.exit is Exit.WRITE


def test_a_folder_that_is_not_there_is_a_fault(white: Ink, envelope: Layout) -> None:
    with pytest.raises(Fault) as caught:
        write_plate(Path("/nowhere/p.pdf"), order_of(envelope, white, 2), *by_hand(2))
    assert caught.value.exit is Exit.WRITE


def test_memory_does_not_grow_with_the_pages(white: Ink, envelope: Layout, tmp_path: Path) -> None:
    def peak(count: int) -> int:
        order = order_of(envelope, white, count)
        tracemalloc.start()
        try:
            write_plate(tmp_path / "many.pdf", order, *by_hand(count))
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()

    # Places in the file are 8 bytes an object, two objects a page; lists of two hundred besides.
    assert peak(4000) - peak(400) < 3600 * 40
