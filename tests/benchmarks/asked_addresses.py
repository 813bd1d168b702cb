"""Every undisturbed open labelled address that is asked about: both readings, and why.

    python tests/benchmarks/asked_addresses.py FOLDER [--folds]

FOLDER is that of `addresses.py`. By the model that ships, which learnt from all; with --folds by
the model of each address's fold, which never saw it. Prints how many are asked for which reason,
then each with the rules' reading, the model's where it differs, and the labels where the one taken
is wrong. Real places: for a developer's eyes, nothing of it is kept here.
"""

import argparse
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import pycrfsuite
from address_folds import fold_model, folds
from addresses import digest, faulty, judge, shipped_model, written_of, wrong_fields
from labelled_addresses import Labelled, fetch, fold_of, is_full, labelled

from addressing.guestlist.domestic.address_doubt import form_of, rules_say, town_of
from addressing.guestlist.domestic.address_model import Voice, listen
from addressing.guestlist.domestic.address_tagger import tag_by
from addressing.guestlist.domestic.us import read_us
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.written import Written
from addressing.records.guests import Address

_PARTS = ("recipient_extra", "street", "unit", "city", "region", "postcode")
_LABELS = ("extra", "part", "street", "unit", "city", "state", "zip")


@dataclass(frozen=True, slots=True)
class Asked:
    """An address that is asked about: why, which readings are right, what to show.

    `due` is True where a question is right (`label_faults.tsv`).
    """

    why: str
    right: str
    lines: tuple[str, ...]
    due: bool


def heard(one: Labelled, model: "pycrfsuite.Tagger") -> tuple[Written, Voice | None] | None:
    """What the model was given of an address, and what it read; None for a plain one."""
    found: list[tuple[Written, Voice | None]] = []

    def hear(written: Written) -> Voice | None:
        found.append((written, listen(written, partial(tag_by, model))))
        return found[-1][1]

    read_address(written_of(one), frozenset(), second=hear)
    return found[0] if found else None


def asked(one: Labelled, model: "pycrfsuite.Tagger") -> Asked | None:
    """Why an address is asked about, or None when it isn't."""
    judged = judge("none", one, model)
    given = heard(one, model)
    if not judged.asked or given is None or given[1] is None or judged.read is None:
        return None
    written, voice = given[0], given[1]
    rules, _ = read_us(written, frozenset())
    said = rules_say(rules, voice.address, voice.parts)
    form = form_of(rules, None, written)
    agreed = f"read alike, form {form}" if said else "read otherwise by rules and model"
    why = "two addresses in one" if judged.two else agreed
    readings = {"rules": rules, "model": voice.address}
    right = " and ".join(n for n, read in readings.items() if not wrong_fields(one, read)) or "none"
    head = f"{one.text!r} sure {voice.sure:.3f} town {town_of(rules)} doubt {judged.read.doubt}"
    lines = [head, f"    rules {_say(rules)}"]
    if said is None:
        lines.append(f"    model {_say(voice.address)}")
    if judged.wrong:
        lines.append(f"    labelled {[one.say(field) for field in _LABELS]}")
    return Asked(why, right, tuple(lines), digest(one) in faulty("asks"))


def _say(read: Address) -> list[str]:
    cited = (getattr(read, part) for part in _PARTS)
    return [one.text if one else "" for one in cited]


def models(
    folder: Path, addresses: list[Labelled], *, by_fold: bool
) -> Iterator[tuple["pycrfsuite.Tagger", frozenset[Labelled]]]:
    """(a model, which addresses it is to read)."""
    if not by_fold:
        yield shipped_model(), frozenset(addresses)
        return
    for number in folds():
        model = pycrfsuite.Tagger()
        model.open(str(fold_model(folder, number, addresses)))
        yield model, frozenset(one for one in addresses if fold_of(one) == number)


def main() -> None:
    """List them."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("folder", type=Path)
    options.add_argument("--folds", action="store_true", help="by models that never saw them")
    chosen = options.parse_args()
    addresses = labelled(fetch(chosen.folder))
    faults = faulty()
    mine = [one for one in addresses if is_full(one) and digest(one) not in faults]
    found = [
        one
        for model, wanted in models(chosen.folder, addresses, by_fold=chosen.folds)
        for one in (asked(address, model) for address in mine if address in wanted)
        if one is not None
    ]
    found.sort(key=lambda one: (one.why, one.right))
    count = Counter((one.why, one.right) for one in found)
    due = sum(one.due for one in found)
    said = [f"{len(found)} of {len(mine)} are asked about, {due} rightly: why, and who is right"]
    said += [f"{number:6} {why}: {right}" for (why, right), number in sorted(count.items())]
    said += [f"\n[{one.why}: {one.right}] " + "\n".join(one.lines) for one in found]
    sys.stdout.write("\n".join(said) + "\n")


if __name__ == "__main__":
    main()
