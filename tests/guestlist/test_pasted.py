"""Text pasted from mails: which lines make a household, and which are a mail's own."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.aligned import aligned_records
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.mail_lines import has_verb, is_name
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.grid import Table
from addressing.guestlist.tables.headers import Found, find_tables
from addressing.tables import table

MAILS = {
    "blocks": (
        "Hi Odile,\n"
        "\n"
        "here are the last ones:\n"
        "\n"
        "Mr. and Mrs. Tobias Penhew\n"
        "14 Larkmoor Lane\n"
        "Litchfield, CT 06759\n"
        "\n"
        "Ms. Ottoline Grayling\n"
        "431 Weathervane Drive\n"
        "Apt. 3\n"
        "Bar Harbor, ME 04609\n"
        "\n"
        "Dr. Ingrid Halvorsby and Guest\n"
        "P.O. Box 12\n"
        "Duluth, MN 55802\n"
        "\n"
        "Thanks so much!\n"
        "Bea\n"
        "Sent from my phone\n"
    ),
    "lines": (
        "Mr. & Mrs. Corwin Ruddock, 14 Larkmoor Lane, Litchfield, CT 06759\n"
        "Ms. Ottoline Grayling, 431 Weathervane Drive, Apt. 3, Bar Harbor, ME 04609\n"
        "Dr. Ingrid Halvorsby, P.O. Box 12, Duluth, MN 55802\n"
    ),
    "quoted": (
        "On Mon, May 4, 2026 at 9:12 AM Bea Wexcombe <bea@example.com> wrote:\n"
        "> Hi!\n"
        ">\n"
        "> Tobias & Odile Penhew\n"
        "> 14 Larkmoor Lane\n"
        "> Litchfield, CT 06759\n"
        ">\n"
        "> Linnet Ashgrove\n"
        "> 9 Mill Row\n"
        "> Bar Harbor ME 04609\n"
        ">\n"
        "> Love,\n"
        "> Bea\n"
    ),
    "numbered": (
        "Guest list\n"
        "\n"
        "1. Mr. and Mrs. Tobias Penhew\n"
        "   14 Larkmoor Lane\n"
        "   Litchfield, CT 06759\n"
        "2. Ms. Ottoline Grayling\n"
        "   431 Weathervane Drive\n"
        "   Bar Harbor, ME 04609\n"
        "3) The Halvorsby Family\n"
        "   1440 Birchbark Trail\n"
        "   Duluth, MN 55802\n"
    ),
    "bullets-lines": (
        "Groom's side:\n"
        "- Mr. and Mrs. Tobias Penhew - 14 Larkmoor Lane, Litchfield CT 06759\n"
        "- Ottoline Grayling - 431 Weathervane Drive, Bar Harbor, ME 04609\n"
        "* Ingrid & Ludo Halvorsby: 1440 Birchbark Trail, Duluth, MN 55802\n"
    ),
    "no-gaps": (
        "WORK\n"
        "Mr. Tobias Penhew\n"
        "14 Larkmoor Lane\n"
        "Litchfield, CT 06759\n"
        "Ms. Ottoline Grayling\n"
        "   we all call her Otti, 30 years now\n"
        "431 Weathervane Drive\n"
        "Bar Harbor, ME 04609\n"
        "and the others are\n"
        "Dr. Ingrid Halvorsby (they have two children, 15 and 12)\n"
        "P.O. Box 12\n"
        "Duluth, MN 55802\n"
        "\n"
        "THE DUNCAN FAMILY\n"
        "Apt. 3, 9 Mill Row\n"
        "Duluth, MN 55802\n"
    ),
    "two-names": (
        "Mr. Tobias Penhew\n"
        "and Ms. Odile Farrenby\n"
        "14 Larkmoor Lane\n"
        "Litchfield, CT 06759\n"
        "\n"
        "Dr. Ingrid Halvorsby\n"
        "Mr. Ludo Halvorsby\n"
        "1440 Birchbark Trail\n"
        "Duluth, MN 55802\n"
    ),
    "labels": (
        "Name: Tobias Penhew\n"
        "Address: 14 Larkmoor Lane, Litchfield, CT 06759\n"
        "Phone: 860 555 0101\n"
        "Plus one: yes\n"
        "\n"
        "Name: Ottoline Grayling\n"
        "Address: 431 Weathervane Drive, Bar Harbor, ME 04609\n"
        "Notes: moved in May\n"
    ),
    "german": (
        "Liebe Odile,\n"
        "\n"
        "Familie Penhew\n"
        "Larkmoorstraße 12\n"
        "10115 Berlin\n"
        "\n"
        "Herr Tobias Grayling\n"
        "Weathervane-Weg 3\n"
        "80331 München\n"
        "\n"
        "Liebe Grüße\n"
        "Bea\n"
    ),
    "sig-address": (
        "Mr. Tobias Penhew\n"
        "14 Larkmoor Lane\n"
        "Litchfield, CT 06759\n"
        "\n"
        "Ms. Ottoline Grayling\n"
        "(address to come)\n"
        "\n"
        "--\n"
        "Bea Wexcombe\n"
        "12 Mill Row\n"
        "Duluth, MN 55802\n"
    ),
}


@pytest.fixture
def find(tmp_path: Path) -> Callable[[str], Found]:
    def read(text: str) -> Found:
        path = tmp_path / "mail.txt"
        path.write_text(text, encoding="utf-8")
        grids, asked, _ = read_grids(open_list(path))
        tables, unused, findings = find_tables(grids, {})
        return tables, unused, (*asked, *findings)

    return read


def places(table: Table) -> list[str]:
    """The cells of each household, in the order of its columns; a heading over it is none."""
    sides = {column.index for column in table.columns if column.meaning == "side"}
    return [
        " ".join(c.where.cell or "" for n, c in enumerate(row.cells) if c and n not in sides)
        for row in table.rows
    ]


@pytest.mark.parametrize(
    ("mail", "expected", "unused"),
    [
        (
            "blocks",
            ["A5 A6 A7", "A9 A10 A11 A12", "A14 A15 A16"],
            "1 a greeting; 3 thanks, or words that lead to the list; 18 the signature of a mail",
        ),
        ("lines", ["A1 A1", "A2 A2", "A3 A3"], ""),
        (
            "quoted",
            ["A4 A5 A6", "A8 A9 A10"],
            "1 the opening of a quoted mail; 2 a greeting; 12 the signature of a mail",
        ),
        ("numbered", ["A3 A4 A5", "A6 A7 A8", "A9 A10 A11"], "1 a heading"),
        ("bullets-lines", ["A2 A2", "A3 A3", "A4 A4"], "1 a heading"),
        (
            "no-gaps",
            ["A2 A3 A4", "A5 A7 A8 A6", "A10 A11 A12", "A14 A15 A16"],
            "1 a heading; 9 no household could be read in it",
        ),
        ("two-names", ["A1 A3 A4", "A6 A7 A8 A9"], ""),
        ("labels", ["A1 A2 A4 A3", "A6 A7 A8"], ""),
        ("german", ["A3 A4 A5", "A7 A8 A9"], "1 a greeting; 11 the signature of a mail"),
        ("sig-address", ["A1 A2 A3", "A5 A6"], "8 the signature of a mail"),
    ],
)
def test_each_line_of_a_mail_is_a_households_or_said_to_be_the_mails(
    find: Callable[[str], Found], mail: str, expected: list[str], unused: str
) -> None:
    (table,), left, findings = find(MAILS[mail])
    assert places(table) == expected
    said = "; ".join(f"{line.row} {line.why}" for line in left)
    assert said.startswith(unused)
    assert bool(said) == bool(unused)
    lines = sum(bool(line.strip(" >")) for line in MAILS[mail].splitlines())
    used = {cell for place in expected for cell in place.split()}
    assert lines == len(used) + len(left) + (mail == "two-names")  # "and …" goes on with its line
    assert not findings


def test_names_that_go_on_are_one_cell_and_others_are_partners(
    find: Callable[[str], Found],
) -> None:
    (table,), _, _ = find(MAILS["two-names"])
    names = [
        [cell.text for column, cell in zip(table.columns, row.cells, strict=True)
         if cell and column.meaning == "name"]
        for row in table.rows
    ]  # fmt: skip
    assert names == [
        ["Mr. Tobias Penhew and Ms. Odile Farrenby"],
        ["Dr. Ingrid Halvorsby", "Mr. Ludo Halvorsby"],
    ]


def test_a_line_that_may_hold_a_guest_and_is_not_understood_is_asked_about(
    tmp_path: Path,
) -> None:
    path = tmp_path / "mail.txt"
    mail = MAILS["blocks"].replace("here are the last ones:", "and perhaps Linnet Ashgrove?")
    path.write_text(mail, encoding="utf-8")
    guest_list, findings = read_list(path, {})
    (asked,) = (found for found in findings if found.code == "lines-not-read")
    assert (asked.holds, asked.where.cell) == (False, "A3")
    assert "Linnet Ashgrove" in asked.text
    left = [(row.row, row.why) for row in guest_list.unused]
    assert (3, "no household could be read in it") in left


@pytest.mark.parametrize(
    "row", [row for row in table("mail_words") if row["kind"] in ("verb", "pronoun")]
)
def test_a_sign_of_a_sentence_makes_a_line_no_name_and_a_name_stays_one(
    row: dict[str, str],
) -> None:
    assert has_verb(row["example"])
    assert not is_name(row["example"])
    assert not row["counter_example"] or is_name(row["counter_example"])


def test_a_mail_becomes_households_with_their_addresses(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    path.write_text(MAILS["blocks"], encoding="utf-8")
    guest_list, _ = read_list(path, {})
    homes = [h.address for h in guest_list.households]
    towns = [home.city.text if home and home.city else None for home in homes]
    assert towns == ["Litchfield", "Bar Harbor", "Duluth"]
    assert guest_list.rows == 3 + len(guest_list.unused)


@pytest.mark.parametrize(
    "text",
    [
        (
            "| Name | Street | City | State | ZIP |\n|------|--------|:----:|---|---|\n"
            "| Tobias Penhew | 14 Larkmoor Lane | Litchfield | CT | 06759 |\n"
        ),
        "Name\tStreet\tCity\tState\tZIP\nTobias Penhew\t14 Larkmoor Lane\tLitchfield\tCT\t06759\n",
        (
            "Name           Street            City        State  ZIP\n"
            "-------------  ----------------  ----------  -----  -----\n"
            "Tobias Penhew  14 Larkmoor Lane  Litchfield  CT     06759\n"
            "Bea            9 Mill Row                    CT     06759\n"
        ),
    ],
    ids=["markdown", "tabs", "blanks"],
)
def test_a_pasted_table_is_a_table(find: Callable[[str], Found], text: str) -> None:
    (table,), _, findings = find(text)
    assert [c.meaning for c in table.columns if c.header] == [
        "name", "street", "city", "region", "postcode",
    ]  # fmt: skip
    first = [cell.text for cell in table.rows[0].cells if cell is not None]
    assert first == ["Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"]
    assert not findings


def test_an_empty_cell_between_aligned_columns_stays_empty() -> None:
    records = aligned_records("Name  City    ZIP\nBea           06759\nAnn   Duluth  55802")
    assert records is not None
    assert records[1] == ["Bea", "", "06759"]


@pytest.mark.parametrize(
    "text",
    [
        "Tobias Penhew\nOttoline Grayling\n",
        "Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759\n",
        '"Penhew, Tobias","14 Larkmoor Lane, Litchfield, CT 06759"\n',
        "Name,Address\nTobias Penhew, 14 Larkmoor Lane Litchfield CT 06759\n",
    ],
    ids=["names", "commas", "quotes", "header"],
)
def test_a_list_with_columns_is_not_taken_for_a_mail(tmp_path: Path, text: str) -> None:
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    (grid,) = read_grids(open_list(path))[0]
    assert not grid.meanings
