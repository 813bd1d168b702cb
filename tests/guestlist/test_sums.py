"""Lines that only count what the list has are nobody's name and no part of an address."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
SUMS = (
    "Total: 25 households", "25 households total", "Households: 25", "That makes 25 households.",
    "Guest list: 25 households, 48 guests", "There are 25 households on the list",
)  # fmt: skip
MAIL = """Hi,

here is the list:
{0}

Ms. Maud Orme
14 Larkmoor Lane
Litchfield, CT 06759

Mr. Ivo Sands
9 Quarry Hill
Rutland, VT 05701
{1}

{2}

Thanks!
"""


def asked(run: Run, path: Path) -> list[str]:
    questions = json.loads(run("questions", path, "--json").stdout)["questions"]
    return [question["text"] for question in questions]


@pytest.mark.parametrize("words", SUMS)
@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_sum_in_a_mail_is_no_question(
    addressing: Run, tmp_path: Path, words: str, place: int
) -> None:
    path = tmp_path / "mail.txt"
    path.write_text(MAIL.format(*(words if at == place else "" for at in range(3))), "utf-8")
    assert asked(addressing, path) == []
    told = json.loads(addressing("check", path, "--json").stdout)
    assert told["households"] == 2


@pytest.mark.parametrize("words", SUMS)
def test_a_sum_below_a_table_is_a_row_not_used(addressing: Run, tmp_path: Path, words: str) -> None:
    path = tmp_path / "guests.csv"
    rows = "Name,Address,City,State,ZIP\nMr. Ivo Sands,9 Quarry Hill,Rutland,VT,05701\n"
    path.write_text(f'{rows}"{words}",,,,\n', "utf-8")
    assert asked(addressing, path) == []
    told = json.loads(addressing("check", path, "--json").stdout)
    assert [row["why"] for row in told["rows_not_used"]] == ["a total"]


def test_a_number_of_adults_below_a_name_is_of_the_household_and_asked_about(
    addressing: Run, tmp_path: Path
) -> None:
    path = tmp_path / "mail.txt"
    mail = "Mr. Ivo Sands\n2 adults\n9 Quarry Hill\nRutland, VT 05701\n"
    path.write_text(mail, "utf-8")
    assert asked(addressing, path)
