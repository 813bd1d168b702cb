"""Laws of counting, for every number."""

from hypothesis import given
from hypothesis import strategies as st

from addressing.estimating import count_pieces
from addressing.records.counts import PieceCount
from addressing.records.docket import Overs

OVERS = st.builds(
    Overs,
    percent=st.integers(0, 2000).map(lambda tenths: tenths / 10),
    minimum=st.integers(0, 200),
    pack=st.integers(1, 500),
)
NEEDED = st.integers(1, 20_000)


def _count(needed: int, overs: Overs) -> PieceCount:
    return count_pieces({"outer": needed}, {}, overs)[0]


@given(NEEDED, OVERS)
def test_what_is_ordered_is_whole_packs_that_cover_needed_and_overs(
    needed: int, overs: Overs
) -> None:
    count = _count(needed, overs)
    assert count.to_order == count.packs * overs.pack
    assert 0 <= count.to_order - (count.needed + count.overs) < overs.pack


@given(NEEDED, OVERS)
def test_overs_are_the_least_whole_number_that_reaches_share_and_minimum(
    needed: int, overs: Overs
) -> None:
    count = _count(needed, overs)
    tenths = round(overs.percent * 10)
    reaches = count.overs * 1000 >= tenths * needed
    one_less_falls_short = (count.overs - 1) * 1000 < tenths * needed
    assert reaches
    assert count.overs >= overs.minimum
    assert count.overs == overs.minimum or one_less_falls_short


@given(NEEDED, OVERS)
def test_one_more_household_never_orders_less(needed: int, overs: Overs) -> None:
    assert _count(needed + 1, overs).to_order >= _count(needed, overs).to_order


@given(st.dictionaries(st.sampled_from(["outer", "inner", "reply"]), NEEDED), OVERS)
def test_each_kind_is_counted_as_if_it_were_alone(wanted: dict[str, int], overs: Overs) -> None:
    together = count_pieces(wanted, {}, overs)
    apart = [count_pieces({kind: number}, {}, overs)[0] for kind, number in wanted.items()]
    assert list(together) == apart
