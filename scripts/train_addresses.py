# ruff: noqa: INP001 - a script, run by its path
"""Train the model that reads US addresses, and measure what its sureness is worth.

    python scripts/train_addresses.py FOLDER

takes the open labelled addresses (source of usaddress 0.5.16, by pip) into FOLDER, learns a model
without each of five folds, reads every fold with the model that never saw it, and writes

    addressing/data/address_doubt.tsv       share of wrong readings by agreement, town and sureness
    addressing/data/us_addresses.crfsuite   the model learnt from all

Nothing of the addresses is kept: the model sees of a word only what the tables know of it. Chance
begins at a fixed number; the same versions give the same files. About ten minutes.
"""

import argparse
import random
import sys
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import product
from pathlib import Path

import pycrfsuite

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "tests" / "benchmarks"))

from address_folds import fold_model, folds, train  # noqa: E402 - found by the path above
from addresses import digest, faulty, written_of, wrong_fields  # noqa: E402
from invented_addresses import invented  # noqa: E402
from labelled_addresses import DISTURBANCES, SEED, Labelled, fetch, fits, fold_of, is_full, labelled  # noqa: E402  # noqa: E402

from addressing.guestlist.domestic.address_doubt import form_of, rules_say, town_of  # noqa: E402
from addressing.guestlist.domestic.address_model import Voice, listen  # noqa: E402
from addressing.guestlist.domestic.address_tagger import MODEL, tag_by  # noqa: E402
from addressing.guestlist.domestic.us import read_us  # noqa: E402
from addressing.guestlist.domestic.zip_check import check_zip  # noqa: E402
from addressing.guestlist.homes.addresses import read_address  # noqa: E402
from addressing.guestlist.written import Written  # noqa: E402
from addressing.records.guests import Address  # noqa: E402, TC001 - found by the path above

DATA = HERE.parent / "addressing" / "data"
SILENT = 0.0007
"""The share of wrong readings that may stay unasked; the threshold of asking follows from it."""
INVENTED = 1000
"""So many invented addresses, of other words than were learnt from, are weighed along."""
LEAST = 100
FEWEST = 50
"""Readings in a band of sureness: fewer tell no share. A small group is cut in two."""
HEAD = """\
# What share of readings of US addresses was wrong, in cross-validation: {count} readings of {full}
# open labelled addresses in {ways} disturbances, and of invented ones; five folds, seed {seed}.
# voice: a plain street by the rules alone; rules and model say the same; a box or route by the
# rules; else whose reading it is. form: "known" when every part of the reading is in a form of the
# tables (and the other reading, if there is one, isn't); "odd" when it isn't, but nothing in the
# street hints at a second part; "alone" when the other reading lacks a part; else "open". town:
# "known" when it is one of the ZIP's (without a ZIP, the state's). sure_from: the model's least
# field probability. doubt: (wrong + 1/2) / (readings + 1), never rising with the model's sureness,
# and where the rules stand against the model never falling. "ask": asked from this on.
# Written by scripts/train_addresses.py; source: usaddress 0.5.16, training files (MIT).
"""


@dataclass(frozen=True, slots=True)
class Seen:
    """One reading: whose, is its town known, how sure was the model, is a field wrong."""

    voice: str
    form: str
    town: str
    sure: float
    wrong: bool


def observe(one: Labelled, model: "pycrfsuite.Tagger") -> Iterator[Seen]:
    """The readings of an address by rules and model."""
    heard: list[tuple[Written, Voice | None]] = []

    def hear(written: Written) -> Voice | None:
        heard.append((written, listen(written, partial(tag_by, model))))
        return heard[-1][1]

    read, _, _ = read_address(written_of(one), frozenset(), second=hear)
    if not heard and read is not None and read.country is not None and read.country.text == "US":
        yield Seen("plain", "known", "known", 1.0, bool(wrong_fields(one, read)))
    if not heard or heard[0][1] is None:
        return
    written, voice = heard[0]
    rules, two = read_us(written, frozenset())
    if two:
        return  # two addresses in one are asked about, however sure their reading
    said = rules_say(rules, voice.address, voice.parts)
    readings: list[tuple[str, Address, Address | None]] = [(said or "", rules, None)]
    if said is None:
        readings = [("model", voice.address, rules), ("rules", rules, voice.address)]
    for name, address, other in readings:
        checked = check_zip(address, written)[0]
        if None in (checked.street, checked.city, checked.region):
            continue  # the whole address is asked for
        wrong = bool(wrong_fields(one, checked))
        form = "known" if name == "box" else form_of(address, other, written)
        yield Seen(name, form, town_of(address), voice.sure, wrong)


def observed(folder: Path, addresses: list[Labelled]) -> Iterator[Seen]:
    """Every full address in every disturbance by the model of its fold, and invented ones."""
    faults = faulty()
    for number in folds():
        model = pycrfsuite.Tagger()
        model.open(str(fold_model(folder, number, addresses)))
        mine = [one for one in addresses if fold_of(one) == number and is_full(one)]
        for name, disturb in DISTURBANCES.items():
            rng = random.Random(SEED)  # noqa: S311 - not for secrets
            for one in mine:
                if fits(name, one) and digest(one) not in faults:
                    yield from observe(disturb(one, rng, 1), model)
        if number == 0:
            for one in invented(INVENTED, 1):
                yield from observe(one, model)


def bands(seen: list[Seen], *, rising: bool) -> list[tuple[float, float, int, int]]:
    """(sure from, doubt, readings, wrong): neighbours pooled until doubt only falls, or rises."""
    ranked = sorted(seen, key=lambda one: one.sure)
    pools: list[list[float]] = []
    least = max(FEWEST, min(LEAST, len(ranked) // 2))
    for start in range(0, len(ranked), least):
        part = ranked[start : start + least]
        if pools and (len(part) < least or part[0].sure == pools[-1][0]):
            pools[-1][1] += len(part)
            pools[-1][2] += sum(one.wrong for one in part)
            continue
        pools.append([part[0].sure, len(part), sum(one.wrong for one in part)])
    merged: list[list[float]] = []
    for pool in pools:
        merged.append(pool)
        while len(merged) > 1 and _turns(merged[-2], merged[-1], rising=rising):
            last = merged.pop()
            merged[-1][1] += last[1]
            merged[-1][2] += last[2]
    return [(pool[0], _share(pool), int(pool[1]), int(pool[2])) for pool in merged]


def _turns(one: list[float], two: list[float], *, rising: bool) -> bool:
    """True when the share of the second pool doesn't go on as the pools should."""
    return _share(two) <= _share(one) if rising else _share(two) >= _share(one)


def _share(pool: list[float]) -> float:
    return (pool[2] + 0.5) / (pool[1] + 1)


def write_doubt(seen: list[Seen], full: int) -> None:
    """The table of shares."""
    groups: dict[tuple[str, str, str], list[Seen]] = defaultdict(list)
    for one in seen:
        groups[one.voice, one.form, one.town].append(one)
    count = sum(one.voice != "rules" for one in seen)
    head = HEAD.format(count=count, full=full, ways=len(DISTURBANCES), seed=SEED)
    lines: list[str] = []
    pools: list[tuple[float, int, int]] = []
    for voice in ("plain", "same", "box", "model", "rules"):
        for form, town in product(("known", "odd", "alone", "open"), ("known", "unknown")):
            mine = groups[voice, form, town]
            for low, share, readings, wrong in bands(mine, rising=voice == "rules"):
                said = f"{voice}\t{form}\t{town}\t{low:.5f}\t{share:.5f}"
                lines.append(f"{said}\t{readings}\t{wrong}")
                pools.append((share, readings, wrong))
    names = "voice\tform\ttown\tsure_from\tdoubt\treadings\twrong"
    lines = [names, f"ask\t\t\t\t{_threshold(pools, count):.5f}\t\t", *lines]
    (DATA / "address_doubt.tsv").write_text(head + "\n".join(lines) + "\n", "utf-8")


def _threshold(pools: list[tuple[float, int, int]], count: int) -> float:
    """The doubt from which to ask, so that of all readings at most SILENT are wrong unasked."""
    silent = 0
    for share, _, wrong in sorted(pools):
        silent += wrong
        if silent > SILENT * count:
            return share
    return 1.0


def main() -> None:
    """Learn, read the folds, write the two files."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("folder", type=Path)
    options.add_argument("--keep-model", action="store_true", help="write the doubt only")
    chosen = options.parse_args()
    addresses = labelled(fetch(chosen.folder))
    if not chosen.keep_model:
        train(DATA / MODEL, addresses)
    write_doubt(list(observed(chosen.folder, addresses)), sum(map(is_full, addresses)))


if __name__ == "__main__":
    main()
