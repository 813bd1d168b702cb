"""Place, escort and numbered reply cards from the list to plates and the ledger."""

import json
import subprocess
import sys
from itertools import combinations
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest
from pypdfium2 import raw

Box = tuple[float, float, float, float]
LEAST = 40.0
"""No card of a proof is so low, no box to tick so high (points)."""

LIST = """\
Name,Kids,Street,City,State,Zip,Table
Mr. and Mrs. Tobias Wexcombe,"Linnet (9), Bram (7)",12 Larkmoor Lane,Litchfield,CT,06759,4
Ms. Odile Farrenby and Guest,,14 Larkmoor Lane,Litchfield,CT,06759,Head table
Ms. Ysolde Penhew,,16 Larkmoor Lane,Litchfield,CT,58101,5
"""
DOCKET = """\
[pieces]
make = ["place-card", "escort-card", "reply-number"]
"""


@pytest.fixture
def desk(tmp_path: Path) -> Path:
    (tmp_path / "guests.csv").write_text(LIST, encoding="utf-8")
    (tmp_path / "job.toml").write_text(DOCKET, encoding="utf-8")
    return tmp_path


def run(desk: Path, *words: str) -> Any:  # noqa: ANN401 - the command's JSON
    done = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-m", "addressing", *words, "--json"],
        cwd=desk,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout)


def test_every_guest_has_a_card_and_a_held_household_none(desk: Path) -> None:
    run(desk, "plates", "guests.csv", "--docket", "job.toml")
    pages = {}
    for path in (desk / "guests-job" / "plates").glob("*.pdf"):
        with pikepdf.open(path) as pdf:
            pages[path.stem] = len(pdf.pages)
    # Ms. Penhew waits: 58101 lies in Fargo, North Dakota (packaged ZIP data).
    assert pages == {
        "01-place-card-black": 6,
        "02-escort-card-black": 2,
        "03-reply-number-black": 2,
    }


def test_a_spoiled_card_comes_again_alone(desk: Path) -> None:
    run(desk, "plates", "guests.csv", "--docket", "job.toml")
    run(desk, "printed", "guests.csv")
    run(desk, "spoiled", "guests.csv", "3", "--kind", "place-card")
    run(desk, "reprint", "guests.csv", "--docket", "job.toml")
    made = list((desk / "guests-job" / "reprint-01" / "plates").glob("*.pdf"))
    assert [path.stem for path in made] == ["01-place-card-black"]
    with pikepdf.open(made[0]) as pdf:
        assert len(pdf.pages) == 1


@pytest.mark.parametrize("kinds", ['"place-card"', '"place-card", "escort-card"'])
def test_no_card_of_a_proof_lies_over_another_or_off_its_sheet(desk: Path, kinds: str) -> None:
    (desk / "job.toml").write_text(f"[pieces]\nmake = [{kinds}]\n", encoding="utf-8")
    run(desk, "proof", "guests.csv", "--docket", "job.toml")
    seen = 0
    with pypdfium2.PdfDocument(desk / "guests-job" / "proof.pdf") as proof:
        for page in proof:
            cards = _papers(page)
            seen += len(cards)
            assert all(left > 0 and right < page.get_width() for left, _, right, _ in cards)
            assert not [pair for pair in combinations(cards, 2) if _overlap(*pair)]
    assert seen == 7 + 3 * kinds.count("escort")  # cards for the tables wait for no address


def _papers(page: pypdfium2.PdfPage) -> list[Box]:
    """The paper of each card on a sheet of the proof, in points."""
    paths = page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=1)
    boxes = [each.get_bounds() for each in paths]
    return [box for box in boxes if box[3] - box[1] > LEAST]


def _overlap(one: Box, other: Box) -> bool:
    return max(one[0], other[0]) < min(one[2], other[2]) and (
        max(one[1], other[1]) < min(one[3], other[3])
    )


SEATS = """\
Name,Street,City,State,Zip,Table
Ms. Odile Farrenby,,,,,4
Ms. Ysolde Penhew,16 Larkmoor Lane,Litchfield,CT,58101,5
"""


@pytest.mark.parametrize("make", ['"place-card"', '"place-card", "escort-card", "reply"'])
def test_cards_for_the_tables_alone_wait_for_no_address_and_ask_for_none(
    desk: Path, make: str
) -> None:
    (desk / "seats.csv").write_text(SEATS, encoding="utf-8")
    (desk / "job.toml").write_text(f"[pieces]\nmake = [{make}]\n", encoding="utf-8")
    made = run(desk, "plates", "seats.csv", "--docket", "job.toml")
    assert not made["held"]
    asked = run(desk, "questions", "seats.csv", "--docket", "job.toml")
    assert not asked["questions"]


def test_an_envelope_beside_them_waits_for_its_address(desk: Path) -> None:
    (desk / "seats.csv").write_text(SEATS, encoding="utf-8")
    (desk / "job.toml").write_text('[pieces]\nmake = ["place-card", "outer"]\n', encoding="utf-8")
    run(desk, "plates", "seats.csv", "--docket", "job.toml")
    kept = json.loads((desk / "seats-job" / "manifest.json").read_text(encoding="utf-8"))
    assert len(kept["held"]) == 2
    assert len(run(desk, "questions", "seats.csv", "--docket", "job.toml")["questions"]) == 2
