"""Households of running text that have no address by which they could be read.

A paragraph may begin with names alone, or with a family's ("The Penhews next door."), and go on
with what is known of them; or a sentence says that somebody is to have an envelope.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.mail_lines import Line, has_verb
from addressing.guestlist.files.mentions import Mention, mentions
from addressing.guestlist.files.prose_words import masked, prose_pattern, prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.news import says_out

_FAMILY = re.compile(r"(?P<family>[Tt]he [^\W\d_a-z][\w'’-]*s)\b(?P<rest>[^,]*)[.!]*$")
_NUMBERED = re.compile(r"(?<![\w#])\d+[A-Za-z]?(?: [^\W\d_a-z][\w.'’-]*){1,4}")
_CODE = re.compile(r"\b[A-Z]{2}[ ,]+\d{5}\b")
_BEHIND = 4
"""Sentences behind the names at most that say what is known of them."""
_LONGEST_REST = 6
"""Words behind a family's name at most."""


@dataclass(frozen=True, slots=True)
class Head:
    """The names that a paragraph begins with, and the sentences that speak of them."""

    people: tuple[Mention, ...]
    names: str
    quote: tuple[Line, ...]


def head_of(paragraph: Sequence[Line]) -> Head | None:
    """The names at the beginning of a paragraph that goes on with their address or envelope.

    >>> said = (Line(1, "The Penhews next door."), Line(2, "I'll carry it over."))
    >>> head_of(said).names
    'The Penhews'
    >>> head_of((Line(1, "The Penhews next door."), Line(2, "We love them."))) is None
    True
    """
    if not paragraph or any(says_out(said.text) for said in paragraph):
        return None
    first, *others = paragraph[: _BEHIND + 1]
    people = _names_alone(first.text) or _family(first.text)
    if people is None or not any(_is_of_an_envelope(said.text) for said in others):
        return None
    return Head((people,), people.text, (first, *others))


def wants_for_another(line: Line) -> bool:
    """True for a sentence below an address that wants an envelope for somebody it names.

    >>> wants_for_another(Line(1, "Her aunt, Mrs. Odile Penhew, wants her own invitation."))
    True
    """
    text = masked(line.text)
    sure = any(each.sure for each in mentions(text))
    return sure and has_verb(text) and prose_pattern("wanted").search(text) is not None


def _names_alone(text: str) -> Mention | None:
    """The people of a sentence that says nothing else."""
    found = mentions(masked(text))
    alone = len(found) == 1 and found[0].sure
    rest = text[: found[0].start] + text[found[0].end :] if alone else text
    return found[0] if alone and not re.search(r"\w", masked(rest)) else None


def _family(text: str) -> Mention | None:
    """The family of "The Penhews across the street."."""
    found = _FAMILY.match(text.strip())
    if found is None or has_verb(found["rest"].strip(" .!")):
        return None
    rest = fold(found["rest"]).split()
    if len(rest) > _LONGEST_REST or not prose_words("denial").isdisjoint(rest):
        return None
    named = f"T{found['family'][1:]}"
    return Mention(found.start("family"), found.end("family"), named, sure=True)


def _is_of_an_envelope(text: str) -> bool:
    """True where a sentence tells of an address, or of how the envelope comes to somebody."""
    shown = masked(text)
    kinds = ("wanted", "wanted-behind")
    if any(prose_pattern(kind).search(shown) for kind in kinds) or _CODE.search(shown):
        return True
    streets = (found[0].split()[1:] for found in _NUMBERED.finditer(shown))
    return any(not suffix_words().isdisjoint(map(fold, words)) for words in streets)
