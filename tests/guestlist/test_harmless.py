"""What a mail says beside its list and changes no envelope: noted, never asked.

The ways to write are common practice, no source; all names are invented.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.title_headings import titling_of
from addressing.tables import table

ROWS = list(table("prose_words"))
LIST = """Odile Penhew
9 Elm St
Bath ME 04530

Mr. Augustus Orr
7 Oak St
Bath ME 04530
"""


def held(folder: Path, said: str) -> list[str]:
    """Who waits because of a postscript."""
    path = folder / "mail.txt"
    path.write_text(f"Hi Bea,\n\n{LIST}\nThanks,\nRosa\n\nPS {said}\n", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    names = {home.key: home.name for home in guest_list.households}
    codes = ("said-elsewhere", "lines-not-read")
    return [names[f.household] if f.household else "?" for f in findings if f.code in codes]


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row["kind"] in ("harmless", "filler")], ids=lambda r: r["word"]
)
def test_words_that_change_nothing_hold_nobody(tmp_path: Path, row: dict[str, str]) -> None:
    if "Penhew" in row["example"] or "Odile" in row["example"]:
        assert held(tmp_path, row["example"]) == []
        assert held(tmp_path, row["counter"]) == ["Odile Penhew"]
    else:
        assert held(tmp_path, f"Odile is my favorite. {row['example']}") == []
        assert held(tmp_path, f"Odile is my favorite. {row['counter']}") == ["Odile Penhew"]


@pytest.mark.parametrize(
    "said",
    [
        "We love Odile, but she moved.",
        "Odile is so happy with Kit.",
        "Odile is so happy, she remarried.",
        "Odile is right but Odile Lorne now.",
        "We love Odile, only her.",
        "We love Odile at 12 Oak St.",
        "Odile is a dear, we adore her. She moved to 12 Oak St.",
        "Odile moved here in 2009 Elm St.",
        "We love Odile and her new husband.",
    ],
)
def test_what_may_change_something_is_asked(tmp_path: Path, said: str) -> None:
    assert held(tmp_path, said) == ["Odile Penhew"]


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("Gus lost his wife in February, just him.", ["Augustus Orr"]),
        ("We saw them in August, it was hot.", ["?"]),
        ("Penhews sold the place, 12 Oak St since June.", ["Odile Penhew"]),
        ("The Penhwes sold the place.", ["?"]),
        ("The Penheews sold the place.", ["Odile Penhew"]),
        ("Odile Penhow is at 12 Oak St now.", ["Odile Penhew"]),
        ("Kit Penhow sold the place.", ["?"]),
    ],
)
def test_a_known_form_or_a_slip_of_the_pen_is_enough(
    tmp_path: Path, said: str, names: list[str]
) -> None:
    assert held(tmp_path, said) == names


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row["kind"] == "as-typed"], ids=lambda r: r["word"]
)
def test_that_typed_titles_hold_is_no_hedge(row: dict[str, str]) -> None:
    one, other = (titling_of(Line(1, row[each])) for each in ("example", "counter"))
    assert one is not None
    assert not one.doubtful
    assert other is not None
    assert other.doubtful


def test_a_household_read_from_a_misspelt_name_holds_the_one_that_is_meant(tmp_path: Path) -> None:
    found = held(tmp_path, "Odile Penhow moved to 12 Oak St, Bath ME 04530.")
    assert found == ["Odile Penhew"]
