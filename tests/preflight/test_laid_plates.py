"""Plates for a device's page: turned, on a sheet, corrected; and what the judge says of others."""

import re
import zlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.preflight.laying import laid
from addressing.preflight.values import Objection
from addressing.records.affine import on_page, piece_box
from addressing.records.lays import Calibration, Edges, Lay
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.shelf import Box
from addressing.typesetting import stream

if TYPE_CHECKING:
    from plate_drafts import Job

    from addressing.records.pages import Setting

EDGES = Edges(14.0, 14.0, 14.0, 14.0)
SKEWED = Calibration("trial", (1.003, 0.005, 3.25), (-0.004, 0.998, -1.75), 0.1, 4)
LAYS = {
    "envelope": Lay("envelope", (522.0, 378.0), 0, 90, "left", 0.0, EDGES),
    "corrected": Lay("envelope", (522.0, 378.0), 0, 90, "left", 0.0, EDGES, SKEWED),
    "turned": Lay("turned", (378.0, 522.0), 90, 90, "left", 0.0, EDGES),
    "upside down": Lay("turned", (522.0, 378.0), 180, 180, "left", 0.0, EDGES),
    "turned and corrected": Lay("turned", (378.0, 522.0), 270, 270, "left", 0.0, EDGES, SKEWED),
    "on a sheet": Lay("sheet", (612.0, 792.0), 270, 270, "centre", 0.0, EDGES),
    "at the right": Lay("sheet", (595.2755905511812, 841.89), 90, 90, "right", 0.0, EDGES, SKEWED),
    "carried": Lay("carrier", (612.0, 792.0), 0, 0, "centre", 200.125, EDGES),
}


def made(job: "Job", path: Path, order: PlateOrder) -> Verdict:
    pages, outlines = stream(job.setting)
    write_plate(path, order, pages, outlines)
    return judge_plate(path, order, job.setting, job.pieces)


@pytest.fixture
def job(drafts: ModuleType) -> "Job":
    made: Job = drafts.job_of(3)
    return made


@pytest.mark.parametrize("name", LAYS)
def test_a_laid_plate_is_proved_with_its_boxes_and_by_pixels(
    job: "Job", name: str, tmp_path: Path
) -> None:
    lay, path = LAYS[name], tmp_path / "plate.pdf"
    verdict = made(job, path, replace(job.order, lay=lay))
    assert verdict.faults == ()
    assert dict(verdict.counted)["pages seen as pixels"] == 3
    with pikepdf.open(path) as pdf:
        page = pdf.pages[1]
        assert [float(n) for n in page.MediaBox] == pytest.approx([0, 0, *lay.page], abs=5e-4)
        box = piece_box(lay, job.order.trim)
        edges = [box.left, box.bottom, box.right, box.top]
        assert [float(n) for n in page.TrimBox] == pytest.approx(edges, abs=5e-4)
        assert list(page.BleedBox) == list(page.TrimBox)
        steps = re.findall(rb"^.* cm$", page.Contents.read_bytes(), re.MULTILINE)
        assert (not steps[0].startswith(b"q")) == (name != "envelope")


def test_an_envelope_as_its_own_page_has_the_bytes_of_one_without_a_device(
    job: "Job", tmp_path: Path
) -> None:
    plain, laid_so = tmp_path / "plain.pdf", tmp_path / "laid.pdf"
    made(job, plain, job.order)
    made(job, laid_so, replace(job.order, lay=LAYS["envelope"]))
    assert plain.read_bytes() == laid_so.read_bytes()


def ink(path: Path) -> tuple[float, ...]:
    """Where pdfium sees the first page's paths, in points: left, bottom, right, top."""
    document = pypdfium2.PdfDocument(path)
    try:
        bitmap = document[0].render(scale=4).to_pil().convert("L").point(lambda v: 255 * (v < 250))
        height = bitmap.height
        left, top, right, bottom = bitmap.getbbox() or (0, 0, 0, 0)
    finally:
        document.close()
    return left / 4, (height - bottom) / 4, right / 4, (height - top) / 4


def test_a_turned_plate_turned_back_shows_the_same_ink(job: "Job", tmp_path: Path) -> None:
    upright, turned = tmp_path / "upright.pdf", tmp_path / "turned.pdf"
    made(job, upright, job.order)
    made(job, turned, replace(job.order, lay=LAYS["turned"]))
    left, bottom, right, top = ink(turned)
    # a quarter anticlockwise: what was x is the height now, what was y comes from the right
    assert (bottom, 378 - right, top, 378 - left) == pytest.approx(ink(upright), abs=0.6)


def test_the_judge_s_places_are_those_of_the_plate_though_they_share_no_code(job: "Job") -> None:
    for lay in LAYS.values():
        at, trim = laid(replace(job.order, lay=lay)), job.order.trim
        a, b, c, d, e, f = on_page(lay, trim)
        assert at.numbers == pytest.approx((a, b, c, d, e, f), abs=1e-9)


Step = Callable[[bytes], bytes]
TAMPERS: dict[str, Step] = {
    "moved by 0.001 pt": lambda s: s.replace(b" 0 522 cm", b" 0 522.001 cm"),
    "another spelling": lambda s: s.replace(b"0 -1 1 0", b"0 -1.0 1 0"),
    "turned the other way": lambda s: s.replace(b"0 -1 1 0 0 522 cm", b"0 1 -1 0 378 0 cm"),
    "mirrored": lambda s: s.replace(b"0 -1 1 0 0 522 cm", b"0 -1 -1 0 378 522 cm"),
    "no step": lambda s: s.replace(b"0 -1 1 0 0 522 cm\n", b""),
    "two steps": lambda s: s.replace(b"0 522 cm\n", b"0 522 cm\n1 0 0 1 0 0 cm\n"),
    "a stretch of one in ten million": lambda s: s.replace(b"0 -1 1 0", b"0 -1 1.0000001 0"),
}


@pytest.mark.parametrize("hurt", TAMPERS)
def test_a_step_that_is_not_the_order_s_is_refused(job: "Job", hurt: str, tmp_path: Path) -> None:
    lay = replace(LAYS["turned"], turn=270, feed=270)
    order, path = replace(job.order, lay=lay), tmp_path / "plate.pdf"
    assert made(job, path, order).proved
    data = path.read_bytes()
    streams = [
        (m.start(1), m.end(1))
        for m in re.finditer(rb"stream\n(.*?)\nendstream", data, re.DOTALL)
        if b" Do\n" in zlib.decompress(m[1])
    ]
    start, end = streams[0]
    plain = zlib.decompress(data[start:end])
    changed = TAMPERS[hurt](plain)
    assert changed != plain
    draft = job.draft
    draft.streams[draft.contents[0]] = changed
    for number in draft.contents[1:]:
        draft.streams[number] = draft.streams[number].replace(
            b"1 scn\n", b"1 scn\n0 -1 1 0 0 522 cm\n"
        )
    for number in draft.pages:
        draft.texts[number] = draft.texts[number].replace(b"522 378", b"378 522")
    verdict = replace(job, order=order).judge(tmp_path / "hurt.pdf")
    assert [fault for fault in verdict.faults if "Page 1" in fault]
    assert not [fault for fault in verdict.faults if "Page 2" in fault]


def test_a_plate_for_another_lay_is_refused(job: "Job", tmp_path: Path) -> None:
    path = tmp_path / "plate.pdf"
    made(job, path, replace(job.order, lay=LAYS["on a sheet"]))
    for other in ("envelope", "turned", "at the right", "carried"):
        order = replace(job.order, lay=LAYS[other])
        assert judge_plate(path, order, job.setting, job.pieces).faults, other


def test_a_room_beyond_what_the_device_can_ink_is_refused(job: "Job", tmp_path: Path) -> None:
    wide: Setting = replace(job.setting, room=Box(90.0, 80.0, 322.0, 200.0))
    for edges, right in ((Edges(14, 95, 14, 14), False), (Edges(95, 14, 14, 14), True)):
        # a quarter turn anticlockwise: the right side leads, the left side trails
        lay = replace(LAYS["turned"], edges=edges)
        path = tmp_path / "plate.pdf"
        pages, outlines = stream(wide)
        order = replace(job.order, lay=lay)
        write_plate(path, order, pages, outlines)
        faults = judge_plate(path, order, wide, job.pieces).faults
        told = "The room for ink reaches where the device can't print." in faults
        assert told is not right


@pytest.mark.parametrize(
    "lay",
    [
        replace(LAYS["turned"], turn=45),
        replace(LAYS["turned"], way="rolled"),
        replace(LAYS["turned"], side="top"),
        replace(LAYS["turned"], page=(300.0, 522.0)),
        replace(LAYS["turned"], calibration=Calibration("no", (1, 1, 0), (1, 1, 0), 0.0, 4)),
        replace(LAYS["turned"], calibration=Calibration("far", (1, 0, 90), (0, 1, 0), 0.0, 4)),
    ],
    ids=["half a quarter", "no such way", "no such side", "beyond", "flat", "far"],
)
def test_a_lay_that_can_not_be_is_no_order(job: "Job", lay: Lay) -> None:
    with pytest.raises(Objection):
        laid(replace(job.order, lay=lay))
