"""Columns of parts with several people in them, put together as if they stood in one cell.

"Tobias & Odile" beside "Wexcombe", "Mr. & Mrs." beside "Tobias": the family name goes behind the
last who is named, before companions and unnamed children.
"""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.names import GIVEN_GLUE, GLUE, take_endings
from addressing.guestlist.people.vocabulary import titles, words

_JOINTS = ("&", "+", "/", ";", "\n")
_TWO_GIVENS = re.compile(
    r"(?:^|(?<=[&+/;,\n])|(?<=\sand))\s*([^\W\d_]+)\s+([^\W\d_]+)"
    r"(?=\s*(?:[&+/;,\n]|\sand\b))"
)
_JOINT = re.compile(r"(\s*(?:[&+/;,\n]|(?<!\S)(?:and|und|et|plus|w/)(?!\S))\s*)")
_ARTICLES = ("the", "his", "her", "their", "our")


def has_joint(text: str) -> bool:
    """True when a cell of given names or titles holds several people.

    A small y, e or i between two given names joins them: it stands inside family names only.

    >>> has_joint("Tobias & Odile"), has_joint("Luis y Marta"), has_joint("Tobias E.")
    (True, True, False)
    """
    if any(joint in text for joint in _JOINTS):
        return True
    said = text.split()
    between = (word in words("and-between") for word in said[1:-1])
    return any(between) or any(fold(word) in words("and") for word in said)


def composed(text: dict[str, str]) -> CellReading:
    """Columns with several people in them, read as if they stood in one cell."""
    families = [part.strip() for part in _split(text.get("family", ""))]
    givens = [part.strip() for part in _split(text["given"])]
    given_titles = [part.strip() for part in _split(text.get("title", ""))]
    if len(families) > 1 and len(families) == len(givens):
        given_titles += [""] * (len(givens) - len(given_titles))
        pairs = zip(given_titles, givens, families, strict=False)
        return read_people(
            " and ".join(" ".join(part for part in pair if part) for pair in pairs),
            family_first=None,
        )
    family, ending = glued_family(text.get("family", ""))
    given = _glued_givens(text["given"]) if family else text["given"]
    first, others = _before_companions(given)
    named = (text.get("title", ""), first, text.get("middle", ""), family)
    whole = " ".join(part for part in named if part)
    ending = text.get("suffix", ending)
    comma = "," if ending and fold(ending) not in titles() else ""  # ", Sr." may be a Señor
    whole = f"{whole}{comma} {ending}" if ending else whole
    return read_people(f"{whole}{others}", family_first=None)


def glued_family(text: str) -> tuple[str, str]:
    """A column's family name in one piece, and the suffix that stands behind it there.

    >>> family, ending = glued_family("van der Wexcombe Sr.")
    >>> family.split(GLUE), ending
    (['van', 'der', 'Wexcombe'], 'Sr.')
    """
    names, suffix, degrees = take_endings(text.split(), after_comma="," in text)
    if not suffix or degrees:
        return text.replace(" ", GLUE), ""
    return GLUE.join(name.strip(",") for name in names), suffix


def _before_companions(given: str) -> tuple[str, str]:
    """A cell of given names, and the companions or unnamed children behind them.

    >>> _before_companions("Tobias & Odile and Guest")
    ('Tobias & Odile', ' and Guest')
    """
    pieces = _JOINT.split(given)
    last = len(pieces)
    while last > 1 and _names_nobody(pieces[last - 1]):
        last -= 2
    return "".join(pieces[:last]), "".join(pieces[last:])


def _names_nobody(piece: str) -> bool:
    known = words("guest") | words("family") | words("children") | words("number").union(_ARTICLES)
    said = fold(piece).split()
    return all(word in known or word.isdigit() for word in said)


def _glued_givens(text: str) -> str:
    """Two words before a joint in a column of given names are both given names.

    >>> _glued_givens("Odile Linnet & Tobias").split(GIVEN_GLUE)
    ['Odile', 'Linnet & Tobias']
    """
    return _TWO_GIVENS.sub(
        lambda found: GIVEN_GLUE.join(found.groups()) if _are_names(found.groups()) else found[0],
        text,
    )


def _are_names(pair: tuple[str, ...]) -> bool:
    """True when neither word is a title or stands for somebody without a name."""
    known = words("guest") | words("family") | words("children") | words("and") | titles().keys()
    return not any(fold(word) in known for word in pair)


def _split(text: str) -> list[str]:
    for joint in _JOINTS:
        text = text.replace(joint, " and ")
    parts: list[str] = [""]
    for word in text.split():
        if fold(word) in words("and"):
            parts.append("")
        else:
            parts[-1] = f"{parts[-1]} {word}".strip()
    return [part for part in parts if part]
