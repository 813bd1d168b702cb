"""States, ZIP codes and towns of the United States, from packaged open data.

ZIP codes with their towns (data/zip_towns.tsv) come from the package zipcodes (data in part
GeoNames, CC BY 4.0); where a code isn't there, the first three digits tell the state
(data/zip3.tsv). That a house stands at an address isn't checked: delivery-point data is licensed.
"""

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

from rapidfuzz import fuzz

from addressing.guestlist.folding import fold
from addressing.tables import lookup, table

MILITARY_TOWNS = frozenset(("apo", "fpo", "dpo"))
MILITARY_STATES = frozenset(("AA", "AE", "AP"))
_LIKE = (("saint ", "st "), ("sainte ", "ste "))
_NEAR = 85
"""From this likeness (of 100) on, a word is taken for a state's misspelt name."""
_LEAST = 4
"""Letters that such a word has at least."""


@cache
def _states() -> dict[str, str]:
    """Every written form of a state, folded, to its code (Publication 28, Appendix B; custom)."""
    known: dict[str, str] = {}
    for row in table("states"):
        others = row["other_forms_seen"].replace(";", ",").split(",")
        forms = (row["code"], row["name"], row["traditional_abbreviation"], *others)
        for form in forms:
            if form.strip():
                known.setdefault(fold(form), row["code"])
    for row in table("states"):  # "C.T." with points
        known.setdefault(" ".join(row["code"].lower()), row["code"])
    return known


@lru_cache(maxsize=8_192)
def state_code(text: str) -> str | None:
    """The two-letter code for a state as people write it, or None.

    >>> state_code("Mass."), state_code("n.y."), state_code("Narnia")
    ('MA', 'NY', None)
    """
    return _states().get(fold(text))


@cache
def _last_words() -> frozenset[str]:
    return frozenset(written.split()[-1] for written in _states())


def may_end_state(word: str) -> bool:
    """True for a word that a state's name or code may end in; False for most, without more ado.

    >>> [may_end_state(word) for word in ("Hampshire", "n.y.", "Lane")]
    [True, True, False]
    """
    last = fold(word).split()[-1:]
    return not last or not last[0].isalnum() or last[0] in _last_words()


def near_state(text: str, zip_code: str) -> str | None:
    """The state of a ZIP where the text is nearly its name or its code ("Conneticut", "lL").

    >>> near_state("Conneticut", "06759"), near_state("Ohoi", "06759")
    ('CT', None)
    """
    code = zip_state(zip_code)
    if code is None or not text.strip():
        return None
    written = text.strip(" .,")
    if len(written) == len(code):
        return code if re.sub("[l1|]", "I", written).upper() == code else None
    alike = fuzz.ratio(fold(written), fold(state_name(code) or ""))
    return code if len(written) >= _LEAST and alike >= _NEAR else None


def state_name(code: str) -> str | None:
    """The state's name in full."""
    return lookup("states", "code", "name").get(code)


@lru_cache(maxsize=8_192)
def fold_town(name: str) -> str:
    """A town's name for comparing: Saint and St, Fort and Ft, N. and North, Spgs and Springs."""
    folded = re.sub(r"\bd c$", "dc", fold(name)) + " "
    for long, short in _LIKE:
        folded = re.sub(rf"\b{long}", short, folded)
    first, *others = folded.split() or [""]
    if others:
        first = _town_words("first").get(first, first)
    behind = _town_words("behind")
    return "".join((first, *(behind.get(word, word) for word in others)))


@cache
def _town_words(place: str) -> dict[str, str]:
    """Short words of towns to long ones; directions too at the front."""
    words = {
        fold(row["written"]): fold(row["full"])
        for row in table("town_words")
        if row["place"] == place
    }
    if place == "first":
        words |= {
            fold(row["abbreviation"]): fold(row["direction"]) for row in table("directionals")
        }
    return words


@dataclass(frozen=True, slots=True)
class _Zip:
    """A ZIP's state, its towns as written (the main one first), and those of them not accepted."""

    state: str
    towns: tuple[str, ...]
    refused: tuple[str, ...]


@cache
def _book() -> dict[str, str]:
    """Every ZIP to the rest of its line, taken apart when it is asked for: a list knows few."""
    text = (files("addressing") / "data" / "zip_towns.tsv").read_text(encoding="utf-8")
    lines = text[text.index("\n0") + 1 :].splitlines()
    return {line[:5]: line[6:] for line in lines}


def _taken_apart(line: str) -> _Zip:
    state, towns, refused = line.split("\t")
    others = tuple(filter(None, refused.split("|")))
    return _Zip(state, (*towns.split("|"), *others), others)


@lru_cache(maxsize=8_192)
def _zip(zip_code: str) -> _Zip | None:
    """What is known of a ZIP or ZIP+4."""
    line = _book().get(zip_code[:5])
    return _taken_apart(line) if line is not None else None


def is_refused(town: str, zip_code: str) -> bool:
    """True when the open data lists the name as one that the post doesn't accept for the ZIP.

    A name may be listed as accepted too, where several spellings compare equal: then it is none.
    """
    wanted = fold_town(town)
    known = _zip(zip_code)
    if known is None or wanted not in map(fold_town, known.refused):
        return False
    towns = zip_towns(zip_code)
    return [fold_town(name) for name in towns].count(wanted) == 1


@cache
def _zips_of_state() -> dict[str, tuple[str, ...]]:
    codes: dict[str, list[str]] = {}
    for code, line in _book().items():
        codes.setdefault(line[:2], []).append(code)
    return {state: tuple(found) for state, found in codes.items()}


@cache
def _towns(state: str) -> dict[str, tuple[str, ...]]:
    """Folded town to its ZIPs, in one state (made when first asked: a list knows few states)."""
    towns: dict[str, list[str]] = {}
    for code in _zips_of_state().get(state, ()):
        for name in {fold_town(name) for name in _taken_apart(_book()[code]).towns}:
            towns.setdefault(name, []).append(code)
    return {town: tuple(codes) for town, codes in towns.items()}


def zip_state(zip_code: str) -> str | None:
    """The state in which a ZIP lies; None where no state has that prefix."""
    known = _zip(zip_code)
    if known is not None:
        return known.state
    return lookup("zip3", "prefix", "state").get(zip_code[:3]) or None


@lru_cache(maxsize=8_192)
def zip_in_state(zip_code: str, state: str) -> bool:
    """True when the ZIP's prefix serves the state; some serve two."""
    if zip_state(zip_code) == state:
        return True
    several = lookup("zip3", "prefix", "all_states").get(zip_code[:3], "")
    return state in re.split(r"[^A-Z]+", several)


def zip_towns(zip_code: str) -> tuple[str, ...]:
    """The towns of a ZIP, the main one first; empty when the code isn't known."""
    known = _zip(zip_code)
    return known.towns if known is not None else ()


def town_in_zip(town: str, zip_code: str) -> bool:
    """True when the town is one of the ZIP's."""
    wanted = fold_town(town)
    return any(fold_town(name) == wanted for name in zip_towns(zip_code))


def town_zips(town: str, state: str) -> tuple[str, ...]:
    """The ZIPs of a town in a state; empty when the data doesn't know the town."""
    return _towns(state).get(fold_town(town), ())


def is_town(name: str, state: str) -> bool:
    """True when the data knows a town of that name in the state."""
    return fold_town(name) in _towns(state)


@lru_cache(maxsize=4_096)
def zip_keys(zip_code: str) -> frozenset[str]:
    """The towns of a ZIP as `fold_town` writes them."""
    return frozenset(fold_town(name) for name in zip_towns(zip_code))


@cache
def town_keys(state: str) -> frozenset[str]:
    """The towns of a state as `fold_town` writes them."""
    return frozenset(_towns(state))
