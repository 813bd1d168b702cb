"""What programs read: check, lines, tally and plates on the demo list, field by field."""

import csv
import math
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

import openpyxl
import pytest

Demo = Mapping[str, Any]
COMMANDS = ("plates", "check", "lines", "tally")
KEY = re.compile(r"h-[a-z2-7]{8}(-[0-9]+|[a-z0-9-]*)")
PERSON = {
    "title", "given", "family", "suffix", "credentials", "nickname", "age", "kind", "from",
}  # fmt: skip
ADDRESS = {
    "street", "unit", "recipient_extra", "city", "region", "postcode", "country", "doubt",
}  # fmt: skip
FINDING = {
    "severity", "code", "file", "sheet", "cell", "household", "text", "mend", "holds",
}  # fmt: skip


def leaves(answer: object) -> Iterator[object]:
    """Every value inside an answer that is no object and no list."""
    if isinstance(answer, dict):
        for value in answer.values():
            yield from leaves(value)
    elif isinstance(answer, list):
        for value in answer:
            yield from leaves(value)
    else:
        yield answer


@pytest.mark.parametrize("command", COMMANDS)
def test_nothing_unknown_is_an_empty_word(demo: Demo, command: str) -> None:
    assert "" not in list(leaves(demo[command]))


@pytest.mark.parametrize("command", COMMANDS)
def test_only_the_tally_leaves_with_nought_while_households_wait(demo: Demo, command: str) -> None:
    assert demo[f"{command} exit"] == (0 if command == "tally" else 1)


@pytest.mark.parametrize("command", COMMANDS)
def test_nothing_is_said_beside_the_answer(demo: Demo, command: str) -> None:
    assert demo[f"{command} error"] == ""


def test_rows_are_the_used_and_the_unused_ones(demo: Demo) -> None:
    answer = demo["check"]
    assert answer["rows"] == answer["rows_used"] + len(answer["rows_not_used"])
    for row in answer["rows_not_used"]:
        assert set(row) == {"sheet", "row", "why"}


def test_rows_are_those_that_a_spreadsheet_library_counts(demo: Demo) -> None:
    # against openpyxl: non-empty rows below the header of each sheet (row 4, and row 1)
    book = openpyxl.load_workbook(demo["desk"] / "demo_guests.xlsx")
    counted = sum(
        any(value is not None for value in row)
        for name, header in (("Guests", 4), ("late adds", 1))
        for row in book[name].iter_rows(min_row=header + 1, values_only=True)
    )
    assert demo["check"]["rows"] == counted


def test_guests_are_all_people_of_all_households(demo: Demo) -> None:
    people = [person for home in demo["lines"]["households"] for person in home["people"]]
    assert demo["check"]["guests"] == len(people)
    assert {person["kind"] for person in people} == {"named", "guest", "child"}
    assert demo["check"]["households"] == len(demo["lines"]["households"])


def test_every_finding_has_all_its_fields(demo: Demo) -> None:
    keys = {home["key"] for home in demo["lines"]["households"]}
    for found in demo["check"]["findings"]:
        assert set(found) >= FINDING
        assert found["severity"] in {"stop", "ask", "note"}
        assert found["household"] is None or found["household"] in keys
        assert found["text"].endswith((".", "?", "”")), found["text"]


def test_every_stop_holds_and_no_note_does(demo: Demo) -> None:
    for found in demo["check"]["findings"]:
        if found["severity"] != "ask":
            assert found["holds"] == (found["severity"] == "stop")


def test_the_held_are_those_with_a_finding_that_holds(demo: Demo) -> None:
    holding = {found["household"] for found in demo["check"]["findings"] if found["holds"]} - {None}
    held = {home["key"] for home in demo["lines"]["households"] if home["held"]}
    assert held == holding == set(demo["manifest"]["held"]) == set(demo["plates"]["held"])
    assert demo["check"]["held"] == {
        "outer": len(held),
        "inner": len(held),
        "return": 0,
        "reply": 0,
    }


def test_findings_stand_with_their_household_in_lines_too(demo: Demo) -> None:
    by_home: dict[str, Counter[tuple[str, str]]] = {}
    for found in demo["check"]["findings"]:
        pair = (found["severity"], found["code"])
        by_home.setdefault(found["household"], Counter())[pair] += 1
    for home in demo["lines"]["households"]:
        pairs = Counter((found["severity"], found["code"]) for found in home["findings"])
        assert pairs == by_home.get(home["key"], Counter()), home["key"]


def test_what_the_demo_must_find_is_found_in_its_cell(demo: Demo) -> None:
    # the list was made with these: scripts/demo_guests.tsv
    found = {(each["code"], each["sheet"], each["cell"]) for each in demo["check"]["findings"]}
    assert found >= {
        ("row-struck", "Guests", "B45"),
        ("row-struck", "Guests", "B46"),
        ("row-hidden", "Guests", "B47"),
        ("cells-merged", "Guests", "D48"),
        ("duplicate-probable", "Guests", "B17"),
        ("duplicate-probable", "Guests", "B41"),
        ("zip-not-in-state", "Guests", "H55"),
        ("address-missing", "Guests", "B56"),
        ("zip-missing", "Guests", "D57"),
    }


def test_households_have_the_fields_that_scripts_rely_on(demo: Demo) -> None:
    for home in demo["lines"]["households"]:
        assert set(home) >= {"key", "held", "people", "address", "pieces", "findings"}
        assert KEY.fullmatch(home["key"])
        for person in home["people"]:
            assert set(person) == PERSON
        if home["address"] is not None:
            assert set(home["address"]) == ADDRESS
            assert 0 <= home["address"]["doubt"] <= 1
    keys = [home["key"] for home in demo["lines"]["households"]]
    assert len(keys) == len(set(keys))


def test_a_guest_without_a_name_has_all_names_null(demo: Demo) -> None:
    guests = [
        person
        for home in demo["lines"]["households"]
        for person in home["people"]
        if person["kind"] == "guest"
    ]
    assert len(guests) > 5
    for guest in guests:
        assert {guest[name] for name in ("title", "given", "family", "suffix")} == {None}


def test_lines_have_text_role_and_cells(demo: Demo) -> None:
    for home in demo["lines"]["households"]:
        for piece in home["pieces"]:
            assert set(piece) == {"kind", "held", "lines"}
            assert piece["held"] == home["held"]
            for line in piece["lines"]:
                assert set(line) == {"text", "role", "from"}
                assert line["role"] in {"name", "extra", "street", "place", "country"}
                # Two blanks before a Canadian code: Canada Post addressing guidelines
                parts = line["text"].split("  ")
                assert line["text"].strip() == line["text"]
                assert len(parts) == 1 or home["address"]["country"] == "CA", line
                assert line["from"], line


def test_every_cell_that_is_named_holds_something(demo: Demo) -> None:
    # against openpyxl: no word on an envelope comes from an empty cell
    book = openpyxl.load_workbook(demo["desk"] / "demo_guests.xlsx")
    cells = {
        cell
        for home in demo["lines"]["households"]
        for piece in home["pieces"]
        for line in piece["lines"]
        for cell in line["from"]
    }
    assert len(cells) > 300
    for cell in cells:
        sheet, _, name = cell.rpartition("!")
        assert book[sheet][name].value is not None, cell


def test_an_address_at_home_ends_with_one_space_and_the_zip(demo: Demo) -> None:
    places = 0
    for home in demo["lines"]["households"]:
        address = home["address"]
        outer = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
        if address is None or address["country"] != "US" or not address["postcode"]:
            continue
        last = outer["lines"][-1]
        assert last["role"] == "place"
        assert re.search(rf"\S {re.escape(address['postcode'])}$", last["text"]), last
        places += 1
    assert places > 50


def test_an_address_abroad_ends_with_its_country_in_capitals(demo: Demo) -> None:
    abroad = [
        home
        for home in demo["lines"]["households"]
        if home["address"] and home["address"]["country"] not in {None, "US"}
    ]
    assert {home["address"]["country"] for home in abroad} == {"CA", "GB", "IE", "DE", "FR", "AU"}
    for home in abroad:
        outer = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
        assert [line["role"] for line in outer["lines"]].count("country") == 1
        assert outer["lines"][-1]["role"] == "country"
        assert outer["lines"][-1]["text"].isupper()


def test_an_inner_names_people_only(demo: Demo) -> None:
    for home in demo["lines"]["households"]:
        inner = next(piece for piece in home["pieces"] if piece["kind"] == "inner")
        assert {line["role"] for line in inner["lines"]} == {"name"}


def test_a_companion_without_a_name_stands_on_the_inner_only(demo: Demo) -> None:
    seen = 0
    for home in demo["lines"]["households"]:
        if any(person["kind"] == "guest" for person in home["people"]):
            words = {
                piece["kind"]: " ".join(line["text"] for line in piece["lines"])
                for piece in home["pieces"]
            }
            assert "Guest" in words["inner"]
            assert "Guest" not in words["outer"]
            seen += 1
    assert seen > 5


def test_job_pieces_come_from_the_docket(demo: Demo) -> None:
    pieces = {piece["kind"]: piece for piece in demo["lines"]["job_pieces"]}
    assert set(pieces) == {"return", "reply"}
    for piece in pieces.values():
        sources = [cell for line in piece["lines"] for cell in line["from"]]
        assert all(cell.startswith("docket:hosts.") for cell in sources)
        assert "docket:hosts.street" in sources
        assert piece["held"] is False


def test_the_tally_is_the_arithmetic_of_the_docket(demo: Demo) -> None:
    households = demo["check"]["households"]
    assert set(demo["tally"]["pieces"]) == {"outer", "inner", "return", "reply"}
    for kind, count in demo["tally"]["pieces"].items():
        assert count["needed"] == households == demo["check"]["pieces"][kind]
        assert count["overs"] == max(10, math.ceil(0.15 * households))
        assert count["pack"] == 25
        bought = kind != "return"  # it goes onto the outers' flaps
        assert count["packs"] == bought * math.ceil((households + count["overs"]) / 25)
        assert count["to_order"] == count["packs"] * count["pack"]


def test_the_file_of_counts_says_what_the_tally_says(demo: Demo) -> None:
    with (demo["folder"] / "counts.tsv").open(encoding="utf-8", newline="") as stream:
        rows = {row.pop("kind"): row for row in csv.DictReader(stream, delimiter="\t")}
    tally = {
        kind: {name: str(count[name]) for name in rows[kind]}
        for kind, count in demo["tally"]["pieces"].items()
    }
    assert rows == tally
    assert set(rows["outer"]) == {"needed", "held", "overs", "pack", "packs", "to_order"}
