"""What each word of a US address is, by a trained model, and how sure that is.

The model (`data/us_addresses.crfsuite`) is a conditional random field, made by
`scripts/train_addresses.py` from open labelled data; it holds features and weights, no address. Its
labels are "field.part": "street.number", "unit.word", "city.city".
"""

import threading
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import pycrfsuite

from addressing.guestlist.address_tokens import Token, features_of, tokens_of

MODEL = "us_addresses.crfsuite"


@dataclass(frozen=True, slots=True)
class Tagged:
    """The words of a text; for each its label and the probability of every field.

    A field's probability is the sum over its labels: whether a word is a street's name or its
    suffix is no doubt of an envelope.
    """

    tokens: tuple[Token, ...]
    labels: tuple[str, ...]
    shares: tuple[dict[str, float], ...]


class _Taggers(threading.local):
    """One tagger for each thread: set and marginal of one tagger are two calls."""

    tagger: "pycrfsuite.Tagger | None" = None


_own = _Taggers()


@cache
def _model() -> bytes:
    return (files("addressing") / "data" / MODEL).read_bytes()


def _tagger() -> "pycrfsuite.Tagger":
    if _own.tagger is None:
        tagger = pycrfsuite.Tagger()
        tagger.open_inmemory(_model())
        _own.tagger = tagger
    return _own.tagger


def tag(text: str) -> Tagged:
    """Label the words of a text.

    >>> tag("14 Larkmoor Lane, Allston, MA 02134").labels[-3:]
    ('city.city', 'state.state', 'zip.zip')
    """
    return tag_by(_tagger(), text)


def tag_by(tagger: "pycrfsuite.Tagger", text: str) -> Tagged:
    """The same by another model."""
    tokens = tokens_of(text)
    if not tokens:
        return Tagged((), (), ())
    tagger.set(features_of(tokens))
    labels = tuple(str(label) for label in tagger.tag())
    known = [(label, label.partition(".")[0]) for label in tagger.labels()]
    shares: list[dict[str, float]] = []
    for place in range(len(tokens)):
        share: dict[str, float] = {}
        for label, field in known:
            share[field] = share.get(field, 0.0) + tagger.marginal(label, place)
        shares.append(share)
    return Tagged(tokens, labels, tuple(shares))
