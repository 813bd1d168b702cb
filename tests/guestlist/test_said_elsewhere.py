"""What running text says of households on the list: who is named, and what is quoted."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.records.findings import Finding

LIST = """Hi Odile,

Mr. and Mrs. Tobias Penhew, 14 Larkmoor Lane, Litchfield, CT 06759
Ms. Ottoline Grayling, 431 Weathervane Drive, Bar Harbor, ME 04609
Mr. Corwin Grayling, 9 Mill Row, Duluth, MN 55802
Kit Vance-Ruddock, 5 Harbor Steps, Portland, OR 97205
Will Orr, 7 Mill Row, Duluth, MN 55802
The Tolland Family, 66 Cobbler Green, Concord, NH 03301

"""


def told(folder: Path, said: str) -> tuple[list[str], list[Finding]]:
    """The names of the households that a text beside the list holds, and its findings."""
    path = folder / "mail.txt"
    path.write_text(f"{LIST}{said}\n", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    own = [found for found in findings if found.code in ("said-elsewhere", "lines-not-read")]
    names = {home.key: home.name for home in guest_list.households}
    return [names[found.household] for found in own if found.household], own


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("I hear the Penhews moved.", ["Tobias Penhew"]),
        ("I hear that Mrs. Penhew's name is Odile.", ["Tobias Penhew"]),
        ("Ottoline Grayling is a doctor now.", ["Ottoline Grayling"]),
        ("Both Graylings want one each.", ["Ottoline Grayling", "Corwin Grayling"]),
        ("Cousin Ottoline died at Easter.", ["Ottoline Grayling"]),
        ("Please write Ruddock-Vance for Kit.", ["Kit Vance-Ruddock"]),
        ("The Vance-Ruddocks have a baby.", ["Kit Vance-Ruddock"]),
        ("The Tollands are five by now.", ["The Tolland Family"]),
        ("We live at 8 Penhew Lane ourselves.", []),
        ("Kit Farrenby plays the harp that day.", []),
        ("The list has everybody, I think.", []),
        ("Mr. Grayling is away.", ["Corwin Grayling"]),
        ("Will any of these be a trouble?", []),
        ("Changes:\n  Penhew - Ann is now Mrs. Hart", ["Tobias Penhew"]),
        ("Corrections:\nPenhews: 3 Mill Row, Duluth, MN 55802", ["Tobias Penhew"]),
        ("Corrections:\nCher: 3 Mill Row, Duluth, MN 55802", []),
        ("Is Will any better?", ["Will Orr"]),
        ("My mother's kit is with the penhew man.", []),
        ("Swap Kit and the Penhews.", ["Tobias Penhew", "Kit Vance-Ruddock"]),
        ("Kit sits with the Penhews.", ["Tobias Penhew", "Kit Vance-Ruddock"]),
        ("The Tollands moved in with the Penhews.", ["Tobias Penhew", "The Tolland Family"]),
        ("The Penhews' kids are Kit and Will.", ["Tobias Penhew"]),
        ("The Penhews and her son Kit will come.", ["Tobias Penhew"]),
        ("Our son Kit is away.", ["Kit Vance-Ruddock"]),
        ("The Tollands will bring their Kit Farrenby.", ["The Tolland Family"]),
    ],
)
def test_a_sentence_holds_those_whom_it_names_and_nobody_else(
    tmp_path: Path, said: str, named: list[str]
) -> None:
    homes, findings = told(tmp_path, said)
    assert homes == named
    assert all(found.holds for found in findings if found.household)
    quoted = said.splitlines()[-1].strip().removesuffix(".")
    assert all(quoted in found.text for found in findings if found.household)


def test_what_follows_a_name_is_quoted_with_it_and_other_sentences_are_not(tmp_path: Path) -> None:
    said = "That is all. The Penhews have separated.\nHe kept the house. Kit is well."
    _, findings = told(tmp_path, said)
    quoted = [found.quoted for found in findings if found.household]
    assert quoted == ["The Penhews have separated. He kept the house", "Kit is well"]
    assert [[str(w.cell) for w in (f.where, *f.also)] for f in findings if f.household] == [
        ["A10", "A11"], ["A11"],
    ]  # fmt: skip


def test_short_lines_below_each_other_are_a_sentence_each(tmp_path: Path) -> None:
    said = "Changes:\n  Penhew - Ann is now Mrs. Hart\n  Vance-Ruddock - Kit moved, no. is 59"
    _, findings = told(tmp_path, said)
    assert [found.quoted for found in findings if found.household] == [
        "Penhew - Ann is now Mrs. Hart", "Vance-Ruddock - Kit moved, no. is 59",
    ]  # fmt: skip


def test_lines_in_small_letters_below_each_other_hold_each_whom_it_names(tmp_path: Path) -> None:
    said = "Changes:\nmove the Penhews to no. 16\ntake out Kit\nno children at all please"
    _, findings = told(tmp_path, said)
    assert [found.quoted for found in findings if found.household] == [
        "move the Penhews to no. 16", "take out Kit",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "said",
    [
        "Kit moved out, says his old\nlandlord, into a flat.",
        "Kit will bring\nthe harp.",
        "Kit moved to a new place,\nno number yet.",
    ],
)
def test_a_sentence_goes_on_in_the_next_line(tmp_path: Path, said: str) -> None:
    names, (found,) = told(tmp_path, said)
    assert names == ["Kit Vance-Ruddock"]
    assert found.quoted == " ".join(said.split()).removesuffix(".")


def test_corrections_with_numbers_in_them_are_no_household(tmp_path: Path) -> None:
    said = (
        "Swap Kit and the Penhews.\n"
        "The Tollands get mail at PO Box 114 now.\n"
        "4 of the Graylings are coming.\n"
        "Will and Kit are married since May - they're both Orr now."
    )
    names, found = told(tmp_path, said)
    assert all(each.household for each in found)
    assert names == [
        "Tobias Penhew", "Kit Vance-Ruddock", "The Tolland Family",
        "Ottoline Grayling", "Corwin Grayling", "Kit Vance-Ruddock", "Will Orr",
    ]  # fmt: skip


def test_what_is_said_of_everybody_isnt_asked_of_who_is_named_just_before(tmp_path: Path) -> None:
    said = "The Penhews moved.\nCan we still add people?\nThey kept the old phone."
    names, findings = told(tmp_path, said)
    assert names == ["Tobias Penhew"]
    assert [found.quoted for found in findings if found.household] == ["The Penhews moved"]


def test_a_given_name_of_several_households_holds_each_of_them(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    others = "Kit Lorne, 9 Elm St, Bath ME 04530\nCol. Hugh Bly, 8 Elm St, Bath ME 04530\n\n"
    path.write_text(f"{LIST}{others}Kit will bring someone. The colonel won't.\n", "utf-8")
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    told = [names[f.household or ""] for f in findings if f.code == "said-elsewhere"]
    assert told == ["Kit Vance-Ruddock", "Kit Lorne", "Hugh Bly"]


def test_a_new_street_is_proposed_and_the_old_one_is_not(tmp_path: Path) -> None:
    said = "The Penhews left 14 Larkmoor Lane, they are at 3 St. Bride's Hollow Lane. Same town."
    _, (found,) = told(tmp_path, said)
    assert found.likely == (("street", "3 St. Bride's Hollow Lane"),)


@pytest.mark.parametrize(
    "said",
    [
        "Thanks,\nTobias Penhew",
        "Love, Kit",
        "xx Ottoline",
        "Best wishes\nCorwin Grayling",
        "With kind regards from us both\nTobias Penhew\n14 Larkmoor Lane",
    ],
)
def test_whoever_signs_a_mail_is_not_asked_about(tmp_path: Path, said: str) -> None:
    assert told(tmp_path, said)[0] == []


@pytest.mark.parametrize(
    "said",
    [
        "Thanks for adding the Penhews after all!",
        "Thank you for bearing with us\nand our list. The Penhews will not come.",
        "Hi again, the Penhews moved.",
        "the Penhews moved, dear.",
        "Penhew moved, dear.",
        "Love, Kit\nPS the Penhews moved",
    ],
)
def test_what_stands_beside_a_greeting_or_a_closing_is_heard(tmp_path: Path, said: str) -> None:
    assert told(tmp_path, said)[0] == ["Tobias Penhew"]


@pytest.mark.parametrize(
    "heading",
    [
        "Please do NOT invite these:",
        "Not coming (they told us):",
        "DO NOT INVITE",
        "Cancelled",
        "Only if there's room:",
        "MAYBE",
        "Not sure yet:",
        "please don't invite these:",
    ],
)
@pytest.mark.parametrize(
    "entry",
    [
        "Mr. Basil Crome, 12 Fenwick Street, Boise, ID 83702",
        "Mr. Basil Crome\n12 Fenwick Street\nBoise, ID 83702",
        "Name\tStreet\tTown\tState\tZIP\nMr. Basil Crome\t12 Fenwick St\tBoise\tID\t83702",
    ],
    ids=["line", "block", "table"],
)
def test_whoever_stands_below_a_heading_that_says_out_is_asked_about(
    tmp_path: Path, heading: str, entry: str
) -> None:
    path = tmp_path / "mail.txt"
    after = "And our neighbors:\nMs. Dora Pell, 3 Holloway Road, Burlington, VT 05401\n"
    path.write_text(f"{LIST}{heading}\n\n{entry}\n\n{after}", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    out = [names[f.household or ""] for f in findings if f.code == "marker-in-list"]
    assert out == ["Basil Crome"]
    assert "Dora Pell" in names.values()


def test_a_remark_below_a_table_holds_whom_it_names_and_the_others_are_asked_about_once(
    tmp_path: Path,
) -> None:
    path = tmp_path / "list.csv"
    path.write_text(
        "Name,Address,City,State,ZIP\n"
        "Mr. Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759\n"
        "Ms. Dora Pell,3 Holloway Road,Burlington,VT,05401\n"
        "Mom says the Penhews are away in June,,,,\n"
        "Mom says no more than 120,,,,\n"
        "** still waiting on the band,,,,\n",
        encoding="utf-8",
    )
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    asked = [(f.code, names.get(f.household or ""), f.where.cell, f.holds) for f in findings]
    assert asked == [
        ("rows-not-guests", None, "A5", False),
        ("said-elsewhere", "Tobias Penhew", "A4", True),
    ]
    assert "“Mom says no more than 120”, “** still waiting on the band”" in findings[0].text


def test_a_mail_with_a_table_near_its_top_keeps_what_stands_around_it(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    path.write_text(
        "Hi Odile,\n\nMr. Tobias Penhew\n14 Larkmoor Lane\nLitchfield, CT 06759\n\n"
        "Name,Address,City,State,ZIP\n"
        "Ms. Dora Pell,3 Holloway Road,Burlington,VT,05401\n"
        '"Ruddock, Mr. Hugh",9 Mill Row,Duluth,MN,55802\n\n'
        "Dora Pell will be a doctor by then.\n\nLove, Bea\n",
        encoding="utf-8",
    )
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    assert list(names.values()) == ["Tobias Penhew", "Dora Pell", "Hugh Ruddock"]
    held = [names[f.household or ""] for f in findings if f.code == "said-elsewhere"]
    assert held == ["Dora Pell"]
    assert [home.rows[0].cell for home in guest_list.households] == ["A3", "A8", "A9"]


@pytest.mark.parametrize(
    "said",
    [
        "His brother Ned Farrenby lives there too.",
        "Their neighbor Sal Marsh shares the house.",
        "Mr. and Mrs. Bo Vole live with them.",
    ],
)
def test_somebody_else_named_behind_an_address_is_asked_about(tmp_path: Path, said: str) -> None:
    home = "Hugo Farrenby lives at 3 Osier Row, Duluth, MN 55802."
    names, _ = told(tmp_path, f"{home} {said}")
    assert names == ["Hugo Farrenby"]


def test_what_is_told_of_themselves_behind_an_address_is_not_asked_about(tmp_path: Path) -> None:
    home = "Hugo Farrenby lives at 3 Osier Row, Duluth, MN 55802. Hugo is a dear. They love cake."
    assert told(tmp_path, home) == ([], [])
