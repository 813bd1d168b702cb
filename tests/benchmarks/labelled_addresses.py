"""Open labelled US addresses, word by word, and the ways in which guest lists disturb them.

The labels come from the training files of usaddress 0.5.16 (MIT): real places, fetched by pip,
never kept here. A disturbance moves, drops or adds words and carries every label along. The words
that it adds come from two halves of one list: models learn with one, are judged with the other.
"""

import io
import random
import re
import subprocess
import sys
import tarfile
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path, PurePosixPath

from defusedxml.ElementTree import fromstring

RELEASE = "usaddress-0.5.16"
FILES = {
    "labeled.xml": None,
    "multi_word_state_addresses.xml": None,
    "us50_messiest_manual_label.xml": None,
    "us50_train_tagged.xml": None,
    "synthetic_clean_osm_data.xml": 700,
    "openaddress_us_ia_linn.xml": 500,
}
"""File to how many of its texts are used: all of the mixed ones, a sample of the uniform ones."""
FOLDS = 5
SEED = 7
_ADDRESS = re.compile(r"<AddressString>.*?</AddressString>", re.DOTALL)
LABELS = {
    "AddressNumberPrefix": "number",
    "AddressNumber": "number",
    "AddressNumberSuffix": "number",
    "StreetNamePreModifier": "direction",
    "StreetNamePreDirectional": "direction",
    "StreetNamePreType": "type-before",
    "StreetName": "name",
    "StreetNamePostType": "type",
    "StreetNamePostDirectional": "direction-behind",
    "suffix": "direction-behind",
    "StreetNamePostModifier": "direction-behind",
    "IntersectionSeparator": "name",
    "CornerOf": "name",
    "USPSBoxType": "box",
    "USPSBoxGroupType": "box",
    "USPSBoxID": "box-number",
    "USPSBoxGroupID": "box-number",
    "OccupancyType": "unit",
    "OccupancyIdentifier": "unit-number",
    "SubaddressType": "part",
    "SubaddressIdentifier": "part-number",
    "Recipient": "extra",
    "BuildingName": "extra",
    "LandmarkName": "extra",
    "NotAddress": "extra",
    "PlaceName": "city",
    "StateName": "state",
    "ZipCode": "zip",
    "ZipPlus4": "zip",
    "CountryName": "country",
}
"""The data's labels to ours."""
FIELDS = {
    "number": "street",
    "direction": "street",
    "type-before": "street",
    "name": "street",
    "type": "street",
    "direction-behind": "street",
    "box": "street",
    "box-number": "street",
    "unit": "unit",
    "unit-number": "unit",
    "part": "part",
    "part-number": "part",
    "extra": "extra",
    "city": "city",
    "state": "state",
    "zip": "zip",
    "country": "country",
    "remark": "remark",
}
"""Our labels to the field that they stand in; "part" (a floor, a department) may stand in two."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word of an address, its label, and what stands between it and the word before."""

    text: str
    label: str
    before: str = " "

    @property
    def field(self) -> str:
        """The field that the word belongs to."""
        return FIELDS[self.label]


@dataclass(frozen=True, slots=True)
class Labelled:
    """An address as words. `columns` are fields that stand in columns of their own."""

    words: tuple[Word, ...]
    columns: tuple[str, ...] = ()

    def of(self, *fields: str) -> tuple[Word, ...]:
        """The words of some fields, in order."""
        return tuple(word for word in self.words if word.field in fields)

    def say(self, *fields: str) -> str:
        """The text of some fields."""
        return written(self.of(*fields))

    @property
    def text(self) -> str:
        """The address as it is written in its one cell (what has a column left out)."""
        return written(tuple(word for word in self.words if word.field not in self.columns))


def written(words: tuple[Word, ...]) -> str:
    """Words as text."""
    return "".join(w.before * bool(i) + w.text for i, w in enumerate(words)).strip(" ,;\n")


def fetch(folder: Path) -> Path:
    """The training folder of the release, taken by pip when it isn't there yet."""
    training = folder / RELEASE / "training"
    if not training.is_dir():
        order = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-binary"]
        # Of this package alone: what it is built with may come ready made.
        order += [
            RELEASE.split("-", maxsplit=1)[0],
            "--dest",
            str(folder),
            RELEASE.replace("-", "=="),
        ]
        subprocess.run(order, check=True)  # noqa: S603 - pip
        _unpack(folder / f"{RELEASE}.tar.gz", training)
    return training


def _unpack(archive: Path, training: Path) -> None:
    """The files of the training folder by their bare names; nothing else of the archive is used."""
    files: dict[str, bytes] = {}
    with tarfile.open(archive) as packed:
        for member in packed:
            path = PurePosixPath(member.name)
            if path.parts[:-1] == (RELEASE, "training") and member.isfile():
                with packed.extractfile(member) or io.BytesIO() as source:
                    files[path.name] = source.read()
    training.mkdir(parents=True)
    for name, data in files.items():
        (training / name).write_bytes(data)


def labelled(training: Path) -> list[Labelled]:
    """The labelled addresses, each text once, in the files' order; the same ones each time."""
    rng = random.Random(SEED)  # noqa: S311 - a sample
    seen: set[str] = set()
    found: list[Labelled] = []
    for name, most in FILES.items():
        rows = _ADDRESS.findall((training / name).read_text("utf-8"))
        for row in rows if most is None else rng.sample(rows, most):
            tokens = fromstring(re.sub(r"&(?!\w+;)", "&amp;", row))  # one bare ampersand
            one = Labelled(tuple(_words([(t.tag, t.text or "", t.tail or "") for t in tokens])))
            if one.words and _letters(one.text) not in seen:
                seen.add(_letters(one.text))
                found.append(one)
    return found


def _letters(text: str) -> str:
    return "".join(mark for mark in text.casefold() if mark.isalnum())


def fold_of(one: Labelled) -> int:
    """The fold of an address, by its letters: neighbours in one street fall together."""
    letters = "".join(mark for mark in one.text.casefold() if mark.isalpha())
    return zlib.crc32(letters.encode()) % FOLDS


def is_full(one: Labelled) -> bool:
    """True with a house number or box, a town and a ZIP."""
    fields = {word.field for word in one.words}
    numbered = {word.label for word in one.words} & {"number", "box-number"}
    return bool(numbered) and {"city", "zip"} <= fields


def _words(tokens: list[tuple[str, str, str]]) -> Iterator[Word]:
    """Words without the commas that the data keeps inside or behind them."""
    before = ""
    for label, text, tail in tokens:
        for piece in re.findall(r"\S+\s*", text.strip(" ")):
            bare = piece.strip(" ,;\n")
            if not bare:
                before += piece
                continue
            start = piece.index(bare)
            yield Word(bare, LABELS[label], _gap(before + piece[:start]))
            before = piece[start + len(bare) :]
        before += tail


def _gap(marks: str) -> str:
    """What stands between two words: line feeds as the data has them are blanks there."""
    marks = " ".join(f"|{marks}|".split()).strip("|")
    return marks if marks.strip() or not marks else " "


Disturb = Callable[[Labelled, random.Random, int], Labelled]
"""An address disturbed; the last is 0 to learn with the first half of invented words, else 1."""

_WORDS = Path(__file__).with_name("invented_words.tsv")


@cache
def said_words(kind: str, half: int) -> tuple[str, ...]:
    """The invented words of a kind that are learnt with (half 0) or judged with (1)."""
    rows = [line.split("\t") for line in _WORDS.read_text("utf-8").splitlines()]
    return tuple(row[2] for row in rows if row[0] == kind and row[1] in ("", str(half)))


def _tag(text: str, label: str, before: str = ", ") -> tuple[Word, ...]:
    return tuple(Word(w, label, " " if i else before) for i, w in enumerate(text.split()))


def _unit_words(text: str, before: str) -> tuple[Word, ...]:
    found: list[Word] = []
    for word in text.split():
        number = bool(re.search(r"\d", word)) or (len(word.strip(",")) == 1 and word != "#")
        gap = ", " if found and found[-1].text.endswith(",") else " "
        if gap == ", ":
            found[-1] = replace(found[-1], text=found[-1].text.strip(","))
        found.append(Word(word, "unit-number" if number else "unit", gap if found else before))
    return tuple(found)


def _led(words: tuple[Word, ...], before: str) -> tuple[Word, ...]:
    return (replace(words[0], before=before), *words[1:]) if words else ()


def laid(one: Labelled, *order: str, unit: str = ", ") -> Labelled:
    """The fields in plain order, commas between, none before the ZIP; `unit`: what parts one."""
    found: list[Word] = []
    for field in order or ("extra", "street", "unit", "city", "state", "zip", "country"):
        words = one.of("unit", "part") if field == "unit" else one.of(field)
        gap = unit if field == "unit" else " " if field == "zip" and one.of("state") else ", "
        found.extend(_led(words, gap))
    return Labelled(tuple(found))


def with_unit(one: Labelled, rng: random.Random, half: int, *, bare: bool = False) -> Labelled:
    """The address with a unit: its own, or an invented one (always so when it is to be `bare`)."""
    if one.of("unit", "part") and not bare:
        return one
    text = rng.choice(said_words("bare-unit" if bare else "unit", half))
    kept = tuple(word for word in one.words if word.field not in ("unit", "part"))
    return Labelled((*kept, *_unit_words(text, ", ")))


def _spaced(one: Labelled, *, upper: bool = False) -> Labelled:
    """No commas, no points."""
    found = [
        replace(word, text=word.text.replace(",", "").replace(".", "") or word.text, before=" ")
        for word in laid(one).words
    ]
    return Labelled(tuple(replace(w, text=w.text.upper()) if upper else w for w in found))


def _joined(one: Labelled, before: str) -> Labelled:
    """Plain order with another mark for each comma."""
    return Labelled(
        tuple(replace(w, before=before) if w.before == ", " else w for w in laid(one).words)
    )


def _ahead(one: Labelled, words: tuple[Word, ...], gap: str = ", ") -> Labelled:
    return Labelled((*words, *_led(laid(one).words, gap)))


def _behind(one: Labelled, words: tuple[Word, ...]) -> Labelled:
    return Labelled((*laid(one).words, *words))


def _name(rng: random.Random, half: int) -> str:
    given, family = (rng.choice(said_words(kind, half)) for kind in ("given", "family"))
    one = f"{given} {family}"
    if rng.random() < 0.3:
        return f"{rng.choice(('Mr. and Mrs.', 'Dr.', 'The', 'Ms.', 'Mr.'))} {one}"
    return one


def _person_first(one: Labelled, rng: random.Random, half: int, gap: str = ", ") -> Labelled:
    return _ahead(one, _tag(_name(rng, half), "extra"), gap)


def _care_first(one: Labelled, rng: random.Random, half: int) -> Labelled:
    care = rng.choice(said_words("care", half))
    return _ahead(one, _tag(f"{care} {_name(rng, half)}", "extra"))


def _house_first(one: Labelled, rng: random.Random, half: int) -> Labelled:
    return _ahead(
        one, _tag(rng.choice(said_words("house", half)), "extra"), rng.choice((", ", ", ", "\n"))
    )


def _remark(one: Labelled, rng: random.Random, half: int, shape: str) -> Labelled:
    text = rng.choice(said_words("remark", half))
    if shape == "brackets":
        return _behind(one, _tag(f"({text})", "remark", " "))
    return _behind(one, _tag(text, "remark", rng.choice((", ", "; ", "\n", " - "))))


def _without(one: Labelled, *fields: str) -> Labelled:
    return laid(Labelled(tuple(word for word in one.words if word.field not in fields)))


def _zip_off(one: Labelled, rng: random.Random, _: int) -> Labelled:
    """One digit of the ZIP is another."""
    found: list[Word] = []
    for word in laid(one).words:
        if word.label == "zip" and len(word.text) >= 5:
            place = rng.randrange(5)
            digit = str((int(word.text[place]) + rng.randrange(1, 10)) % 10)
            text = word.text[:place] + digit + word.text[place + 1 :]
            found.append(replace(word, text=text))
        else:
            found.append(word)
    return Labelled(tuple(found))


def _zero_lost(one: Labelled, _: random.Random, __: int) -> Labelled:
    """A ZIP as a number cell leaves it."""
    return Labelled(
        tuple(
            replace(word, text=word.text.lstrip("0")) if word.label == "zip" else word
            for word in laid(one).words
        )
    )


def _state_off(one: Labelled, rng: random.Random, _: int) -> Labelled:
    """Another state's code."""
    kept = _without(one, "state").words
    place = next((i for i, word in enumerate(kept) if word.label == "zip"), len(kept))
    other = Word(rng.choice(("OH", "CA", "ME", "TX", "GA", "NY", "FL", "WA")), "state", ", ")
    return Labelled((*kept[:place], other, *_led(kept[place:], " ")))


def _direction_apart(one: Labelled, _: random.Random, __: int) -> Labelled:
    """A comma before the direction behind the street."""
    found = [
        replace(word, before=", ") if word.label == "direction-behind" else word
        for word in laid(one).words
    ]
    return Labelled(tuple(found))


def _columns(one: Labelled, rng: random.Random, half: int) -> Labelled:
    """Town, state and ZIP in columns of their own; the street cell as the data has it."""
    if "box-number" not in {word.label for word in one.words} and rng.random() < 0.5:
        one = with_unit(one, rng, half)
    return replace(laid(one, unit=rng.choice((" ", ", "))), columns=("city", "state", "zip"))


def _columns_extra(one: Labelled, rng: random.Random, half: int) -> Labelled:
    shape = rng.choice((_house_first, _person_first, _care_first))
    return replace(shape(one, rng, half), columns=("city", "state", "zip"))


DISTURBANCES: dict[str, Disturb] = {
    "none": lambda one, _r, _h: one,
    "commas and points removed": lambda one, _r, _h: _spaced(one),
    "the same in capitals": lambda one, _r, _h: _spaced(one, upper=True),
    "unit after the street, no comma": lambda one, r, h: laid(with_unit(one, r, h), unit=" "),
    "unit at the very end": lambda one, r, h: laid(
        with_unit(one, r, h), "extra", "street", "city", "state", "zip", "unit"
    ),
    "unit first": lambda one, r, h: laid(
        with_unit(one, r, h), "unit", "extra", "street", "city", "state", "zip"
    ),
    "bare unit": lambda one, r, h: laid(with_unit(one, r, h, bare=True)),
    "bare unit, no comma": lambda one, r, h: laid(with_unit(one, r, h, bare=True), unit=" "),
    "a person's name first": _person_first,
    "a name first, no comma": lambda one, r, h: _person_first(one, r, h, " "),
    "no ZIP": lambda one, _r, _h: _without(one, "zip"),
    "no town, no state": lambda one, _r, _h: _without(one, "city", "state"),
    "no town": lambda one, _r, _h: _without(one, "city"),
    "no state": lambda one, _r, _h: _without(one, "state"),
    "ZIP off": _zip_off,
    "a ZIP's zero lost": _zero_lost,
    "state off": _state_off,
    "c/o line first": _care_first,
    "house name first": _house_first,
    "USA at the end": lambda one, r, _h: _behind(
        _without(one, "country"), _tag(r.choice(("USA", "U.S.A.", "United States")), "country")
    ),
    "line breaks for commas": lambda one, _r, _h: _joined(one, "\n"),
    "line breaks lost": lambda one, _r, _h: _joined(one, " "),
    "direction behind a comma": _direction_apart,
    "remark in brackets": lambda one, r, h: _remark(one, r, h, "brackets"),
    "remark behind": lambda one, r, h: _remark(one, r, h, "behind"),
    "columns": _columns,
    "columns, a line before": _columns_extra,
}


def fits(name: str, one: Labelled) -> bool:
    """True when a list could disturb this address so: a box gets no unit."""
    labels = {word.label for word in one.words}
    if name == "direction behind a comma":
        return "direction-behind" in labels
    if name == "a ZIP's zero lost":
        return one.say("zip").startswith("0")
    return not name.startswith(("bare unit", "unit")) or "box-number" not in labels
