"""Lists of one row a guest in the client's own shorthand, as their cells tell; invented."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("env", "first", "last", "kind", "tier", "street", "city", "st", "zip", "std")
TOWN = ("Litchfield", "CT", "06759", "y")
SAME = ('"', '"', '"', '"', "y")
ROWS = (
    ("1", "Tobias", "Wexcombe", "A", "1", "14 Larkmoor Lane", *TOWN),
    ("1", "Odile", "Vale", "A", "1", *SAME),
    ("1", "Linnet", "Wexcombe", "K", "1", *SAME),
    ("2", "Corwin", "Penhew", "A", "1", "3 Farrenby Road", *TOWN),
    ("2", "", "", "G", "1", "", "", "", "", ""),
    ("3", "Annika", "Orr", "A", "2", "8 Mill Row", *TOWN),
    ("3", "Jory", "Orr", "A", "2", *SAME),
    ("4", "Hesper", "Lisle", "A", "1", "21 Quarry Hill", *TOWN),
)


def homes(read: Read, *more: tuple[str, ...], header: tuple[str, ...] = HEADER) -> list[list[str]]:
    """The people of each household; in small letters for children, "+" for a companion."""
    guests, _ = read([header, *ROWS, *more])
    return [[_called(p.kind, p.given) for p in home.people] for home in guests.households]


def _called(kind: Kind, given: str | None) -> str:
    if kind is Kind.GUEST:
        return "+"
    return str(given).lower() if kind is Kind.CHILD else str(given)


FOUND = [["Tobias", "Odile", "linnet"], ["Corwin", "+"], ["Annika", "Jory"], ["Hesper"]]


def test_numbers_that_several_rows_of_one_address_share_are_an_envelopes(read_rows: Read) -> None:
    assert homes(read_rows) == FOUND


@pytest.mark.parametrize("number", ["No.", "#", "grp", "E"])
@pytest.mark.parametrize("kind", ["A/K", "who", "type", "grown?"])
def test_whatever_their_headers_say(read_rows: Read, number: str, kind: str) -> None:
    assert homes(read_rows, header=(number, *HEADER[1:3], kind, *HEADER[4:])) == FOUND


# Common practice, no source.
@pytest.mark.parametrize("header", ["A/C", "kind", "Adult/Child"])
def test_the_letter_for_a_child_may_have_its_age_behind_it(read_rows: Read, header: str) -> None:
    family = (
        ("9", "Noor", "Lisle", "A", "1", "5 Juniper Road", *TOWN),
        ("9", "Anselm", "Lisle", "C 11", "1", *SAME),
        ("9", "Bettany", "Lisle", "Child (2)", "1", *SAME),
    )
    rows = [(*HEADER[:3], header, *HEADER[4:]), *ROWS, *family]
    guests, _ = read_rows(rows)
    (home,) = [home for home in guests.households if home.people[0].given == "Noor"]
    assert [(p.given, p.kind, p.age) for p in home.people] == [
        ("Noor", Kind.NAMED, None), ("Anselm", Kind.CHILD, 11), ("Bettany", Kind.CHILD, 2),
    ]  # fmt: skip
    assert all(h.address is None or not h.address.recipient_extra for h in guests.households)


def test_a_column_in_the_care_of_others_stays_one(read_rows: Read) -> None:
    header = ("first", "last", "a/c", "street", "city", "st", "zip")
    rows = [
        header,
        ("Tobias", "Wexcombe", "", "14 Larkmoor Lane", *TOWN[:3]),
        ("Wren", "Lorne", "Rosa Penhew", "3 Farrenby Road", *TOWN[:3]),
    ]
    guests, _ = read_rows(rows)
    extra = guests.households[1].address.recipient_extra  # type: ignore[union-attr]
    assert extra is not None
    assert "Rosa Penhew" in extra.text


def test_numbers_that_rows_of_several_addresses_share_are_no_envelopes(read_rows: Read) -> None:
    header = ("T", "first", "last", "street", "city", "st", "zip")
    rows = [
        (number, name, "Wexcombe" if name < "H" else "Vale", f"{door} Larkmoor Lane", *TOWN[:3])
        for number, name, door in (
            ("1", "Ada", 3), ("1", "Bram", 9), ("1", "Cleo", 12),
            ("2", "Iven", 30), ("2", "Jory", 31), ("3", "Kit", 40),
        )
    ]  # fmt: skip
    guests, _ = read_rows([header, *rows])
    assert [len(home.people) for home in guests.households] == [1] * len(rows)


def test_a_legend_below_the_list_is_told_and_invites_nobody(read_rows: Read) -> None:
    more = (
        ("late:",),
        ("5", "Kit", "Sorrel", "A", "1", "5 Elm Row", *TOWN),
        ("KEY", "env", "one number = one envelope"),
        ("", "kind", "A adult, K kid, G = and Guest"),
        ("", '"', "same as the row above"),
    )
    assert homes(read_rows, *more) == [*FOUND, ["Kit"]]
    _, findings = read_rows([HEADER, *ROWS, *more])
    (told,) = [found for found in findings if found.code == "legend"]
    assert "K kid, G = and Guest" in told.text


def test_a_guest_called_key_is_no_legend(read_rows: Read) -> None:
    header = ("Last", "First", "Street", "City", "State", "ZIP")
    rows = [("Vale", "Odile", "3 Farrenby Road", *TOWN[:3]), ("Key", "Ann", "4 Elm Row", *TOWN[:3])]
    guests, findings = read_rows([header, *rows])
    assert len(guests.households) == len(rows)
    assert not [found for found in findings if found.code == "legend"]


def test_a_cross_among_rounds_holds(read_rows: Read) -> None:
    _, findings = read_rows([HEADER, *ROWS, ("5", "Kit", "Sorrel", "A", "x", "5 Elm Row", *TOWN)])
    assert [f.where.cell for f in findings if f.code == "marker-in-list"] == ["E10"]


def test_crosses_alone_in_a_column_of_rounds_hold_nobody(read_rows: Read) -> None:
    rows = [(*row[:4], "x", *row[5:]) for row in ROWS]
    _, findings = read_rows([HEADER, *rows])
    assert not [f for f in findings if f.code == "marker-in-list"]


def test_a_save_the_date_that_came_back_asks_for_the_address(read_rows: Read) -> None:
    rows = [*ROWS[:-1], (*ROWS[-1][:-1], "RTS")]
    _, findings = read_rows([HEADER, *rows])
    assert [f.where.cell for f in findings if f.code == "address-doubtful"] == ["J9"]


@pytest.mark.parametrize("rounds", [("A", "B"), ("1", "2"), ("0", "1"), ("now", "later")])
def test_a_later_round_is_no_no(read_rows: Read, rounds: tuple[str, str]) -> None:
    rows = [(*row[:4], rounds[at > 2], *row[5:]) for at, row in enumerate(ROWS)]
    _, findings = read_rows([HEADER, *rows])
    assert not [f for f in findings if f.code == "marker-in-list"]


CALLED = ("Envelope", "Who", "Last", "Mr/Mrs", "Kid? (age)", "street", "city", "st", "zip")
PARTIES = (
    ("Wexcombes", "Tobias", "Wexcombe", "Mr.", "", "14 Larkmoor Lane", *TOWN[:3]),
    ("Wexcombes", "Odile", "Wexcombe", "Mrs.", "", "same", "same", "", ""),
    ("Wexcombes", "Linnet", "Wexcombe", "", "11", "same", "same", "", ""),
    ("Cor + Una", "Corwin", "Penhew", "Mr.", "", "3 Farrenby Road", *TOWN[:3]),
    ("Cor + Una", "Una", "Lisle", "Ms.", "", "same", "same", "", ""),
    ("Grandma Hettie", "Hesper", "Vale", "Mrs.", "", "21 Quarry Hill", *TOWN[:3]),
)


def test_what_the_client_calls_a_party_is_no_name_for_the_envelope(read_rows: Read) -> None:
    guests, found = read_rows([CALLED, *PARTIES])
    people = [[_called(p.kind, p.given) for p in home.people] for home in guests.households]
    assert people == [["Tobias", "Odile", "linnet"], ["Corwin", "Una"], ["Hesper"]]
    assert not {one.code for one in found} & {"formal-differs", "family-unnamed", "count-differs"}


def test_names_for_the_envelope_on_each_row_of_a_party_stay_so(read_rows: Read) -> None:
    formal = ("Mr. and Mrs. Tobias Wexcombe",) * 3 + ("Mr. Corwin Penhew and Ms. Una Lisle",) * 2
    rows = [(name, *row[1:]) for name, row in zip(formal, PARTIES[:5], strict=True)]
    guests, _ = read_rows([CALLED, *rows])
    assert [c.meaning for c in guests.columns if c.header == "Envelope"] == ["outer"]


def test_a_baby_where_a_first_name_belongs_has_no_name_yet(read_rows: Read) -> None:
    baby = ("Wexcombes", "baby", "Wexcombe", "", "0", "same", "same", "", "")
    guests, found = read_rows([CALLED, *PARTIES[:3], baby, *PARTIES[3:]])
    young = [p.given for p in guests.households[0].people if p.kind is Kind.CHILD]
    assert sorted(map(str, young)) == ["Linnet", "None"]
    assert "family-unnamed" in {one.code for one in found}
