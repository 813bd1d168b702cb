"""What is ordered beyond the envelopes, and what the list leaves open."""

import csv
import io
import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import openpyxl

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]
PLACE = ("Litchfield", "CT", "06759")
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE)
SUITE = """
[overs]
percent = 10
minimum = 2
pack = 25
[[suite]]
name = "invitation"
width_mm = 127.0
height_mm = 177.8
paper = "120 lb cover"
pack = 10
[[suite]]
name = "liner"
paper = "70 lb text"
liner = true
"""


def tally(addressing: Run, path: Path, docket: Path) -> dict[str, dict[str, dict[str, int]]]:
    ran = addressing("tally", path, "--docket", docket, "--json")
    found: dict[str, dict[str, dict[str, int]]] = json.loads(ran.stdout)
    return found


def test_suite_pieces_come_in_packs_of_their_own(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE)
    suite = tally(addressing, write_list([ROW]), docket)["suite"]
    invitation, liner = suite["invitation"], suite["liner"]
    assert (invitation["needed"], invitation["overs"]) == (1, 2)
    assert (invitation["packs"], invitation["pack"], invitation["to_order"]) == (1, 10, 10)
    assert (liner["needed"], liner["to_order"]) == (1, 3)


def test_a_reply_from_abroad_gets_no_stamp_of_ours(addressing: Run, tmp_path: Path) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text('[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
                      'city = "Farrenby"\nregion = "CT"\npostcode = "06759"\n')  # fmt: skip
    path = tmp_path / "guests.csv"
    path.write_text(
        "Name,Street,City,State,ZIP,Country\n"
        "Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759,\n"
        "Mme Odile Farrenby,9 rue du Moulin,Lyon,,69002,France\n"
    )
    said = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)
    assert said["suite"]["stamp, outer"]["needed"] == 2
    assert said["suite"]["stamp, reply"]["needed"] == 1
    assert said["replies_abroad"] == 1
    told = addressing("tally", path, "--docket", docket).stdout
    assert "1 reply comes from abroad" in told


def test_an_unnamed_family_may_want_an_envelope_more(addressing: Run, write_list: Write) -> None:
    path = write_list([ROW, ("Ms. Ysolde Penhew and family", "2 Larkmoor Lane", *PLACE)])
    said = json.loads(addressing("tally", path, "--json").stdout)["pieces"]["outer"]["open"]
    assert (said["low"], said["high"], said["covered"]) == (2, 3, True)
    assert "between 2 outers" in addressing("tally", path).stdout


def test_the_table_has_all_that_is_ordered(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text(SUITE)
    said = tally(addressing, path, docket)
    for name in ("order.tsv", "order.xlsx"):
        assert addressing("tally", path, "--docket", docket, "--table", name).returncode == 0
    text = (tmp_path / "order.tsv").read_text("utf-8")
    rows = {row["kind"]: row for row in csv.DictReader(io.StringIO(text), delimiter="\t")}
    everything = {**said["pieces"], **said["suite"]}
    assert {kind: row["to_order"] for kind, row in rows.items()} == {
        kind: str(count["to_order"]) for kind, count in everything.items()
    }
    parts = ("addressed", "flap_printed", "plain")
    assert sum(int(rows["outer"][part]) for part in parts) == said["pieces"]["outer"]["to_order"]
    book = openpyxl.load_workbook(tmp_path / "order.xlsx")
    assert [row[0].value for row in book["Counts"].iter_rows(min_row=2)] == list(rows)


def test_a_table_with_another_ending_is_refused(addressing: Run, write_list: Write) -> None:
    assert addressing("tally", write_list([ROW]), "--table", "order.doc").returncode == 2
