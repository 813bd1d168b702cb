"""Firms, places and pieces typed in capitals: letters stay letters, sheets say what is set."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

from addressing.wording.casing import cased_firm, hides_letters

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
HERE = ("3 OSIER ROW", "DULUTH", "MN", "55802")


@pytest.mark.parametrize(
    ("typed", "cased"),
    [
        ("LARKMOOR BBQ CO.", "Larkmoor BBQ Co."),
        ("WXPN RADIO", "WXPN Radio"),
        ("LARKMOOR TV & CO.", "Larkmoor TV & Co."),
        ("PENHEW CPR", "Penhew CPR"),
        ("THE ST JOHN HALL", "The St John Hall"),
        ("LARKMOOR BAKERY LTD.", "Larkmoor Bakery Ltd."),
        ("LARKMOOR LLC", "Larkmoor LLC"),
        ("larkmoor bakery", "Larkmoor Bakery"),
        ("Larkmoor Bbq", "Larkmoor Bbq"),
        ("THE ORR FAMILY", "The Orr Family"),
    ],
)
def test_letters_of_a_firm_stay_capitals_and_short_forms_do_not(typed: str, cased: str) -> None:
    assert cased_firm(typed) == cased


@pytest.mark.parametrize("name", ["IBM CORP.", "LARKMOOR ABC LTD.", "THE UPS COMPANY"])
def test_a_short_word_of_a_firm_that_may_be_letters_is_asked_about(
    addressing: Run, write_list: Write, name: str
) -> None:
    assert hides_letters(name)
    path = write_list(((name, *HERE),))
    found = json.loads(addressing("check", path, "--json").stdout)["findings"]
    assert "capitals-recased" in {each["code"] for each in found}


@pytest.mark.parametrize("name", ["THE LARKMOOR CO.", "LARKMOOR BAR AND INN", "Larkmoor IBM"])
def test_a_firm_of_words_is_not_asked_about(name: str) -> None:
    assert not hides_letters(name)


def lines(run: Run, path: Path) -> list[list[str]]:
    told: dict[str, Any] = json.loads(run("lines", path, "--json").stdout)
    return [[line["text"] for line in home["pieces"][0]["lines"]] for home in told["households"]]


def test_the_stuffing_list_says_what_stands_on_the_envelope(
    addressing: Run, write_list: Write
) -> None:
    path = write_list((("MS. GRETA VOLE", *HERE), ("LARKMOOR BBQ CO.", "5 MILL ROW", *HERE[1:])))
    addressing("plates", path)
    addressing("stuffing", path, "--name", "stuffing.tsv")
    rows = Path("guests-job/stuffing.tsv").read_text("utf-8").splitlines()[1:]
    assert [row.split("\t")[1] for row in rows] == ["Greta Vole", "Larkmoor BBQ Co."]
    assert {row.split("\t")[3] for row in rows} == {"Duluth, MN"}
    manifest = Path("guests-job/manifest.json").read_text("utf-8")
    assert "GRETA" not in manifest


def test_the_country_in_the_place_of_a_province_is_set_once(
    addressing: Run, write_list: Write
) -> None:
    path = write_list((("Ms. Greta Vole", "300 rue Sainte-Marie", "Montréal", "CA", "H2X 1Y4"),))
    assert lines(addressing, path)[0][-2:] == ["Montréal  H2X 1Y4", "CANADA"]


def test_a_department_above_the_street_is_spelled_out(addressing: Run, write_list: Write) -> None:
    street = "Dept. of Physics, 14 Larkmoor Lane"
    path = write_list((("Ms. Greta Vole", street, "Litchfield", "CT", "06759"),))
    assert lines(addressing, path)[0][1] == "Department of Physics"
