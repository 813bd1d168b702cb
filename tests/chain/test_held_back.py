"""What is kept back though name and address are there: refusals, and the hosts' own doubt."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

HEADER = "Name,Address,City,State,Zip,{}\n"
ROW = "Mr. Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759,{}\n"
HOSTS = """
[hosts]
name = "Mr. and Mrs. Gideon Wexcombe"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "{}"
postcode = "06759"
"""


def held(addressing: Run, path: Path, *more: object) -> list[str]:
    answer = json.loads(addressing("check", path, "--json", *more).stdout)
    return [found["code"] for found in answer["findings"] if found["holds"]]


@pytest.mark.parametrize(
    ("header", "said"),
    [("RSVP", "declined"), ("Attending", "No"), ("Invited?", "not invited"), ("Status", "regrets")],
)
def test_a_household_whose_reply_says_no_is_held(
    addressing: Run, tmp_path: Path, header: str, said: str
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(HEADER.format(header) + ROW.format(said))
    assert held(addressing, path) == ["marker-in-list"]
    path.write_text(HEADER.format(header) + ROW.format("yes"))
    assert held(addressing, path) == []


def test_hosts_whose_zip_lies_in_another_state_get_no_flap(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list((("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),))
    docket = tmp_path / "job.toml"
    docket.write_text(HOSTS.format("TX"))
    assert held(addressing, path, "--docket", docket) == ["zip-not-in-state"]
    assert addressing("plates", path, "--docket", docket).returncode == 1
    plates = sorted(each.name for each in (tmp_path / "guests-job" / "plates").iterdir())
    assert plates == ["01-outer-white.pdf", "02-inner-white.pdf"]
    docket.write_text(HOSTS.format("CT"))
    assert addressing("plates", path, "--docket", docket).returncode == 0


def test_a_job_of_another_list_is_not_replaced(addressing: Run, tmp_path: Path) -> None:
    one, other = tmp_path / "one.csv", tmp_path / "other.csv"
    one.write_text(HEADER.format("Notes") + ROW.format(""))
    other.write_text(HEADER.format("Notes") + ROW.format("").replace("Penhew", "Quince"))
    assert addressing("plates", one, "--to", "job").returncode == 0
    before = (tmp_path / "job" / "manifest.json").read_bytes()
    ran = addressing("plates", other, "--to", "job", "--json")
    assert ran.returncode == 4
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "another-job"
    assert (tmp_path / "job" / "manifest.json").read_bytes() == before


def test_the_families_remarks_stand_on_no_sheet_that_is_handed_round(
    addressing: Run, tmp_path: Path
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(HEADER.format("Notes") + ROW.format("broke up with Odile"))
    assert addressing("plates", path).returncode in {0, 1}
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "proof.pdf") as proof:
        words = "".join(page.get_textpage().get_text_range() for page in proof)
    assert "Penhew" in words
    assert "broke up" not in words


def test_a_docket_given_as_the_list_is_told_so(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(HOSTS.format("CT"))
    ran = addressing("check", path, "--json")
    assert ran.returncode == 3
    assert "docket" in json.loads(ran.stderr.splitlines()[-1])["fault"]["text"]
