"""A number read off the slips, the proof or a file's page means that envelope and no other."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Ms. Odile Farrenby and Mr. Silas Orr", "2 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Mr. Anselm Quarrender", "5 Penhew Road", "", "", ""),
    ("Dr. Ysolde Penhew", "77 Larkmoor Lane", "Albany", "NY", "12207"),
    ("Mrs. Ivo Sands", "9 Osier Row", "Litchfield", "CT", "06759"),
]
"""The third waits for its town, so that what stands below it has another place than number."""

HOME = '[device]\nname = "home-toner-white"\n[print]\nbatch = 2\n'


def names(ran: Ran) -> list[tuple[str, str]]:
    assert ran.returncode == 0, ran.stderr
    return [(one["kind"], one["name"]) for one in json.loads(ran.stdout)["prints"]]


@pytest.fixture
def printed_job(addressing: Run, write_list: Write) -> Path:
    path = write_list(ROWS)
    assert addressing("plates", path).returncode == 1
    assert addressing("printed", path).returncode == 0
    return path


@pytest.fixture
def at_home(addressing: Run, write_list: Write, tmp_path: Path) -> Path:
    """In batches of two, each from its last page to its first."""
    path = write_list(ROWS)
    (tmp_path / "home.toml").write_text(HOME)
    assert addressing("plates", path, "--docket", "home.toml").returncode == 1
    assert addressing("printed", path).returncode == 0
    return path


def test_a_number_that_means_another_on_the_proof_is_asked_about(
    addressing: Run, printed_job: Path
) -> None:
    ran = addressing("spoiled", printed_job, "4")
    assert ran.returncode == 2
    assert "4 is Ivo Sands in the order of print, Ysolde Penhew on the proof." in ran.stderr
    assert "Nothing was marked." in ran.stderr
    assert "print:4" in ran.stderr
    assert "proof:4" in ran.stderr
    assert names(addressing("spoiled", printed_job, "2", "--json")) == [("outer", "Odile Farrenby")]


@pytest.mark.parametrize(
    ("said", "who"),
    [
        ("print:4", "Ivo Sands"),
        ("proof:4", "Ysolde Penhew"),
        ("card:4", "Ysolde Penhew"),
        ("01-outer-white.pdf:3", "Ysolde Penhew"),
        ("Mr. Silas Orr", "Odile Farrenby"),
        ("Ms. Odile Farrenby and Mr. Silas Orr", "Odile Farrenby"),
        ("Doctor Ysolde Penhew", "Ysolde Penhew"),
    ],
)
def test_a_number_means_where_it_was_read_and_a_name_is_as_on_the_envelope(
    addressing: Run, printed_job: Path, said: str, who: str
) -> None:
    assert names(addressing("spoiled", printed_job, said, "--json")) == [("outer", who)]


def test_the_number_of_one_who_waits_marks_nobody(addressing: Run, printed_job: Path) -> None:
    ran = addressing("spoiled", printed_job, "proof:3")
    assert ran.returncode == 2
    assert "No outer of the household with number 3 on the proof was printed." in ran.stderr


def test_a_page_of_a_file_that_goes_from_last_to_first_is_what_is_on_it(
    addressing: Run, at_home: Path
) -> None:
    first = addressing("spoiled", at_home, "plates/01-outer-white-b01.pdf:1", "--json")
    assert names(first) == [("outer", "Odile Farrenby")]
    inner = addressing("destroyed", at_home, "02-inner-white-b02.pdf:1", "--json")
    assert names(inner) == [("inner", "Ivo Sands")]
    bare = addressing("spoiled", at_home, "1").stderr
    assert "Odile Farrenby on page 1 of 01-outer-white-b01.pdf" in bare
    beyond = addressing("spoiled", at_home, "01-outer-white-b01.pdf:3")
    assert beyond.returncode == 2
    assert "has no page 3 with a name on it" in beyond.stderr
    nowhere = addressing("spoiled", at_home, "03-outer.pdf:1")
    assert "No file 03-outer.pdf is in the ledger" in nowhere.stderr


def test_printed_names_whose_the_first_and_the_last_of_a_pile_are(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "home.toml").write_text(HOME)
    path = write_list(ROWS)
    addressing("plates", path, "--docket", "home.toml")
    told = addressing("printed", path, "--batch", "1", "--kind", "outer").stdout
    assert "b01.pdf: 2 pages on paper, Tobias Wexcombe to Odile Farrenby." in told
    assert "by the name on it: addressing spoiled" in told


def test_of_a_household_s_several_cards_its_number_is_none(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    (tmp_path / "cards.toml").write_text('[pieces]\nmake = ["place-card"]\n')
    addressing("plates", path, "--docket", "cards.toml")
    told = addressing("printed", path).stdout
    assert '"Mr. Tobias Wexcombe" --kind place-card' in told
    ran = addressing("spoiled", path, "proof:2", "--kind", "place-card")
    assert ran.returncode == 2
    assert "That household has several place-cards: Ms. Odile Farrenby, print:2" in ran.stderr
    said = addressing("spoiled", path, "Silas Orr", "--kind", "place-card", "--json")
    assert names(said) == [("place-card", "Mr. Silas Orr")]
    assert "place-card Mr. Silas Orr: spoiled" in addressing("ledger", path).stdout


def test_the_proof_and_the_stuffing_list_go_by_one_number_of_the_household(
    addressing: Run, printed_job: Path, write_list: Write, tmp_path: Path
) -> None:
    """Who comes later gets a number of their own, wherever in the list they stand."""
    write_list([("Ms. Nell Early", "1 Osier Row", "Litchfield", "CT", "06759"), *ROWS])
    assert addressing("stuffing", printed_job, "--name", "list.tsv").returncode == 1
    rows = (tmp_path / "guests-job" / "list.tsv").read_text("utf-8").splitlines()
    told = [row.split("\t") for row in rows]
    by_name = {row[1]: (row[0], row[4]) for row in told[1:]}
    assert by_name["Ysolde Penhew"] == ("3", "4")
    assert by_name["Nell Early"] == ("", "6")


def test_a_correction_goes_to_the_row_or_to_the_number_on_the_proof_never_to_either(
    addressing: Run, printed_job: Path
) -> None:
    bare = addressing("answer", printed_job, "--set", "4", "street", "3 Osier Row")
    assert bare.returncode == 2
    assert "by “4” (row 4, row 5)" in bare.stderr
    for said, who in (
        ("proof:4", "Ysolde Penhew"),
        ("A4", "Anselm Quarrender"),
        ("print:4", "Ivo Sands"),
        ("01-outer-white.pdf:3", "Ysolde Penhew"),
        ("guests-job/plates/02-inner-white.pdf:1", "Tobias Wexcombe"),
    ):
        done = addressing("answer", printed_job, "--set", said, "street", "3 Osier Row")
        assert f"the street of {who}: “3 Osier Row” is set." in done.stdout
        back = addressing("answer", printed_job, "--undo", f"{said}:street")
        assert f"the street of {who}: “3 Osier Row” is taken back" in back.stdout.replace(
            "The", "the"
        )
    for said in ("print:9", "print:0", "07-outer-white.pdf:1"):
        none = addressing("answer", printed_job, "--undo", said)
        assert none.returncode == 2
        assert f"has anybody at {said}" in none.stderr


def test_a_number_of_a_pile_that_goes_from_last_to_first_is_read_as_on_its_slip(
    addressing: Run, at_home: Path
) -> None:
    for said, who in (
        ("print:1", "Tobias Wexcombe"),
        ("01-outer-white-b01.pdf:1", "Odile Farrenby"),
        ("print:4", "Ivo Sands"),
    ):
        done = addressing("answer", at_home, "--set", said, "street", "3 Osier Row")
        assert f"the street of {who}: “3 Osier Row” is set." in done.stdout


def test_a_number_that_a_reprint_gives_to_somebody_else_is_asked_about(
    addressing: Run, printed_job: Path
) -> None:
    assert addressing("spoiled", printed_job, "Ivo Sands").returncode == 0
    assert addressing("reprint", printed_job).returncode in {0, 1}
    asked = addressing("answer", printed_job, "--set", "print:1", "street", "3 Osier Row")
    assert asked.returncode == 2
    assert "Tobias Wexcombe (plates" in asked.stderr
    assert "Ivo Sands (reprint-01/plates" in asked.stderr
    own = "reprint-01/plates/01-outer-white.pdf:1"
    done = addressing("answer", printed_job, "--set", own, "street", "3 Osier Row")
    assert "the street of Ivo Sands" in done.stdout
