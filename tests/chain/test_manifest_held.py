"""A manifest that was changed since the plates were made: nothing that it says is believed."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

from addressing.cli import main
from addressing.job.kept_orders import kept_job, record_faults

Run = Callable[..., CompletedProcess[str]]
Change = Callable[[dict[str, Any]], object]

DOCKET = """\
[pieces]
make = ["outer", "return"]
[[piece]]
kind = "outer"
ink = "Black"
stock = "ivory"
[[piece]]
kind = "return"
ink = "Black"
stock = "ivory"
[hosts]
name = "Odile and Tobias Wexcombe"
street = "14 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[device]
name = "home-toner"
"""
ROWS = "Name,Street,City,State,ZIP\n" + "".join(
    f"{who},{n} Larkmoor Lane,Litchfield,CT,06759\n"
    for n, who in enumerate(("Mr. Tobias Penhew", "Ms. Alice Vale", "Dr. Priya Poole"), start=2)
)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job of three outer envelopes and a return address, on a device that turns the stack."""
    desk = tmp_path_factory.mktemp("held")
    (desk / "guests.csv").write_text(ROWS, "utf-8")
    (desk / "docket.toml").write_text(DOCKET, "utf-8")
    given = (desk / "guests.csv", "--docket", desk / "docket.toml", "--to", desk / "job")
    with pytest.raises(SystemExit) as ended:
        main(["plates", *map(str, given)])
    assert ended.value.code in {0, 1}
    return desk / "job"


@pytest.fixture
def job(made: Path, tmp_path: Path) -> Path:
    shutil.copytree(made, tmp_path / "job")
    for name in ("guests.csv", "docket.toml"):
        shutil.copyfile(made.parent / name, tmp_path / name)
    return tmp_path / "job"


def rewritten(job: Path, change: Change) -> None:
    path = job / "manifest.json"
    content = json.loads(path.read_text("utf-8"))
    change(content)
    path.write_text(json.dumps(content, ensure_ascii=False, indent=1), "utf-8")


def faults(job: Path) -> tuple[str, ...]:
    return record_faults(job, kept_job(job, faces=False))


def swapped(*fields: str) -> Change:
    def change(content: dict[str, Any]) -> None:
        outer = content["files"][0]
        for field in fields:
            outer[field][:2] = outer[field][1::-1]

    return change


def with_field(number: int, field: str, value: object) -> Change:
    return lambda content: content["files"][number].update({field: value})


CHANGES: dict[str, tuple[Change, str]] = {
    "households, names and prints swapped": (
        swapped("households", "names", "prints"),
        "other households on pages",
    ),
    "households swapped": (swapped("households"), "other households on pages"),
    "names swapped": (swapped("names"), "other names of households on pages"),
    "prints swapped": (swapped("prints"), "other fingerprints of pieces on pages"),
    "a household less": (
        lambda content: content["files"][0]["households"].pop(),
        "another number of households",
    ),
    "no list of households": (with_field(0, "households", 3), "another number of households"),
    "copies": (with_field(1, "copies", 2), "another number of copies: 2, not 13"),
    "passes": (with_field(0, "hits", 2), "other passes of its inks"),
    "ink": (with_field(0, "ink", "Gold"), "another ink: Gold, not Black"),
    "paper": (with_field(0, "stock", "white"), "another paper: white, not ivory"),
    "width": (with_field(0, "width_mm", 180.0), "another width in mm"),
    "height": (with_field(0, "height_mm", 180.0), "another height in mm"),
    "device": (with_field(0, "press", "home-inkjet"), "another device or shop: home-inkjet"),
    "reverse": (with_field(0, "reverse", None), "last page first: none, not yes"),
    "calibration": (with_field(0, "calibration", "tray 1"), "another calibration: tray 1"),
    "way": (with_field(0, "way", "upright"), "another way of lying"),
    "first": (with_field(0, "first", 5), "another number of its first piece: 5, not 1"),
    "pages": (with_field(0, "pages", 9), "another number of pages: 9, not 3"),
    "kind": (with_field(1, "kind", "reply"), "another kind of piece: reply, not return"),
    "up": (with_field(0, "up", 2), "pieces on a page: 2, not 1"),
    "layout": (with_field(0, "layout", "a9"), "another layout: a9"),
    "fingerprint": (with_field(0, "sha256", "0" * 64), "another fingerprint"),
    "another file": (
        with_field(0, "path", "../job/plates/01-outer-black.pdf"),
        "as a plate, and it was never ordered",
    ),
    "a plate unnamed": (
        lambda content: content["files"].pop(0),
        "doesn't name the plate 01-outer-black",
    ),
    "plates in another order": (
        lambda content: content["files"].insert(0, content["files"].pop(1)),
        "the plates in another order",
    ),
    "orders unnamed": (
        lambda content: content.update(
            files=[file for file in content["files"] if file["kind"] != "orders"]
        ),
        "doesn't name orders.json.z",
    ),
    "list's name": (lambda content: content.update(list="other.csv"), "the list's name"),
    "list": (lambda content: content.update(list_sha256="0" * 64), "the list's fingerprint"),
    "docket": (lambda content: content.update(docket_sha256=None), "the docket's fingerprint"),
    "answers": (
        lambda content: content.update(decisions_sha256="0" * 64),
        "the client's answers",
    ),
    "somebody held": (
        lambda content: content["held"].append(content["files"][0]["households"][1]),
        "are said to wait than did when the plates were made: Alice Vale.",
    ),
    "somebody later": (lambda content: content.update(later=["h-none"]), "a later wave"),
}


def test_the_manifest_as_it_was_written_follows_from_the_orders(job: Path) -> None:
    assert faults(job) == ()


@pytest.mark.parametrize("how", CHANGES)
def test_what_doesn_t_follow_from_the_orders_is_told(how: str, job: Path) -> None:
    change, told = CHANGES[how]
    rewritten(job, change)
    assert any(told in fault for fault in faults(job)), faults(job)


def test_every_field_of_a_plate_is_held(job: Path) -> None:
    content = json.loads((job / "manifest.json").read_text("utf-8"))
    for field in content["files"][0]:
        if field != "path":
            rewritten(job, with_field(0, field, "else"))
            assert faults(job), field
            (job / "manifest.json").write_text(json.dumps(content), "utf-8")


def test_swapped_households_are_told_with_pages_and_guests(addressing: Run, job: Path) -> None:
    rewritten(job, swapped("households", "names", "prints"))
    ran = addressing("preflight", "job")
    assert ran.returncode == 5
    assert "on pages 1 and 2" in ran.stdout
    assert "made was Priya Poole and Alice Vale" in " ".join(ran.stdout.split())
    assert "Make the plates again" in ran.stdout
    ran = addressing("preflight", job / "plates" / "01-outer-black.pdf")
    assert ran.returncode == 5
    assert addressing("preflight", job / "plates" / "02-return-black.pdf").returncode == 0


@pytest.mark.parametrize("fields", [("households", "names", "prints"), ("names",), ("prints",)])
def test_the_ledger_takes_nothing_from_a_changed_manifest(
    fields: tuple[str, ...], addressing: Run, job: Path
) -> None:
    rewritten(job, swapped(*fields))
    given = ("guests.csv", "--to", "job")
    ran = addressing("printed", *given, "--json")
    assert ran.returncode == 3
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "manifest-changed"
    assert addressing("plates", *given, "--docket", "docket.toml").returncode in {0, 1}
    assert addressing("printed", *given, "--json").returncode in {0, 1}


def test_the_ledger_takes_nothing_from_a_manifest_that_forgets_its_orders(
    addressing: Run, job: Path
) -> None:
    rewritten(job, CHANGES["orders unnamed"][0])
    given = ("guests.csv", "--to", "job")
    assert addressing("printed", *given).returncode == 3
    (job / "orders.json.z").unlink()
    ran = addressing("printed", *given)
    assert ran.returncode == 3
    assert "nobody knows what the plates should be" in ran.stderr
