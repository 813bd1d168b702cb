"""Set pieces in columns: what is put in comes out, in little memory."""

import tracemalloc
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.records.pieces import Role
from addressing.records.set_lines import SetLine, SetPiece
from addressing.records.set_pieces import SetPieces, picked

FLOATS = st.floats(allow_nan=False)
LINES = st.builds(
    SetLine,
    st.text(),
    st.sampled_from(Role),
    st.integers(0, 9),
    FLOATS,
    FLOATS,
    FLOATS,
    st.integers(0, 20),
)
PIECES = st.builds(
    SetPiece,
    st.none() | st.text(),
    st.text(),
    st.integers(0, 9),
    st.lists(LINES, max_size=5).map(tuple),
    st.text(),
    st.lists(st.tuples(st.integers(0, 1), st.text()), max_size=2).map(tuple),
)


@given(st.lists(PIECES), st.slices(12))
def test_pieces_come_out_as_they_were_put_in(put: list[SetPiece], part: slice) -> None:
    kept = SetPieces(iter(put))
    assert kept == tuple(put)
    assert [*kept] == put
    assert [kept[at] for at in range(-len(put), len(put))] == put * 2
    assert [*kept[part]] == put[part]
    assert [*kept[part][1:]] == put[part][1:]
    assert hash(kept) == hash(tuple(put))
    backwards = range(len(put) - 1, -1, -1)
    assert [*kept.picked(backwards)] == [*picked(put, backwards)] == put[::-1]
    assert [*kept.picked(backwards)[1:].picked([])] == []


def test_others_are_not_equal() -> None:
    one = SetPiece("h-a", "A", 0, (SetLine("A", Role.NAME, 0, 1.0, 2.0, 9.0),))
    moved = SetPiece("h-a", "A", 0, (SetLine("A", Role.NAME, 0, 1.001, 2.0, 9.0),))
    kept = SetPieces([one])
    assert kept != (moved,)
    assert kept != (one, one)
    assert kept != one
    assert kept == SetPieces([one])


def test_none_beyond_the_last() -> None:
    with pytest.raises(IndexError):
        SetPieces()[0]


def pieces(count: int) -> Iterator[SetPiece]:
    """Pieces of four lines, their words elsewhere already."""
    for number in range(count):
        lines = [SetLine("Farrenby", Role.NAME, n, number / 7, 90.5 - n, 24.0) for n in range(4)]
        yield SetPiece("h-a", "A", 0, tuple(lines))


def test_a_piece_takes_a_fifth_of_what_its_records_take() -> None:
    tracemalloc.start()
    try:
        records = tuple(pieces(2000))
        taken = tracemalloc.get_traced_memory()[0]
        kept = SetPieces(pieces(2000))
        assert tracemalloc.get_traced_memory()[0] - taken < taken / 5
    finally:
        tracemalloc.stop()
    assert kept == records
