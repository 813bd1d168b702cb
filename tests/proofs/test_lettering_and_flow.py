"""The sheets' own small type, and how blocks fall onto sheets."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.proofs.flow import Block, gap, paginate
from addressing.proofs.lettering import Cut, Style, face, runs, shortened, width, wrap

STYLE = Style(Cut.ROMAN, 9, 12, (0, 0, 0))
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), max_size=60)


def block(height: float, *, keep: bool = False, fresh: bool = False) -> Block:
    return Block(height, lambda _pen, _left, _top: None, keep=keep, fresh=fresh)


@given(WORDS, st.floats(60, 300))  # one character is never cut
def test_wrapping_loses_no_letter_and_no_line_is_too_wide(text: str, room: float) -> None:
    lines = wrap(text, STYLE, room)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width(line, STYLE) <= room for line in lines)


RIGHTWARDS = WORDS.filter(
    lambda text: not {unicodedata.bidirectional(one) for one in text} & {"R", "AL"}
)


@given(RIGHTWARDS)
def test_runs_hold_every_character_or_its_number(text: str) -> None:
    joined = "".join(part for _, part in runs(text, Cut.ITALIC))
    position = 0
    for character in text:
        number = f"[U+{ord(character):04X}]"
        written = character if joined.startswith(character, position) else number
        assert joined.startswith(written, position)
        position += len(written)
    assert position == len(joined)


@given(WORDS, st.sampled_from(Cut), st.sampled_from((7.5, 9.0, 24.0)))
def test_words_are_as_wide_as_their_runs_are_in_the_file(text: str, cut: Cut, size: float) -> None:
    drawn = [face(one).stringWidth(part, size) for one, part in runs(text, cut)]
    assert width(text, Style(cut, size, size, (0, 0, 0))) == pytest.approx(sum(drawn), abs=1e-9)


SEEN = {
    "Dan דן": "Dan ןד",
    "רחוב הרצל 12": "12 לצרה בוחר",
    "Dan (דן) Penhew": "Dan (ןד) Penhew",
    "משפחת כהן and Dan": "ןהכ תחפשמ and Dan",
}
"""Worked by hand from the rules (UAX #9, L2 and L4), in a line that runs rightwards."""


@pytest.mark.parametrize("text", SEEN)
def test_hebrew_is_written_as_it_is_read(text: str) -> None:
    found = runs(text, Cut.ROMAN)
    assert "".join(part for _, part in found) == SEEN[text]
    assert {cut for cut, part in found if any("א" <= one <= "ת" for one in part)} == {Cut.HEBREW}


def test_arabic_letters_are_joined() -> None:
    """U+0645 U+062D U+0645 U+062F as their initial, two medial forms and final, from the right."""
    assert runs("محمد", Cut.ROMAN) == ((Cut.ARABIC, "\ufeaa\ufee4\ufea4\ufee3"),)


def test_a_mark_that_turns_directions_is_seen_by_its_number() -> None:
    assert "[U+202E]" in "".join(part for _, part in runs("דן \u202eabc", Cut.ROMAN))


@given(WORDS, st.floats(20, 300))
def test_a_shortened_line_fits_and_says_that_it_is_short(text: str, room: float) -> None:
    short = shortened(text, STYLE, room)
    assert width(short, STYLE) <= room
    assert short == " ".join(text.split()) or short.endswith("…")


@given(st.lists(st.builds(block, st.floats(1, 90), keep=st.booleans(), fresh=st.booleans())))
def test_every_block_is_on_one_sheet_in_order_and_tied_ones_together(blocks: list[Block]) -> None:
    pages = paginate(blocks, 100.0)
    assert [one for page in pages for one in page] == blocks
    assert all(page for page in pages)
    for page in pages[:-1]:
        assert not page[-1].keep


def test_white_space_falls_away_at_the_head_of_a_sheet() -> None:
    tall, space = block(95), gap(10)
    assert paginate([tall, space, tall], 100.0) == ((tall,), (tall,))


@pytest.mark.parametrize(("used", "sheets"), [(40.0, 1), (60.0, 2)])
def test_a_part_goes_on_where_half_of_a_sheet_is_free(used: float, sheets: int) -> None:
    before, part = (Block(height, lambda *_: None, part=height < 20) for height in (used, 10.0))
    pages = paginate([before, part], 100.0)
    assert len(pages) == sheets
    assert pages[-1][-1] is part
    assert (len(pages[0]) == 3) == (sheets == 1)  # with white between them
