"""How well US addresses are read: open labelled ones, disturbed as guest lists disturb them.

Run `python tests/benchmarks/addresses.py FOLDER`; it takes the source of usaddress 0.5.16 (its
training files are labelled) by pip into FOLDER. Real places: nothing of them is kept here. Prints
for each disturbance the share that is asked about and the share that is silently wrong.
"""

import argparse
import random
import re
import subprocess
import sys
import tarfile
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from defusedxml.ElementTree import fromstring

from addressing.guestlist.addresses import read_address
from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.places import fold_town, state_code
from addressing.guestlist.written import Trouble, Written
from addressing.records.guests import Address, Cited
from addressing.where import Where

RELEASE = "usaddress-0.5.16"
FILES = (
    "labeled.xml",
    "multi_word_state_addresses.xml",
    "us50_messiest_manual_label.xml",
    "us50_train_tagged.xml",
    "synthetic_clean_osm_data.xml",
    "openaddress_us_ia_linn.xml",
)
MOST_OF_A_FILE = 500
SEED = 7
_ADDRESS = re.compile(r"<AddressString>.*?</AddressString>", re.DOTALL)
STREET = frozenset(
    (
        "AddressNumberPrefix",
        "AddressNumber",
        "AddressNumberSuffix",
        "StreetNamePreModifier",
        "StreetNamePreDirectional",
        "StreetNamePreType",
        "StreetName",
        "StreetNamePostType",
        "StreetNamePostDirectional",
        "StreetNamePostModifier",
        "USPSBoxType",
        "USPSBoxID",
        "USPSBoxGroupType",
        "USPSBoxGroupID",
    )
)
UNIT = frozenset(("OccupancyType", "OccupancyIdentifier", "SubaddressType", "SubaddressIdentifier"))
TAIL = {"PlaceName": "city", "StateName": "state", "ZipCode": "code"}
UNITS = ("Apt 4", "Unit 12", "#3B", "Apt. 2R", "Suite 210")
BARE = ("4B", "12", "A-3")


@dataclass(frozen=True, slots=True)
class Labelled:
    """An address by its labels, and as it was written."""

    text: str
    street: str
    unit: str
    city: str
    state: str
    code: str

    @property
    def tail(self) -> str:
        """Town, state and ZIP, those that there are."""
        last = " ".join(part for part in (self.state, self.code) if part)
        return ", ".join(part for part in (self.city, last) if part)

    def written(self, *parts: str) -> "Labelled":
        """The same labels with another text."""
        return replace(self, text=", ".join(part for part in parts if part))


def fetch(folder: Path) -> Path:
    """The training folder of the release, taken by pip when it isn't there yet."""
    training = folder / RELEASE / "training"
    if not training.is_dir():
        order = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-binary"]
        order += [":all:", "--dest", str(folder), RELEASE.replace("-", "==")]
        subprocess.run(order, check=True)  # noqa: S603 - pip
        with tarfile.open(folder / f"{RELEASE}.tar.gz") as archive:
            archive.extractall(folder, filter="data")
    return training


def labelled(training: Path, rng: random.Random) -> Iterator[Labelled]:
    """Every full address (number or box, town, state, ZIP), each text once."""
    seen: set[str] = set()
    for name in FILES:
        rows = _ADDRESS.findall((training / name).read_text("utf-8"))
        if len(rows) > MOST_OF_A_FILE and name.startswith(("openaddress", "synthetic")):
            rows = rng.sample(rows, MOST_OF_A_FILE)
        for row in rows:
            tokens = fromstring(re.sub(r"&(?!\w+;)", "&amp;", row))  # one bare ampersand
            address = _labelled([(t.tag, t.text or "", t.tail or "") for t in tokens])
            if address is not None and address.text not in seen:
                seen.add(address.text)
                yield address


def _labelled(tokens: list[tuple[str, str, str]]) -> Labelled | None:
    parts: dict[str, list[str]] = {}
    for label, text, _ in tokens:
        field = "street" if label in STREET else "unit" if label in UNIT else TAIL.get(label)
        if field is None:
            return None
        parts.setdefault(field, []).append(text.strip())
    labels = {label for label, _, _ in tokens}
    if not labels & {"AddressNumber", "USPSBoxID"} or not {"city", "state", "code"} <= set(parts):
        return None
    joined = {field: " ".join(words).strip(" ,.;") for field, words in parts.items()}
    text = "".join(text + tail for _, text, tail in tokens)
    return Labelled(" ".join(text.split()), unit=joined.pop("unit", ""), **joined)


Disturb = Callable[[Labelled, random.Random], Labelled]


def _with_unit(one: Labelled, rng: random.Random, units: tuple[str, ...] = UNITS) -> Labelled:
    return one if one.unit and units is UNITS else replace(one, unit=rng.choice(units))


def _bare_text(text: str) -> str:
    return " ".join(text.replace(",", " ").replace(".", " ").split())


def _no_marks(one: Labelled, _: random.Random) -> Labelled:
    return one.written(_bare_text(f"{one.street} {one.unit} {one.tail}"))


def _capitals(one: Labelled, _: random.Random) -> Labelled:
    return one.written(_bare_text(f"{one.street} {one.unit} {one.tail}").upper())


def _unit_behind(one: Labelled, rng: random.Random) -> Labelled:
    one = _with_unit(one, rng)
    return one.written(f"{one.street} {one.unit}", one.tail)


def _unit_last(one: Labelled, rng: random.Random) -> Labelled:
    one = _with_unit(one, rng)
    return one.written(one.street, one.tail, one.unit)


def _unit_first(one: Labelled, rng: random.Random) -> Labelled:
    one = _with_unit(one, rng)
    return one.written(one.unit, one.street, one.tail)


def _bare_unit(one: Labelled, rng: random.Random) -> Labelled:
    one = _with_unit(one, rng, BARE)
    return one.written(one.street, one.unit, one.tail)


def _plain(one: Labelled) -> str:
    return ", ".join(part for part in (one.street, one.unit, one.tail) if part)


def _no_zip(one: Labelled, _: random.Random) -> Labelled:
    one = replace(one, code="")
    return one.written(_plain(one))


def _no_town(one: Labelled, _: random.Random) -> Labelled:
    one = replace(one, city="", state="")
    return one.written(_plain(one))


DISTURBANCES: dict[str, Disturb] = {
    "none": lambda one, _: one,
    "commas and points removed": _no_marks,
    "the same in capitals": _capitals,
    "unit after the street, no comma": _unit_behind,
    "unit at the very end": _unit_last,
    "unit first": _unit_first,
    "bare unit": _bare_unit,
    "a person's name first": lambda one, _: one.written("Tobias Wexcombe", _plain(one)),
    "no ZIP": _no_zip,
    "no town, no state": _no_town,
    "c/o line first": lambda one, _: one.written("c/o Odile Farrenby", _plain(one)),
    "house name first": lambda one, _: one.written("Larkmoor House", _plain(one)),
    "USA at the end": lambda one, _: one.written(_plain(one), "USA"),
    "line breaks for commas": lambda one, _: replace(one, text=_plain(one).replace(", ", "\n")),
    "remark in brackets": lambda one, _: replace(one, text=f"{_plain(one)} (ring twice)"),
}


def wrong_fields(one: Labelled, read: Address | None) -> tuple[str, ...]:
    """The fields that differ from the labels."""
    if read is None:
        return ("all",)

    def text(cited: Cited | None) -> str:
        return cited.text if cited else ""

    wrong: list[str] = []
    ours = f"{text(read.street)} {text(read.unit)}"
    if _words(ours) != _words(f"{one.street} {one.unit}"):
        wrong.append("street and unit")
    if fold_town(text(read.city)) != fold_town(one.city):
        wrong.append("town")
    if one.state and (state_code(text(read.region)) or "") != (state_code(one.state) or one.state):
        wrong.append("state")
    if _digits(text(read.postcode)) != (one.code and _digits(one.code).zfill(5)):
        wrong.append("ZIP")
    return tuple(wrong)


def _words(text: str) -> list[str]:
    return sorted("".join(fold(text).split()))


def _digits(text: str) -> str:
    return "".join(mark for mark in text if mark.isdigit())


def asks(troubles: tuple[Trouble, ...]) -> bool:
    """True when one of the troubles holds the household."""
    return any(finding(t.code, Where("list"), t.text, t.mend).holds for t in troubles)


def main() -> None:
    """Measure and print."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("folder", type=Path)
    options.add_argument("--show", type=int, default=0, help="silent errors to show, each kind")
    chosen = options.parse_args()
    addresses = list(labelled(fetch(chosen.folder), random.Random(SEED)))  # noqa: S311 - a sample
    kinds: Counter[str] = Counter()
    said = [f"{len(addresses)} addresses", f"{'disturbance':34}{'asked':>8}{'silently wrong':>16}"]
    for name, disturb in DISTURBANCES.items():
        rng = random.Random(SEED)  # noqa: S311 - not for secrets
        asked = silent = 0
        for address in addresses:
            one = disturb(address, rng)
            read, troubles, _ = read_address(Written(lines=(Cited(one.text),)), frozenset())
            wrong = wrong_fields(one, read)
            if asks(troubles):
                asked += 1
            elif wrong:
                silent += 1
                kinds[f"{name}: {', '.join(wrong)}"] += 1
                if silent <= chosen.show:
                    said.append(f"    {one.text!r}\n      {one}\n      {read}")
        count = len(addresses)
        said.append(f"{name:34}{asked / count:>8.1%}{silent / count:>16.2%}")
    said += [f"{count:6}  {kind}" for kind, count in kinds.most_common(15)]
    sys.stdout.write("\n".join(said) + "\n")


if __name__ == "__main__":
    main()
