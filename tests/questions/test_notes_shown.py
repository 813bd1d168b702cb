"""Letter and workbook quote what the list says beside somebody, for it may answer the question."""

from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = "Name,Street,City,State,ZIP,Notes\n"
AT = "5 Mill Row,Litchfield,CT,06759"


@pytest.mark.parametrize(
    ("row", "note"),
    [
        (f"The Penhew Family,{AT}", "parents are Theo and Ida"),
        ("Ms. Nell Umber,,,,", "ask her mom for the address"),
        (f"Uncle Ned,{AT}", "my dad's brother (Pellam)"),
        (f"Wes and Dina Okafor,{AT}", "they're both doctors"),
        ("Mr. Silas Umber,9 Vesper Street,Bethel,ME,", "has a dog"),
        (f"Ms. Greta Sund and guest,{AT}", "met at school"),
        (f"Mr. Hugo Orr,{AT}", "declined"),
        (f"Ms. Ada Sallow,{AT}", "plus one?"),
        (f"Mr. and Mrs. Bram Tolliver,{AT}", "kids too (Nell and Tuck)"),
        (f"Kit Marlow & Wren Lorne,{AT}", "roommates"),
        ("Mr. Tobias Wexcombe,9 Quarry Hill,Litchfeld,CT,06759", "address may be old"),
    ],
)
def test_letter_and_workbook_quote_the_note(
    addressing: Run, tmp_path: Path, row: str, note: str
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(f"{HEADER}{row},{note}\n", "utf-8")
    assert addressing("questions", path).returncode == 0
    letter = " ".join((tmp_path / "guests-job" / "questions.txt").read_text("utf-8").split())
    assert letter.count(f"“{note}”") >= 1
    book = openpyxl.load_workbook(tmp_path / "guests-job" / "questions.xlsx")
    cells = [
        str(cell) for page in book for line in page.iter_rows(values_only=True) for cell in line
    ]
    assert any(f"“{note}”" in cell for cell in cells)


def test_a_letter_with_notes_is_read_back_without_them(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "guests.csv"
    rows = (f"Wes and Dina Okafor,{AT},met at school\n", f"Kit Marlow,{AT[1:]},\n")
    path.write_text(HEADER + "".join(rows), "utf-8")
    addressing("questions", path)
    letter = (tmp_path / "guests-job" / "questions.txt").read_text("utf-8")
    assert letter.count("Your note: ") == 1
    assert "\n\n    Your note: " in letter  # it isn't of the row above
    reply = "".join(
        f"> {line} Dr.\n" if line.endswith("Okafor:") else f"> {line}\n"
        for line in letter.splitlines()
    )
    (tmp_path / "reply.txt").write_text(reply, "utf-8")
    done = addressing("answer", path, "reply.txt")
    assert done.stdout.startswith("2 of 2 answers hold"), done.stdout
    assert "nothing could be made of it" not in done.stdout
