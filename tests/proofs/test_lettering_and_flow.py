"""The sheets' own small type, and how blocks fall onto sheets."""

from hypothesis import given
from hypothesis import strategies as st

from addressing.proofs.flow import Block, gap, paginate
from addressing.proofs.lettering import Cut, Style, runs, shortened, width, wrap

STYLE = Style(Cut.ROMAN, 9, 12, (0, 0, 0))
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), max_size=60)


def block(height: float, *, keep: bool = False, fresh: bool = False) -> Block:
    return Block(height, lambda _pen, _left, _top: None, keep=keep, fresh=fresh)


@given(WORDS, st.floats(60, 300))  # one character is never cut
def test_wrapping_loses_no_letter_and_no_line_is_too_wide(text: str, room: float) -> None:
    lines = wrap(text, STYLE, room)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width(line, STYLE) <= room for line in lines)


@given(WORDS)
def test_runs_hold_every_character_or_its_number(text: str) -> None:
    joined = "".join(part for _, part in runs(text, Cut.ITALIC))
    position = 0
    for character in text:
        number = f"[U+{ord(character):04X}]"
        written = character if joined.startswith(character, position) else number
        assert joined.startswith(written, position)
        position += len(written)
    assert position == len(joined)


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
