"""A household that is respelled or listed anew keeps its key, and nobody else gets it."""

import csv
import random
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from addressing.guestlist import read_list
from addressing.guestlist.households.keys import Kept, keep_keys
from addressing.guestlist.people.likeness import of_two_sexes, same_family, same_given
from addressing.records.guests import GuestList
from addressing.tables import table

HEADER = ("Name", "Street", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
THERE = ("431 Weathervane Drive", "Bar Harbor", "ME", "04609")
NOWHERE = ("", "", "", "")
Row = tuple[str, ...]
Versions = Callable[[Sequence[Row], Sequence[Row]], tuple[Kept, Kept]]
OTHERS: tuple[Row, ...] = (
    ("Dr. and Mrs. Ludo Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802"),
    ("Mr. and Mrs. Alaric Grayling", "22 Osier Row", "Litchfield", "CT", "06759"),
)
"""Two households that stay as they are."""


def read(path: Path, rows: Sequence[Row]) -> GuestList:
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream, lineterminator="\n").writerows([HEADER, *rows])
    return read_list(path, {})[0]


@pytest.fixture
def versions(tmp_path: Path) -> Versions:
    """What is kept after an old version of a list, and then after a new one."""

    def both(old: Sequence[Row], new: Sequence[Row]) -> tuple[Kept, Kept]:
        before = keep_keys(read(tmp_path / "list.csv", [*OTHERS, *old]).households, ())
        return before, keep_keys(
            read(tmp_path / "list.csv", [*new, *OTHERS]).households, before.known
        )

    return both


def key_of(kept: Kept, name: str) -> str:
    (key,) = {home.key for home in kept.known if home.name == name and not home.gone}
    return key


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        (("Dr. Ada Penhew", *HERE), ("Dr. Ada Penhewe", *HERE), "family name respelled"),
        (("Ms. Katherine Penhew", *HERE), ("Ms. Katharine Penhew", *HERE), "first name respelled"),
        (("Robert Penhew", *HERE), ("Bob Penhew", *HERE), "nickname"),
        (("T. Penhew", *HERE), ("Theodora Penhew", *HERE), "initial"),
        (("Mr. Silas Penhew", *HERE), ("Dr. Silas Penhew", *HERE), "title"),
        (("Mr. Silas Penhew", *HERE), ("Mr. Silas Penhew", *THERE), "moved"),
        (("Mr. Silas Penhew", *NOWHERE), ("Mr. Silas Penhew", *THERE), "address came later"),
        (("Mr. Silas Penhew", *HERE), ("Mr. Silas Penhew", *HERE[:3], "06798"), "ZIP mended"),
        (
            ("Mr. Silas Penhew", *HERE),
            ("Mr. Silas Penhew", "14 Larkmore Lane", *HERE[1:]),
            "street respelled",
        ),
        (
            ("Dr. Ada Penhew", *HERE),
            ("Dr. Ada Penhewe", "14 Larkmoor Lane, Apt. 3", *HERE[1:]),
            "flat and spelling",
        ),
        (("Ms. Ada Penhew", *HERE), ("Ms. Ada Penhew and Guest", *HERE), "with a guest"),
        (("Ms. Ada Penhew", *HERE), ("Ms. Ada Penhew and Mr. Hugo Vane", *HERE), "one came"),
        (("Mr. Hugo Vane and Ms. Ada Penhew", *HERE), ("Ms. Ada Penhew", *HERE), "one left"),
        (("Ms. Ada Penhew", *HERE), ("Ms. Ada Penhew and Mr. Hugo Vane", *THERE), "both"),
        (("The Penhew Family", *HERE), ("Mr. and Mrs. Hugo Penhew", *HERE), "family named"),
        (("The Penhew Family", *HERE), ("The Penhews", *HERE), "a family in the plural"),
        (("The Penhew Family", *HERE), ("Penhew Household", *HERE), "another word for a family"),
    ],
)
def test_a_household_that_changed_keeps_its_key(
    old: Row, new: Row, why: str, versions: Versions
) -> None:
    before, after = versions([old], [new])
    others = {
        home.key for home in before.known if home.name in ("Ludo Halvorsby", "Alaric Grayling")
    }
    (known,) = [home.key for home in before.known if home.key not in others]
    (now,) = [home.key for home in after.known if home.key not in others and not home.gone]
    assert now == known, why
    assert after.doubtful == ()


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        (("Mr. Hugo Penhew, Sr.", *HERE), ("Mr. Hugo Penhew, Jr.", *HERE), "father and son"),
        (("Mr. Hugo Penhew", *HERE), ("Mr. Hugo Penhew, Jr.", *HERE), "father and son"),
        (("Ms. Ada Penhew", *HERE), ("Ms. Ida Penhew", *HERE), "sisters"),
        (("Paul Penhew", *HERE), ("Paula Penhew", *HERE), "brother and sister"),
        (("Mr. Jan Penhew", *HERE), ("Ms. Janet Penhew", *HERE), "a short form, and two titles"),
        (("Mr. Hugo Penhew", *HERE), ("Ms. Odile Penhew", *HERE), "one family name"),
        (("Ms. Ada Penhew", *HERE), ("Ms. Ada Penhewe", *THERE), "moved and respelled"),
        (
            ("Mr. Hugo Vane and Ms. Ada Penhew", *HERE),
            ("Ms. Ada Penhew", *THERE),
            "one of two, elsewhere",
        ),
        (("The Penhew Family", *HERE), ("The Penhew Family", *THERE), "a label proves little"),
        (("Ms. Ada Penhew", *HERE), ("Mrs. Ada Vane", *HERE), "another family name"),
        (("Mr. Tobias Penhew", *HERE), ("Mr. Tobias Pinhow", *HERE), "two slips"),
        (("Aunt Zelda", *HERE), ("Aunt Selda", *HERE), "a lone name respelled"),
        (("Larkmoor Bindery Ltd.", *HERE), ("Larkmoor Bindery Limited", *HERE), "a firm"),
    ],
)
def test_who_is_only_likely_the_same_gets_a_key_of_their_own_and_is_told(
    old: Row, new: Row, why: str, versions: Versions
) -> None:
    before, after = versions([old], [new])
    assert len(after.doubtful) == 1, why
    mine, theirs, reason = after.doubtful[0]
    assert mine.key in {home.key for home in before.known}
    assert theirs.key not in {home.key for home in before.known}
    assert reason


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Ms. Ada Penhew", "Mr. Otto Brandt"),
        ("The Penhew Family", "The Brandt Family"),
        ("Aunt Zelda", "Aunt Mabel"),
        ("Larkmoor Bindery Ltd.", "Farrenby Ltd."),
        ("Mr. Hugo van der Penhew", "Mr. Otto van der Brandt"),
        ("Ms. Ada Penhew and Mr. Silas Vane", "Ms. Ilse Orr and Mr. Silas Brandt"),
    ],
)
def test_strangers_at_the_same_door_have_nothing_to_do_with_those_before(
    versions: Versions, old: str, new: str
) -> None:
    before, after = versions([(old, *HERE)], [(new, *HERE)])
    came = {home.key for home in after.known} - {home.key for home in before.known}
    assert len(came) == 1
    assert after.doubtful == ()


def test_the_key_of_one_who_left_goes_to_no_namesake(versions: Versions) -> None:
    one, other = ("Mr. Hugo Penhew", *HERE), ("Mr. Hugo Penhew", "9 Osier Row", *HERE[1:])
    before, after = versions([one, other], [other])
    kept = {home.key: home for home in before.known}
    now = {home.key: home for home in after.known if not home.gone}
    assert all(kept[key].street == home.street for key, home in now.items())
    assert len({home.key for home in after.known}) == len(after.known)


def test_two_who_change_flats_keep_their_keys(versions: Versions) -> None:
    def at(name: str, flat: str) -> Row:
        return (name, f"14 Larkmoor Lane, Apt. {flat}", *HERE[1:])

    before, after = versions(
        [at("Mr. Hugo Penhew", "1"), at("Mr. Otto Penhew", "2")],
        [at("Mr. Hugo Penhew", "2"), at("Mr. Otto Penhew", "1")],
    )
    for name in ("Hugo Penhew", "Otto Penhew"):
        assert key_of(before, name) == key_of(after, name)


def test_a_household_that_comes_back_has_its_key_again(tmp_path: Path) -> None:
    ada = ("Ms. Ada Penhew", *HERE)
    path = tmp_path / "list.csv"
    first = keep_keys(read(path, [*OTHERS, ada]).households, ())
    without = keep_keys(read(path, OTHERS).households, first.known)
    again = keep_keys(read(path, [*OTHERS, ada]).households, without.known)
    assert key_of(first, "Ada Penhew") == key_of(again, "Ada Penhew")


def test_when_two_come_equally_near_nobody_is_taken_for_the_one_before(versions: Versions) -> None:
    before, after = versions(
        [("T. Penhew", *HERE)], [("Theodora Penhew", *HERE), ("Tabitha Penhew", *HERE)]
    )
    (known,) = [home.key for home in before.known if home.name == "T. Penhew"]
    assert known not in {home.key for home in after.known if not home.gone}


def test_without_what_is_known_a_key_is_of_the_cells_alone(tmp_path: Path) -> None:
    guest_list = read(tmp_path / "list.csv", OTHERS)
    kept = keep_keys(guest_list.households, ())
    assert all(was == now for was, now in kept.keys.items())


GIVEN = ("Ada", "Ida", "Hugo", "Theodora", "T.", "Paul", "Paula")
FAMILY = ("Penhew", "Penhewe", "Vane", "Penhew, Jr.")
STREETS = ("14 Larkmoor Lane", "14 Larkmoor Lane, Apt. 3", "16 Larkmoor Lane", "9 Osier Row", "")
HOMES = st.lists(
    st.builds(
        lambda given, family, street, more: (f"{given} {family}{more}", street, *HERE[1:]),
        st.sampled_from(GIVEN),
        st.sampled_from(FAMILY),
        st.sampled_from(STREETS),
        st.sampled_from(("", " and Guest")),
    ),
    min_size=1,
    max_size=7,
    unique=True,
)
RARELY = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@RARELY
@given(HOMES, HOMES, st.randoms(use_true_random=False))
def test_keys_are_one_to_one_and_hang_on_no_order(
    tmp_path: Path, old: list[Row], new: list[Row], dice: random.Random
) -> None:
    before = keep_keys(read(tmp_path / "list.csv", old).households, ())
    homes = read(tmp_path / "list.csv", new).households
    after = keep_keys(homes, before.known)
    assert len(set(after.keys.values())) == len(after.keys) == len(homes)
    assert len({home.key for home in after.known}) == len(after.known)
    known = list(before.known)
    dice.shuffle(known)
    turned = list(homes)
    dice.shuffle(turned)
    assert keep_keys(turned, known).keys == after.keys


@RARELY
@given(HOMES)
def test_the_same_list_read_again_keeps_every_key(tmp_path: Path, rows: list[Row]) -> None:
    homes = read(tmp_path / "list.csv", rows).households
    first = keep_keys(homes, ())
    again = keep_keys(homes, first.known)
    assert again.keys == first.keys
    assert set(again.known) == set(first.known)
    assert again.doubtful == ()


@pytest.mark.parametrize("row", [r for r in table("name_forms") if r["kind"] == "form"])
def test_forms_of_a_name_are_one_persons(row: dict[str, str]) -> None:
    assert same_given(row["one"], row["other"])
    assert same_given(row["other"], row["one"])


@pytest.mark.parametrize("row", [r for r in table("name_forms") if r["kind"] == "tail"])
def test_names_that_only_an_ending_parts_are_two_peoples(row: dict[str, str]) -> None:
    one, other = row["example"].casefold().split(" and ")
    assert not same_given(one, other)
    assert not same_given(other, one)


def test_names_are_compared_by_fields_not_by_scores() -> None:
    assert not same_given("", "ada")
    assert not same_family("", "penhew")
    assert same_given("mary ann", "mary anne")
    assert not same_given("mary beth", "mary ann")
    assert same_given("beth", "liz")
    assert of_two_sexes("Mr.", "Ms.")
    assert not of_two_sexes("Dr.", "Ms.")
    assert not of_two_sexes(None, "Ms.")
