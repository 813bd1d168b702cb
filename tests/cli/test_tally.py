"""What is ordered beyond the envelopes, and what the list leaves open."""

import csv
import io
import json
import subprocess
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import openpyxl
import pypdfium2
import pytest

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


OPEN = (
    ROW,
    ("Ms. Ysolde Penhew and family", "2 Larkmoor Lane", *PLACE),
    ("Mr. Alder Grayling and Guest", "3 Larkmoor Lane", *PLACE),
)


def test_suite_cards_and_stamps_have_the_open_range_too(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """A family and a companion without names: two more envelopes, and one more place card."""
    docket = tmp_path / "docket.toml"
    docket.write_text(
        '[pieces]\nmake = ["outer", "place-card", "reply-number"]\n[post]\nstamps = 2\n'
        + SUITE.replace('name = "liner"', 'name = "liner"\ncount = 3')
    )
    path = write_list(OPEN)
    said = tally(addressing, path, docket)
    ends = {
        kind: (count["open"]["low"], count["open"]["high"])  # type: ignore[index]
        for kind, count in {**said["pieces"], **said["suite"]}.items()
    }
    assert ends == {
        "outer": (3, 5),
        "place-card": (4, 5),
        "reply-number": (3, 5),
        "invitation": (3, 5),
        "liner": (9, 15),
        "stamp, outer": (6, 10),
    }
    told = addressing("tally", path, "--docket", docket).stdout
    assert "So with these: place-card 4 to 5; reply-number 3 to 5; invitation 3 to 5" in told
    assert addressing("tally", path, "--docket", docket, "--table", "o.tsv").returncode == 0
    rows = csv.DictReader(io.StringIO((tmp_path / "o.tsv").read_text("utf-8")), delimiter="\t")
    assert {row["kind"]: (int(row["low"]), int(row["high"])) for row in rows} == ends


def test_late_additions_that_are_expected_are_ordered_with_the_overs(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    path = write_list(OPEN)
    docket.write_text(SUITE)
    before = tally(addressing, path, docket)
    docket.write_text(SUITE.replace("pack = 25", "pack = 25\nlate_percent = 75", 1))
    after = tally(addressing, path, docket)
    for part, kind in (("pieces", "outer"), ("suite", "invitation")):
        assert after[part][kind]["overs"] == before[part][kind]["overs"] + 2  # 1.5 of 2 open
    assert after["suite"]["stamp, outer"]["overs"] == 0


def test_the_job_sheet_lists_what_is_ordered_without_names(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text('[pieces]\nmake = ["outer"]\n' + SUITE)
    assert addressing("plates", path, "--docket", docket).returncode == 0
    document = pypdfium2.PdfDocument(tmp_path / "guests-job" / "job-sheet.pdf")
    words = " ".join(page.get_textpage().get_text_range() for page in document).split()
    at = words.index("invitation")
    assert words[at : at + 7] == ["invitation", "1", "0", "2", "10", "1", "10"]


def test_whom_nobody_can_write_to_yet_is_left_out_of_the_low_end_of_every_piece(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(
        '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
        'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n' + SUITE
    )
    path = write_list([ROW, ("Ms. Blythe Grayling", "", "", "", "")])
    said = tally(addressing, path, docket)
    for kind, count in {**said["pieces"], **said["suite"]}.items():
        assert count["open"]["low"] * 2 == count["needed"], kind  # type: ignore[index]


def test_a_shop_is_ordered_so_many_more_of_what_is_the_same_for_all_that_enough_come(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """Trade custom: of 19 ordered 17.1 come at least, where 10 % may be lacking; 17 are wanted."""
    docket = tmp_path / "docket.toml"
    hosts = (
        '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
        'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
        "[overs]\nminimum = 16\npack = 1\n"
    )
    path = write_list([ROW])
    overs = {}
    for shop in ("", '[shop]\nname = "farrenby-press"\n'):
        docket.write_text(hosts + shop)
        pieces = tally(addressing, path, docket)["pieces"]
        overs[shop] = [pieces[kind]["overs"] for kind in ("outer", "return", "reply")]
    assert list(overs.values()) == [[16, 16, 16], [16, 16, 18]]
    assert addressing("plates", path, "--docket", docket).returncode == 0
    manifest = json.loads((tmp_path / "guests-job" / "manifest.json").read_text())
    copies = {file["kind"]: file["copies"] for file in manifest["files"] if file["ink"]}
    assert copies == {"outer": 1, "inner": 1, "return": 17, "reply": 19}


def test_cards_on_sheets_are_told_in_sheets_of_their_paper(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(
        '[pieces]\nmake = ["place-card"]\n[[sheet]]\npiece = "place-card"\nacross = 2\ndown = 2\n'
        "[overs]\nminimum = 4\n"
    )
    path = write_list([ROW])
    said = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)
    assert said["sheets"] == [
        {"kinds": ["place-card"], "paper": "ivory letter", "needed": 1, "with_overs": 2}
    ]
    told = addressing("tally", path, "--docket", docket).stdout
    assert "place-card: 1 sheet of ivory letter, 2 with the overs (packs above)." in told
    count = said["pieces"]["place-card"]
    assert [count[key] for key in ("needed", "overs", "packs", "pack", "to_order")] == [
        1,
        4,
        2,
        4,
        8,
    ]


def test_backs_of_cards_are_not_ordered_beside_their_fronts(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(
        '[pieces]\nmake = ["place-card", "escort-card"]\n[[sheet]]\npiece = "place-card"\n'
        'behind = "escort-card"\nturned = true\nacross = 1\ndown = 2\n[overs]\nminimum = 4\n'
    )
    path = write_list([ROW])
    said = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)
    orders = {
        kind: [count[key] for key in ("needed", "packs", "pack", "to_order")]
        for kind, count in said["pieces"].items()
    }
    # two fronts and two backs a side, so four cards a sheet: five cards are two sheets
    assert orders == {"place-card": [1, 2, 4, 8], "escort-card": [1, 0, 4, 0]}


def test_children_whom_the_list_counts_want_place_cards_and_no_envelopes(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text('[pieces]\nmake = ["outer", "place-card"]\n[overs]\nlate_percent = 100\n')
    path = write_list([("Mr. and Mrs. Tobias Penhew and two children", *ROW[1:])])
    pieces = tally(addressing, path, docket)["pieces"]
    ends = {kind: (one["open"]["low"], one["open"]["high"]) for kind, one in pieces.items()}  # type: ignore[index]
    assert ends == {"outer": (1, 1), "place-card": (2, 4)}
    assert (pieces["outer"]["overs"], pieces["place-card"]["overs"]) == (10, 12)


def test_the_job_sheet_lists_a_piece_of_the_suite_once(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE)
    assert addressing("plates", write_list([ROW]), "--docket", docket).returncode in {0, 1}
    with closing(pypdfium2.PdfDocument(tmp_path / "guests-job" / "job-sheet.pdf")) as document:
        said = " ".join(page.get_textpage().get_text_range() for page in document).casefold()
    assert said.count("invitation") == said.count("liner") == 1


def test_what_a_shop_may_deliver_less_of_the_suite_is_ordered_more(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """Ten of a hundred may lack: three need four, and what isn't printed needs no more."""
    (tmp_path / "shops").mkdir()
    shop = 'title = "{}"\nmargin_mm = 5.0\n[inks]\nWhite = "White"\n[order]\nunder_percent = {}\n'
    (tmp_path / "shops" / "hollin.toml").write_text(shop.format("Hollin Works", "10.0"))
    (tmp_path / "shops" / "osier.toml").write_text(shop.format("Osier Row Press", "50.0"))
    docket, path = tmp_path / "docket.toml", write_list([ROW])

    def ordered(text: str) -> dict[str, int]:
        docket.write_text(text)
        suite = tally(addressing, path, docket)["suite"]
        return {kind: count["needed"] + count["overs"] for kind, count in suite.items()
                if not kind.startswith("stamp")}  # fmt: skip

    assert ordered(SUITE) == {"invitation": 3, "liner": 3}
    at_shop = '[shop]\nname = "hollin"\n' + SUITE
    assert ordered(at_shop) == {"invitation": 4, "liner": 3}
    own = SUITE.replace("pack = 10", 'pack = 10\nshop = "osier"')
    assert ordered(own) == {"invitation": 6, "liner": 3}
    told = addressing("tally", path, "--docket", docket).stdout
    assert "In the overs of invitation: the 50 % that Osier Row Press may deliver less." in told
    docket.write_text(own.replace("osier", "osiers"))
    ran = addressing("tally", path, "--docket", docket)
    assert ran.returncode == 3
    assert "osiers" in ran.stderr


PRESS = (
    'title = "Hollin Works"\nmargin_mm = 5.0\n[inks]\nWhite = "White"\n'
    "[order]\nminimum = 12\npack = 5\n"
)
PRICES = """
currency = "USD"
as_of = "2026-01-15"
[labour]
per_hour = "45.00"
[[shop]]
name = "hollin"
breaks = [{ from = 1, each = "1.00" }, { from = 20, each = "0.80" }]
[[shop.piece]]
name = "invitation"
breaks = [{ from = 1, each = "3.00" }, { from = 30, each = "1.00" }]
"""


def test_where_more_costs_less_at_the_shop_the_tally_says_so(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """17 outers at 1.00 are 17, 20 at 0.80 are 16; 19 invitations at 3.00 are 57, 30 at 1.00 30."""
    (tmp_path / "shops").mkdir()
    (tmp_path / "shops" / "hollin.toml").write_text(PRESS.replace("pack = 5", "pack = 1"))
    (tmp_path / "rates.toml").write_text(PRICES)
    docket = tmp_path / "docket.toml"
    names = "ABCDEFGHIJKLMNOPQ"
    path = write_list([(f"Mr. Tobias {one}wexcombe", f"{n} Larkmoor Lane", *PLACE)
                       for n, one in enumerate(names, start=1)])  # fmt: skip
    text = '[pieces]\nmake = ["outer"]\n[shop]\nname = "hollin"\n' + SUITE
    docket.write_text(text)
    ran = addressing("tally", path, "--docket", docket)
    assert "outer: 20 at Hollin Works cost less than 17, 16.00 USD instead of 17.00." in ran.stdout
    invited = "invitation: 30 at Hollin Works cost less than 19, 30.00 USD instead of 57.00."
    assert invited in ran.stdout
    assert "Prices as of 2026-01-15" in ran.stdout
    said = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)
    assert [(each["kind"], each["fewer"], each["more"]) for each in said["cheaper"]] == [
        ("outer", 17, 20),
        ("invitation", 19, 30),
    ]
    docket.write_text(text.replace('[shop]\nname = "hollin"\n', ""))
    alone = addressing("tally", path, "--docket", docket).stdout
    assert "outer: 20" not in alone  # no shop is named for it
    assert invited in alone  # the one that prices it


def test_what_is_the_same_for_all_comes_in_a_shop_s_least_and_packs(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """Three invitations, and the shop takes 12 at least in packs of 5: 15, told with the reason."""
    (tmp_path / "shops").mkdir()
    (tmp_path / "shops" / "hollin.toml").write_text(PRESS)
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text('[shop]\nname = "hollin"\n' + SUITE.replace("pack = 10\n", ""))
    pieces = tally(addressing, path, docket)
    invitation, outer = pieces["suite"]["invitation"], pieces["pieces"]["outer"]
    assert (invitation["overs"], invitation["to_order"]) == (14, 15)
    assert (outer["overs"], outer["to_order"]) == (2, 25)
    told = addressing("tally", path, "--docket", docket).stdout
    assert "In the overs of invitation: what lacks to the 12 that Hollin Works takes" in told
    assert "In the overs of invitation: what fills the packs of 5 that Hollin Works prints" in told


def test_the_return_orders_no_envelopes_of_its_own_and_only_named_ones_become_blanks(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """It is on the outers' flaps: 1 outer and 2 overs in a pack of 25, and 22 plain ones."""
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text(
        '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
        'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n' + SUITE
    )
    pieces = tally(addressing, path, docket)["pieces"]
    assert {kind: (one["packs"], one["to_order"]) for kind, one in pieces.items()} == {
        "outer": (1, 25),
        "inner": (1, 25),
        "return": (0, 0),
        "reply": (1, 25),
    }
    assert [kind for kind, one in pieces.items() if "plain" in one] == ["outer", "inner"]
    parts = ("addressed", "flap_printed", "plain")
    assert [pieces["outer"][part] for part in parts] == [1, 2, 22]
    assert pieces["return"]["open"]["more_packs"] == 0  # type: ignore[index]
    assert "Reply:" not in addressing("tally", path, "--docket", docket).stdout
    apart = docket.read_text() + '[[piece]]\nkind = "return"\nlayout = "a6"\n'
    docket.write_text(apart)
    assert tally(addressing, path, docket)["pieces"]["return"]["to_order"] == 25


def test_keepsakes_are_ordered_of_every_piece_but_stamps(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text(SUITE)
    before = tally(addressing, path, docket)
    docket.write_text(SUITE.replace("minimum = 2", "minimum = 2\nkeepsakes = 3"))
    after = tally(addressing, path, docket)
    more = {
        kind: after[part][kind]["overs"] - before[part][kind]["overs"]
        for part in ("pieces", "suite")
        for kind in before[part]
    }
    stamps = {kind: 0 for kind in more if kind.startswith("stamp")}
    assert more == dict.fromkeys(more, 3) | stamps
    assert stamps


@pytest.mark.parametrize(
    ("name", "only", "said"),
    [
        ("Reply", "", "is the name of a piece with its own plates"),
        ("stamp, outer", "", "is the name of a piece with its own plates"),
        ("Invitation", "", "is there twice for the same guests"),
        ("Invitation", 'only = ["abroad"]', None),
        ("reply card", "", None),
    ],
)
def test_a_piece_of_the_suite_has_a_name_of_its_own(
    addressing: Run, write_list: Write, tmp_path: Path, name: str, only: str, said: str | None
) -> None:
    """All is counted by name: a suite's “reply” would hide the reply envelopes."""
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE + f'[[suite]]\nname = "{name}"\npaper = "80 lb text"\n{only}\n')
    ran = addressing("tally", write_list([ROW]), "--docket", docket)
    assert ran.returncode == (3 if said else 0)
    assert (said or "") in ran.stderr
