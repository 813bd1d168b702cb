"""A varnish over lines: a spot plate of its own, which overprints; and passes by a record."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pikepdf
import pytest
from PIL import Image

from addressing.job.orders import ORDERS, read_orders
from addressing.preflight import judge_plate
from addressing.records.kept import KeptOrder

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

SHOP = """\
title = "Hollin Works"
margin_mm = 6.0
inks = { White = "HW White", Gold = "HW Gold", "Spot Varnish" = "HW Varnish" }
hits = [{ inks = ["White"], stocks = ["deep-green", "navy"], passes = 2 }]
"""
DOCKET = """\
[shop]
name = "hollin"
[pieces]
make = ["outer"]
[[piece]]
kind = "outer"
ink = "White"
face = "cormorant-garamond"
varnish = "names"
"""


@pytest.fixture
def plates(addressing: Run, write_list: Write) -> Callable[..., Ran]:
    """Make a job's plates by a docket, for the shop."""
    Path("shops").mkdir()
    Path("shops/hollin.toml").write_text(SHOP, encoding="utf-8")

    def run(docket: str = DOCKET, command: str = "plates") -> Ran:
        Path("job.toml").write_text(docket, encoding="utf-8")
        return addressing(command, write_list(), "--docket", "job.toml", "--json")

    return run


def kept() -> KeptOrder:
    orders = read_orders(Path("guests-job") / ORDERS, [Path()]).orders
    return next(each for each in orders if each.order.varnish)


COAT = Path("guests-job/plates/02-outer-hw-varnish.pdf")


@pytest.mark.ghostscript
def test_the_names_have_a_plate_of_varnish_at_the_very_places_of_the_ink(
    plates: Callable[..., Ran], ghostscript: str
) -> None:
    assert plates().returncode == 0
    content = json.loads(Path("guests-job/manifest.json").read_text("utf-8"))
    assert [(f["ink"], f["hits"]) for f in content["files"] if f["ink"]] == [
        ("HW White", 2), ("HW Varnish", 1),
    ]  # fmt: skip
    with pikepdf.open(COAT) as pdf:
        assert bool(pdf.pages[0].Resources.ExtGState.Over.op)
        assert str(pdf.pages[0].Resources.ColorSpace.Ink[1]) == "/HW Varnish"
        names = pdf.pages[0].Contents.read_bytes().split(b"scn\n")[1]
    with pikepdf.open("guests-job/plates/01-outer-hw-white.pdf") as pdf:
        assert pdf.pages[0].Contents.read_bytes().split(b"scn\n")[1].startswith(names)
    seen = []
    for path in (COAT, Path("guests-job/plates/01-outer-hw-white.pdf")):
        command = [ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=tiffsep"]
        subprocess.run([*command, "-r72", f"-o{path.stem}-%d.tif", str(path)], check=True)  # noqa: S603
        tif = next(tif for tif in Path().glob(f"{path.stem}-1(*).tif") if "HW" in tif.name)
        with Image.open(tif) as picture:
            seen.append(np.asarray(picture.convert("L")))
    coat, ink = seen
    assert coat.min() < 128
    assert (coat >= ink).all(), "no varnish where there is no ink"


def test_a_varnish_is_packed_printed_and_changes_the_print(
    addressing: Run, plates: Callable[..., Ran]
) -> None:
    assert plates().returncode == 0
    packed = addressing("package", "guests.csv", "--docket", "job.toml", "--json")
    assert packed.returncode == 0, packed.stderr
    assert addressing("printed", "guests.csv").returncode == 0
    other = DOCKET.replace('"names"', '"all"')
    Path("job.toml").write_text(other, encoding="utf-8")
    told = json.loads(addressing("ledger", "guests.csv", "--docket", "job.toml", "--json").stdout)
    assert len(told["due"]) == 6


REFUSED = {
    "an ink that isn't clear": ('varnish = "names"', 'varnish = "names"\nvarnish_ink = "Gold"',
                                "varnish-not-clear"),
    "words in varnish alone": ('ink = "White"', 'ink = "Spot Varnish"', "ink-is-clear"),
    "a device with a fuser": ('[shop]\nname = "hollin"', '[device]\nname = "home-toner-white"',
                              "varnish-in-fuser"),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_a_varnish_that_can_t_be_is_refused(plates: Callable[..., Ran], case: str) -> None:
    was, now, code = REFUSED[case]
    ran = plates(DOCKET.replace(was, now))
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == code


def second_line(ink: Path) -> bytes:
    with pikepdf.open(ink) as pdf:
        drawn: bytes = pdf.pages[0].Contents.read_bytes()
    return drawn.split(b"Q\n")[1] + b"Q\n"


REDRAWN: dict[str, Callable[[bytes], bytes]] = {
    "no overprint on a page": lambda d: d.replace(b"/Over gs\n", b""),
    "overprint behind the ink": lambda d: d.replace(
        b"/Over gs\n/Ink cs 1 scn\n", b"/Ink cs 1 scn\n/Over gs\n"
    ),
    "a half varnish": lambda d: d.replace(b"1 scn", b"0.5 scn"),
    "the street varnished too": lambda d: (
        d + second_line(Path("guests-job/plates/01-outer-hw-white.pdf"))
    ),
    "no varnish on a page": lambda d: d[: d.index(b"q ")],
    "moved by a point": lambda d: d.replace(b" cm\n", b"1 cm\n", 1),
    "a letter left out": lambda d: d.replace(d.split(b"\n")[4] + b"\n", b"", 1),
    "the sheet varnished": lambda d: d.replace(b"q ", b"0 0 522 378 re\nf\nq ", 1),
    "drawn as a frame": lambda d: d.replace(b"Q\n", b"0 0 9 9 re\nS\nQ\n", 1),
}
REWRITTEN: dict[str, tuple[bytes, bytes]] = {
    "knocked out": (b" /op true", b""),
    "named as the white": (b"/Separation /HW#20Varnish", b"/Separation /HW#20White"),
    "another alternate": (b"/C1 [0.2 0 0.05 0.05]", b"/C1 [0 0 0 0]"),
}


@pytest.mark.parametrize("tamper", [*REDRAWN, *REWRITTEN])
def test_a_varnish_that_was_tampered_with_is_refused(
    plates: Callable[..., Ran], taken_apart: ModuleType, tamper: str
) -> None:
    assert plates().returncode == 0
    ordered = kept()
    assert judge(ordered) == ()
    plate = taken_apart.Plate(COAT)
    before = dict(plate.objects)
    if tamper in REDRAWN:
        plate.redraw(plate.contents(1), REDRAWN[tamper])
    else:
        old, new = REWRITTEN[tamper]
        plate.objects = {n: body.replace(old, new) for n, body in plate.objects.items()}
    assert plate.objects != before
    plate.write()
    assert judge(ordered)


def judge(ordered: KeptOrder) -> tuple[str, ...]:
    return judge_plate(COAT, ordered.order, ordered.setting, ordered.pieces).faults


def passes(ran: Ran) -> list[Any]:
    assert ran.returncode == 0, ran.stderr
    content = json.loads(Path("guests-job/manifest.json").read_text("utf-8"))
    return [file["hits"] for file in content["files"] if file["ink"]]


def test_passes_are_those_of_the_shop_s_record_for_ink_and_paper_unless_the_docket_says(
    plates: Callable[..., Ran],
) -> None:
    plain = DOCKET.replace('varnish = "names"', "")
    assert passes(plates(plain)) == [2]
    assert passes(plates(plain + 'stock = "kraft"')) == [1]
    assert passes(plates(plain + "hits = { White = 3 }")) == [3]
    assert passes(plates(plain + "hits = { White = 1 }")) == [1]
    assert passes(plates(plain.replace('"White"', '"Gold"'))) == [1]
