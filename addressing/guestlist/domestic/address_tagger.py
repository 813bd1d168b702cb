"""What each word of a US address is, by a trained model, and how sure that is.

The model (`data/us_addresses.crfsuite`) is a conditional random field, made by
`scripts/train_addresses.py` from open labelled data; it holds features and weights, no address. Its
labels are "field.part": "street.number", "unit.word", "city.city".
"""

import threading
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

import pycrfsuite

from addressing.guestlist.domestic.address_tokens import Token, features_of, tokens_of

MODEL = "us_addresses.crfsuite"


@dataclass(frozen=True, slots=True)
class Tagged:
    """The words of a text; for each its label and the probability of fields.

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


@lru_cache(maxsize=256)  # rows of one household follow one another
def tag(text: str, fields: frozenset[str] = frozenset()) -> Tagged:
    """Label the words of a text. Each word's shares hold its own field, and those of `fields`.

    >>> tag("14 Larkmoor Lane, Allston, MA 02134").labels[-3:]
    ('city.city', 'state.state', 'zip.zip')
    """
    return tag_by(_tagger(), text, fields)


def tag_by(tagger: "pycrfsuite.Tagger", text: str, fields: frozenset[str] = frozenset()) -> Tagged:
    """The same by another model."""
    tokens = tokens_of(text)
    if not tokens:
        return Tagged((), (), ())
    tagger.set(features_of(tokens))
    labels = tuple(str(label) for label in tagger.tag())
    known = _by_field(tuple(tagger.labels()))
    shares: list[dict[str, float]] = []
    for place, label in enumerate(labels):
        wanted = fields | {label.partition(".")[0]}
        shares.append(
            {
                field: sum([tagger.marginal(name, place) for name in known.get(field, ())])
                for field in (wanted | _EITHER if wanted & _EITHER else wanted)
            }
        )
    return Tagged(tokens, labels, tuple(shares))


_EITHER = frozenset(("unit", "part"))
"""Two fields that are one in an address: a floor is a unit or a line of its own."""


@lru_cache(maxsize=8)
def _by_field(labels: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    fields = dict.fromkeys(label.partition(".")[0] for label in labels)
    return {f: tuple(label for label in labels if label.partition(".")[0] == f) for f in fields}


FIELDS = frozenset(("street", "unit", "part", "extra", "city", "state", "zip", "country", "remark"))
"""Every field that the model knows."""
