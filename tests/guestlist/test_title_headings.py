"""Words above several households of a mail that give them titles: followed, or asked about once.

The ways to write are common practice, no source; all names are invented.
"""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.title_headings import titling_after, titling_of
from addressing.tables import table

ROWS = list(table("prose_words"))


def rows_of(kind: str) -> list[dict[str, str]]:
    found = [row for row in ROWS if row["kind"] == kind]
    assert found
    return found


@pytest.mark.parametrize("row", rows_of("every"), ids=lambda row: row["word"])
def test_titles_of_every_one_are_given(row: dict[str, str]) -> None:
    found = titling_of(Line(1, row["example"]))
    assert found is not None
    assert (found.titles, found.doubtful) == ("Mr. and Mrs.", False)
    assert titling_of(Line(1, row["counter"])) is None


@pytest.mark.parametrize("row", rows_of("not-every"), ids=lambda row: row["word"])
def test_titles_that_not_every_one_has_are_not_given(row: dict[str, str]) -> None:
    assert titling_of(Line(1, row["example"])) is None
    assert titling_of(Line(1, row["counter"])) is not None


@pytest.mark.parametrize("row", rows_of("hedge"), ids=lambda row: row["word"])
def test_titles_with_a_hedge_are_asked_about(row: dict[str, str]) -> None:
    one, other = (titling_of(Line(1, row[each])) for each in ("example", "counter"))
    assert one is None or one.doubtful
    assert other is not None
    assert not other.doubtful


@pytest.mark.parametrize("row", rows_of("section"), ids=lambda row: row["word"])
def test_words_that_part_the_list_end_the_titles(row: dict[str, str]) -> None:
    over = titling_of(Line(1, "All of these are Mr. and Mrs."))
    assert titling_after(over, [Line(2, row["example"])]) is None
    doubted = titling_after(over, [Line(2, row["counter"])])
    assert doubted is not None
    assert doubted.doubtful


@pytest.mark.parametrize(
    ("text", "titles", "count"),
    [
        ("Every one of the next bunch is Mr. and Mrs., I'm not typing it five times:",
         "Mr. and Mrs.", None),
        ("All of the first lot should be addressed as Mr. & Mrs", "Mr. and Mrs", None),
        ("everybody in this part is Dr. and Mrs., don't ask", "Dr. and Mrs.", None),
        ("The next three are all Ms.:", "Ms.", 3),
        ("ALL MR. AND MRS.", "", None),
        ("All Mr. and Mrs. or Dr. and Mrs., look them up", "", None),
        ("All of them know Mr. and Mrs. Penhew", "", None),
        ("We love them all, Mrs. Penhew most of all", "", None),
        ("They are Mr. and Mrs.", "", None),
    ],
)  # fmt: skip
def test_a_sentence_gives_the_titles_it_names(text: str, titles: str, count: int | None) -> None:
    found = titling_of(Line(1, text))
    assert (found.titles if found else "") == titles
    assert found is None or found.left == count


def read(folder: Path, said: str, names: tuple[str, ...], behind: str = "") -> list[str]:
    """Each household's titles and first given name; "?" where the client is asked for them."""
    path = folder / "mail.txt"
    homes = "\n".join(f"* {name}, {at + 1} Elm St, Bath ME 04530" for at, name in enumerate(names))
    path.write_text(f"Hi Odile,\n\n{said}\n\n{homes}\n\n{behind}\n\nThanks,\nRosa\n", "utf-8")
    guest_list, findings = read_list(path, {})
    asked = {each.household for each in findings if each.code == "titles-noted" and each.holds}
    assert len({each.quoted for each in findings if each.code == "titles-noted"}) <= 1
    return [
        "?" * (home.key in asked)
        + " ".join([*(person.title or "-" for person in home.people), home.people[0].given or ""])
        for home in guest_list.households
    ]


def test_titles_above_are_given_to_whoever_has_none(tmp_path: Path) -> None:
    names = ("Kit Penhew", "Dr. Wren Orr", "Tobias Lorne, Jr.", "Ned & Rosa Hale")
    found = read(tmp_path, "The next bunch are all Mr. and Mrs.:", names)
    assert found == ["Mr. Mrs. Kit", "Dr. Wren", "Mr. Mrs. Tobias", "?- - Ned"]


def test_titles_above_end_where_they_say_and_at_the_next_heading(tmp_path: Path) -> None:
    names = ("Kit Penhew", "Tobias Lorne")
    assert read(tmp_path, "The first one is Mr. and Mrs. for all I know.", names[:1])
    found = read(tmp_path, "The next two are all Mr. and Mrs.", (*names, "Ned Hale"))
    assert found == ["Mr. Mrs. Kit", "Mr. Mrs. Tobias", "- Ned"]
    found = read(tmp_path, "These are all Mr. and Mrs.", names, "The rest as typed.\n\nNed Hale\n"
                 "9 Oak St\nBath ME 04530")  # fmt: skip
    assert found == ["Mr. Mrs. Kit", "Mr. Mrs. Tobias", "- Ned"]
    found = read(tmp_path, "These are all Mr. and Mrs.", names, "Her side:\n\nNed Hale\n"
                 "9 Oak St\nBath ME 04530")  # fmt: skip
    assert found == ["Mr. Mrs. Kit", "Mr. Mrs. Tobias", "- Ned"]


def test_titles_that_may_be_meant_are_asked_about(tmp_path: Path) -> None:
    names = ("Kit Penhew", "Ms. Wren Orr")
    found = read(tmp_path, "Nearly all of these are Mr. and Mrs.", names)
    assert found == ["?- Kit", "Ms. Wren"]
    found = read(tmp_path, "These are all Mr. and Mrs.", names, "It was so good to see them.\n\n"
                 "Ned Hale\n9 Oak St\nBath ME 04530")  # fmt: skip
    assert found == ["Mr. Mrs. Kit", "Ms. Wren", "?- Ned"]
