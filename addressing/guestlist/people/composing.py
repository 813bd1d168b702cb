"""Columns of parts with several people in them, put together as if they stood in one cell.

"Tobias & Odile" beside "Wexcombe", "Mr. & Mrs." beside "Tobias": the family name goes behind the
last who is named, before companions and unnamed children.
"""

import re
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.likeness import full_forms
from addressing.guestlist.people.names import GIVEN_GLUE, GLUE, take_endings, take_titles
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.preparing import parted_titles
from addressing.guestlist.people.vocabulary import Title, given_names, titles, words

_COUPLE = 2
_FULL = 2
"""Words of a full name."""
_JOINTS = ("&", "+", "/", ";", "\n")
_TWO_GIVENS = re.compile(
    r"(?:^|(?<=[&+/;,\n])|(?<=\sand))\s*([^\W\d_]+)\s+([^\W\d_]+)"
    r"(?=\s*(?:[&+/;,\n]|\sand\b))"
)
_JOINT = re.compile(r"(\s*(?:[&+/;,\n]|(?<!\S)(?:and|und|et|plus|w/)(?!\S))\s*)")
_ENDING_APART = re.compile(r"(?<=\w)\.?\s*[,(\[]\s*([^\W\d_]+\.?)\s*[)\]]?(?=\s*(?:$|[&+]|and\b))")
_LISTED = re.compile(r"[A-ZÀ-Ý][\w'’-]*(?: [A-ZÀ-Ý][\w'’-]*)?(?:\s*\(\d{1,2}\))?")
_NAME = re.compile(r"[^\W\d_a-z][^\W\d_][\w'’-]*")
_ARTICLES = ("the", "his", "her", "their", "our", "sa", "su", "sus", "seine", "seiner", "ihrem")


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


def joined_list(given: str) -> str:
    """First names, or whole ones, that commas alone part, with what joins people between them.

    >>> joined_list("Wes, Lena, Jack (6)"), joined_list("Robert, Jr."), joined_list("Mary Ann")
    ('Wes & Lena & Jack (6)', 'Robert, Jr.', 'Mary Ann')
    """
    if "," not in given:
        return given
    parts = [part.strip() for part in given.split(",")]
    named = all(_LISTED.fullmatch(part) and not _is_no_name(part) for part in parts)
    return " & ".join(parts) if named else given


def _is_no_name(part: str) -> bool:
    ending = words("suffix") | words("credential") | words("particle")
    return fold(part) in ending or bool(take_titles(part.split())[0])


def composed(text: dict[str, str]) -> CellReading:
    """Columns with several people in them, read as if they stood in one cell."""
    text = {**text, "given": _parted_by_titles(_plain_ending(text["given"]))}
    several = _titles_of_first(text)
    if several:
        return read_people(several, family_first=None)
    families = [part.strip() for part in _split(text.get("family", ""))]
    givens = [part.strip() for part in _split(text["given"])]
    whole = whole_names(text)
    if whole is not None:
        reading = read_people(whole, family_first=None)
        pieces = _JOINT.split(text["given"])[::2]
        unsaid = (piece for piece in pieces if not _family_of(piece, families))
        own = next(filter(_may_be_whole, unsaid), None)
        asked = () if own is None else (Doubt("family-name-doubtful", own.strip()),)
        return replace(reading, doubts=(*reading.doubts, *asked))
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
    reading = read_people(f"{whole}{others}", family_first=None)
    sure = tuple(d for d in reading.doubts if d.code != "lone-name-doubtful")  # the column says it
    return replace(reading, doubts=sure)


def _plain_ending(given: str) -> str:
    """A suffix behind a given name without the comma or brackets, which would part it.

    >>> _plain_ending("Tobias, Jr."), _plain_ending("Tobias (III) & Odile"), _plain_ending("Jr.")
    ('Tobias Jr.', 'Tobias III & Odile', 'Jr.')
    """
    return _ENDING_APART.sub(
        lambda found: f" {found[1]}" if fold(found[1]) in words("suffix") else found[0], given
    )


def _may_be_whole(piece: str) -> bool:
    """True for Jill Novak among given names: her own family name, or two given ones?

    >>> [_may_be_whole(each) for each in ("Ms. Jill Novak", "Tom Reed", "Mary Ann", "Jo B.")]
    [True, True, False, False]
    """
    titled, names = take_titles(piece.split())
    both = fold(" ".join(names))
    if len(names) != _FULL or both in given_names("double") | given_names("perhaps"):
        return False
    first, last = both.split()[0], both.split()[-1]
    short = bool(full_forms(first))  # whoever goes by a short form seldom has a second given name
    known = bool(titled) or short or first in given_names("single") | given_names("both")
    given = last in given_names("single") or (last in given_names("both") and not short)
    plain = all(_NAME.fullmatch(name) for name in names) and not _names_nobody(piece)
    return plain and known and not given


def names_two(given: str) -> bool:
    """True for a cell whose people are parted by a comma and have a title each."""
    return _parted_by_titles(given) != given


def _parted_by_titles(given: str) -> str:
    """A comma before a title parts two people as "and" does.

    >>> _parted_by_titles("Dr. Lenore, Mr. Alan")
    'Dr. Lenore and Mr. Alan'
    """
    head, *rest = given.split(", ")
    if not rest or not all(take_titles(part.split())[0] for part in (head, *rest)):
        return given
    return " and ".join((head, *rest))


def _titles_of_first(text: dict[str, str]) -> str:
    """Two titles beside more than two given names are those of the first two; "" elsewhere.

    >>> text = {"title": "Mr. & Mrs.", "given": "Will, Ann, Theo and Rose", "family": "Carver"}
    >>> _titles_of_first(text)
    'Mr. Will and Mrs. Ann Carver, Theo, Rose'
    """
    own = [part.strip() for part in _split(text.get("title", ""))]
    names = [part for part in re.split(r"\s*(?:,|&|\+|\band\b)\s*", text["given"]) if part]
    plain = len(own) == _COUPLE < len(names) and all(len(name.split()) == 1 for name in names)
    if not plain or "family" not in text or any(map(_names_nobody, names)):
        return ""
    (his, hers), (one, other, *rest) = own, names
    family = glued_family(text["family"])[0]
    return f"{his} {one} and {hers} {other} {family}, {', '.join(rest)}"


def whole_names(text: dict[str, str]) -> str | None:
    """The names of a cell that says a family name already, which isn't said twice; None for others.

    A name that may be whole keeps its second word ("Tom Reed" beside "Shaw").

    >>> whole_names({"given": "Amy Shaw & Ben", "family": "Shaw"})
    'Amy Shaw & Ben Shaw'
    >>> whole_names({"given": "Mr. and Mrs. Ben Shaw III", "family": "Shaw"})
    'Mr. and Mrs. Ben Shaw III'
    >>> whole_names({"given": "Amy & Ben", "family": "Shaw"}) is None
    True
    """
    given, families = text["given"], [part.strip() for part in _split(text.get("family", ""))]
    pieces = _JOINT.split(given)
    said = [_family_of(piece, families) for piece in pieces[::2]]
    if not any(said) and len(pieces) > 1 and len(families) == 1:
        own = [_may_be_whole(piece) for piece in pieces[::2]]
        said = [families[0] if whole else None for whole in own] if not all(own) else said
    if not any(said):
        return None
    if len(families) == 1:
        pieces[::2] = [
            piece if own or not _is_given(piece) else f"{piece} {families[0]}"
            for piece, own in zip(pieces[::2], said, strict=True)
        ]
    beside = (text.get("title", ""), "".join(pieces))
    whole = " ".join(part for part in beside if part)
    return f"{whole}, {text['suffix']}" if "suffix" in text else whole


def _family_of(piece: str, families: list[str]) -> str | None:
    """Which of the family names a piece of a cell of given names ends in."""
    bare = take_endings(piece.replace(",", " ").split(), after_comma="," in piece)[0]
    ends = f" {fold(' '.join(bare))}" if len(bare) > 1 else ""
    return next((name for name in families if ends.endswith(f" {fold(name)}")), None)


def _is_given(piece: str) -> bool:
    """True for a piece that names somebody, be it behind a title."""
    return bool(take_titles(piece.split())[1]) and not _names_nobody(piece)


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


def family_of_label(text: str) -> str:
    """The name in "The Vale Family" or "Familie Vale", which first names stand beside.

    >>> [family_of_label(each) for each in ("The Vale Family", "Familie Vale", "The Vales", "Vale")]
    ['Vale', 'Vale', 'The Vales', 'Vale']
    """
    said = text.split()
    if len(said) > 1 and fold(said[-1]) in words("family-label"):
        return " ".join(said[fold(said[0]) == "the" : -1]) or text
    if len(said) > 1 and fold(said[0]) in words("family-label"):
        return " ".join(said[1:])
    return text


def titled_family(text: dict[str, str]) -> CellReading:
    """Titles of several beside a family name, and no given name: "Mr. & Mrs.", "Drs." and "Penhew".

    A family name each goes with its title; one name of several words stays one.
    """
    titled, family = text["title"], text.get("family", "")
    own, families = ([part.strip() for part in _split(said)] for said in (titled, family))
    nobody = words("family") | words("guest") | words("children")
    named = [name for name in families if fold(name) not in nobody]
    if len(own) == len(named) > 1:
        whole = " and ".join(f"{title} {name}" for title, name in zip(own, named, strict=True))
    elif len(families) > 1:
        whole = f"{titled} {family}"
    else:
        name, ending = glued_family(family)
        whole = f"{titled} {name}, {text.get('suffix', ending)}".rstrip(", ")
    return read_people(whole, family_first=None)


def titles_of_several(said: str) -> bool:
    """True for "Mr. & Mrs.", "Mr/Mrs" and "Drs."; "Rev. Dr." is one person's.

    >>> [titles_of_several(each) for each in ("Mr. & Mrs.", "Mr Mrs", "Drs.", "Rev. Dr.", "")]
    [True, True, True, False, False]
    """
    taken, _ = take_titles(said.split())
    plural = any(isinstance(title, Title) and title.plural for title in taken)
    return plural or has_joint(" ".join(parted_titles(said.split())))


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
