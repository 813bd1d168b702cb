"""What was printed is kept; what changed since is made again, and only that."""

import json
import subprocess
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2 as pdfium
import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE),
    ("Ms. Odile Farrenby", "2 Larkmoor Lane", *PLACE),
    ("Dr. Ysolde Penhew", "77 Larkmoor Lane", *PLACE),
]


def answer(ran: Ran) -> dict[str, Any]:
    assert ran.returncode in {0, 1}, ran.stderr
    said: dict[str, Any] = json.loads(ran.stdout)
    return said


@pytest.fixture
def printed_job(addressing: Run, write_list: Write) -> Path:
    """A job of three households whose plates were all printed."""
    path = write_list(ROWS)
    assert addressing("plates", path, "--json").returncode == 0
    assert addressing("printed", path, "--json").returncode == 0
    return path


def due_of(addressing: Run, path: Path) -> list[tuple[str, str]]:
    said = answer(addressing("ledger", path, "--json"))
    return [(each["kind"], each["why"]) for each in said["due"]]


def test_after_printing_everything_is_good_and_nothing_is_due(
    addressing: Run, printed_job: Path
) -> None:
    said = answer(addressing("ledger", printed_job, "--json"))
    assert [each["kind"] for each in said["good"]] == ["outer"] * 3 + ["inner"] * 3
    assert said["due"] == said["wrong"] == []
    again = addressing("reprint", printed_job)
    assert "Nothing needs printing." in again.stdout


def test_a_respelled_name_is_reprinted_alone_and_its_old_prints_are_wrong(
    addressing: Run, printed_job: Path, write_list: Write, tmp_path: Path
) -> None:
    write_list([*ROWS[:2], ("Dr. Ysolde Penhewe", "77 Larkmoor Lane", *PLACE)])
    said = answer(addressing("reprint", printed_job, "--json"))
    assert [(p["path"], p["pages"]) for p in said["plates"]] == [
        ("plates/01-outer-white.pdf", 1),
        ("plates/02-inner-white.pdf", 1),
    ]
    assert [(w["kind"], w["page"], w["why"]) for w in said["ledger"]["wrong"]] == [
        ("outer", 3, "words changed"),
        ("inner", 3, "words changed"),
    ]
    plate = tmp_path / "guests-job" / "reprint-01" / "plates" / "01-outer-white.pdf"
    with pikepdf.open(plate) as pdf:
        assert len(pdf.pages) == 1
    assert answer(addressing("printed", printed_job, "--reprint", 1, "--json"))
    assert due_of(addressing, printed_job) == []


def test_plates_made_anew_say_what_is_on_paper_already(
    addressing: Run, printed_job: Path, write_list: Write
) -> None:
    write_list([*ROWS[:2], ("Dr. Ysolde Penhewe", "77 Larkmoor Lane", *PLACE)])
    assert answer(addressing("plates", printed_job, "--json"))["on_paper"] == 4
    told = addressing("plates", printed_job).stdout
    assert "4 pieces of these are on paper and right. Only the others: addressing reprint" in told


def test_spoiled_pages_come_again_and_no_others(addressing: Run, printed_job: Path) -> None:
    marked = answer(addressing("spoiled", printed_job, "1", "3-3", "--json"))
    assert [each["page"] for each in marked["prints"]] == [1, 3]
    assert due_of(addressing, printed_job) == [("outer", "spoiled")] * 2
    said = answer(addressing("reprint", printed_job, "--json"))
    assert [(p["kind"], p["pages"]) for p in said["plates"]] == [("outer", 2)]


def test_another_face_makes_every_print_of_that_piece_wrong(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text('[[piece]]\nkind = "outer"\nface = "eb-garamond"\n')
    said = answer(addressing("ledger", printed_job, "--docket", docket, "--json"))
    assert {(w["kind"], w["why"]) for w in said["wrong"]} == {
        ("outer", "face, size and place changed")
    }
    assert len(said["due"]) == len(said["wrong"]) == 3


def test_a_reprint_in_live_type_or_another_face_doesn_t_lie_beside_what_is_on_paper(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    addressing("spoiled", printed_job, "2")
    reasons = {"type": "kind of type changed", "face": "face, size and place changed"}
    for chosen, why in (
        ('[files]\ntype = "live"\n', reasons["type"]),
        ('[[piece]]\nkind = "outer"\nface = "eb-garamond"\n', reasons["face"]),
    ):
        docket.write_text(chosen)
        said = answer(addressing("reprint", printed_job, "--docket", docket, "--json"))
        outers = [each for each in said["ledger"]["due"] if each["kind"] == "outer"]
        assert [each["why"] for each in outers] == [why] * 3  # the spoiled one too
        assert [p["pages"] for p in said["plates"] if p["kind"] == "outer"] == [3]
        assert {each["why"] for each in said["ledger"]["wrong"]} == {why}
    docket.write_text("")
    said = answer(addressing("reprint", printed_job, "--docket", docket, "--json"))
    assert [(each["kind"], each["why"]) for each in said["ledger"]["due"]] == [("outer", "spoiled")]


def test_many_prints_that_are_wrong_for_one_reason_are_told_in_a_row(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    rows = [
        (f"Ms. {chr(65 + n)}delia Wexcombe", f"{n + 2} Larkmoor Lane", *PLACE) for n in range(15)
    ]
    path = write_list(rows)
    addressing("plates", path)
    addressing("printed", path)
    addressing("destroyed", path, "3")
    docket = tmp_path / "docket.toml"
    docket.write_text('[[piece]]\nkind = "outer"\nface = "eb-garamond"\n')
    told = addressing("ledger", path, "--docket", docket).stdout
    assert "outer    15 households: face, size and place changed" in told
    assert "outer    14 households (run 1, prints 1-2, 4-15): face, size and place changed" in told


def test_a_changed_rule_of_wording_is_due_where_it_changes_words(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text('[wording]\ninner = "relaxed"\n')
    said = answer(addressing("ledger", printed_job, "--docket", docket, "--json"))
    assert {each["kind"] for each in said["due"]} == {"inner"}


def test_a_guest_who_came_later_is_new_and_one_who_left_is_wrong(
    addressing: Run, printed_job: Path, write_list: Write
) -> None:
    write_list([*ROWS[1:], ("Mx. Rowan Thornwick", "9 Larkmoor Lane", *PLACE)])
    said = answer(addressing("ledger", printed_job, "--json"))
    assert [each["why"] for each in said["due"]] == ["new", "new"]
    assert ["no longer on the list" in each["why"] for each in said["wrong"]] == [True, True]


def test_plates_are_noted_as_printed_once(addressing: Run, printed_job: Path) -> None:
    twice = addressing("printed", printed_job)
    assert twice.returncode == 2
    assert "--again" in twice.stderr
    assert addressing("printed", printed_job, "--again").returncode == 0


def test_a_plate_changed_since_it_was_proved_is_no_print(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    addressing("plates", path)
    plate = tmp_path / "guests-job" / "plates" / "01-outer-white.pdf"
    plate.write_bytes(plate.read_bytes() + b"\n")
    ran = addressing("printed", path, "--json")
    assert ran.returncode == 3
    assert '"plate-changed"' in ran.stderr


def test_a_kind_that_has_no_plates_is_told_with_those_that_have(
    addressing: Run, printed_job: Path
) -> None:
    ran = addressing("printed", printed_job, "--kind", "outr")
    assert ran.returncode == 3
    assert "no plates of outr; it has outer and inner." in ran.stderr


@pytest.mark.parametrize("pages", ["0", "12-3", "x", "3-"])
def test_pages_that_are_none_are_refused(addressing: Run, printed_job: Path, pages: str) -> None:
    assert addressing("spoiled", printed_job, pages).returncode == 2


def test_nothing_printed_is_told(addressing: Run, write_list: Write) -> None:
    path = write_list(ROWS)
    addressing("plates", path)
    assert addressing("reprint", path).returncode == 2
    assert addressing("spoiled", path, "1").returncode == 2


def test_a_reprint_of_a_new_version_without_its_job_says_which_job_has_printed_it(
    addressing: Run, printed_job: Path, write_list: Write
) -> None:
    rows = [*ROWS[:2], ("Dr. Ysolde Penhewe", "77 Larkmoor Lane", *PLACE)]
    new = write_list(rows, name="guests v2.csv")
    ran = addressing("reprint", new)
    assert ran.returncode == 2
    assert "guests-job has most of these households on paper" in ran.stderr
    assert "name the job: --to guests-job." in ran.stderr
    assert addressing("reprint", new, "--to", printed_job.stem + "-job").returncode == 0
    others = [("Mr. Silas Umber", "9 Quarry Hill", *PLACE)]
    other = addressing("reprint", write_list(others, name="others.csv"))
    assert "The ledger knows of nothing that was printed." in other.stderr


def test_a_spoiled_print_is_named_by_its_household(addressing: Run, printed_job: Path) -> None:
    said = addressing("spoiled", printed_job, "Dr. Ysolde Penhew")
    assert said.returncode == 0
    assert "Ysolde Penhew (h-" in said.stdout
    assert "spoiled  (outer in White, print 3 of run 1)" in said.stdout
    assert due_of(addressing, printed_job) == [("outer", "spoiled")]
    inner = answer(addressing("spoiled", printed_job, "farrenby", "--kind", "inner", "--json"))
    (one,) = inner["prints"]
    assert (one["run"], one["kind"], one["page"]) == (2, "inner", 2)
    key = answer(addressing("spoiled", printed_job, one["household"], "1", "--json"))
    assert [(each["kind"], each["page"]) for each in key["prints"]] == [("outer", 1), ("outer", 2)]


@pytest.mark.parametrize(
    ("name", "code"), [("Nobody", "household-unknown"), ("Ms. or Dr.", "household-unknown")]
)
def test_a_household_that_was_never_printed_is_not_marked(
    addressing: Run, printed_job: Path, name: str, code: str
) -> None:
    ran = addressing("spoiled", printed_job, "1", name, "--json")
    assert ran.returncode == 2
    assert f'"{code}"' in ran.stderr
    assert due_of(addressing, printed_job) == []


def test_a_name_that_fits_two_households_is_asked_about(addressing: Run, write_list: Write) -> None:
    path = write_list([*ROWS, ("Mr. Silas Penhew", "3 Osier Row", *PLACE)])
    addressing("plates", path)
    addressing("printed", path)
    ran = addressing("spoiled", path, "Penhew")
    assert ran.returncode == 2
    assert "Ysolde Penhew (h-" in ran.stderr
    assert "Silas Penhew (h-" in ran.stderr


def test_a_page_of_another_run_is_told_with_its_run(addressing: Run, printed_job: Path) -> None:
    addressing("spoiled", printed_job, "2")
    addressing("reprint", printed_job)
    assert addressing("printed", printed_job, "--reprint", 1).returncode == 0
    ran = addressing("spoiled", printed_job, "3")
    assert ran.returncode == 2
    assert "Run 3 has 1 print; print 3 is in run 1." in ran.stderr
    assert "Add --run 1" in ran.stderr
    assert addressing("spoiled", printed_job, "3", "--run", 1).returncode == 0
    nowhere = addressing("spoiled", printed_job, "23").stderr
    assert "print 23 is in no outer run" in nowhere


def test_a_household_printed_twice_is_marked_only_with_its_run(
    addressing: Run, printed_job: Path
) -> None:
    addressing("printed", printed_job, "--again")
    ran = addressing("destroyed", printed_job, "Ysolde Penhew")
    assert ran.returncode == 2
    assert "run 1, print 3; run 3, print 3" in ran.stderr
    assert addressing("destroyed", printed_job, "Ysolde Penhew", "--run", 1).returncode == 0
    assert addressing("destroyed", printed_job, "Ysolde Penhew").returncode == 0


def test_a_reprint_s_proof_shows_only_what_is_printed_again(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    assert addressing("spoiled", printed_job, "1").returncode == 0
    assert addressing("reprint", printed_job).returncode in {0, 1}
    with closing(
        pdfium.PdfDocument(tmp_path / "guests-job" / "reprint-01" / "proof.pdf")
    ) as sheets:
        told = " ".join(" ".join(p.get_textpage().get_text_bounded().split()) for p in sheets)
    assert "no envelope" not in told
    assert "of the list" in told
    assert "not on it" in told


def test_a_reprint_counts_its_own_envelopes_and_the_blanks_that_are_left(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    answer(addressing("spoiled", printed_job, 2, "--json"))
    said = answer(addressing("reprint", printed_job, "--json"))
    counts = (tmp_path / "guests-job" / "reprint-01" / "counts.tsv").read_text("utf-8")
    assert counts.splitlines()[1:] == ["outer\t1\t0\t0\t25\t0\t0"]
    assert said["blanks_left"] == {"outer": 25 - 3 - 1}


def test_a_ledger_of_another_job_is_refused_and_left_as_it_is(
    addressing: Run, printed_job: Path, write_list: Write, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    other.mkdir()
    copied = (printed_job.parent / "guests-job" / "ledger.sqlite").read_bytes()
    (other / "ledger.sqlite").write_bytes(copied)
    path = write_list([("Mr. Anselm Quarrender", "5 Penhew Road", *PLACE)])
    for command in ("ledger", "reprint"):
        ran = addressing(command, path, "--to", other, "--json")
        assert ran.returncode == 3
        assert '"ledger-of-another-job"' in ran.stderr
        assert (other / "ledger.sqlite").read_bytes() == copied


def test_what_was_never_on_paper_there_is_to_be_tried_first(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path, docket = write_list(ROWS), tmp_path / "job.toml"

    def untried(stock: str, layout: str = "a7") -> set[tuple[str, ...]]:
        piece = f'[[piece]]\nkind = "outer"\nstock = "{stock}"\nlayout = "{layout}"\n'
        docket.write_text(f'[device]\nname = "home-toner-white"\n{piece}')
        said = answer(addressing("estimate", path, "--docket", docket, "--json"))
        keys = ("place", "ink", "stock", "layout")
        return {tuple(e[key] for key in keys) for e in said["not_yet_printed"]}

    inner = ("home-toner-white", "White", "deep-green", "a7-inner")
    assert untried("navy") == {("home-toner-white", "White", "navy", "a7"), inner}
    assert addressing("plates", path, "--docket", docket).returncode == 0
    assert addressing("printed", path, "--kind", "outer").returncode == 0
    assert untried("navy") == {inner}
    assert untried("navy", "a6") == {("home-toner-white", "White", "navy", "a6"), inner}
    assert untried("kraft") == {("home-toner-white", "White", "kraft", "a7"), inner}
    told = addressing("estimate", path, "--docket", docket).stdout
    assert "White on kraft a7 at Toner device at home, white in the black slot (outer)" in told


HOSTS = """[hosts]
name = "Mr. Gideon Penhew"
street = "1 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
"""


def test_one_job_at_two_places_has_a_folder_and_a_ledger_each(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """As docs/own_files.md says: two dockets, two folders, the same answers given to both."""
    path = write_list([*ROWS, ("Mr. Anselm Quarrender", "5 Penhew Road", "", "CT", "")])
    for name, kind, place in (("home", "outer", "home-toner-white"), ("shop", "inner", "")):
        press = f'[device]\nname = "{place}"\n' if place else '[shop]\nname = "farrenby-press"\n'
        (tmp_path / f"{name}.toml").write_text(f'{HOSTS}[pieces]\nmake = ["{kind}"]\n{press}')
        job = ("--docket", f"{name}.toml", "--to", f"guests-{name}")
        whole = "5 Penhew Road, Litchfield, CT 06759"
        done = addressing("answer", path, "--set", "Anselm Quarrender", "address", whole, *job)
        assert done.returncode == 0, done.stderr
        assert addressing("plates", path, *job).returncode == 0
        assert addressing("printed", path, "--to", f"guests-{name}").returncode == 0
    addressing("spoiled", path, "print:2", "--to", "guests-home")
    home = answer(
        addressing("ledger", path, "--docket", "home.toml", "--to", "guests-home", "--json")
    )
    shop = answer(
        addressing("ledger", path, "--docket", "shop.toml", "--to", "guests-shop", "--json")
    )
    assert (len(home["good"]), home["due"][0]["why"], home["wrong"]) == (3, "spoiled", [])
    assert (len(shop["good"]), shop["due"], shop["wrong"]) == (4, [], [])


def test_a_kind_that_the_docket_doesn_t_make_is_counted_and_not_called_wrong(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    docket = tmp_path / "outers.toml"
    docket.write_text('[pieces]\nmake = ["outer"]\n')
    said = answer(addressing("ledger", printed_job, "--docket", docket, "--json"))
    assert (len(said["good"]), said["wrong"], said["others"]) == (3, [], {"inner": 3})
    told = addressing("ledger", printed_job, "--docket", docket).stdout
    assert "not made by this docket: 3 inner" in told


def test_prints_of_which_none_is_this_job_s_are_not_simply_to_be_destroyed(
    addressing: Run, printed_job: Path, tmp_path: Path
) -> None:
    gold = (f'[[piece]]\nkind = "{kind}"\nink = "Gold"\n' for kind in ("outer", "inner"))
    (tmp_path / "job.toml").write_text("".join(gold), "utf-8")
    ran = addressing("ledger", printed_job, "--docket", "job.toml")
    assert ran.returncode == 0, ran.stderr
    assert "Nothing in the ledger is what this job prints" in ran.stdout
    assert "take out and destroy" not in ran.stdout
    whole = answer(addressing("ledger", printed_job, "--docket", "job.toml", "--json"))
    assert whole["strange"]
    assert not answer(addressing("ledger", printed_job, "--docket", "none", "--json"))["strange"]


def test_what_is_the_same_for_all_is_judged_before_anything_is_noted(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path, docket = write_list(ROWS), tmp_path / "job.toml"
    docket.write_text(
        '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
        'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
        '[pieces]\nmake = ["outer", "return", "reply"]\n',
        encoding="utf-8",
    )
    assert addressing("plates", path, "--docket", docket).returncode == 0
    plates = tmp_path / "guests-job" / "plates"
    (back,), (reply,) = plates.glob("*return*.pdf"), plates.glob("*reply*.pdf")
    right = back.read_bytes()
    back.write_bytes(reply.read_bytes())
    ran = addressing("printed", path)
    assert ran.returncode == 3
    assert back.name in ran.stderr
    assert "nothing was noted" in ran.stderr
    assert addressing("printed", path, "--kind", "outer").returncode == 0
    back.write_bytes(right)
    assert addressing("printed", path, "--again").returncode == 0


def test_plates_of_which_nobody_knows_what_they_should_be_are_not_noted(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path, job = write_list(ROWS), tmp_path / "guests-job"
    assert addressing("plates", path).returncode == 0
    (job / "orders.json.z").unlink()
    manifest = json.loads((job / "manifest.json").read_text("utf-8"))
    manifest["files"] = [each for each in manifest["files"] if each["kind"] != "orders"]
    (job / "manifest.json").write_text(json.dumps(manifest), "utf-8")
    ran = addressing("printed", path)
    assert ran.returncode == 3
    assert "nobody knows what the plates should be" in ran.stderr


def test_a_reprint_says_which_plate_that_nobody_printed_it_replaces(
    addressing: Run, write_list: Write
) -> None:
    path = write_list(ROWS)
    answer(addressing("plates", path, "--json"))
    answer(addressing("printed", path, "--kind", "outer", "--json"))
    said = answer(addressing("reprint", path, "--json"))
    assert said["replaces"] == [
        {"path": "plates/02-inner-white.pdf", "kind": "inner", "pieces": 3, "again": 3}
    ]
    told = addressing("reprint", path).stdout
    assert "These replace plates/02-inner-white.pdf, which isn't noted as printed" in told
    answer(addressing("printed", path, "--kind", "inner", "--json"))
    write_list([*ROWS, ("Mr. Ivo Sands", "9 Larkmoor Lane", *PLACE)])
    assert answer(addressing("reprint", path, "--json"))["replaces"] == []


def test_a_reprint_says_how_much_of_an_unprinted_plate_it_holds(
    addressing: Run, printed_job: Path, write_list: Write
) -> None:
    addressing("spoiled", printed_job, "2")
    answer(addressing("reprint", printed_job, "--json"))
    addressing("printed", printed_job, "--reprint", 1)
    addressing("spoiled", printed_job, "Ysolde Penhew")
    write_list([ROWS[0], ("Ms. Odile Farrenbye", *ROWS[1][1:]), ROWS[2]])
    answer(addressing("plates", printed_job, "--json"))
    said = answer(addressing("reprint", printed_job, "--json"))
    outer = next(each for each in said["replaces"] if each["kind"] == "outer")
    assert (outer["path"], outer["pieces"], outer["again"]) == ("plates/01-outer-white.pdf", 3, 2)


def test_a_reprint_that_the_order_has_no_blanks_for_says_what_to_order(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    (tmp_path / "job.toml").write_text("[overs]\npercent = 0.0\nminimum = 0\npack = 3\n")
    addressing("plates", path, "--docket", "job.toml")
    addressing("printed", path)
    addressing("spoiled", path, "Odile Farrenby")
    told = addressing("reprint", path).stdout
    assert "outer: the order hasn't enough blanks for these; order 3 (1 pack)" in told
