"""What preflight says to a designer: whose page, which line or letter, how far; causes first."""

import re
import shutil
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from subprocess import CompletedProcess
from types import ModuleType
from typing import TYPE_CHECKING

import pytest

from addressing.job.fault_words import in_words
from addressing.job.orders import read_orders
from addressing.records.kept import KeptOrder
from addressing.tables import table

if TYPE_CHECKING:
    from plate_drafts import Job

Run = Callable[..., CompletedProcess[str]]
ROWS = table("fault_words")


@pytest.fixture
def kept(drafts: ModuleType) -> tuple[KeptOrder, ...]:
    job: Job = drafts.job_of(4)
    return (KeptOrder(job.order, job.setting, job.pieces),)


def said(kept: Sequence[KeptOrder], *faults: str) -> list[str]:
    return list(in_words(faults, kept))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["example"])
def test_each_row_matches_its_own_example_first(row: dict[str, str]) -> None:
    first = next(each for each in ROWS if re.fullmatch(each["matches"], row["example"]))
    assert first is row


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["example"])
def test_each_row_is_said_in_whole(row: dict[str, str], kept: Sequence[KeptOrder]) -> None:
    whole = row["example"][0].isupper()
    (told,) = said(kept, row["example"] if whole else f"Page 2 (h-00000001) {row['example']}.")
    assert "{" not in told
    assert told.endswith(".")
    assert ".." not in told
    assert whole or told.startswith("Page 2 (h-00000001, ")


def test_a_line_is_told_with_its_words_and_lengths_in_millimetres(
    kept: Sequence[KeptOrder],
) -> None:
    piece = kept[0].setting.pieces[1]
    line = piece.lines[0].text
    name = f"Page 2 (h-00000001, {piece.name})"
    moved = "has line 1 0.567 pt aside and 0.000 pt up or down from its place"
    assert said(kept, f"Page 2 (h-00000001) {moved}.") == [
        f"{name} has line 1 (“{line}”) 0.20 mm aside from its place."
    ]
    other = "has other letters in line 1 than its words ask for"
    (told,) = said(kept, f"Page 2 (h-00000001) {other}.")
    assert told.startswith(f"{name} doesn't have line 1 as it was set (“{line}”): other letters, ")
    assert told.endswith(f" closer together or further apart ({other}).")


def test_another_plate_s_file_is_told_alone(kept: Sequence[KeptOrder]) -> None:
    faults = ("Page 1 is more than was ordered.", "The plate's title isn't 01-outer-white.")
    (told,) = said(kept, *faults)
    assert told.startswith("This is another plate's file, or its title was changed")


def test_pages_too_many_are_counted_and_not_listed(kept: Sequence[KeptOrder]) -> None:
    many = [f"Page {number} is more than was ordered." for number in (5, 6)]
    counted = "The plate has 6 pages; 4 were ordered."
    assert said(kept, counted, *many) == [counted]
    assert said(kept, *many) == many


def test_a_changed_font_is_told_by_its_letter_and_once(kept: Sequence[KeptOrder]) -> None:
    own = "Font F0 says something else of itself than it should (its"
    font = [f"{own} {part})." for part in ("font", "widths", "descriptor")]
    (told,) = said(kept, *font)
    assert told.startswith("The font in the plate is described otherwise than it is")
    (told,) = said(kept, *font, "Letter 40 isn't drawn as the face draws it: a point is 1 off.")
    assert "isn't drawn as in" in told


def test_a_guest_stands_behind_each_key(kept: Sequence[KeptOrder]) -> None:
    one, two = (piece.name for piece in kept[0].setting.pieces[:2])
    assert said(kept, "Page 1 (h-00000000) carries the piece of h-00000001.") == [
        f"Page 1 (h-00000000, {one}) carries the piece of h-00000001, {two}."
    ]


def test_a_letter_is_told_as_people_call_it_with_a_page_where_it_stands(
    kept: Sequence[KeptOrder], drafts: ModuleType
) -> None:
    compositor = drafts.Compositor(kept[0].setting.face)
    piece = kept[0].setting.pieces[0]
    letter = next(mark for mark in piece.lines[0].text if mark.islower())
    (glyph, *_), *_ = compositor.shape(letter)
    own = f"Letter {glyph} isn't drawn as the face draws it: other contours."
    (told,) = said(kept, own)
    assert f"etter “{letter}” isn't drawn as in" in told
    assert f"first on page 1 ({piece.name})" in told
    assert f"({own.rstrip('.')})" in told
    assert said(kept, "Letter 99999 isn't drawn as the face draws it: other contours.")


def test_causes_come_before_what_follows_from_them(kept: Sequence[KeptOrder]) -> None:
    told = said(
        kept,
        "The plate holds letters that no line uses: 42.",
        "Something in the file belongs to no page: object 88.",
        "And 3 more.",
        "Page 1 (h-00000000) is blank.",
        "Page 2 (h-00000001) can't be read: it doesn't begin with the plate's ink.",
    )
    assert told[0].startswith("Page 2")
    assert told[1].startswith("Page 1")
    assert "letters that no line" in told[2]
    assert told[-1] == "And 3 more."


SHEETS = """\
[pieces]
make = ["place-card"]
[[piece]]
kind = "place-card"
ink = "Black"
[[sheet]]
piece = "place-card"
on = "letter"
"""


def test_of_a_sheet_the_card_is_told_and_whose_it_is(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    (tmp_path / "docket.toml").write_text(SHEETS, "utf-8")
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--to", "job")
    assert ran.returncode in {0, 1}, ran.stderr
    shutil.copyfile("job/orders.json.z", "kept.z")
    (only,) = read_orders(Path("kept.z"), None).orders
    assert only.order.sheets is not None
    cards = only.setting.pieces
    line = len(cards[0].lines) + 1  # the first of the second card on the sheet
    own = f"Page 1 ({cards[0].household}) has other letters in line {line} than its words ask for."
    (told,) = in_words((own,), (only,))
    assert told.startswith("Sheet 1, card ")
    assert "line 1 as it was set" in told
    named = next(card for card in cards if f"({card.household}," in told)
    assert f"(“{named.lines[0].text}”)" in told
    assert in_words((own,), (replace(only, order=replace(only.order, sheets=None)),)) != (told,)
