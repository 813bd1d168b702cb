"""Sheets of several cards, proved: each card once and at its place, marks only outside of cards."""

import hashlib
import re
import subprocess
import sys
import zlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from addressing import hands
from addressing.job.drawing import draw_sheets
from addressing.plates import bind_plate, plan_sheet
from addressing.preflight import judge_plate, pixels
from addressing.preflight.bench import Bench
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.sheets import SheetChoice
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit

LETTER = (612.0, 792.0)
NAMES = (
    "Tobias Penhew", "Ottoline Grayling", "Ingrid Halvorsby", "Cosmo Larkmoor", "Ida Quill",
    "Aurelia Wexcombe", "Gideon Farrenby", "Odile Thornquill", "Ambrose Vesper", "Tansley Row",
)  # fmt: skip


LEVEL = Zone("reply", Box(20, 20, 212, 104), "centre", "middle")


class Job:
    """Ten cards of 3½ by 2 in on sheets, and what the judge is given."""

    def __init__(
        self, folder: Path, face: Face, ink: Ink, choice: SheetChoice, zone: Zone = LEVEL
    ) -> None:
        self.path = folder / "01-reply-white.pdf"
        safe = Box(10, 10, 232, 124)
        layout = Layout("card", "Card", 252, 144, "square", 0, (zone,), safe, (), "made up")
        self.pieces = tuple(
            Piece("reply", f"h-{n}", "", (Wording((Line(words, Role.NAME),)),))
            for n, words in enumerate(NAMES)
        )
        chosen = PieceChoice("reply", "card", face.key, ink.key, "ivory", size=14.0)
        self.setting, _ = fit(self.pieces, chosen, layout, face, ink, 0.0)
        self.at = plan_sheet(choice, LETTER, (252.0, 144.0))
        if choice == CHOICES["turned round"]:
            self.at = replace(self.at, reverse=True)
        self.order = PlateOrder(
            "01-reply-white", "reply", ink, (252.0, 144.0), tuple(p.household for p in self.pieces),
            1, "0.1.0", sheets=self.at,
        )  # fmt: skip
        self.write(self.setting, self.order)

    def write(self, setting: Setting, order: PlateOrder) -> None:
        """Sheets of a setting; the judge is asked about the job's own."""
        sheaves, outlines = draw_sheets([(order, setting)])
        bind_plate(self.path, order, sheaves, outlines)

    def judge(self) -> Verdict:
        return judge_plate(self.path, self.order, self.setting, self.pieces)


CHOICES = {
    "cut and stacked": SheetChoice("reply"),
    "in rows": SheetChoice("reply", order="rows"),
    "with gutters and a fold": SheetChoice("reply", gutter=6.0, folds=(25.4,)),
    "turned": SheetChoice("reply", turned=True),
    "turned round": SheetChoice("reply", across=1, down=2),
    "two by two, mirrored": SheetChoice("reply", across=2, down=2, back=True),
}


@pytest.fixture
def job(tmp_path: Path, script: Face, white: Ink) -> Job:
    """Ten cards, eight up: two sheets."""
    return Job(tmp_path, script, white, SheetChoice("reply", across=2, down=4))


@pytest.mark.parametrize("how", CHOICES)
def test_right_sheets_are_proved(how: str, tmp_path: Path, script: Face, white: Ink) -> None:
    job = Job(tmp_path, script, white, CHOICES[how])
    verdict = job.judge()
    assert verdict.faults == ()
    counted = dict(verdict.counted)
    assert counted["cards"] == 10
    assert counted["pages"] == counted["pages seen as pixels"] == job.order.pages


def test_of_many_sheets_those_are_seen_on_which_a_letter_stands_first(
    tmp_path: Path, script: Face, white: Ink, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(hands, "SEVERAL", False)
    monkeypatch.setattr(pixels, "ALL_UP_TO", 1)
    monkeypatch.setattr(pixels, "SAMPLE", 2)
    looked: list[int] = []
    real = pixels.pixel_faults

    def look(layers: Sequence[Bench], indices: Sequence[int]) -> Iterator[tuple[int, str]]:
        looked.extend(indices)
        return real(layers, indices)

    monkeypatch.setattr(pixels, "pixel_faults", look)
    job = Job(tmp_path, script, white, SheetChoice("reply", across=1, down=1, order="rows"))
    assert job.judge().faults == ()
    assert pixels.sample(10) == (0, 9)
    assert set(looked) >= {0, 1, 4, 9}  # with a first O for Ottoline, a first Q for Quill


UNEVEN = {
    "on an arch": replace(LEVEL, align="arch", radius=180.0),
    "in a bowl": replace(LEVEL, align="bowl", radius=180.0),
    "turned by a quarter": replace(LEVEL, turn=90),
    "turned by three, on an arch": replace(LEVEL, turn=270, align="arch", radius=180.0),
}


@pytest.mark.parametrize("uneven", UNEVEN)
def test_lines_that_are_bent_or_turned_are_proved_on_sheets(
    uneven: str, tmp_path: Path, script: Face, white: Ink
) -> None:
    choice = SheetChoice("reply", gutter=6.0)
    job = Job(tmp_path, script, white, choice, UNEVEN[uneven])
    verdict = job.judge()
    assert verdict.faults == ()
    assert dict(verdict.counted)["cards"] == 10
    for hurt in ("a card's line left out", "a card drawn twice"):
        job.write(job.setting, job.order)
        changed(job, HURT[hurt])
        assert not job.judge().proved
    job.write(replace(job.setting, zone=LEVEL), job.order)
    assert not job.judge().proved


def test_an_ink_in_a_process_slot_is_proved_too(tmp_path: Path, script: Face, white: Ink) -> None:
    job = Job(tmp_path, script, replace(white, channel="black"), SheetChoice("reply"))
    assert job.judge().faults == ()


def test_two_cards_that_changed_places_are_found(job: Job) -> None:
    pieces = list(job.setting.pieces)
    pieces[3], pieces[4] = pieces[4], pieces[3]
    job.write(replace(job.setting, pieces=tuple(pieces)), job.order)
    assert not job.judge().proved


def test_sheets_in_another_order_than_was_ordered_are_found(job: Job) -> None:
    job.order = replace(job.order, sheets=replace(job.at, order="rows"))
    assert not job.judge().proved


def test_a_card_twice_in_the_order_is_found(job: Job) -> None:
    households = ("h-0", "h-0", *job.order.households[2:])
    job.order = replace(job.order, households=households)
    assert any("h-0 2 times" in fault for fault in job.judge().faults)


def changed(job: Job, change: Callable[[bytes], bytes]) -> None:
    """Change what the first sheet draws; table and ID are made to fit."""
    data = job.path.read_bytes()
    table = data.rindex(b"\nxref\n") + 1
    trailer = data[table:]
    objects = re.findall(rb"([0-9]+) 0 obj\n(.*?)\nendobj\n", data[:table], re.DOTALL)
    out, places, done = bytearray(data[:15]), {}, False
    for number, body in objects:
        found = re.match(rb"<< /Length [0-9]+ /Filter /FlateDecode >>\nstream\n", body)
        if found and not done:
            packed = zlib.compress(change(zlib.decompress(body[found.end() : -10])), 4)
            body = b"<< /Length %d /Filter /FlateDecode >>\nstream\n%b\nendstream" % (  # noqa: PLW2901
                len(packed), packed,
            )  # fmt: skip
            done = True
        places[int(number)] = len(out)
        out += b"%b 0 obj\n%b\nendobj\n" % (number, body)
    seal = hashlib.sha256(out).hexdigest()[:32].upper().encode()
    start = len(out)
    out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(places) + 1)
    out += b"".join(b"%010d 00000 n \n" % places[n] for n in sorted(places))
    end = trailer[trailer.index(b"trailer") :]
    end = re.sub(rb"<[0-9A-F]{32}>", b"<" + seal + b">", end)
    out += re.sub(rb"startxref\n[0-9]+", b"startxref\n%d" % start, end)
    job.path.write_bytes(bytes(out))


HURT: dict[str, Callable[[bytes], bytes]] = {
    "a mark more": lambda drawn: drawn.replace(b" re\nf\n", b" re\n100 200 20 0.25 re\nf\n", 1),
    "a mark less": lambda drawn: re.sub(rb"\n[^\n]* re\nf\n", b"\nf\n", drawn, count=1),
    "a mark moved on to a card": lambda drawn: re.sub(
        rb"\n[0-9.]+ [0-9.]+ 0.25 ", b"\n60 120 0.25 ", drawn, count=1
    ),
    "a thicker mark": lambda drawn: drawn.replace(b" 0.25 11.339 re", b" 2 11.339 re", 1),
    "a card's line left out": lambda drawn: re.sub(rb"q [^Q]*Q\n", b"", drawn, count=1),
    "a card drawn twice": lambda drawn: drawn + re.findall(rb"q [^Q]*Q\n", drawn)[0],
    "the foot line left out": lambda drawn: drawn[: drawn.rindex(b"q ")],
    "another ink": lambda drawn: drawn.replace(b"1 scn", b"0.5 scn", 1),
}


@pytest.mark.parametrize("hurt", HURT)
def test_each_hurt_of_a_sheet_is_found(hurt: str, job: Job) -> None:
    changed(job, lambda drawn: drawn)
    assert job.judge().faults == ()
    whole = job.path.read_bytes()
    changed(job, HURT[hurt])
    assert job.path.read_bytes() != whole
    verdict = job.judge()
    assert not verdict.proved
    assert not any("changed after it was written" in fault for fault in verdict.faults)


def test_pdfium_finds_ink_in_every_place_and_nothing_between_cards(
    tmp_path: Path, script: Face, white: Ink
) -> None:
    # ten cards, eight up, in rows: the first sheet is full; by pixels, without our geometry
    job = Job(tmp_path, script, white, SheetChoice("reply", across=2, down=4, order="rows"))
    document = pdfium.PdfDocument(job.path)
    bitmap = document[0].render(scale=1, grayscale=True)
    raw, wide = bytes(bitmap.buffer), bitmap.stride
    for top in (108, 252, 396, 540):  # from the sheet's upper edge
        for left in (54, 306):
            inside = b"".join(
                raw[row * wide + left + 12 : row * wide + left + 240]
                for row in range(top + 12, top + 132)
            )
            assert min(inside) < 255
            frame = b"".join(
                raw[row * wide + left + 2 : row * wide + left + 250] for row in (top + 3, top + 141)
            )
            assert min(frame) == 255
    document.close()


def test_ghostscript_finds_the_sheet_in_its_one_ink(
    job: Job, ghostscript: str, tmp_path: Path
) -> None:
    ran = subprocess.run(  # noqa: S603
        [
            ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=inkcov", "-o", "-",
            str(job.path),
        ],
        capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert len(ran.stdout.splitlines()) == job.order.pages
    separated = [ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", "-r36"]
    ran = subprocess.run(  # noqa: S603
        [*separated, f"-sOutputFile={tmp_path}/s%d.tif", str(job.path)],
        capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert (tmp_path / "s1(White).tif").is_file()


def test_a_card_whose_letters_stand_closer_is_drawn_so_on_its_sheet(
    tmp_path: Path, script: Face, white: Ink, monkeypatch: pytest.MonkeyPatch
) -> None:
    long = "Professor Emeritus Aurelia Thornquill-Larkmoor"
    monkeypatch.setattr(sys.modules[__name__], "NAMES", (*NAMES[:4], long, *NAMES[5:]))
    job = Job(tmp_path, script, white, SheetChoice("reply"))
    assert any(line.tighter for piece in job.setting.pieces for line in piece.lines)
    assert job.judge().faults == ()
