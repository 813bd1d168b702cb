"""How well US addresses are read: open labelled ones, disturbed as guest lists disturb them.

Run `python tests/benchmarks/addresses.py FOLDER`; it takes the source of usaddress 0.5.16 (its
training files are labelled) by pip into FOLDER and learns a model for each of five folds there, so
that no address is judged by a model that saw it. Real places: nothing of them is kept here.

Prints for each disturbance: read in every field as labelled; asked because the reading is in doubt;
asked because two addresses stand in one (a street and a box, a lockbox or a route: only the client
knows where the envelope goes, however surely both are read); silently wrong (a field is wrong and
nothing was asked about the reading, nor is it held by a question that quotes the words that are
missing: a remark before a box); held for what the address itself
lacks or contradicts; and what the model that comes with usaddress reads as labelled (it learnt from
these very texts, undisturbed). Then the undisturbed ones as shipped: by the model that learnt from
all, so that this flatters. Then the share of wrong readings by the doubt that was told.
"""

import argparse
import random
import re
import sys
import time
import zlib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from importlib.resources import files
from pathlib import Path

import pycrfsuite
import usaddress
from address_folds import fold_model, folds
from invented_addresses import invented
from labelled_addresses import (
    DISTURBANCES,
    LABELS,
    SEED,
    Labelled,
    fetch,
    fits,
    fold_of,
    is_full,
    labelled,
)

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.address_doubt import ask_from
from addressing.guestlist.domestic.address_model import listen
from addressing.guestlist.domestic.address_tagger import MODEL, tag_by
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.places.places import fold_town, state_code
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address, Cited
from addressing.where import Where

BANDS = (0.0, 0.0005, 0.002, 0.01, 0.03, 0.1, 0.2, 0.4, 0.7)
_FAULTS = Path(__file__).with_name("label_faults.tsv")


@dataclass(frozen=True, slots=True)
class Judged:
    """One reading: how it was disturbed, what is wrong, is that doubted, is it held otherwise."""

    name: str
    one: Labelled
    read: Address | None
    wrong: tuple[str, ...]
    doubted: bool
    two: bool
    held: bool
    whole: bool
    """A part is missing, so that the whole address is asked for."""
    shown: bool = False
    """A question that holds the envelope quotes what is wrong (`is_shown`)."""

    @property
    def silent(self) -> bool:
        """True when a field is wrong and nothing is asked that would show it."""
        return bool(self.wrong) and not self.asked and not self.whole and not self.shown

    @property
    def asked(self) -> bool:
        """True when the client is asked how the address reads, or which of two is meant."""
        return self.doubted or self.two


def written_of(one: Labelled) -> Written:
    """An address as the row would give it."""
    said = {field: Cited(one.say(field)) for field in one.columns if one.say(field)}
    return Written(
        lines=(Cited(one.text),) if one.text else (),
        city=said.get("city"),
        region=said.get("state"),
        postcode=said.get("zip"),
    )


def wrong_fields(one: Labelled, read: Address | None) -> tuple[str, ...]:
    """The fields that differ from the labels.

    A part (floor, department, lockbox) may stand with the street, the unit or in a line above.
    """
    if read is None:
        return ("all",)
    city, state, code = (one.say(field) for field in ("city", "state", "zip"))
    lines = (_say(read.street), _bag(_say(read.unit)), _bag(_say(read.recipient_extra)))
    wrong = [] if lines in _permitted(one) else ["lines"]
    if fold_town(_said(read.city)) != fold_town(city):
        wrong.append("town")
    if state and _code(_said(read.region)) != _code(state):
        wrong.append("state")
    if _digits(_said(read.postcode)).lstrip("0") != _digits(code).lstrip("0"):
        wrong.append("ZIP")
    return tuple(wrong)


def is_shown(
    one: Labelled, read: Address | None, wrong: tuple[str, ...], troubles: tuple[Trouble, ...]
) -> bool:
    """True when the envelope waits for a question that quotes all that a reading has wrong.

    "“re: acct # 50016” stands in the address and reads like a remark" shows the words that no line
    has; words that stand in another line, or in none and in no question, are shown by nothing.
    """
    if read is None or wrong != ("lines",):
        return False
    said = " ".join(q for each in troubles if _holds(each) for q in _QUOTED.findall(each.text))
    ours = _words(*(_said(part) for part in (read.street, read.unit, read.recipient_extra)))
    theirs = _words(*(one.say(field) for field in ("street", "unit", "part", "extra")))
    lacking = theirs - ours
    street = _say(read.street) in {lines[0] for lines in _permitted(one)}
    return bool(lacking) and street and not ours - theirs and not lacking - _words(said)


_QUOTED = re.compile("“([^”]*)”")


def _words(*texts: str) -> Counter[str]:
    return Counter(fold(" ".join(texts)).split())


def _code(state: str) -> str:
    return state_code(state) or _letters(state)


def _permitted(one: Labelled) -> Iterator[tuple[str, str, str]]:
    street, unit, part, extra = (_letters(one.say(f)) for f in ("street", "unit", "part", "extra"))
    yield street, _bag(unit + part), _bag(extra)
    yield street, _bag(unit), _bag(extra + part)
    yield street + part, _bag(unit), _bag(extra)
    yield part + street, _bag(unit), _bag(extra)


def _said(cited: Cited | None) -> str:
    return cited.text if cited else ""


def _say(cited: Cited | None) -> str:
    return _letters(_said(cited))


def _letters(text: str) -> str:
    return "".join(fold(text).split())


def _bag(text: str) -> str:
    return "".join(sorted(_letters(text)))


def _digits(text: str) -> str:
    return "".join(mark for mark in text if mark.isdigit())


def _holds(trouble: Trouble) -> bool:
    return finding(trouble.code, Where("list"), trouble.text, trouble.mend).holds


def judge(name: str, one: Labelled, model: "pycrfsuite.Tagger") -> Judged:
    """Read one address with a fold's model and hold it against its labels."""
    heard = partial(listen, tagged=partial(tag_by, model))
    read, troubles, _ = read_address(written_of(one), frozenset(), second=heard)
    whole = read is None or None in (read.street, read.city, read.region, read.country)
    two = any(trouble.text.startswith("Two addresses") for trouble in troubles)
    two = two and not whole
    doubted = not whole and not two and read is not None and read.doubt >= ask_from()
    held = not doubted and not two and (whole or any(_holds(trouble) for trouble in troubles))
    wrong = wrong_fields(one, read)
    shown = is_shown(one, read, wrong, troubles)
    return Judged(name, one, read, wrong, doubted, two, held, whole, shown)


def judged(folder: Path, addresses: list[Labelled], names: list[str]) -> Iterator[Judged]:
    """Every full address in every disturbance, read by the model of its fold."""
    faults = faulty()
    for number in folds():
        model = pycrfsuite.Tagger()
        model.open(str(fold_model(folder, number, addresses)))
        mine = [one for one in addresses if fold_of(one) == number and is_full(one)]
        mine = [one for one in mine if digest(one) not in faults]
        for name in names:
            rng = random.Random(SEED)  # noqa: S311 - not for secrets
            for one in mine:
                if fits(name, one):
                    yield judge(name, DISTURBANCES[name](one, rng, 1), model)


def faulty(kind: str = "labels") -> frozenset[str]:
    """The digests of addresses whose labels are at fault; of kind "asks" those rightly asked."""
    rows = (line.split("\t") for line in _FAULTS.read_text("utf-8").splitlines())
    return frozenset(row[0] for row in rows if len(row) > 1 and row[1] == kind)


def digest(one: Labelled) -> str:
    """What an address is called in the list of label faults: no place can be read from it."""
    return f"{zlib.crc32(one.text.encode()):08x}"


def by_shipped(one: Labelled) -> Address:
    """What the model that comes with usaddress reads."""
    found: dict[str, list[str]] = {}
    text = ", ".join(part for part in (one.text, *(one.say(f) for f in one.columns)) if part)
    for word, label in usaddress.parse(text):
        field = LABELS.get(label, "name")
        found.setdefault(_FIELD_OF.get(field, field), []).append(word.strip(" ,;()"))
    cited = {field: Cited(" ".join(words)) for field, words in found.items()}
    code = "".join(mark for mark in _said(cited.get("zip")) if mark.isdigit())
    return Address(
        street=cited.get("street"),
        unit=cited.get("unit"),
        recipient_extra=cited.get("extra"),
        city=cited.get("city"),
        region=cited.get("state"),
        postcode=Cited(code.zfill(5)) if code else None,
    )


_FIELD_OF = {
    "number": "street",
    "direction": "street",
    "type-before": "street",
    "name": "street",
    "type": "street",
    "direction-behind": "street",
    "box": "street",
    "box-number": "street",
    "unit-number": "unit",
    "part": "unit",
    "part-number": "unit",
}


def main() -> None:
    """Measure and print."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("folder", type=Path)
    options.add_argument("--show", type=int, default=0, help="silent errors to show, each kind")
    chosen = options.parse_args()
    addresses = labelled(fetch(chosen.folder))
    start = time.perf_counter()
    found = list(judged(chosen.folder, addresses, list(DISTURBANCES)))
    spent = time.perf_counter() - start
    count = sum(one.name == "none" for one in found)
    each = spent / len(found) * 1000
    said = [
        f"{count} addresses, {len(found)} readings, {each:.2f} ms each, asked from {ask_from()}",
        f"{'disturbance':34}{'exact':>8}{'asked':>8}{'two':>8}{'silent':>8}{'held':>8}{'usaddress':>11}",
    ]
    said += [_row(name, [one for one in found if one.name == name]) for name in DISTURBANCES]
    said.append(_row("all", found))
    model = pycrfsuite.Tagger()
    model.open(str(fold_model(chosen.folder, 0, addresses)))
    made = [judge("invented", one, model) for one in invented(2000, 1)]
    said += [_row("invented, other words", made), *_as_shipped(addresses), "", *_reliability(found)]
    said += _silent([*found, *made], chosen.show)
    sys.stdout.write("\n".join(said) + "\n")


def shipped_model() -> "pycrfsuite.Tagger":
    """The model that ships."""
    model = pycrfsuite.Tagger()
    model.open(str(files("addressing") / "data" / MODEL))
    return model


def _as_shipped(addresses: list[Labelled]) -> Iterator[str]:
    """The undisturbed ones by the model that learnt from all, and of these the complete ones.

    Complete is what an envelope needs: a state beside house number or box, town and ZIP.
    """
    model = shipped_model()
    faults = faulty()
    mine = [one for one in addresses if is_full(one) and digest(one) not in faults]
    found = [judge("none", one, model) for one in mine]
    yield _row("none, as shipped", found)
    yield _row("none, as shipped, complete", [one for one in found if one.one.say("state")])
    due = [one for one in found if digest(one.one) in faulty("asks")]
    said = sum(one.asked for one in due)
    yield f"    of these {len(due)} deserve a question, {said} have it (label_faults.tsv)"


def _row(name: str, found: list[Judged]) -> str:
    count = len(found) or 1
    shipped = sum(not wrong_fields(one.one, by_shipped(one.one)) for one in found)
    figures = (
        (sum(not one.wrong for one in found), "8.1%"),
        (sum(one.doubted for one in found), "8.2%"),
        (sum(one.two for one in found), "8.2%"),
        (sum(one.silent for one in found), "8.2%"),
        (sum(one.held for one in found), "8.1%"),
        (shipped, "11.1%"),
    )
    return f"{name:34}" + "".join(format(figure / count, form) for figure, form in figures)


def _reliability(found: list[Judged]) -> Iterator[str]:
    """Bands of told doubt: how many readings, the doubt told on average, the share wrong."""
    yield f"{'doubt from':>12}{'readings':>10}{'told':>9}{'wrong':>9}"
    for low, high in zip(BANDS, (*BANDS[1:], 2.0), strict=True):
        band = [one for one in found if one.read and low <= one.read.doubt < high]
        if band:
            told = sum(one.read.doubt for one in band if one.read) / len(band)
            wrong = sum(bool(one.wrong) for one in band) / len(band)
            yield f"{low:>12}{len(band):>10}{told:>9.2%}{wrong:>9.2%}"


def _silent(found: list[Judged], most: int) -> Iterator[str]:
    shown: Counter[str] = Counter()
    seen: set[str] = set()
    for one in found:
        if one.silent and one.read and shown[one.name] < most:
            key = f"{one.one.say('street')} {one.wrong}"
            if key not in seen:
                seen.add(key)
                shown[one.name] += 1
                parts = ("recipient_extra", "street", "unit", "city", "region", "postcode")
                read = [_said(getattr(one.read, part)) for part in parts]
                labels = [one.one.say(f) for f in ("extra", "part", "street", "unit", "city")]
                yield f"[{one.name}] {one.one.text!r} {one.wrong} {one.read.doubt}"
                yield f"    read {read} labelled {labels}"


if __name__ == "__main__":
    main()
