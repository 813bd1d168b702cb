"""What the tests of questions share: a workbook filled in as a client would."""

from collections.abc import Callable, Mapping
from pathlib import Path

import openpyxl
import pytest

Fill = Callable[[Path, Mapping[str, str]], Path]
"""(the workbook, part of a ref → answer) → the filled copy. "=" before it: in own words.

A part that begins with "all:" means the row that stands for a table.
"""


@pytest.fixture
def fill(tmp_path: Path) -> Fill:
    """Fill a questions workbook in, and save it as answers.xlsx."""

    def filled(book: Path, answers: Mapping[str, str]) -> Path:
        workbook = openpyxl.load_workbook(book)
        for page in workbook.worksheets:
            headers = [cell.value for cell in page[2]] if page.max_row > 1 else []
            if "Your answer" not in headers:
                continue
            for row in page.iter_rows(min_row=3):
                for part, answer in answers.items():
                    ref = str(row[-1].value).partition(" ")[0]
                    if part in ref and part.startswith("all:") == ref.startswith("all:"):
                        own = answer.startswith("=") and "Or in your own words" in headers
                        header = "Or in your own words" if own else "Your answer"
                        row[headers.index(header)].value = answer.removeprefix("=")
        path = tmp_path / "answers.xlsx"
        workbook.save(path)
        return path

    return filled
