"""Repairs: what changes, what must stay, and that a repaired text is repaired."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.guestlist.repair import repair_codes, repair_text
from addressing.where import Where

HERE = Where("list.xlsx", "Guests", "B2")


@pytest.mark.parametrize(
    ("was", "now", "code"),
    [
        (" Penhew\u00a0\u2009Lane\t", "Penhew Lane", "spaces-mended"),
        ("12 Larkmoor Lane \r\n\r\n Penhew", "12 Larkmoor Lane\nPenhew", "spaces-mended"),
        ("To\u200bbi\u00adas\ufeff", "Tobias", "invisible-removed"),
        ("Tobias\u202e\u0007", "Tobias", "invisible-removed"),
        ("JosÃ©", "José", "encoding-mended"),
        ("MÃ¼nchen", "München", "encoding-mended"),
        ("Oâ€™Farrenby", "O’Farrenby", "encoding-mended"),
        ("Zoe\u0308", "Zoë", "accents-joined"),
        ("\u0410nnika", "Annika", "lookalike-mended"),
        ("P\u03bfppy", "Poppy", "lookalike-mended"),
    ],
)
def test_a_repair_gives_the_words_as_they_were_meant(was: str, now: str, code: str) -> None:
    text, repairs = repair_text(was, HERE)
    assert text == now
    assert [(r.where, r.was, r.now) for r in repairs] == [(HERE, was, now)]
    assert repair_codes(repairs[0]) == (code,)


@pytest.mark.parametrize(
    "text",
    [
        "SÃO PAULO",
        "ÂNGELA",
        "O’Farrenby “Ned”",
        "d'Wexcombe",
        "\ufb01n",
        "\uff21",
        "McPENHEW",
        "van der Zandt",
        "Ærø",
        "İpek",
        "Ødegård",
        "Мария",
        "ΝΙΚΟΣ",
        "\u0410\u0412B",
        "\u0645\u06cc\u200c\u062e\u0648\u0627",
        "क्\u200dष",
        "12½ Larkmoor Lane",
        "AT&amp;T",
    ],
)
def test_what_was_meant_so_stays_so(text: str) -> None:
    assert repair_text(text, HERE) == (text, ())


def test_several_reasons_make_one_repair() -> None:
    _, repairs = repair_text(" JosÃ©\u200b ", HERE)
    assert len(repairs) == 1
    assert set(repair_codes(repairs[0])) == {
        "spaces-mended",
        "encoding-mended",
        "invisible-removed",
    }


@given(st.text())
def test_repairing_twice_changes_nothing_more(text: str) -> None:
    once, _ = repair_text(text, HERE)
    assert repair_text(once, HERE) == (once, ())


@given(st.text())
def test_a_repaired_text_has_no_loose_white_space_and_is_composed(text: str) -> None:
    once, _ = repair_text(text, HERE)
    assert "  " not in once
    assert all(line == line.strip() for line in once.split("\n"))
    assert unicodedata.is_normalized("NFC", once)


@given(st.text(alphabet=st.characters(min_codepoint=32, max_codepoint=126)))
def test_plain_words_only_ever_lose_white_space(text: str) -> None:
    assert repair_text(text, HERE)[0] == " ".join(text.split())
