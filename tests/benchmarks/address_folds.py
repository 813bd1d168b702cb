"""The reading model learnt from labelled addresses, whole or without one fold of them.

A fold's model never saw the fold's texts, nor their neighbours in one street (`fold_of`). The model
is python-crfsuite's; its training has no chance in it, so the same texts give the same model.
"""

import random
import re
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import pycrfsuite
from invented_addresses import invented
from labelled_addresses import DISTURBANCES, FOLDS, SEED, Labelled, Word, fits, fold_of, is_full

from addressing.guestlist.domestic.address_tokens import features_of, tokens_of

INVENTED = 2000
TIMES_FULL = 4
"""How many disturbed copies of a full address are learnt from, beside the address itself."""
TIMES_OTHER = 1
TIMES_INVENTED = 2
PARAMETERS = {
    "c1": 0.3,
    "c2": 0.01,
    "max_iterations": 100,
    "feature.minfreq": 3,
    "feature.possible_transitions": False,
}
_BRACKETED = re.compile(r"\s*\([^()]*\)\s*")


def as_read(one: Labelled) -> tuple[Word, ...]:
    """The words as the reader lays them: brackets out, columns in a line of their own behind."""
    kept = [word for word in one.words if word.field not in one.columns]
    columns = [word for word in one.words if word.field in one.columns]
    if columns:
        columns[0] = replace(columns[0], before="\n")
    words = (*kept, *columns)
    bracketed = any(w.text.startswith("(") and w.label == "remark" for w in words)
    return tuple(w for w in words if not bracketed or w.label != "remark")


def sequence(one: Labelled) -> tuple[list[list[str]], list[str]]:
    """(what is seen of each word, its label "field.label") of an address."""
    text, starts, labels = "", [], []
    for word in as_read(one):
        text += word.before * bool(text)
        starts.append(len(text))
        labels.append(f"{word.field}.{word.label}")
        text += word.text
    tokens = tokens_of(text)
    said: list[str] = []
    at = 0
    for token in tokens:
        reach = token.start + len(token.text) + (token.text == "#")  # "# 4": the sign of the next
        while at + 1 < len(starts) and starts[at + 1] < reach:
            at += 1
        said.append(labels[at])
    return features_of(tokens), said


def train(path: Path, addresses: Iterable[Labelled], *, quick: bool = False) -> None:
    """Learn from addresses, as they are and disturbed, and from invented ones.

    `quick` learns from fewer invented ones, in fewer steps: a few seconds.
    """
    rng = random.Random(SEED)  # noqa: S311 - a sample
    trainer = pycrfsuite.Trainer(verbose=False)
    count = INVENTED // 5 if quick else INVENTED
    known = [(one, TIMES_FULL if is_full(one) else TIMES_OTHER) for one in addresses]
    for one, times in [*known, *((one, TIMES_INVENTED) for one in invented(count, 0))]:
        for name in ["none", *rng.sample(list(DISTURBANCES), times)]:
            if not fits(name, one):
                continue
            features, labels = sequence(DISTURBANCES[name](one, rng, 0))
            if features:
                trainer.append(features, labels)
    trainer.set_params(PARAMETERS | ({"max_iterations": 50} if quick else {}))
    trainer.train(str(path))


def fold_model(folder: Path, fold: int, addresses: list[Labelled]) -> Path:
    """The model that never saw a fold; learnt once, then kept in the folder."""
    path = folder / f"us_addresses-without-{fold}.crfsuite"
    if not path.is_file():
        train(path, [one for one in addresses if fold_of(one) != fold])
    return path


def folds() -> range:
    """The numbers of the folds."""
    return range(FOLDS)
