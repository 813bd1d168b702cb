"""Names without an address in a mail that are somebody's who stands elsewhere with one.

They are a remark on that household: "Sidney Orr -- NO", or "so it wants to be Colonel and Mrs. Orr
now". What they say is told of it, so that the client is asked once.
"""

from collections.abc import Sequence

from addressing.guestlist.files.blocks import NAME, NOTES, STREETS, Slots
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.prose_homes import SENTENCE_SLOT
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import words

_FULL = 2
Home = tuple[int, Slots]


def without_remarks(homes: Sequence[Home]) -> tuple[list[Home], list[Line]]:
    """The households without such names, and what the lines of these say."""
    kept: list[Home] = []
    said: list[Line] = []
    placed = [names_of(slots) for _, slots in homes if STREETS[0] in slots]
    for home in homes:
        slots = home[1]
        if _is_family_of_another(home, homes):  # its sentence is told anyway
            continue
        own = names_of(slots)
        remarks = slots.get(SENTENCE_SLOT) or slots.get(NOTES) or []
        lone = STREETS[0] not in slots and bool(remarks)
        whole = len(own) >= _FULL and sum(own <= names for names in placed) == 1
        if lone and (whole or (SENTENCE_SLOT not in slots and _are_listed(slots, placed))):
            if SENTENCE_SLOT not in slots:  # a sentence is told anyway
                name = slots[NAME][0]
                said.append(Line(name.number, f"{name.text} – {remarks[0].text}"))
        else:
            kept.append(home)
    return kept, said


def _are_listed(slots: Slots, placed: Sequence[set[str]]) -> bool:
    """True for given names alone of those who are listed ("Kit & Odile"), and for their family."""
    said = slots[NAME][0].text.split() if NAME in slots else []
    joints = words("and")
    parts = " ".join("," if fold(word) in joints or word in "&+" else word for word in said)
    each = [fold(part).removeprefix("the ").split() for part in parts.split(",")]
    if any(len(part) != 1 for part in each):
        return False
    return all(any(not _forms(part[0]).isdisjoint(names) for names in placed) for part in each)


def _forms(name: str) -> set[str]:
    """A name, and what "the Penhews" are called one by one."""
    return {name, name.removesuffix("s"), name.removesuffix("es")}


def _is_family_of_another(home: Home, homes: Sequence[Home]) -> bool:
    """True for "the Penhews" of a sentence where a Penhew is on the list."""
    slots = home[1]
    said = slots[NAME][0].text.split() if NAME in slots and SENTENCE_SLOT in slots else []
    if len(said) != _FULL or fold(said[0]) != "the":
        return False
    forms = _forms(fold(said[1]))
    return any(not forms.isdisjoint(names_of(o)) for _, o in homes if o is not slots)


def names_of(slots: Slots) -> set[str]:
    """The words of a household's names, folded, without titles and "and"."""
    own = [fold(word) for line in slots.get(NAME, ()) for word in line.text.split()]
    return {word for word in own if word not in words("and") and known_title(word) is None}
