"""Invented US addresses, labelled by how they are made: invented streets in real towns.

The open labelled data comes from a few counties and many firms; guests live everywhere. Towns,
states and ZIP codes are those of the package zipcodes; streets, buildings and people are made up.
"""

import random
from dataclasses import replace
from functools import cache

import zipcodes
from labelled_addresses import SEED, Labelled, Word, said_words, with_unit

from addressing.tables import table


@cache
def _towns() -> tuple[dict[str, str | list[str]], ...]:
    rows = zipcodes.list_all()  # type: ignore[no-untyped-call]
    return tuple(row for row in rows if row["state"] not in ("AA", "AE", "AP"))


@cache
def _suffixes() -> tuple[str, ...]:
    """Every suffix once, the common ones often."""
    forms = [row["spelled_out"] for row in table("suffixes")]
    forms += [row["standard_abbreviation"].capitalize() for row in table("suffixes")]
    return (*forms, *said_words("suffix", 0) * 30)


def invented(count: int, half: int, seed: int = SEED) -> list[Labelled]:
    """Full addresses with their labels; `half` 0 to learn with, 1 to judge with: other words."""
    rng = random.Random(f"{seed} {half}")  # noqa: S311 - a sample
    return [_address(rng, half) for _ in range(count)]


def _address(rng: random.Random, half: int) -> Labelled:
    words: list[Word] = []
    if rng.random() < 0.15:
        words += _said(_building(rng, half), "extra")
    gap = rng.choice((", ", ", ", "\n", " "))
    military = rng.random() < 0.04
    if military:
        street = _numbered(rng, rng.choice(said_words("military", 0)), "box", "box-number")
        town, state, code = _military(rng)
    else:
        row = rng.choice(_towns())
        street = _street(rng, half, str(row["state"]))
        towns = [str(row["city"]), str(row["city"]), *row["acceptable_cities"]]
        town, state, code = rng.choice(towns), _state(rng, str(row["state"])), str(row["zip_code"])
    words += [replace(street[0], before=gap), *street[1:]]
    if rng.random() < 0.06:
        behind = rng.choice(said_words("station", 0)).format(_name(rng, half))
        words += _said(behind, "extra", rng.choice(("\n", ", ")))
    words += _said(town, "city", rng.choice((", ", ", ", ", ", " ", "\n")))
    words += _said(state, "state", rng.choice((", ", ", ", ", ", " ")))
    more = f"-{rng.randrange(1, 9999):04}" if rng.random() < 0.1 else ""
    return Labelled((*words, Word(code + more, "zip", rng.choice((" ", " ", " ", ", ", "  ")))))


def _said(text: str, label: str, gap: str = " ") -> list[Word]:
    return [Word(word, label, " " if i else gap) for i, word in enumerate(text.split())]


def _military(rng: random.Random) -> tuple[str, str, str]:
    return rng.choice(("APO", "FPO")), rng.choice(("AE", "AP")), f"09{rng.randrange(100, 999)}"


@cache
def _names() -> dict[str, tuple[str, str]]:
    return {row["code"]: (row["name"], row["traditional_abbreviation"]) for row in table("states")}


def _state(rng: random.Random, code: str) -> str:
    name, short = _names()[code]
    return rng.choice((code, code, code, code, code, name, short or code, code.lower()))


def _name(rng: random.Random, half: int) -> str:
    return rng.choice(said_words("stem", half)) + rng.choice(said_words("ending", half))


def _building(rng: random.Random, half: int) -> str:
    name, kind = _name(rng, half), rng.choice(said_words("building", 0))
    return rng.choice((f"{name} {kind}", f"The {name}", f"{name} Inc.", name))


def _street_name(rng: random.Random, half: int, state: str) -> str:
    name = _name(rng, half)
    roll = rng.random()
    if roll < 0.45:
        return name
    if roll < 0.6:
        word = rng.choice(said_words("name-word", 0))
        return rng.choice((f"{word} {name}", f"{name} {word}"))
    if roll < 0.7:
        return " ".join(rng.sample(said_words("name-word", 0), rng.choice((1, 2))))
    if roll < 0.8:
        return rng.choice(said_words("ordinal", 0))
    if roll < 0.9:
        here = [row for row in rng.sample(_towns(), 200) if row["state"] == state]
        return str(here[0]["city"]) if here else name
    forms = ("St. {0}", "J. {0}", "El {0}", "Mt {0}", "{0} {0}")
    return rng.choice(forms).format(name)


def _street(rng: random.Random, half: int, state: str) -> list[Word]:
    roll = rng.random()
    if roll < 0.08:
        return _numbered(rng, rng.choice(said_words("box", 0)), "box", "box-number")
    if roll < 0.16:
        return _numbered(rng, rng.choice(said_words("route", 0)), "box", "box-number")
    words = _said(_number(rng), "number")
    if roll < 0.24:
        words += _direction(rng, 0.3, "direction")
        words += _numbered(rng, rng.choice(said_words("road", 0)), "type-before", "name")
        words += _direction(rng, 0.1, "direction-behind")
    elif roll < 0.28:
        words += _said(rng.choice(said_words("spanish", 0)).format(_name(rng, half)), "name")
    elif roll < 0.32:  # a grid: 1234 E 400 S
        words += _direction(rng, 1, "direction")
        words += _said(str(rng.randrange(1, 90) * 100), "name")
        words += _direction(rng, 1, "direction-behind")
    else:
        words += _direction(rng, 0.25, "direction") + _said(_street_name(rng, half, state), "name")
        if rng.random() < 0.95:
            words += _said(rng.choice(_suffixes()), "type")
        words += _direction(rng, 0.15, "direction-behind")
    return words + _unit(rng, half)


_NUMBERS = {"{n}": 90, "{n}A": 2, "{n}C": 1, "{n} 1/2": 2, "{m}.4": 1, "{m}-{m}": 2, "N{m}W{n}": 1}


def _number(rng: random.Random) -> str:
    """A house number as the country writes them, one in a hundred in words."""
    if rng.random() < 0.01:
        return rng.choice(said_words("number", 0))
    (form,) = rng.choices(list(_NUMBERS), list(_NUMBERS.values()))
    return form.format(n=rng.randrange(1, rng.choice((99, 999, 30000))), m=rng.randrange(1, 200))


def _direction(rng: random.Random, share: float, label: str) -> list[Word]:
    return [Word(rng.choice(said_words("direction", 0)), label)] if rng.random() < share else []


def _unit(rng: random.Random, half: int) -> list[Word]:
    if rng.random() > 0.3:
        return []
    one = Labelled((Word("1", "number"),))
    unit = with_unit(one, rng, half).of("unit")
    return [Word(unit[0].text, unit[0].label, rng.choice((", ", " ", " "))), *unit[1:]]


def _numbered(rng: random.Random, form: str, word: str, number: str) -> list[Word]:
    """A form with its words and numbers labelled: "RR {n} Box {m}"."""
    words: list[Word] = []
    for i, part in enumerate(form.split()):
        numbers = {"n": rng.randrange(1, 999), "m": rng.randrange(1, 9999)}
        filled = part.format(**numbers, l=rng.choice("ABDK"))
        gap = ", " if words and words[-1].text.endswith(",") else " "
        if gap == ", ":
            words[-1] = Word(words[-1].text.strip(","), words[-1].label, words[-1].before)
        words.append(Word(filled, number if "{" in part else word, gap if i else " "))
    return words
