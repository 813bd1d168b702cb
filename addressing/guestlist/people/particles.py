"""The small words before a family name where a list keeps them apart: "van der" beside "Linnet".

They stand in a column of their own, as Dutch and German lists have one, or behind a comma
("Linnet, van der"). Either way they belong before the family name.
"""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.vocabulary import words

_JOINT = re.compile(r"\s*(?:[&+/;\n]|(?<!\S)(?:and|en|und|et)(?!\S))\s*", re.IGNORECASE)
_MOST_WORDS = 3
"""Words of a family name, and of the particles before it ("van der", "von und zu")."""


def particles_first(text: str, *, family: bool = False) -> str:
    """A cell with the particles behind its first comma put before the family name.

    `family` says that the column holds family names alone, where "Van" can be nobody's given name.

    >>> particles_first("Linnet, van der, Jan"), particles_first("Linnet, Jan van der")
    ('van der Linnet, Jan', 'Linnet, Jan van der')
    >>> particles_first("Penhew, Al"), particles_first("Linnet, Van", family=True)
    ('Penhew, Al', 'Van Linnet')
    """
    if "," not in text:
        return text
    head, _, rest = text.partition(",")
    behind, comma, names = rest.partition(",")
    said = behind.split()
    if not _are_particles(said) or not 0 < len(head.split()) <= _MOST_WORDS:
        return text
    if _JOINT.search(head) or not (family or all(word.islower() for word in said)):
        return text
    return f"{' '.join(said)} {head.strip()}{comma}{names}"


def _are_particles(said: list[str]) -> bool:
    known = words("particle") | {"und"}
    return 0 < len(said) <= _MOST_WORDS and all(fold(word) in known for word in said)


def with_particle(text: dict[str, str]) -> tuple[dict[str, str], tuple[Doubt, ...]]:
    """A row's parts of a name with what its column of particles says put where it belongs.

    A title or a suffix in that column is one; a mark without letters says nothing. Where the
    particles can't be given to a family name, the cells are in doubt.

    >>> with_particle({"given": "Jan", "particle": "van der", "family": "Linnet"})
    ({'given': 'Jan', 'family': 'van der Linnet'}, ())
    """
    if "particle" not in text:
        return text, ()
    left = {meaning: said for meaning, said in text.items() if meaning != "particle"}
    said = text["particle"].strip(" ,")
    if not any(mark.isalpha() for mark in said):
        return left, ()
    if known_title(said) is not None and fold(said) not in words("particle"):
        return {**left, "title": f"{left.get('title', '')} {said}".strip()}, ()
    if fold(said) in words("suffix"):
        return {"suffix": said, **left}, ()
    where = "family" if "family" in left or "name" not in left else "name"
    joined = _before_family if where == "family" else _within_name
    short = said.endswith(".") and not _are_particles(said.split())  # "jun.", "geb."
    name = "" if short else joined(said, left.get(where, ""))
    if name:
        return {**left, where: name}, ()
    doubts = (Doubt("name-doubtful", ", ".join(text.values())),)
    return (left if where in left else {**left, where: said}), doubts


def _before_family(said: str, family: str) -> str:
    """Each family name with its particles; "" where they can't be told apart."""
    families = _JOINT.split(family)
    particles = [said] if _are_particles(said.split()) else _JOINT.split(said)
    if not family or len(families) != len(particles):
        return ""
    pairs = zip(particles, families, strict=True)
    return " & ".join(
        name if f" {fold(name)}".startswith(f" {fold(small)} ") else f"{small} {name}".strip()
        for small, name in pairs
    )


def _within_name(said: str, name: str) -> str:
    """A whole name with its particles before the last word, or before what stands first."""
    if f" {fold(said)} " in f" {fold(name)} ":
        return name
    if _JOINT.search(name) or not _are_particles(said.split()):
        return ""
    if "," in name:
        return f"{said} {name}"
    *first, last = name.split()
    return " ".join((*first, said, last))
