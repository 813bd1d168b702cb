"""Batches, slips and going on after a jam, by the commands."""

import hashlib
import json
import zlib
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pikepdf
import pypdfium2
import pytest

Ran = CompletedProcess[str]
Run = Callable[..., Ran]

DOCKET = """\
[pieces]
make = ["outer", "inner"]
[[piece]]
kind = "outer"
ink = "Black"
stock = "ivory"
[[piece]]
kind = "inner"
ink = "Black"
stock = "ivory"
[device]
name = "home-toner"
[print]
order = "zip"
batch = 3
"""
PLACES = (
    ("Litchfield", "CT", "06759"), ("Bar Harbor", "ME", "04609"), ("Duluth", "MN", "55802"),
    ("Stowe", "VT", "05672"), ("Nashville", "IN", "47448"),
)  # fmt: skip
FAMILIES = ("Penhew", "Grayling", "Halvorsby", "Wexcombe", "Farrenby", "Quillfeather", "Larkmoor")


def rows() -> list[tuple[str, ...]]:
    return [
        (f"Mr. and Mrs. Tobias {family}", f"{number + 11} Larkmoor Lane", *PLACES[number % 5])
        for number, family in enumerate(FAMILIES)
    ]


@pytest.fixture
def job(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> tuple[Path, Path, dict[str, Any]]:
    guests, docket = write_list(rows()), tmp_path / "docket.toml"
    docket.write_text(DOCKET, encoding="utf-8")
    ran = addressing("plates", guests, "--docket", docket, "--to", "job")
    assert ran.returncode == 0, ran.stderr
    return guests, docket, json.loads((tmp_path / "job" / "manifest.json").read_text())


def piles(manifest: dict[str, Any], kind: str) -> list[list[str]]:
    """The names of each pile of a kind as they come out, read from the top."""
    files = [file for file in manifest["files"] if file["kind"] == kind]
    return [file["names"][::-1] if file["reverse"] else file["names"] for file in files]


def test_piles_are_of_the_load_by_zip_and_outers_match_inners(
    job: tuple[Path, Path, dict[str, Any]],
) -> None:
    manifest = job[2]
    outer = piles(manifest, "outer")
    assert [len(pile) for pile in outer] == [3, 3, 1]
    assert piles(manifest, "inner") == outer
    # 04609 (2), 05672 (1), 06759 (2), 47448 (1), 55802 (1): the list's order within a ZIP
    order = [name.rpartition(" ")[2] for pile in outer for name in pile]
    assert order == [FAMILIES[at] for at in (1, 6, 3, 0, 5, 4, 2)]
    firsts = [file["first"] for file in manifest["files"] if file["kind"] == "outer"]
    assert firsts == [1, 4, 7]
    assert all(file["reverse"] for file in manifest["files"] if file["households"])


def test_each_pile_has_a_slip_with_its_numbers_and_names(
    job: tuple[Path, Path, dict[str, Any]], tmp_path: Path
) -> None:
    document = pypdfium2.PdfDocument(tmp_path / "job" / "slips.pdf")
    try:
        text = " ".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()
    text = " ".join(text.split())
    for number, pile in enumerate(piles(job[2], "inner"), start=1):
        assert f"Inner · batch {number} of 3" in text
        assert pile[0] in text
        assert pile[-1] in text
    assert "4 to 6" in text
    assert [f["kind"] for f in job[2]["files"] if f["path"] == "slips.pdf"] == ["slips"]


def drawn(path: Path) -> list[bytes]:
    with pikepdf.open(path) as pdf:
        return [page.Contents.read_bytes() for page in pdf.pages]


def test_going_on_from_a_number_draws_the_same_envelopes_glyph_for_glyph(
    job: tuple[Path, Path, dict[str, Any]], addressing: Run, tmp_path: Path
) -> None:
    guests, docket, manifest = job
    ran = addressing(
        "plates", guests, "--docket", docket, "--to", "job", "--from", "5", "--kind", "inner"
    )
    assert ran.returncode == 0, ran.stderr
    place = tmp_path / "job" / "from-005-inner"
    rest = json.loads((place / "manifest.json").read_text())
    whole = [page for f in manifest["files"] if f["kind"] == "inner"
             for page in drawn(tmp_path / "job" / f["path"])[::-1]]  # fmt: skip
    again = [page for f in rest["files"] if f["kind"] == "inner"
             for page in drawn(place / f["path"])[::-1]]  # fmt: skip
    assert again == whole[4:]
    assert [f["first"] for f in rest["files"] if f["kind"] == "inner"] == [5]
    assert not [f for f in rest["files"] if f["kind"] == "outer"]
    (place / "mine.txt").write_text("the designer's own", encoding="utf-8")
    assert addressing("plates", guests, "--docket", docket, "--to", "job").returncode == 0
    assert [path.name for path in place.iterdir()] == ["mine.txt"]
    (place / "mine.txt").unlink()
    place.rmdir()
    on = ("--from", "5", "--kind", "inner")
    assert addressing("plates", guests, "--docket", docket, "--to", "job", *on).returncode == 0
    assert addressing("clear", guests, "--to", "job", "--yes").returncode == 0
    assert not place.exists()


def test_a_number_on_the_slips_is_the_number_in_the_ledger(
    job: tuple[Path, Path, dict[str, Any]], addressing: Run
) -> None:
    guests, _, manifest = job
    assert addressing("printed", guests, "--to", "job").returncode == 0
    ran = addressing("spoiled", guests, "print:2,5-7", "--to", "job", "--json")
    assert ran.returncode == 0, ran.stderr
    outers = [file for file in manifest["files"] if file["kind"] == "outer"]
    keys = [key for file in outers for key in file["households"][::-1]]
    marked = {one["page"]: one["household"] for one in json.loads(ran.stdout)["prints"]}
    assert marked == {number: keys[number - 1] for number in (2, 5, 6, 7)}
    assert addressing("spoiled", guests, "print:8", "--to", "job").returncode == 2


def test_going_on_is_refused_where_numbers_may_mean_others(
    job: tuple[Path, Path, dict[str, Any]], addressing: Run, write_list: Callable[..., Path]
) -> None:
    guests, docket, _ = job
    go_on = ("plates", guests, "--docket", docket, "--to", "job", "--json", "--from")
    for number, kind, code in (
        ("8", "outer", "number-unknown"),
        ("2", "reply", "plates-missing"),
    ):
        ran = addressing(*go_on, number, "--kind", kind)
        assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == code
    write_list(rows()[1:])
    ran = addressing(*go_on, "2")
    assert ran.returncode == 3
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "plates-stale"


def test_without_a_device_or_with_no_batches_there_is_one_file_and_no_slip(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    guests, docket = write_list(rows()), tmp_path / "docket.toml"
    docket.write_text(DOCKET.replace("batch = 3", "batch = 0"), encoding="utf-8")
    assert addressing("plates", guests, "--docket", docket, "--to", "one").returncode == 0
    assert addressing("plates", guests, "--to", "none").returncode == 0
    for folder, ink in (("one", "black"), ("none", "white")):
        names = sorted(path.name for path in (tmp_path / folder / "plates").iterdir())
        assert names[:2] == [f"01-outer-{ink}.pdf", f"02-inner-{ink}.pdf"]
        assert not (tmp_path / folder / "slips.pdf").exists()


def test_one_batch_is_noted_by_the_number_of_its_slip(
    job: tuple[Path, Path, dict[str, Any]], addressing: Run
) -> None:
    guests, _, manifest = job
    unsaid = addressing("printed", guests, "--to", "job", "--batch", 2)
    assert unsaid.returncode == 2
    assert "of outer (plates/01-outer-black-b02.pdf) and of inner" in unsaid.stderr
    assert "--kind outer; or all of them: --kind outer --kind inner" in unsaid.stderr
    both = ("--kind", "outer", "--kind", "inner")
    ran = addressing("printed", guests, "--to", "job", "--batch", 2, *both, "--json")
    assert ran.returncode == 0, ran.stderr
    printed = [each["path"] for each in json.loads(ran.stdout)["printed"]]
    assert printed == ["plates/01-outer-black-b02.pdf", "plates/02-inner-black-b02.pdf"]
    due = json.loads(addressing("ledger", guests, "--docket", job[1], "--to", "job",
                                "--json").stdout)  # fmt: skip
    assert len(due["good"]) == 6
    assert len(due["due"]) == 2 * 4
    # the first batch after the second: numbers run on through both all the same
    assert addressing("printed", guests, "--to", "job", "--batch", 1, *both).returncode == 0
    outers = [file for file in manifest["files"] if file["kind"] == "outer"]
    keys = [key for file in outers for key in file["households"][::-1]]
    marked = json.loads(addressing("spoiled", guests, "print:2,5", "--to", "job", "--json").stdout)
    assert [(each["page"], each["household"]) for each in marked["prints"]] == [
        (5, keys[4]), (2, keys[1]),
    ]  # fmt: skip
    rest = addressing("printed", guests, "--to", "job", "--json")
    assert rest.returncode == 0
    said = json.loads(rest.stdout)
    assert [each["path"][-8:] for each in said["printed"]] == ["-b03.pdf"] * 2
    assert len(said["before"]) == 4
    good = json.loads(addressing("ledger", guests, "--docket", job[1], "--to", "job",
                                 "--json").stdout)  # fmt: skip
    assert (len(good["good"]), [each["why"] for each in good["due"]]) == (12, ["spoiled"] * 2)
    twice = addressing("printed", guests, "--to", "job")
    assert twice.returncode == 2
    assert "--batch" in twice.stderr
    none = addressing("printed", guests, "--to", "job", "--batch", 4, *both, "--json")
    fault = json.loads(none.stderr.splitlines()[-1])["fault"]
    assert (none.returncode, fault["code"]) == (2, "batch-unknown")
    assert "3 batches" in fault["text"]


def test_preflight_of_a_job_judges_its_order_of_print_and_tells_it(
    job: tuple[Path, Path, dict[str, Any]], addressing: Run
) -> None:
    assert job
    ran = addressing("preflight", "job", "--json")
    assert ran.returncode == 0, ran.stderr
    (order,) = json.loads(ran.stdout)["orders"]
    assert (order["proved"], order["order"], order["batch"], order["reverse"]) == (
        True, "zip", 3, True,
    )  # fmt: skip
    assert order["kinds"] == {kind: {"pieces": 7, "batches": 3} for kind in ("outer", "inner")}
    told = addressing("preflight", "job").stdout
    assert "7 outer in 3 batches" in told
    assert "all kinds match" in told
    alone = addressing("preflight", "job/plates/01-outer-black-b01.pdf", "--json")
    assert json.loads(alone.stdout)["orders"] == []


def rewritten(change: Callable[[list[str]], list[str]]) -> None:
    """Change the orders that the job keeps, and let the manifest agree."""
    kept = Path("job/orders.json.z")
    was = kept.read_bytes()
    lines = change(zlib.decompress(was).decode().splitlines(keepends=True))
    kept.write_bytes(zlib.compress("".join(lines).encode()))
    manifest = Path("job/manifest.json")
    old, new = (hashlib.sha256(data).hexdigest() for data in (was, kept.read_bytes()))
    manifest.write_text(manifest.read_text("utf-8").replace(old, new), "utf-8")


OUT_OF_ORDER: dict[str, tuple[Callable[[list[str]], list[str]], str]] = {
    "another rule": (
        lambda lines: [lines[0].replace('"zip"', '"list"'), *lines[1:]], "aren't in their order",
    ),
    "another load": (
        lambda lines: [lines[0].replace('"load":3', '"load":2'), *lines[1:]],
        "more pages than the 2",
    ),
    "not turned round": (
        lambda lines: [lines[0].replace('"reverse":true', '"reverse":false'), *lines[1:]],
        "turned round where it shouldn't",
    ),
    "begun elsewhere": (
        lambda lines: [lines[0].replace('"first":1', '"first":2'), *lines[1:]],
        "one after the other",
    ),
    "a plate that nobody names": (
        lambda lines: [*lines, lines[2].replace("01-outer-black-b01", "09-outer-black")],
        "doesn't name the plate 09-outer-black",
    ),
}  # fmt: skip


def told_of(answer: dict[str, Any]) -> list[str]:
    return [*answer["orders"][0]["faults"], *answer["manifests"][0]["faults"]]


@pytest.mark.parametrize("how", OUT_OF_ORDER)
def test_preflight_finds_a_job_that_is_out_of_order(
    how: str, job: tuple[Path, Path, dict[str, Any]], addressing: Run
) -> None:
    assert job
    change, told = OUT_OF_ORDER[how]
    rewritten(change)
    ran = addressing("preflight", "job", "--json")
    assert ran.returncode == 5
    answer = json.loads(ran.stdout)
    assert all(plate["proved"] for plate in answer["plates"])
    assert any(told in fault for fault in told_of(answer))
    assert "not in order" in addressing("preflight", "job").stdout


def test_a_job_whose_order_was_not_kept_is_told_so(
    job: tuple[Path, Path, dict[str, Any]], addressing: Run
) -> None:
    assert job
    rewritten(lambda lines: lines[2:])  # as an older version: no origin, no seal either
    ran = addressing("preflight", "job")
    assert ran.returncode == 0
    assert "order of print not judged" in ran.stdout
