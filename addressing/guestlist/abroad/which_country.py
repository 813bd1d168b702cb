"""The country of an address that names none: what only one country writes so.

Signs are the rows of data/country_signs.tsv (codes with letters, labels, letters before a code),
a region together with a code that lies in it, or a country's name beside its own code
("Singapore 238880"). Two countries that fit are no sign; then it is asked.
"""

import re
from functools import cache, lru_cache

from addressing.guestlist.abroad.parts_abroad import has_road_word, parts_of
from addressing.guestlist.folding import fold
from addressing.guestlist.places.countries import country_code, region_codes
from addressing.guestlist.places.places import state_code, town_in_zip, town_zips, zip_in_state
from addressing.guestlist.places.postcodes import find_postcode, prefixes, tidy
from addressing.guestlist.places.sub_areas import lies_in, rules_of, sub_area, sub_areas
from addressing.guestlist.written import Written
from addressing.tables import table

_AMERICAN = re.compile(r"(?<![A-Za-z.])((?:[A-Za-z.]+\s+){0,2}[A-Za-z.]+),?\s+(\d{5})(?:-?\d{4})?$")
_PART = r"(?:^|[,\n\d])[\W_]*([^\W\d_][^,\n\d]*?)"
"""The words from a comma, a line break or a figure on."""
_WORN = re.compile(rf"{_PART},?\s+([A-Za-z]{{2}}),?\s+\d{{3,5}}(?:-?\d{{4}})?$")
_NO_ZIP = re.compile(rf"{_PART}\s*[,\n]\s*([^\W\d_][^,\n\d]*)$")
_END = 200
"""Letters at the end of an address in which town, state and ZIP stand."""
_LIKE_ZIP = re.compile(r"\d{3,5}|\d{5}-\d{4}|\d{9}")
"""What can be a ZIP, one that lost zeros too."""
_LONGEST_REGION = 4
_LONGEST_TOWN = 4
_ALPHA_2 = 2


def country_by_signs(written: Written) -> str | None:
    """Alpha-2 of the one country abroad that an address without a country can be in, or None."""
    texts = _texts(written)
    text = "\n".join(texts)
    if not re.search(r"\d", text) or _is_american(texts[-1]) or _is_american(text):
        return None
    for signs in (_by_table, _by_letters, _by_name, _by_region):
        found = signs(written, text)
        if found:
            return found.pop() if len(found) == 1 else None
    return None


def _texts(written: Written) -> list[str]:
    place = (written.city, written.region, written.postcode)
    joint = " ".join(cited.text for cited in place if cited is not None)
    return [*(line.text for line in written.lines), *([joint] if joint else [])]


@lru_cache(maxsize=4_096)  # town, state and ZIP in columns recur, and mostly say enough
def _is_american(text: str) -> bool:
    """True for a state and a ZIP that lies in it at the end, as nearly all lists have.

    A ZIP that lost figures, is another state's or is missing, counts where the words before the
    state end in a town of it: Santa Fe is a province of Argentina, and neither "14 Larkmoor Lane
    Santa Fe, NM 8750" nor "2940 Larkmoor Lane, Santa Fe, NM 17501" is in it.
    """
    text = text.strip(" .,")[-_END:]
    for pattern in (_WORN, _NO_ZIP):
        found = pattern.search(text)
        state = state_code(found[2]) if found is not None else None
        if found is not None and state is not None and _ends_in_town(found[1], state):
            return True
    found = _AMERICAN.search(text)
    words = found[1].split() if found else []
    states = (state_code(" ".join(words[start:])) for start in range(len(words)))
    return found is not None and any(zip_in_state(found[2], state) for state in states if state)


def _ends_in_town(text: str, state: str) -> bool:
    words = text.split()[-_LONGEST_TOWN:]
    return any(town_zips(" ".join(words[start:]), state) for start in range(len(words)))


@cache
def _signs() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple(
        (re.compile(row["pattern"], re.MULTILINE), row["country"]) for row in table("country_signs")
    )


def _by_table(written: Written, text: str) -> set[str]:
    del written
    found: set[str] = set()
    for pattern, country in _signs():
        match = pattern.search(text)
        if match and ("code" not in match.groupdict() or tidy(match["code"], country)):
            found.add(country)
    return found


@cache
def _letters() -> dict[str, str]:
    """Letters that may stand before a code with a hyphen, to the country: D, CH, NL."""
    known: dict[str, str] = {}
    for row in table("place_forms"):
        country = row["country"]
        if len(country) == 2:  # noqa: PLR2004 - no "-native" row
            for letters in prefixes(country):
                known.setdefault(letters, country)
    return known


_LETTERED = re.compile(
    r"(?:^|[\n,]\s*|\s)(?P<letters>[A-Z]{1,3})(?:\s?[-–]\s?|\s)(?P<code>\d[\dA-Z -]{2,8}\b)",
    re.MULTILINE,
)


def _by_letters(written: Written, text: str) -> set[str]:
    """D-50667 Köln: letters and a code, a town beside them, no US state."""
    del written
    found: set[str] = set()
    for match in _LETTERED.finditer(text):
        country = _letters().get(match["letters"])
        if country is None or country == "US":
            continue
        rest = text[match.start("letters") :].split("\n", maxsplit=1)[0].split(",", maxsplit=1)[0]
        code = find_postcode(rest, country)
        town = code.behind if code is not None and not code.before else ""
        if re.match(r"[^\W\d_]{2}", town) and not has_road_word(f"1 {town}"):
            found.add(country)
    return found


def _by_name(written: Written, text: str) -> set[str]:
    """Singapore 238880; 98000 Monaco; or the code's country in letters on the last line."""
    del text
    texts = [part.text for part in parts_of(written)]
    place = " ".join(cited.text for cited in (written.city, written.postcode) if cited)
    found = {country for each in (*texts[-2:], place) if (country := _named_beside(each))}
    return found or _in_letters("\n".join(texts))


def _in_letters(text: str) -> set[str]:
    """The country's two letters behind everything, a code of its own before them: 4051 Basel CH."""
    before, _, letters = re.sub(r"\s+", " ", text).rpartition(" ")
    if len(letters) != _ALPHA_2 or not letters.isupper() or state_code(letters) is not None:
        return set()
    country = country_code(letters)
    known = country is not None and country != "US"
    return {country} if known and country and find_postcode(before, country) else set()


def _named_beside(text: str) -> str | None:
    """A country whose name stands right beside a code of its own, no US town of that name."""
    for words in _ends(text):
        country = country_code(words)
        if country is None or country == "US" or state_code(words) is not None:
            continue
        code = find_postcode(text, country)
        if code is None or town_in_zip(words, code.code):  # Peru, Illinois 61354
            continue
        behind = fold(code.behind) == fold(words)
        if behind or re.search(rf"(?:^|\s){re.escape(fold(words))}$", fold(code.before)):
            return country
    return None


def _ends(text: str) -> list[str]:
    words = re.sub(r"\b[A-Z]?\d[\w-]*\b", " ", text).split()
    return [" ".join(words[-length:]) for length in range(1, min(_LONGEST_REGION, len(words)) + 1)]


@cache
def _with_ranges() -> tuple[str, ...]:
    """Countries whose regions' codes are known, without the United States."""
    codes = (row["country"] for row in table("place_forms"))
    return tuple(
        c
        for c in codes
        if c != "US" and len(c) == 2 and rules_of(c).get("sub_zips")  # noqa: PLR2004 - no "-native" row
    )


def _by_region(written: Written, text: str) -> set[str]:
    """A region and a code that lies in it, in one country only, and not in a US state."""
    words = {fold(written.region.text)} if written.region else _region_words(text)
    flat = text.replace("\n", ", ")
    found = {
        country
        for country in _with_ranges()
        if any(_fits(flat, word, country) for word in words if word in sub_areas(country))
    }
    region = fold(written.region.text) if written.region else ""
    canadian = region in region_codes("CA") and not _is_state(region)
    return found or ({"CA"} if canadian else set())


def _fits(text: str, word: str, country: str) -> bool:
    """True where a code of the country lies in the region; a US state needs the code before it."""
    code = find_postcode(text, country)
    if code is None or not lies_in(code.code, sub_areas(country)[word]):
        return False
    if not _is_state(word) or not _LIKE_ZIP.fullmatch(code.code):
        return True
    behind = code.behind.split(",")[0]
    return bool(re.search(r"(?:\b|\()" + re.escape(word) + r"\)?$", fold(behind)))


def _is_state(word: str) -> bool:
    return state_code(word) is not None


def _region_words(text: str) -> set[str]:
    """Names in brackets, whole parts, and the words beside a code, folded."""
    found: set[str] = {fold(each) for each in re.findall(r"\(([^()]+)\)", text)}
    for part in re.split(r"[\n,]", text):
        found.add(fold(re.sub(r"\b\d[\d\s-]*\b", " ", part)))
        words = [
            word
            for word in re.split(r"[\s/]+|-(?=[A-Z]{2}$)", re.sub(r"\d[\d-]*", " ", part))
            if word
        ]
        for length in range(1, min(_LONGEST_REGION, len(words)) + 1):
            found.add(fold(" ".join(words[-length:])))
    return {word for word in found if word}


def names_a_region(text: str) -> bool:
    """True for what may stand in brackets behind a town: (MI), (Québec), (Málaga)."""
    countries = ("IT", "CA", "ES", "MX", "BR", "CH", "AT", "DE", "FR", "GB", "NL")
    return any(sub_area(text, country) is not None for country in countries)


def at_home(written: Written, home: str) -> bool:
    """True for an address with a code of the sender's own country, and no US state beside it."""
    text = "\n".join(_texts(written))
    return not _is_american(text) and find_postcode(text, home) is not None


def needs_code(country: str) -> bool:
    """True where every address has a postcode."""
    return "Z" in rules_of(country).get("require", "")
