"""Sentences in an address: they are on no envelope, and the client is asked."""

import pytest

from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.homes.spoken import is_spoken
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.tables import table

ROWS = table("address_remarks")
TOWN = "5 Harbor Steps, Portland, ME 04101"


def read(*lines: str) -> tuple[Address | None, list[tuple[str, str]]]:
    """The address of some lines, and (code, words quoted) of what is asked."""
    address, troubles, _ = read_address(Written(tuple(map(Cited, lines))), frozenset())
    return address, [(each.code, each.quoted) for each in troubles]


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "spoken"], ids=str)
def test_a_small_word_makes_a_remark_of_a_line(row: dict[str, str]) -> None:
    assert is_spoken(row["example"])
    assert not is_spoken(row["counter_example"])


@pytest.mark.parametrize(
    "row", [r for r in ROWS if r["kind"] in ("care-label", "own-mark")], ids=str
)
def test_a_label_of_care_and_a_town_with_a_call_are_none(row: dict[str, str]) -> None:
    assert not is_spoken(row["example"])
    assert is_spoken(row["counter_example"])


@pytest.mark.parametrize(
    "line",
    ["moved!", "which house?", "old -> new house", "Mail: her brother", "she rents it now"],
)  # common practice, no source
def test_calls_questions_arrows_labels_and_verbs_are_remarks(line: str) -> None:
    assert is_spoken(line)


@pytest.mark.parametrize(
    "line",
    ["The House That Jack Built", "Our Lady of Grace", "Villa il Moro", "Bldg. 4: Unit 2"],
)
def test_names_of_houses_are_none(line: str) -> None:
    assert not is_spoken(line)


def test_abroad_one_small_word_may_be_of_the_place() -> None:
    assert not is_spoken("Mas de can Roig", "ES")
    assert is_spoken("they moved to Rome last May", "ES")


def test_a_remark_above_a_street_is_asked_about_and_not_set() -> None:
    remark = "on a boat til fall"
    address, asked = read(f"{remark}!", TOWN)
    assert address is not None
    assert address.recipient_extra is None
    assert asked == [("address-doubtful", f"{remark}!")]


def test_whose_address_it_is_stays_behind_the_remark() -> None:
    address, asked = read("til fall use his mom's: Mrs. Odile Penhew", TOWN)
    assert address is not None
    assert address.recipient_extra is not None
    assert address.recipient_extra.text == "c/o Mrs. Odile Penhew"
    assert [code for code, _ in asked] == ["address-doubtful"]


@pytest.mark.parametrize("said", ["moved!! ask Judy", "between places til august", "ask her mom?"])
def test_a_remark_in_place_of_an_address_is_none(said: str) -> None:
    assert read(said) == (None, [("address-missing", said)])


def test_a_house_of_a_name_without_more_is_an_address() -> None:
    assert read("The Old Forge, Larkmoor")[0] is not None


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "mail-label"], ids=str)
def test_a_line_that_mail_goes_to_is_the_address(row: dict[str, str]) -> None:
    city, region, postcode = Cited("Taos"), Cited("NM"), Cited("87571")
    for line, street in ((row["example"], "PO Box 12"), (row["counter_example"], "9 Mill Row")):
        cell = Cited(f"9 Mill Row (no delivery here)\n{line}")
        written = Written((cell,), city=city, region=region, postcode=postcode)
        address, troubles, _ = read_address(written, frozenset())
        assert address is not None
        assert address.street is not None
        told = address.street.text == street and not troubles
        assert told if line == row["example"] else troubles


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "lives-with"], ids=str)
def test_with_whom_somebody_lives_is_a_remark(row: dict[str, str]) -> None:
    address, asked = read(row["example"], TOWN)
    assert address is not None
    assert address.recipient_extra is None
    assert asked == [("address-doubtful", row["example"])]
    assert not is_spoken(row["counter_example"])


@pytest.mark.parametrize("said", ["lives w/ her mom Kit Orr", "w/ Kit Orr", "staying with Kit Orr"])
def test_in_care_of_whom_a_remark_names_is_proposed(said: str) -> None:
    _, troubles, _ = read_address(Written((Cited(said), Cited(TOWN))), frozenset())
    (trouble,) = (each for each in troubles if each.code == "address-doubtful")
    assert trouble.likely == (("lines", f"c/o Kit Orr, {TOWN}"),)


def test_nobody_is_proposed_where_a_remark_gives_no_whole_name() -> None:
    for said in ("lives w/ her mom", "w/ Kit", "living at his parents"):
        _, troubles, _ = read_address(Written((Cited(said), Cited(TOWN))), frozenset())
        assert [each.likely for each in troubles if each.code == "address-doubtful"] == [()]


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "lead"], ids=str)
def test_small_words_before_the_name_of_a_house_are_on_no_envelope(row: dict[str, str]) -> None:
    for line, extra in ((row["example"], "Larkmoor Manor"), (row["counter_example"], None)):
        address, troubles, remarks = read_address(
            Written((Cited(f"{line}, Portland, ME 04101"),)), frozenset()
        )
        assert address is not None
        assert address.recipient_extra is not None
        kept = extra or line.partition(",")[0]
        assert address.recipient_extra.text == kept
        assert (row["words"] in remarks) is (extra is not None)
        assert extra is None or troubles == ()


@pytest.mark.parametrize(
    "home",
    ["Larkmoor Rest Home Rm 212", "Larkmoor Hall Room 212,", "Larkmoor Manor Apt 212",
     "Larkmoor Assisted Living Unit #212"],
)  # fmt: skip
@pytest.mark.parametrize("mark", ["\n", ", ", " "])
def test_a_room_behind_the_name_of_a_home_is_its_unit(home: str, mark: str) -> None:
    text = f"{home}{mark}14 Quince Street, Portland, ME 04101"
    address, troubles, _ = read_address(Written((Cited(text),)), frozenset())
    assert address is not None
    assert address.recipient_extra is not None
    assert address.unit is not None
    assert address.street is not None
    assert home.startswith(f"{address.recipient_extra.text} {address.unit.text}")
    assert address.street.text == "14 Quince Street"
    assert troubles == ()


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "denial"], ids=str)
def test_who_isnt_meant_is_asked_about_and_not_set(row: dict[str, str]) -> None:
    address, asked = read(row["example"], TOWN)
    assert address is not None
    assert address.recipient_extra is None
    assert asked == [("address-doubtful", row["example"])]
    assert not is_spoken(row["counter_example"])


@pytest.mark.parametrize("row", [r for r in ROWS if r["kind"] == "relation"], ids=str)
def test_who_somebody_is_stands_on_no_envelope_and_is_noted(row: dict[str, str]) -> None:
    for line, gone in ((row["example"], True), (row["counter_example"], False)):
        address, troubles, remarks = read_address(Written((Cited(line), Cited(TOWN))), frozenset())
        assert address is not None
        assert (address.recipient_extra is None) is gone
        assert (line in remarks) is gone
        assert not gone or troubles == ()


def test_what_goes_on_with_a_remark_in_small_letters_goes_with_it() -> None:
    address, asked = read("NOT the cousin, the other one", TOWN)
    assert address is not None
    assert address.recipient_extra is None
    assert asked == [("address-doubtful", "NOT the cousin; the other one")]
    kept, _ = read("the other larkmoor", "5 harbor steps, portland, me 04101")
    assert kept is not None
    assert kept.recipient_extra is not None


@pytest.mark.parametrize("front", ["Lot 14", "Bldg C", "Space 7", "Unit #3"])
def test_a_lot_before_the_name_of_its_park_is_its_unit(front: str) -> None:
    text = f"{front} Larkmoor Mobile Home Park, 14 Quince Street, Portland, ME 04101"
    address, troubles, _ = read_address(Written((Cited(text),)), frozenset())
    assert address is not None
    assert address.recipient_extra is not None
    assert address.recipient_extra.text == "Larkmoor Mobile Home Park"
    assert address.unit is not None
    assert address.unit.text == front
    assert troubles == ()
    road, _, _ = read_address(Written((Cited("Unit 3 Larkmoor Rd, 04101"),)), frozenset())
    assert road is not None
    assert road.recipient_extra is None
