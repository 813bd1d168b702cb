"""The zip that a package is, and the data in it."""

from pathlib import Path

import pytest

from addressing.plates import data_file, write_package
from addressing.records.tickets import DataRow

UNSAFE = (
    "../plate.pdf", "/plate.pdf", "Zoë.pdf", "a b.pdf", "a/b/c.pdf", "con:1", "", ".hidden",
    "plates/", "a\\b.pdf", "🎉.pdf",
)  # fmt: skip


@pytest.mark.parametrize("name", UNSAFE)
def test_a_name_that_is_not_safe_everywhere_is_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="not a name"):
        write_package(tmp_path / "p.zip", [(name, b"")])


def test_a_name_stands_once(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="not a name"):
        write_package(tmp_path / "p.zip", [("a.pdf", b""), ("a.pdf", b"")])


def test_no_field_can_become_a_formula_or_part_a_row() -> None:
    row = DataRow("p.pdf", 1, 1, None, ("=1+1", "a\tb\nc"))
    assert data_file([row]).decode() == (
        "plate\tpage\tcopies\tkey\tline1\tline2\np.pdf\t1\t1\t\t'=1+1\ta b c\n"
    )
