"""Numbers and names as PDF writes them."""

import re

import hypothesis.strategies as st
import pytest
from hypothesis import given

from addressing.plates.numbers import name, number, string

PLAIN = re.compile(r"-?(0|[1-9]\d*)(\.\d*[1-9])?")


@given(st.floats(-1e6, 1e6), st.integers(0, 8))
def test_a_number_has_no_exponent_and_no_idle_zero_and_is_right(value: float, places: int) -> None:
    written = number(value, places)
    assert PLAIN.fullmatch(written)
    assert written != "-0"
    assert abs(float(written) - value) <= 0.5 * 10**-places + 1e-9


@given(st.text(st.characters(blacklist_categories=["Cs"], blacklist_characters="\0"), min_size=1))
def test_a_name_holds_only_what_may_stand_in_one_and_reads_back(text: str) -> None:
    written = name(text)
    assert re.fullmatch(r"/[!-~]+", written)
    assert not set(written[1:]) & set("()<>[]{}/%")
    read = re.sub(r"#(..)", lambda found: chr(int(found[1], 16)), written[1:])
    assert read.encode("latin-1").decode() == text


@pytest.mark.parametrize("text", ["01-outer-white", "a(b)c\\", "Tisch é 白"])
def test_a_title_reads_back(text: str) -> None:
    written = string(text)
    if written.startswith("<"):
        assert bytes.fromhex(written[1:-1]).decode("utf-16") == text
    else:
        assert re.sub(r"\\(.)", r"\1", written[1:-1]) == text
