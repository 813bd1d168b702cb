"""Words above a household of a mail that give each of its people an envelope: "one EACH"."""

import re
from collections.abc import Iterator, Sequence

from addressing.guestlist.files.blocks import NAME, NOTES, Slots
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import take_titles
from addressing.guestlist.people.note_words import denied

_JOINT = re.compile(r"\s+(?:/|&|\+|and)\s+|\s*;\s*")
_WORD = re.compile(r"[^\W\d_][\w'’-]+")
_FULL = 2


def says_each(text: str) -> bool:
    """True for words that part people who live together, and aren't behind a "no"."""
    return denied("apart", text) is False


def own_households(said: Sequence[Line], slots: Slots) -> list[Slots]:
    """A household's slots for each of its people, if sentences name them all; none where not.

    Each has the sentence that parts them as a note.

    >>> slots = {NAME: [Line(3, "Ms. Wren Lorne / Mr. Kit Penhew")]}
    >>> said = [Line(1, "Wren and Kit: one each")]
    >>> [each[NAME][0].text for each in own_households(said, slots)]
    ['Ms. Wren Lorne', 'Mr. Kit Penhew']
    >>> own_households([Line(1, "Wren is vegan")], slots)
    []
    """
    parting = [each for each in said if says_each(each.text)]
    people = list(_people(slots))
    words = (word for each in said for word in _WORD.findall(each.text))
    named = {fold(word) for word in words if word[:1].isupper()}
    if (
        not parting
        or len(people) < _FULL
        or not all(_is_named(line.text, named) for line in people)
    ):
        return []
    rest = {slot: lines for slot, lines in slots.items() if slot[0] != NAME[0]}
    rest[NOTES] = [*rest.get(NOTES, ()), *parting]
    return [{NAME: [line], **{slot: list(held) for slot, held in rest.items()}} for line in people]


def _people(slots: Slots) -> Iterator[Line]:
    """The whole names of a household, a line each."""
    for (meaning, _), lines in slots.items():
        for line in lines if meaning == NAME[0] else ():
            for part in _JOINT.split(line.text):
                yield Line(line.number, part.strip())


def _is_named(name: str, named: set[str]) -> bool:
    """True for a given and a family name of which the words have one."""
    words = [fold(word) for word in take_titles(name.split())[1]]
    return len(words) >= _FULL and not named.isdisjoint(words)
