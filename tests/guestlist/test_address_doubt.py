"""Two readings of a US address weighed: sure ones stand, the likelier is taken, doubt is asked."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from addressing.guestlist.domestic.address_doubt import agree, ask_from, weigh
from addressing.guestlist.domestic.address_model import Voice, listen
from addressing.guestlist.domestic.address_tagger import tag
from addressing.guestlist.domestic.address_tokens import tokens_of
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.tables import table
from addressing.where import Where

HERE = (Where("list.csv", None, "B2"),)
THERE = (Where("list.csv", None, "C2"),)
PLAIN = "14 Larkmoor Lane, Boston, MA 02116"


def one_cell(text: str) -> Written:
    return Written(lines=(Cited(text, HERE),))


def said(cited: Cited | None) -> str:
    return cited.text if cited else ""


def by_model(text: str) -> Voice:
    voice = listen(one_cell(text))
    assert voice is not None
    return voice


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("14 Larkmoor Lane #4B, Boston MA02116", "14 Larkmoor Lane #4B Boston MA 02116"),
        ("Road#1", "Road #1"),
        ("14 Larkmoor Lane - ring twice", "14 Larkmoor Lane ring twice"),
        ("C/O Odile\n1/2 Quince Rd.;  Boston", "C/O Odile 1/2 Quince Rd. Boston"),
        ("", ""),
    ],
)
def test_the_words_of_an_address_are_cut_at_marks(text: str, words: str) -> None:
    assert [token.text for token in tokens_of(text)] == words.split()


def test_no_letter_is_lost_between_words() -> None:
    text = "№4/B «Larkmoor», 14½ Rue de l’Église—Nord; (Bâtiment 2) _x_"
    letters = [mark for mark in text if mark.isalnum()]
    assert [mark for token in tokens_of(text) for mark in token.text if mark.isalnum()] == letters


def test_a_plain_address_is_hardly_doubted() -> None:
    address, troubles, _ = read_address(one_cell(PLAIN), frozenset())
    assert address is not None
    assert 0 < address.doubt < 0.002
    assert troubles == ()


def test_words_of_two_cells_say_which_they_come_from() -> None:
    written = Written(lines=(Cited("Larkmoor House", HERE), Cited(PLAIN, THERE)))
    voice = listen(written)
    assert voice is not None
    assert voice.address.recipient_extra == Cited("Larkmoor House", HERE)
    assert voice.address.street == Cited("14 Larkmoor Lane", THERE)


def test_a_town_in_a_column_and_again_in_the_street_cell_stands_once() -> None:
    written = Written(lines=(Cited(PLAIN, HERE),), city=Cited("Boston", THERE))
    voice = listen(written)
    assert voice is not None
    assert said(voice.address.street) == "14 Larkmoor Lane"
    assert voice.address.city == Cited("Boston", THERE)


def test_a_remark_behind_is_no_part_of_the_address() -> None:
    address, _, remarks = read_address(one_cell(f"{PLAIN}, please ring the bell"), frozenset())
    assert address is not None
    assert said(address.recipient_extra) == ""
    assert remarks == ("please ring the bell",)


def test_readings_that_differ_only_in_marks_agree() -> None:
    one = Address(street=Cited("14 Larkmoor Ln."), city=Cited("St. Larkmoor"), region=Cited("ME"))
    two = Address(street=Cited("14 LARKMOOR LN"), city=Cited("Saint Larkmoor"), region=Cited("ME"))
    assert agree(one, two, "")
    assert not agree(one, Address(street=two.street, city=Cited("Larkmoor")), "")


def test_a_floor_may_stand_in_the_unit_or_above() -> None:
    street = Cited("14 Larkmoor Lane")
    above = Address(street=street, recipient_extra=Cited("Dept 12"))
    assert agree(above, Address(street=street, unit=Cited("Dept 12")), "Dept 12")
    assert not agree(above, Address(street=street, unit=Cited("Dept 12")), "")


def test_the_surer_of_two_readings_is_taken() -> None:
    rules = Address(street=Cited("14 Larkmoor"), city=Cited("Lane Boston"), region=Cited("MA"))
    model = Address(street=Cited("14 Larkmoor Lane"), city=Cited("Boston"), region=Cited("MA"))
    sure = weigh(rules, one_cell(PLAIN), frozenset(), lambda _: Voice(model, (), 0.99999))
    assert sure.address.street == model.street


def test_a_doubtful_reading_is_asked_about_with_the_other_one_named() -> None:
    rules = Address(street=Cited("14 Larkmoor"), city=Cited("Side Boston"), region=Cited("MA"))
    model = Address(street=Cited("14 Larkmoor Side"), city=Cited("Boston"), region=Cited("MA"))
    cell = one_cell("14 Larkmoor Side Boston, MA 02116")
    weighed = weigh(rules, cell, frozenset(), lambda _: Voice(model, (), 0.5))
    (trouble,) = weighed.troubles
    assert trouble.code == "address-doubtful"
    assert "Side Boston" in trouble.text
    assert "14 Larkmoor Side" in trouble.text
    assert weighed.address.doubt >= ask_from()


def test_doubt_falls_with_the_models_sureness_and_rises_where_the_rules_stand_against_it() -> None:
    groups: dict[tuple[str, str, str], list[tuple[float, float]]] = {}
    for row in table("address_doubt"):
        if row["voice"] != "ask":
            pair = (float(row["sure_from"]), float(row["doubt"]))
            groups.setdefault((row["voice"], row["form"], row["town"]), []).append(pair)
    assert len(groups) == 20
    for (voice, _, _), group in groups.items():
        assert group == sorted(group)
        falls = voice != "rules"
        assert [doubt for _, doubt in group] == sorted((d for _, d in group), reverse=falls)
        assert all(0 < doubt < 1 for _, doubt in group)


def test_the_same_address_is_read_the_same_each_time_and_in_each_thread() -> None:
    texts = [f"{n} Larkmoor Lane Apt {n % 7}, Boston, MA 02116" for n in range(1, 60)]
    once = [tag(text) for text in texts]
    with ThreadPoolExecutor(6) as pool:
        for again in pool.map(lambda _: [tag(text) for text in texts], range(12)):
            assert again == once


def test_the_model_holds_no_word_that_no_table_has() -> None:
    assert by_model("14 Xyzzyx Lane, Boston, MA 02116").sure == pytest.approx(
        by_model("14 Qwerty Lane, Boston, MA 02116").sure
    )
