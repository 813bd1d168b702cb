"""One file for all inks of a piece: each layer holds what its plate apart would, and overprints."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import numpy as np
import pikepdf
import pytest
from PIL import Image

from addressing.job.orders import ORDERS, read_orders
from addressing.preflight import judge_plate
from addressing.records.kept import KeptOrder

OF_GHOSTSCRIPT = Path("/usr/share/color/icc/ghostscript/default_cmyk.icc")
LIST = """\
Name,Street,City,State,Zip
Mr. Tobias Wexcombe,12 Larkmoor Lane,Litchfield,CT,06759
Ms. Odile Farrenby,14 Larkmoor Lane,Litchfield,CT,06759
"""
SHOP = """\
title = "Hollin Works"
margin_mm = 6.0
inks = {{ White = "HW White", Gold = "HW Gold", Black = "Black" }}
[files]
plates = "{plates}"
bleed_mm = {bleed}
{more}
"""
DOCKET = """\
[job]
date = "2026-05-30"
[shop]
name = "{shop}"
[pieces]
make = ["outer"]
[[piece]]
kind = "outer"
ink = "Gold"
face = "eb-garamond"
underbase = "White"
choke_mm = 0.03
[piece.address]
ink = "Black"
"""
X4 = 'standard = "pdf/x-4"\ncondition = "FOGRA51"\nprofile = "press.icc"'


def made(desk: Path, plates: str, *, bleed: float = 0.0, more: str = "") -> Path:
    """The folder of a job for a shop that wants its plates so."""
    shops = desk / "shops"
    shops.mkdir(exist_ok=True)
    (desk / "guests.csv").write_text(LIST, encoding="utf-8")
    shop = SHOP.format(plates=plates, bleed=bleed, more=more)
    (shops / f"{plates}.toml").write_text(shop, encoding="utf-8")
    (desk / "job.toml").write_text(DOCKET.format(shop=plates), encoding="utf-8")
    ran = subprocess.run(  # noqa: S603 - our own command
        [
            sys.executable, "-m", "addressing", "plates", "guests.csv", "--docket", "job.toml",
            "--to", f"{plates}-job",
        ],
        cwd=desk, capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    return desk / f"{plates}-job"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("composites")


@pytest.fixture(scope="module")
def composite(desk: Path) -> Path:
    return made(desk, "composite", bleed=3.0)


def plates_of(folder: Path) -> list[Path]:
    return sorted((folder / "plates").iterdir())


def kept(folder: Path) -> KeptOrder:
    (only,) = read_orders(folder / ORDERS, [folder.parent]).orders
    return only


def faults_of(path: Path, ordered: KeptOrder) -> tuple[str, ...]:
    return judge_plate(path, ordered.order, ordered.setting, ordered.pieces).faults


def test_a_piece_in_three_inks_is_one_file_with_three_layers(composite: Path) -> None:
    assert [path.name for path in plates_of(composite)] == ["01-outer-hw-white-hw-gold-black.pdf"]
    with pikepdf.open(plates_of(composite)[0]) as pdf:
        assert pdf.check_pdf_syntax() == []
        for page in pdf.pages:
            spaces = [str(space[1]) for space in page.Resources.ColorSpace.values()]
            assert spaces == ["/HW White", "/HW Gold"]
            drawn = page.Contents.read_bytes()
            order = [drawn.index(ink) for ink in (b"/Over gs", b"/Ink1 cs", b"/Ink2 cs", b"1 k\n")]
            assert order == sorted(order)


def separated(ghostscript: str, path: Path, out: Path) -> dict[str, np.ndarray]:
    """Each page and ink as Ghostscript separates it, where there is any."""
    out.mkdir()
    command = [ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep", "-r72"]
    subprocess.run([*command, f"-sOutputFile={out}/p%d.tif", str(path)], check=True)  # noqa: S603
    seen = {}
    for tif in out.glob("p*(*).tif"):
        with Image.open(tif) as picture:
            grey = np.asarray(picture.convert("L"))
        if grey.min() < 255:
            seen[tif.stem] = grey
    return seen


@pytest.mark.ghostscript
@pytest.mark.parametrize("more", ["", X4], ids=["plain", "x-4"])
def test_each_separation_is_that_of_the_plate_apart(
    tmp_path: Path, ghostscript: str, more: str
) -> None:
    if more and not OF_GHOSTSCRIPT.is_file():
        pytest.skip("no profile of a press here")
    (tmp_path / "shops").mkdir()
    if more:
        (tmp_path / "shops" / "press.icc").write_bytes(OF_GHOSTSCRIPT.read_bytes())
    (whole,) = plates_of(made(tmp_path, "composite", bleed=3.0, more=more))
    together = separated(ghostscript, whole, tmp_path / "whole")
    parts: dict[str, np.ndarray] = {}
    for path in plates_of(made(tmp_path, "apart", bleed=3.0, more=more)):
        own = separated(ghostscript, path, tmp_path / path.stem)
        assert len(own) == 2, "one ink on each of two pages"
        parts |= own
    assert together.keys() == parts.keys()
    assert len(parts) == 6
    for name, seen in together.items():
        assert np.array_equal(seen, parts[name]), name


def swapped(drawn: bytes) -> bytes:
    """The gold layer before the white one."""
    head, white, rest = re_split(drawn)
    gold, black = rest
    return head + gold + white + black


def re_split(drawn: bytes) -> tuple[bytes, bytes, tuple[bytes, bytes]]:
    one, two, three = (drawn.index(ink) for ink in (b"/Ink1 cs", b"/Ink2 cs", b"0 0 0 1 k"))
    return drawn[:one], drawn[one:two], (drawn[two:three], drawn[three:])


def without_gold(drawn: bytes) -> bytes:
    head, white, (_, black) = re_split(drawn)
    return head + white + black


def line_to_the_other_ink(drawn: bytes) -> bytes:
    """The first line of the address in gold too, and no longer in black."""
    head, white, (gold, black) = re_split(drawn)
    opening, line, rest = black.partition(b"q ")[0], *black.partition(b"q ")[2].split(b"Q\n", 1)
    return head + white + gold + b"q " + line + b"Q\n" + opening + rest


REDRAWN: dict[str, Callable[[bytes], bytes]] = {
    "no overprint on a page": lambda d: d.replace(b"/Over gs\n", b""),
    "overprint said later": lambda d: d.replace(b"/Over gs\n", b"").replace(
        b"/Ink2 cs", b"/Over gs\n/Ink2 cs"
    ),
    "layers swapped": swapped,
    "a layer left out": without_gold,
    "a layer left empty": lambda d: d[: d.index(b"/Ink2 cs")] + b"/Ink2 cs 1 scn\n0 0 0 1 k\n",
    "a layer twice": lambda d: d + re_split(d)[2][0],
    "gold drawn in white": lambda d: d.replace(b"/Ink2 cs 1 scn", b"/Ink1 cs 1 scn"),
    "gold at half strength": lambda d: d.replace(b"/Ink2 cs 1 scn", b"/Ink2 cs 0.5 scn"),
    "black of four inks": lambda d: d.replace(b"0 0 0 1 k", b"0.6 0.4 0.4 1 k"),
    "black as grey": lambda d: d.replace(b"0 0 0 1 k", b"0 g"),
    "a line in the other ink": line_to_the_other_ink,
    "white knocked out by paper": lambda d: d.replace(
        b"/Ink2 cs", b"0 0 0 0 k\n0 0 99 99 re\nf\n/Ink2 cs"
    ),
    "a second step": lambda d: d.replace(b"/Ink2 cs 1 scn\n", b"/Ink2 cs 1 scn\n1 0 0 1 1 0 cm\n"),
    "the whole letter for its base": lambda d: d.replace(b"/g4194", b"/g", 1),
    "a layer saved and restored": lambda d: d.replace(b"/Ink2 cs", b"q\n/Ink2 cs") + b"Q\n",
}  # fmt: skip


@pytest.mark.parametrize("tamper", REDRAWN)
def test_a_page_that_was_tampered_with_is_refused(
    tmp_path: Path, composite: Path, taken_apart: ModuleType, tamper: str
) -> None:
    path = tmp_path / "plate.pdf"
    path.write_bytes(plates_of(composite)[0].read_bytes())
    ordered = kept(composite)
    assert faults_of(path, ordered) == ()
    plate = taken_apart.Plate(path)
    before = dict(plate.objects)
    plate.redraw(plate.contents(2), REDRAWN[tamper])
    assert plate.objects != before
    plate.write()
    assert faults_of(path, ordered)


REWRITTEN: dict[str, tuple[bytes, bytes]] = {
    "overprint off for fills": (b" /op true", b""),
    "overprint off for lines": (b"/OP true ", b""),
    "noughts of CMYK knock out": (b"/OPM 1", b"/OPM 0"),
    "see-through": (b"/OPM 1 >>", b"/OPM 1 /ca 0.5 >>"),
    "inks swapped by name": (b"/Separation /HW#20Gold", b"/Separation /HW#20White"),
    "another ink": (b"/Separation /HW#20Gold", b"/Separation /HW#20Silver"),
    "an ink called black": (b"/Separation /HW#20Gold", b"/Separation /Black"),
    "for all plates": (b"/Separation /HW#20Gold", b"/Separation /All"),
    "another alternate": (b"/C1 [0.15 0.35 0.8 0.1]", b"/C1 [0.15 0.35 0.8 0.2]"),
    "overprint named otherwise": (b"/Over <<", b"/Other <<"),
    "one state more": (b"/OPM 1 >> >>", b"/OPM 1 >> /More << /Type /ExtGState >> >>"),
}


@pytest.mark.parametrize("tamper", REWRITTEN)
def test_inks_that_were_tampered_with_are_refused(
    tmp_path: Path, composite: Path, taken_apart: ModuleType, tamper: str
) -> None:
    path = tmp_path / "plate.pdf"
    path.write_bytes(plates_of(composite)[0].read_bytes())
    plate = taken_apart.Plate(path)
    old, new = REWRITTEN[tamper]
    (number,) = [at for at, body in plate.objects.items() if old in body]
    plate.objects[number] = plate.objects[number].replace(old, new)
    plate.write()
    assert faults_of(path, kept(composite))


def test_a_composite_is_judged_again_packed_and_printed_as_one(desk: Path, composite: Path) -> None:
    by_docket = ("--docket", "job.toml", "--to", composite.name)
    said = ""
    for words in (
        ("preflight", composite.name),
        ("package", "guests.csv", *by_docket),
        ("printed", "guests.csv", "--to", composite.name),
        ("reprint", "guests.csv", *by_docket),
    ):
        ran = subprocess.run(  # noqa: S603 - our own command
            [sys.executable, "-m", "addressing", *words],
            cwd=desk, capture_output=True, encoding="utf-8", check=False,
        )  # fmt: skip
        assert ran.returncode == 0, ran.stderr
        said = ran.stdout
    assert "othing" in said, "all is on paper"


def test_what_was_printed_from_one_file_is_on_paper_when_the_inks_come_apart(
    tmp_path: Path,
) -> None:
    """The shop's file rules change after the print: not an envelope is due again."""
    folder = made(tmp_path, "composite")
    shop = tmp_path / "shops" / "composite.toml"

    def ran(*command: str) -> str:
        done = subprocess.run(  # noqa: S603 - our own command
            [sys.executable, "-m", "addressing", *command, "--to", folder.name],
            cwd=tmp_path, capture_output=True, encoding="utf-8", check=False,
        )  # fmt: skip
        assert done.returncode == 0, done.stderr
        return done.stdout

    ran("printed", "guests.csv")
    shop.write_text(SHOP.format(plates="apart", bleed=0.0, more=""), encoding="utf-8")
    said = json.loads(ran("ledger", "guests.csv", "--docket", "job.toml", "--json"))
    assert (len(said["good"]), said["due"], said["wrong"]) == (2, [], [])
