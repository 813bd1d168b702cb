"""A second run: the same bytes, nothing foreign touched, what is no longer made taken away."""

import json
import re
import subprocess
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2 as pdfium
import pytest

from addressing.files import alone_in, sha256_of

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

HELD = ("Ms. Odette Farrenby", "17 Larkmoor Row", "Burlington", "VT", "")
HOSTS = """
[hosts]
name = "Mr. and Mrs. Gideon Wexcombe"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
"""
GUESTS = (
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802"),
    ("Mr. Florian Tewkes", "1515 Harbinger Street", "Nashville", "TN", "37206"),
)


def bytes_of(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def manifest_of(folder: Path) -> dict[str, Any]:
    manifest: dict[str, Any] = json.loads((folder / "manifest.json").read_text("utf-8"))
    return manifest


def pages_of(folder: Path, kind: str) -> dict[str, bytes]:
    """What each household's page says, by the order that the manifest gives."""
    file = next(each for each in manifest_of(folder)["files"] if each["kind"] == kind)
    with pikepdf.open(folder / file["path"]) as pdf:
        contents = [page.Contents.read_bytes() for page in pdf.pages]
    return dict(zip(file["households"], contents, strict=True))


def test_a_second_run_gives_the_same_bytes(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text(HOSTS)
    command = ("plates", write_list(GUESTS), "--docket", "docket.toml")
    addressing(*command)
    first = bytes_of(tmp_path / "guests-job")
    addressing(*command)
    assert bytes_of(tmp_path / "guests-job") == first
    assert len(first) == 10


@pytest.mark.parametrize("seed", ["0", "4711"])
def test_the_order_of_hashes_changes_nothing(
    spawn: Run, addressing: Run, write_list: Write, tmp_path: Path, seed: str
) -> None:
    path = write_list((*GUESTS, HELD))
    addressing("plates", path, "--to", "one")
    ran = spawn("plates", path, "--to", "two", environment={"PYTHONHASHSEED": seed})
    assert ran.returncode == 1
    assert bytes_of(tmp_path / "one") == bytes_of(tmp_path / "two")


def test_another_place_and_another_hour_give_the_same_bytes(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    addressing("plates", write_list(GUESTS), "--to", "one")
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "guests.csv").rename(tmp_path / "elsewhere" / "guests.csv")
    addressing("plates", "elsewhere/guests.csv", "--to", "two")
    assert bytes_of(tmp_path / "one") == bytes_of(tmp_path / "two")


def test_a_date_is_printed_only_where_it_was_given(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(GUESTS)
    addressing("plates", path, "--to", "without")
    addressing("plates", path, "--to", "with", "--date", "2026-05-30")
    one, other = bytes_of(tmp_path / "without"), bytes_of(tmp_path / "with")
    differ = {name for name in one if one[name] != other[name]}
    # the orders too, and so the seal: it is made of proof and job sheet as well
    assert differ == {"proof.pdf", "job-sheet.pdf", "manifest.json", "orders.json.z"}


@pytest.mark.parametrize("docket", [True, False])
def test_list_and_docket_stay_as_they_are(
    addressing: Run, write_list: Write, tmp_path: Path, *, docket: bool
) -> None:
    path = write_list((*GUESTS, HELD))
    (tmp_path / "docket.toml").write_text(HOSTS)
    before = bytes_of(tmp_path)
    chosen = ("--docket", "docket.toml") if docket else ()
    for command in ("check", "lines", "tally", "proof", "plates"):
        addressing(command, path, *chosen)
    after = bytes_of(tmp_path)
    assert {name: after[name] for name in before} == before


@pytest.mark.parametrize("command", ["check", "lines", "tally"])
def test_answers_write_nothing(
    addressing: Run, write_list: Write, tmp_path: Path, command: str
) -> None:
    before = set(bytes_of(tmp_path)) | {write_list(GUESTS).name}
    addressing(command, "guests.csv", "--json")
    assert set(bytes_of(tmp_path)) == before


def test_what_is_foreign_stays(addressing: Run, write_list: Write, tmp_path: Path) -> None:
    folder = tmp_path / "guests-job"
    (folder / "plates").mkdir(parents=True)
    (folder / "notes.txt").write_text("ask about the flap")
    (folder / "plates" / "09-outer-gold.pdf").write_bytes(b"another's")
    addressing("plates", write_list(GUESTS))
    addressing("plates", write_list(GUESTS[:2]))
    assert (folder / "notes.txt").read_text() == "ask about the flap"
    assert (folder / "plates" / "09-outer-gold.pdf").read_bytes() == b"another's"


def test_a_plate_that_is_no_longer_made_goes(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text(HOSTS)
    addressing("plates", write_list(GUESTS), "--docket", "docket.toml")
    plates = tmp_path / "guests-job" / "plates"
    assert len(list(plates.iterdir())) == 4
    (tmp_path / "docket.toml").write_text('[pieces]\nmake = ["outer"]\n')
    addressing("plates", write_list(GUESTS), "--docket", "docket.toml")
    assert [path.name for path in plates.iterdir()] == ["01-outer-white.pdf"]


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", '{"files": 3}', '{"files": [{"path": "../kept.txt"}]}', '{"files": [3]}'],
)
def test_a_manifest_that_was_spoilt_does_no_harm(
    addressing: Run, write_list: Write, tmp_path: Path, text: str
) -> None:
    folder = tmp_path / "guests-job"
    folder.mkdir()
    (tmp_path / "kept.txt").write_text("kept")
    (folder / "manifest.json").write_text(text)
    assert addressing("plates", write_list(GUESTS), "--docket", "none").returncode == 0
    assert (tmp_path / "kept.txt").read_text() == "kept"
    assert manifest_of(folder)["files"]


@pytest.mark.parametrize("named", ["plates", "sub", "/etc/hostname"])
def test_a_manifest_that_names_a_folder_or_another_place_does_no_harm(
    addressing: Run, write_list: Write, tmp_path: Path, named: str
) -> None:
    folder = tmp_path / "guests-job"
    (folder / "sub").mkdir(parents=True)
    (folder / "manifest.json").write_text(json.dumps({"files": [{"path": named}]}))
    assert addressing("plates", write_list(GUESTS)).returncode == 0
    assert (folder / "sub").is_dir()
    assert Path("/etc/hostname").exists()


@pytest.mark.parametrize("name", ["counts.tsv", "proof.pdf", "plates/01-outer-white.pdf"])
def test_a_file_of_somebody_else_is_never_overwritten(
    addressing: Run, write_list: Write, tmp_path: Path, name: str
) -> None:
    foreign = tmp_path / "guests-job" / name
    foreign.parent.mkdir(parents=True)
    foreign.write_text("not ours")
    ran = addressing("plates", write_list(GUESTS), "--json")
    assert ran.returncode == 4
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "would-overwrite"
    assert foreign.read_text() == "not ours"
    left = [path for path in (tmp_path / "guests-job").rglob("*") if path.is_file()]
    assert left == [foreign]


def test_what_a_killed_run_left_under_working_names_goes_with_the_next(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    left = tmp_path / "guests-job" / "plates" / ".01-outer-white.pdf-a1b2c3d4.part"
    left.parent.mkdir(parents=True)
    left.write_text("half")
    assert addressing("plates", write_list(GUESTS)).returncode == 0
    assert not left.exists()


def test_a_second_run_into_a_folder_at_work_is_refused(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(GUESTS)
    folder = tmp_path / "guests-job"
    folder.mkdir()
    with alone_in(folder):
        ran = addressing("plates", path, "--json")
    assert ran.returncode == 4
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "folder-in-use"
    assert addressing("plates", path).returncode == 0


def test_a_new_proof_after_the_list_changed_keeps_the_manifest_true(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(GUESTS)
    addressing("plates", path)
    path.write_text(path.read_text() + "Ms. Sorrel Quince,4 Larkmoor Lane,Litchfield,CT,06759\n")
    assert addressing("proof", path).returncode == 0
    folder = tmp_path / "guests-job"
    files = json.loads((folder / "manifest.json").read_text())["files"]
    (proof,) = (file for file in files if file["path"] == "proof.pdf")
    assert proof["sha256"] == sha256_of(folder / "proof.pdf")


def test_all_or_none_writes_nothing_while_somebody_waits(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list((*GUESTS, HELD))
    ran = addressing("plates", path, "--all-or-none", "--json")
    assert ran.returncode == 1
    answer = json.loads(ran.stdout)
    assert (answer["folder"], answer["plates"], len(answer["held"])) == (None, [], 1)
    assert addressing("plates", path, "--all-or-none").returncode == 1
    assert [path.name for path in tmp_path.iterdir()] == ["guests.csv"]


def test_all_or_none_writes_everything_when_nobody_waits(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    assert addressing("plates", write_list(GUESTS), "--all-or-none").returncode == 0
    assert (tmp_path / "guests-job" / "manifest.json").is_file()


def test_a_list_of_which_everybody_waits_gives_no_plate(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    assert addressing("plates", write_list([HELD])).returncode == 1
    manifest = manifest_of(tmp_path / "guests-job")
    assert [file["kind"] for file in manifest["files"]] == ["counts", "proof", "job-sheet"]
    assert len(manifest["held"]) == 1


def test_a_held_household_is_counted_but_on_no_plate(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list((*GUESTS, HELD))
    assert addressing("plates", path).returncode == 1
    manifest = manifest_of(tmp_path / "guests-job")
    (key,) = manifest["held"]
    assert all(key not in file["households"] for file in manifest["files"])
    assert manifest["files"][0]["pages"] == 4
    tally = json.loads(addressing("tally", path, "--json").stdout)["pieces"]
    assert tally["outer"]["needed"] == 5
    lines = json.loads(addressing("lines", path, "--json").stdout)
    (held,) = [home for home in lines["households"] if home["held"]]
    assert held["key"] == key
    assert held["pieces"][0]["lines"][0]["text"] == "Ms. Odette Farrenby"


def test_the_key_and_the_page_don_t_depend_on_the_order_of_rows(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    addressing("plates", write_list(GUESTS), "--to", "one")
    addressing("plates", write_list(GUESTS[::-1]), "--to", "two")
    for kind in ("outer", "inner"):
        one, two = pages_of(tmp_path / "one", kind), pages_of(tmp_path / "two", kind)
        assert one == two
        assert list(one) == list(two)[::-1]


def test_pages_stand_in_the_order_of_the_list(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(GUESTS)
    addressing("plates", path)
    lines = json.loads(addressing("lines", path, "--json").stdout)
    names = [home["pieces"][0]["lines"][0]["text"] for home in lines["households"]]
    assert [name.split()[-1] for name in names] == [row[0].split()[-1] for row in GUESTS]
    outer = manifest_of(tmp_path / "guests-job")["files"][0]
    assert outer["households"] == [home["key"] for home in lines["households"]]


def test_twins_have_keys_of_their_own(addressing: Run, write_list: Write) -> None:
    name, _street, city, state, code = GUESTS[3]
    twins = [(name, f"{number} Harbinger Street", city, state, code) for number in (1, 2)]
    lines = json.loads(addressing("lines", write_list(twins), "--json").stdout)
    one, other = (home["key"] for home in lines["households"])
    assert one != other
    assert one[:10] == other[:10]


def test_the_docket_that_the_command_writes_is_no_docket_at_all(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list((*GUESTS, HELD))
    assert addressing("docket", "--to", "docket.toml").returncode == 0
    for command in ("check", "lines", "tally"):
        without = addressing(command, path, "--json").stdout
        given = addressing(command, path, "--docket", "docket.toml", "--json").stdout
        # findings about the docket name its file
        assert given.replace('"docket.toml"', '"docket"') == without
    addressing("plates", path, "--to", "without")
    addressing("plates", path, "--docket", "docket.toml", "--to", "with")
    one, two = bytes_of(tmp_path / "without"), bytes_of(tmp_path / "with")
    plates = {name for name in one if name.startswith("plates/")}
    assert {name: one[name] for name in plates} == {name: two[name] for name in plates}
    assert one["counts.tsv"] == two["counts.tsv"]


def test_the_proof_alone_is_the_proof_of_the_whole_job(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(GUESTS)
    addressing("plates", path, "--to", "whole")
    ran = addressing("proof", path, "--to", "alone", "--json")
    assert ran.returncode == 0
    answer = json.loads(ran.stdout)
    assert answer["sheets"] >= 1
    names = sorted(path.name for path in (tmp_path / "alone").iterdir())
    assert names == ["manifest.json", "proof.pdf"]
    whole = tmp_path / "whole" / "proof.pdf"
    was = whole.read_bytes()
    assert addressing("proof", path, "--to", "whole").returncode == 0
    assert whole.read_bytes() == was
    alone, mine = words_of(tmp_path / "alone" / "proof.pdf"), words_of(whole)
    assert "seal of the plates" in mine
    assert SEAL.sub("", mine) == alone


SEAL = re.compile(
    r" · seal of the plates( [0-9a-f]{4}){3}"
    r"| Seal of the plates that were made with it, and of no others:( [0-9a-f]{4}){3}"
)


def words_of(sheets: Path) -> str:
    with closing(pdfium.PdfDocument(sheets)) as document:
        told = " ".join(page.get_textpage().get_text_bounded() for page in document)
    return " ".join(told.split())


@pytest.mark.parametrize("name", ["counts.tsv", "proof.pdf", "manifest.json"])
def test_a_list_that_lies_where_a_result_would_go_is_never_overwritten(
    addressing: Run, write_list: Write, name: str
) -> None:
    path = write_list(GUESTS, name)
    before = path.read_bytes()
    ran = addressing("plates", path, "--to", ".", "--json")
    assert path.read_bytes() == before
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    damaged = name == "manifest.json"  # a list is no manifest
    told = (3, "manifest-lost") if damaged else (4, "would-overwrite")
    assert (ran.returncode, fault["code"]) == told
