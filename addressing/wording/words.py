"""The words of addresses in full and in short (Publication 28, appendices B and C)."""

from functools import cache, lru_cache

from addressing.tables import table

WORDS_KEPT = 8192
"""Words remembered: those of streets recur on every envelope."""


@lru_cache(WORDS_KEPT)
def plain(word: str) -> str:
    """A word for looking up: capitals, no points or commas."""
    return word.replace(".", "").replace(",", "").upper()


@cache
def suffix_in_full() -> dict[str, str]:
    """Every written form of a street suffix to the word in full ("LN" to "Lane")."""
    found: dict[str, str] = {}
    for row in table("suffixes"):
        for form in (row["primary_name"], *row["printed_variants"].split()):
            found.setdefault(form, row["spelled_out"])
    for row in table("suffixes"):
        found.setdefault(row["standard_abbreviation"], row["spelled_out"])
    return found


@cache
def suffix_in_short() -> dict[str, str]:
    """Every written form of a street suffix to its standard abbreviation (C1)."""
    found: dict[str, str] = {}
    for row in table("suffixes"):
        for form in (
            row["primary_name"],
            *row["printed_variants"].split(),
            row["standard_abbreviation"],
        ):
            found.setdefault(form, row["standard_abbreviation"])
    return found


@cache
def direction_in_full() -> dict[str, str]:
    """From "NW", "NORTHWEST" to "Northwest"."""
    return {
        form.upper(): row["direction"]
        for row in table("directionals")
        for form in (row["direction"], row["abbreviation"])
    }


@cache
def direction_in_short() -> dict[str, str]:
    """From "NORTHWEST" to "NW"."""
    return {
        form.upper(): row["abbreviation"]
        for row in table("directionals")
        for form in (row["direction"], row["abbreviation"])
    }


@cache
def unit_words() -> dict[str, tuple[str, str]]:
    """Every written designator to (in full, approved abbreviation) (C2)."""
    found: dict[str, tuple[str, str]] = {}
    for row in table("units"):
        if row["designator"].isalpha():
            pair = (row["spelled_out"], row["approved_abbreviation"])
            found[row["designator"]] = found[row["approved_abbreviation"]] = pair
    found.update({"APMT": found["APT"], "FLR": found["FL"], "STE": found["SUITE"]})
    return found


@cache
def style_words(kind: str) -> dict[str, tuple[str, str]]:
    """(formal, postal) forms of boxes, routes or roads, by their written form in capitals."""
    return {
        row["written"].upper(): (row["formal"], row["postal"])
        for row in table("style_words")
        if row["kind"] == kind
    }
