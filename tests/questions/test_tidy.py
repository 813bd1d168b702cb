"""The tidied list: read back it is the same, and nothing in it can become a formula."""

import csv
import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from addressing.guestlist import read_list
from addressing.questions.tidy import Tidy, tidy_tables
from addressing.questions.tidyfile import DANGEROUS, csv_of, harmless, workbook_of
from addressing.records.guests import Cited, Household

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
DEMO = Path(__file__).resolve().parents[2] / "demo_guests.xlsx"
FIELDS = ("street", "unit", "recipient_extra", "city", "region", "postcode", "country")
HEADER = "Name,Plus One,Street,Unit,City,State,ZIP,Country,By Hand,Wave,Side,Suite,Inner Envelope"
NAMES = (
    "Mr. and Mrs. Tobias Wexcombe",
    "Ms. Odile Farrenby and Dr. Tobias van der Wexcombe Jr.",
    "The Penhew Family",
    "Linnet & Bram Ashgrove, Poppy (7), Jonah (4)",
    "Mr. Ludo Larkmoor and Guest",
    "Theodora Wexcombe, PhD",
    "Mr. Hugo Sallow & family",
    "Captain Rowena Hatherleigh, USN",
    "Tobias “Toby” Penhew",
    "Aunt Jo",
    "Cosima",
    "Larkmoor House Ltd.",
)
PLACES = (
    "14 Larkmoor Lane,Apt. 3,Litchfield,CT,06759,,",
    "431 Weathervane Drive,,Bar Harbor,ME,04609-1234,USA,",
    "P.O. Box 12,,Duluth,MN,55802,,",
    "12 Larkmoor Road,,Ottawa,ON,K1A 0B1,Canada,",
    "9 Rue des Tilleuls,,Lyon,,69002,France,",
    ",,,,,,yes",
)
FACTS = (",,,", "B,Bride,,", "A,Groom,Evening only,Uncle Kit and Aunt Jo", ",,,Kit and Jo")
ROWS = st.lists(
    st.tuples(
        st.sampled_from(NAMES),
        st.sampled_from(("", "yes", "2")),
        st.sampled_from(PLACES),
        st.sampled_from(FACTS),
    ),
    min_size=1,
    max_size=6,
)


def shown(home: Household) -> tuple[object, ...]:
    """What an envelope needs of a household, without its places."""

    def text(cited: Cited | None) -> str | None:
        return cited.text if cited else None

    people = tuple(
        (
            p.title,
            p.given,
            p.family,
            p.suffix,
            p.credentials,
            p.nickname,
            p.age,
            p.kind,
            p.joined,
            text(p.table),
        )
        for p in home.people
    )
    owed = None if home.by_hand else home.address  # what is given by hand owes none
    address = owed and tuple(text(getattr(owed, name)) for name in FIELDS)
    facts = tuple(map(text, (home.wave, home.side, home.suite, home.inner)))
    return text(home.label), text(home.family), people, address, home.by_hand, facts


def read_again(path: Path, name: str, folder: Path) -> tuple[list[object], list[object]]:
    """The households of a list, and those of its tidied form."""
    guest_list, findings = read_list(path, {})
    tables = tidy_tables(guest_list, findings)
    other = folder / name
    other.write_bytes(workbook_of(tables) if name.endswith("xlsx") else csv_of(tables[0]))
    again = read_list(other, {})[0]
    return [shown(home) for home in guest_list.households], [shown(h) for h in again.households]


@pytest.mark.parametrize("name", ["tidy.xlsx", "tidy.csv"])
def test_the_demo_tidied_and_read_again_has_the_same_households(tmp_path: Path, name: str) -> None:
    before, after = read_again(DEMO, name, tmp_path)
    assert after == before


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(rows=ROWS, name=st.sampled_from(("tidy.xlsx", "tidy.csv")))
def test_any_list_tidied_and_read_again_has_the_same_households(
    tmp_path: Path, rows: list[tuple[str, str, str, str]], name: str
) -> None:
    path = tmp_path / "guests.csv"
    lines = [f'"{who}",{more},{place},{facts}' for who, more, place, facts in rows]
    path.write_text("\n".join((HEADER, *lines)) + "\n", "utf-8")
    before, after = read_again(path, name, tmp_path)
    assert after == before


@pytest.mark.parametrize("name", ["tidy.xlsx", "tidy.csv"])
def test_a_tidied_list_is_read_with_the_dockets_columns_of_the_first_one(
    addressing: Run, tmp_path: Path, name: str
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text('[columns]\n"Household" = "name"\n"Ort" = "city"\n', "utf-8")
    (tmp_path / "guests.csv").write_text(
        "Household,Street,Ort,State,ZIP\n"
        "Odile Farrenby and Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759\n"
    )
    said = ("--docket", "docket.toml", "--json")
    before = json.loads(addressing("lines", "guests.csv", *said).stdout)["households"]
    assert addressing("tidy", "guests.csv", "--to", name, "--docket", "docket.toml").returncode == 0
    after = json.loads(addressing("lines", name, *said).stdout)["households"]
    words = [
        [[line["text"] for line in piece["lines"]] for piece in home["pieces"]]
        for home in (*before, *after)
    ]
    assert words[0] == words[1]
    found = json.loads(addressing("check", name, *said).stdout)["findings"]
    assert "columns-own" in {each["code"] for each in found}


# OWASP, "CSV Injection": = + - @, tab (0x09), carriage return (0x0D), line feed, full-width forms
@pytest.mark.parametrize("first", [*"=+-@\t\r\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"])
def test_no_field_begins_as_a_formula_does(first: str) -> None:
    table = Tidy("Guests", ("A",), ((f"{first}cmd|' /C calc'!A0",),))
    text = csv_of(table).decode("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert not rows[1][0].startswith(DANGEROUS)
    page = openpyxl.load_workbook(io.BytesIO(workbook_of([table]))).worksheets[0]
    assert page["A2"].data_type == "s"
    with zipfile.ZipFile(io.BytesIO(workbook_of([table]))) as archive:
        assert b"<f>" not in archive.read("xl/worksheets/sheet1.xml")


def test_a_workbook_is_made_without_a_file_that_a_killed_run_would_leave_behind(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refuse(*_: object, **__: object) -> object:
        raise AssertionError

    monkeypatch.setattr("openpyxl.worksheet._writer.NamedTemporaryFile", refuse)
    table = Tidy("Guests", ("A",), (("14 Larkmoor Lane",),))
    page = openpyxl.load_workbook(io.BytesIO(workbook_of([table]))).worksheets[0]
    assert page["A2"].value == "14 Larkmoor Lane"


@given(st.text(max_size=20))
@example("_x0000_")
def test_a_harmless_field_keeps_every_letter(text: str) -> None:
    kept = "".join(mark for mark in text if mark.isprintable())
    assert "".join(mark for mark in harmless(text).removeprefix("'") if mark.isprintable()) in (
        kept, kept.removeprefix("'"),
    )  # fmt: skip


def test_a_zip_stays_text_with_its_zero(addressing: Run, write_list: Write) -> None:
    path = write_list([("Mr. Silas Umber", "14 Larkmoor Lane", "Litchfield", "CT", "6759")])
    assert addressing("tidy", path, "--to", "tidy.xlsx").returncode == 0
    page = openpyxl.load_workbook("tidy.xlsx")["Guests"]
    row = {head.value: cell for head, cell in zip(page[1], page[2], strict=True)}
    assert (row["ZIP"].value, row["ZIP"].data_type) == ("06759", "s")
    assert row["Repairs made"].value == "E2: “6759” is “06759”"
    assert row["Names from"].value == "A2"
    assert row["Address from"].value == "B2, C2, D2, E2"


def test_a_held_household_says_why_and_an_answer_names_its_cell(
    addressing: Run, write_list: Write
) -> None:
    path = write_list([("Mr. Silas Umber", "14 Larkmoor Lane", "Litchfield", "CT", "")])
    told = addressing("tidy", path, "--to", "tidy.csv", "--json")
    assert told.returncode == 1
    rows = list(csv.DictReader(Path("tidy.csv").read_text("utf-8-sig").splitlines()))
    assert rows[0]["Held because"].startswith("The address has no ZIP code.")
    assert json.loads(told.stdout)["held"] == [rows[0]["Household"]]
    Path("mine.toml").write_text(
        f'[[answer]]\nhousehold = "{rows[0]["Household"]}"\nchange = "postcode"\nanswer = "06759"\n'
    )
    addressing("answer", path, "mine.toml")
    assert addressing("tidy", path, "--to", "tidy.csv").returncode == 0
    rows = list(csv.DictReader(Path("tidy.csv").read_text("utf-8-sig").splitlines()))
    assert (rows[0]["ZIP"], rows[0]["Held because"]) == ("06759", "")
    assert "mine.toml" in rows[0]["Address from"]


def test_the_same_list_gives_the_same_bytes(addressing: Run, write_list: Write) -> None:
    path = write_list()
    for name in ("one.xlsx", "two.xlsx", "one.csv", "two.csv"):
        addressing("tidy", path, "--to", name)
    assert Path("one.xlsx").read_bytes() == Path("two.xlsx").read_bytes()
    assert Path("one.csv").read_bytes() == Path("two.csv").read_bytes()


def test_the_clients_list_is_never_written_over(addressing: Run, write_list: Write) -> None:
    path = write_list()
    before = path.read_bytes()
    told = addressing("tidy", path, "--to", path, "--json")
    assert told.returncode == 4
    assert json.loads(told.stderr.splitlines()[-1])["fault"]["code"] == "would-overwrite"
    assert path.read_bytes() == before


def test_another_ending_is_a_wrong_option(addressing: Run, write_list: Write) -> None:
    assert addressing("tidy", write_list(), "--to", "tidy.pdf").returncode == 2
