"""A plate made for a shop that wants PDF/X-4, held against the standard's requirements one by one.

By readers that had no part in the writing (pikepdf, on qpdf; the XML parser of the standard
library). No free validator for PDF/X was found: the list is our own.
"""

import csv
import hashlib
import io
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pikepdf
import pytest
from fontTools.cffLib import CFFFontSet
from fontTools.pens.basePen import NullPen
from fontTools.ttLib import TTFont

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.records.docket import PieceChoice
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Face, Ink, Layout
from addressing.records.shops import Exchange, Intent
from addressing.typesetting import fit, live_faces, stream

HERE = Path(__file__).parent
ROWS = tuple(
    csv.DictReader(
        (HERE / "pdfx4_requirements.tsv").read_text("utf-8").splitlines(), delimiter="\t"
    )
)
OF_GHOSTSCRIPT = Path("/usr/share/color/icc/ghostscript/default_cmyk.icc")
RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
BLEED = 9.0


def profile_at(path: Path) -> Path:
    """A press's profile: Ghostscript's where it is there, else a header alone (ICC.1:2010, 7.2)."""
    if OF_GHOSTSCRIPT.is_file():
        shutil.copyfile(OF_GHOSTSCRIPT, path)
        return path
    header = bytearray(132)
    header[0:4], header[8:12] = (132).to_bytes(4, "big"), b"\x02\x10\x00\x00"
    header[12:16], header[16:20], header[36:40] = b"prtr", b"CMYK", b"acsp"
    path.write_bytes(bytes(header))
    return path


class Job:
    """A plate of two envelopes, and what the judge is given with it."""

    def __init__(
        self, folder: Path, face: Face, layout: Layout, ink: Ink, *, live: bool = False
    ) -> None:
        self.path = folder / "01-outer-white.pdf"
        profile = profile_at(folder / "press.icc")
        digest = hashlib.sha256(profile.read_bytes()).hexdigest()
        intent = Intent("FOGRA51", "http://www.color.org", "Coated & (PSO)", profile, digest)
        self.pieces = tuple(
            Piece("outer", f"h-{n}", "", (Wording((Line(words, Role.NAME),)),))
            for n, words in enumerate(("Tobias Penhew", "Ottoline Grayling"))
        )
        choice = PieceChoice("outer", "trial", face.key, ink.key, "deep-green")
        self.setting, _ = fit(self.pieces, choice, layout, face, ink, 0.0)
        self.order = PlateOrder(
            "01-outer-white", "outer", ink, (layout.width, layout.height), ("h-0", "h-1"), 1,
            "0.1.0", bleed=BLEED, exchange=Exchange(intent, "2026-03-10"), live=live,
        )  # fmt: skip
        self.write(self.path, self.order)

    def write(self, path: Path, order: PlateOrder) -> None:
        """Write the plate by an order."""
        pages, outlines = stream(self.setting)
        faces = live_faces(self.setting) if order.live else ()
        write_plate(path, order, pages, replace(outlines, live=faces))


@pytest.fixture(scope="module", params=["outlines", "live", "live, of cubics"])
def job(
    request: pytest.FixtureRequest,
    tmp_path_factory: pytest.TempPathFactory,
    script: Face,
    cubic: Face,
    envelope: Layout,
    white: Ink,
) -> Job:
    face = cubic if "cubics" in request.param else script
    live = request.param != "outlines"
    return Job(tmp_path_factory.mktemp("x4"), face, envelope, white, live=live)


@pytest.fixture
def pdf(job: Job) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(job.path) as opened:
        yield opened


def objects(pdf: pikepdf.Pdf) -> list[Any]:
    """Every object of the file."""
    return [pdf.get_object(number, 0) for number in range(1, int(pdf.trailer.Size))]


def keys_in(pdf: pikepdf.Pdf) -> set[str]:
    """Every key and name of every object, as pikepdf writes it out."""
    plain = (
        each.stream_dict if isinstance(each, pikepdf.Stream) else each for each in objects(pdf)
    )
    told = b" ".join(each.unparse(resolved=True) for each in plain).decode("latin-1")
    return set(re.findall(r"/[A-Za-z0-9]+", told))


def intent_of(pdf: pikepdf.Pdf) -> Any:  # noqa: ANN401 - pikepdf's objects
    return pdf.Root.OutputIntents[0]


def xmp_of(pdf: pikepdf.Pdf) -> dict[str, str]:
    """The properties of the metadata, by their names with prefix."""
    spaces = {
        "http://purl.org/dc/elements/1.1/": "dc", "http://ns.adobe.com/pdf/1.3/": "pdf",
        "http://www.npes.org/pdfx/ns/id/": "pdfxid", "http://ns.adobe.com/xap/1.0/": "xmp",
        "http://ns.adobe.com/xap/1.0/mm/": "xmpMM",
    }  # fmt: skip
    root = ET.fromstring(pdf.Root.Metadata.read_raw_bytes())  # noqa: S314 - our own
    described = root.find(f"{RDF}RDF/{RDF}Description")
    assert described is not None
    told = {}
    for each in described:
        space, name = each.tag[1:].split("}")
        told[f"{spaces[space]}:{name}"] = "".join(each.itertext())
    return told


def header_is_1_6(pdf: pikepdf.Pdf) -> None:
    assert pdf.pdf_version == "1.6"
    assert "/Version" not in pdf.Root


def not_encrypted(pdf: pikepdf.Pdf) -> None:
    assert not pdf.is_encrypted


def file_has_an_id(pdf: pikepdf.Pdf) -> None:
    assert len(pdf.trailer.ID) == 2


def one_output_intent(pdf: pikepdf.Pdf) -> None:
    assert len(pdf.Root.OutputIntents) == 1
    assert intent_of(pdf).Type == "/OutputIntent"
    assert intent_of(pdf).S == "/GTS_PDFX"


def condition_is_named(pdf: pikepdf.Pdf) -> None:
    intent = intent_of(pdf)
    assert str(intent.OutputConditionIdentifier) == "FOGRA51"
    assert str(intent.RegistryName) == "http://www.color.org"
    assert str(intent.Info) == "Coated & (PSO)"


def profile_is_embedded(pdf: pikepdf.Pdf) -> None:
    assert intent_of(pdf).DestOutputProfile.N == 4


def profile_is_of_a_press(pdf: pikepdf.Pdf) -> None:
    data = intent_of(pdf).DestOutputProfile.read_bytes()
    assert (data[12:16], data[16:20], data[36:40]) == (b"prtr", b"CMYK", b"acsp")
    assert int.from_bytes(data[:4], "big") == len(data)


def metadata_in_catalogue(pdf: pikepdf.Pdf) -> None:
    metadata = pdf.Root.Metadata
    assert metadata.Type == "/Metadata"
    assert metadata.Subtype == "/XML"
    assert "/Filter" not in metadata


def xmp_names_the_version(pdf: pikepdf.Pdf) -> None:
    assert xmp_of(pdf)["pdfxid:GTS_PDFXVersion"] == "PDF/X-4"
    with pdf.open_metadata(set_pikepdf_as_editor=False) as metadata:  # a reader of its own
        assert metadata.pdfx_status == "PDF/X-4"


def xmp_has_ids(pdf: pikepdf.Pdf) -> None:
    told = xmp_of(pdf)
    assert re.fullmatch(r"uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", told["xmpMM:DocumentID"])
    assert (told["xmpMM:VersionID"], told["xmpMM:RenditionClass"]) == ("1", "default")


def xmp_has_dates(pdf: pikepdf.Pdf) -> None:
    told = xmp_of(pdf)
    for name in ("CreateDate", "ModifyDate", "MetadataDate"):
        assert told[f"xmp:{name}"] == "2026-03-10T00:00:00Z"


def xmp_agrees_with_info(pdf: pikepdf.Pdf) -> None:
    told, info = xmp_of(pdf), pdf.docinfo
    assert told["dc:title"] == str(info.Title)
    assert told["pdf:Producer"] == str(info.Producer)
    assert f"/{told['pdf:Trapped']}" == str(info.Trapped)
    assert told["pdfxid:GTS_PDFXVersion"] == str(info.GTS_PDFXVersion)
    day = "D:" + re.sub("[-:T]", "", told["xmp:CreateDate"])
    assert day == str(info.CreationDate) == str(info.ModDate)


def xmp_has_a_title(pdf: pikepdf.Pdf) -> None:
    assert xmp_of(pdf)["dc:title"] == "01-outer-white"


def trapped_is_known(pdf: pikepdf.Pdf) -> None:
    assert pdf.docinfo.Trapped in {"/True", "/False"}


def trim_or_art(pdf: pikepdf.Pdf) -> None:
    for page in pdf.pages:
        assert ("/TrimBox" in page) != ("/ArtBox" in page)


def boxes_are_nested(pdf: pikepdf.Pdf) -> None:
    for page in pdf.pages:
        media, crop, bleed, trim = (
            [float(edge) for edge in box]
            for box in (page.mediabox, page.cropbox, page.bleedbox, page.trimbox)
        )
        for outer, inner in ((media, crop), (crop, bleed), (bleed, trim)):
            assert all(o <= i for o, i in zip(outer[:2], inner[:2], strict=True))
            assert all(o >= i for o, i in zip(outer[2:], inner[2:], strict=True))
        assert [t - b for b, t in zip(bleed, trim, strict=True)] == [BLEED, BLEED, -BLEED, -BLEED]


def no_user_unit(pdf: pikepdf.Pdf) -> None:
    assert "/UserUnit" not in keys_in(pdf)


Drawn = tuple[Any, dict[int, float], set[int]]
"""A descendant font, the widths that it tells, the codes that pages draw of it."""


def fonts_of(pdf: pikepdf.Pdf) -> list[Drawn]:
    found: dict[str, Drawn] = {}
    for page in pdf.pages:
        name = ""
        steps: list[Any] = list(pikepdf.parse_content_stream(page))
        for operands, operator in steps:
            if str(operator) == "Tf":
                name = str(operands[0])
                below = page.Resources.Font[name].DescendantFonts[0]
                told = list(below.W)
                widths = {
                    int(code): float(each[0])
                    for code, each in zip(told[::2], told[1::2], strict=True)
                }
                found.setdefault(name, (below, widths, set()))
            elif str(operator) == "Tj":
                found[name][2].add(int.from_bytes(bytes(operands[0]), "big"))
    return list(found.values())


def program_of(below: Any) -> tuple[dict[int, float], int]:  # noqa: ANN401 - pikepdf's objects
    """The widths in a font's program by its letters' numbers, and how many units an em has."""
    described = below.FontDescriptor
    if "/FontFile2" in described:
        font = TTFont(io.BytesIO(described.FontFile2.read_bytes()))
        names, table = font.getGlyphOrder(), font["glyf"]
        drawn = {at: name for at, name in enumerate(names) if table[name].numberOfContours}
        metrics = font["hmtx"]
        return {at: metrics[name][0] for at, name in drawn.items()}, font["head"].unitsPerEm
    fonts = CFFFontSet()
    fonts.decompile(io.BytesIO(described.FontFile3.read_bytes()), TTFont())
    widths = {}
    for name in fonts[0].charset[1:]:
        drawn_letter = fonts[0].CharStrings[name]
        drawn_letter.draw(NullPen())
        widths[int(name[3:])] = drawn_letter.width
    return widths, round(1 / fonts[0].FontMatrix[0])


def fonts_are_embedded(pdf: pikepdf.Pdf) -> None:
    named = [each for each in objects(pdf) if isinstance(each, pikepdf.Dictionary)]
    described = [each for each in named if each.get("/Type") == "/FontDescriptor"]
    fonts = [each for each in named if each.get("/Type") == "/Font"]
    assert len(fonts) == 2 * len(described)
    for each in described:
        assert ("/FontFile2" in each) != ("/FontFile3" in each)


def fonts_hold_what_is_drawn(pdf: pikepdf.Pdf) -> None:
    for below, _, codes in fonts_of(pdf):
        assert program_of(below)[0].keys() == codes


def widths_agree(pdf: pikepdf.Pdf) -> None:
    for below, widths, _ in fonts_of(pdf):
        own, units = program_of(below)
        assert own.keys() == widths.keys()
        assert all(abs(own[code] * 1000 / units - widths[code]) < 0.001 for code in own)


def fonts_map_to_characters(pdf: pikepdf.Pdf) -> None:
    for page in pdf.pages:
        for font in page.Resources.get("/Font", {}).values():
            told = font.ToUnicode.read_bytes()
            mapped = {int(code, 16) for code in re.findall(rb"<([0-9A-F]{4})> <[0-9A-F]{4}", told)}
            assert mapped >= set.union(*(codes for *_, codes in fonts_of(pdf)))


def colours_fit_the_intent(pdf: pikepdf.Pdf) -> None:
    spaces = [each for each in objects(pdf) if isinstance(each, pikepdf.Array)]
    assert [str(space[0]) for space in spaces if space[0] == "/Separation"] == ["/Separation"]
    assert spaces[0][2] == "/DeviceCMYK"
    operators = {
        str(step.operator) for page in pdf.pages for step in pikepdf.parse_content_stream(page)
    }
    letters = {"BT", "Tf", "Td", "Tj", "ET"} if fonts_of(pdf) else {"Do"}
    assert operators == {"cs", "scn", "cm", "q", "Q"} | letters


def one_alternate_for_a_name(pdf: pikepdf.Pdf) -> None:
    named = [str(each[1]) for each in objects(pdf) if isinstance(each, pikepdf.Array)]
    assert len(named) == len(set(named)) == 1


def no_annotations(pdf: pikepdf.Pdf) -> None:
    assert "/Annots" not in keys_in(pdf)


def no_forms(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/AcroForm", "/XFA", "/FT"}


def no_actions(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/OpenAction", "/AA", "/A", "/JS", "/JavaScript", "/URI"}


def no_media(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/Movie", "/Sound", "/RichMediaContent", "/3DD"}


def no_alternates(pdf: pikepdf.Pdf) -> None:
    assert "/Alternates" not in keys_in(pdf)
    assert all(each.get("/Subtype") != "/Image" for each in streams(pdf))


def streams(pdf: pikepdf.Pdf) -> list[pikepdf.Stream]:
    return [each for each in objects(pdf) if isinstance(each, pikepdf.Stream)]


def no_opi(pdf: pikepdf.Pdf) -> None:
    assert "/OPI" not in keys_in(pdf)


def no_postscript(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/PS", "/Ref", "/Subtype2"}


def no_transfer_curves(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/ExtGState", "/TR", "/TR2", "/HT", "/BG", "/UCR"}


def no_lzw(pdf: pikepdf.Pdf) -> None:
    assert {str(each.get("/Filter", "none")) for each in streams(pdf)} == {"/FlateDecode", "none"}


def no_layers(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/OCProperties", "/OC", "/OCGs"}


def no_embedded_files(pdf: pikepdf.Pdf) -> None:
    assert not keys_in(pdf) & {"/EmbeddedFiles", "/EF", "/AF"}


CHECKS: dict[str, Callable[[pikepdf.Pdf], None]] = {
    name: value
    for name, value in dict(globals()).items()
    if callable(value) and name in {row["check"] for row in ROWS}
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["check"])
def test_the_plate_meets_the_requirement(row: dict[str, str], pdf: pikepdf.Pdf) -> None:
    CHECKS[row["check"]](pdf)


def test_every_requirement_has_its_source_and_says_whether_it_was_read() -> None:
    assert len(ROWS) == len(CHECKS) >= 30
    for row in ROWS:
        assert row["requirement"].endswith(".")
        assert row["source"]
        assert "read" in row["basis"] or "memory" in row["basis"] or "our own" in row["basis"]


def test_the_judge_proves_it(job: Job) -> None:
    verdict = judge_plate(job.path, job.order, job.setting, job.pieces)
    assert verdict.faults == ()


def test_qpdf_finds_nothing_to_mend(job: Job) -> None:
    with pikepdf.open(job.path) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_ghostscript_separates_the_one_ink(job: Job, ghostscript: str, tmp_path: Path) -> None:
    ran = subprocess.run(  # noqa: S603
        [
            ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", "-r36",
            f"-sOutputFile={tmp_path}/p%d.tif", str(job.path),
        ],
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "", "")
    names = {path.name for path in tmp_path.glob("p1*.tif")}
    assert {name for name in names if "(" in name} >= {"p1(White).tif"}


HURT: dict[str, tuple[bytes, bytes]] = {
    "another standard": (b"<pdfxid:GTS_PDFXVersion>PDF/X-4<", b"<pdfxid:GTS_PDFXVersion>PDF/X-3<"),
    "another condition": (b"(FOGRA51)", b"(FOGRA39)"),
    "another subtype": (b"/S /GTS_PDFX", b"/S /GTS_PDFA"),
    "another registry": (b"http://www.color.org)", b"http://www.colour.or)"),
    "another day in Info": (b"/ModDate (D:20260310", b"/ModDate (D:20260311"),
    "another day in XMP": (b"ModifyDate>2026-03-10", b"ModifyDate>2026-03-11"),
    "a profile of three inks": (b"/N 4 ", b"/N 3 "),
    "trapped": (b"/Trapped /False", b"/Trapped /True "),
    "no version in Info": (b"/GTS_PDFXVersion (PDF/X-4)", b"/GTS_PDFXVersion (PDF/X-3)"),
    "another bleed": (b"/BleedBox [0 0 ", b"/BleedBox [1 0 "),
    "no bleed at all": (b"[0 0 540 396] /TrimBox", b"[9 9 531 387] /TrimBox"),
    "a trim of another size": (b"/TrimBox [9 9 ", b"/TrimBox [8 9 "),
    "another identity": (b"uuid:", b"uuiD:"),
}


@pytest.mark.parametrize("hurt", HURT)
def test_the_judge_finds_each_hurt(hurt: str, job: Job, tmp_path: Path) -> None:
    was, now = HURT[hurt]
    data = job.path.read_bytes()
    assert was in data
    path = tmp_path / "plate.pdf"
    path.write_bytes(sealed(data.replace(was, now)))
    verdict = judge_plate(path, job.order, job.setting, job.pieces)
    assert not verdict.proved
    assert not any("changed after it was written" in fault for fault in verdict.faults)


def sealed(data: bytes) -> bytes:
    """The same bytes with the ID of what they are now; no length may have changed."""
    table = data.rindex(b"\nxref\n") + 1
    seal = hashlib.sha256(data[:table]).hexdigest()[:32].upper().encode()
    head, tail = data[:table], data[table:]
    return head + re.sub(rb"<[0-9A-F]{32}>", b"<" + seal + b">", tail)


def test_a_plain_plate_may_not_pass_for_one_and_one_for_a_plain_plate(
    job: Job, tmp_path: Path
) -> None:
    plain = replace(job.order, exchange=None)
    assert not judge_plate(job.path, plain, job.setting, job.pieces).proved
    path = tmp_path / "plain.pdf"
    job.write(path, plain)
    assert judge_plate(path, plain, job.setting, job.pieces).proved
    assert not judge_plate(path, job.order, job.setting, job.pieces).proved
