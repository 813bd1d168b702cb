"""What the writer calls somebody, above or before the name for the envelope: "Aunt Lou", "My boss".

It is no line of the envelope and nobody beside the named: "Jess and Marco" above "Jessica Orr and
Marco Bell" are these two.
"""

import re
from collections.abc import Sequence

from addressing.guestlist.domestic.buildings import ends_building
from addressing.guestlist.files.mail_lines import Line, has_verb, is_name, is_place
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.called import is_form
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import may_be_given, words

_JOINT = re.compile(r"\s*(?:\s(?:and|und|et|y|n)\s|&|\+|,)\s*", re.IGNORECASE)
_BEHIND = re.compile(r"(?P<call>[^()]+?)\s*\((?P<names>[^()]+)\)")
_NAMED = re.compile(
    r"(?P<call>[^()\d]+?)(?:\s[-–—=]\s|:\s|,\s(?:that['’]s|that is|aka|i\.e\.)\s)"
    r"(?P<names>[^()\d]+)",
    re.IGNORECASE,
)
"""The same behind a dash, a colon, "=" or "that's"."""
_PET = re.compile(r"(?:ie|ey|y)$")
_STEM = 3
_FROM = ("from", "at", "next", "across", "down")
"""Words behind which stands where the writer knows them from."""
_TWO = 2
_LETTER = re.compile(r"[^\w'’.\- ]")


def without_call(lines: Sequence[Line]) -> tuple[list[Line], list[Line]]:
    """The lines of a household without the one above its names that only calls them so; and that.

    >>> lines = [Line(1, "Aunt Lou"), Line(2, "Louise Orr"), Line(3, "9 Elm St")]
    >>> [[line.text for line in part] for part in without_call(lines)]
    [['Louise Orr', '9 Elm St'], ['Aunt Lou']]
    """
    if len(lines) > _TWO and not is_place(lines[1].text) and is_call(lines[0].text, lines[1].text):
        return list(lines[1:]), [lines[0]]
    return list(lines), []


def called(names: str) -> tuple[str, str]:
    """The names in brackets behind what the writer calls them, and that; "" where they aren't so.

    >>> called("Mom & Dad (Robert and Elaine Orr)"), called("Kit Orr (Odile Bell)")
    (('Robert and Elaine Orr', 'Mom & Dad'), ('Kit Orr (Odile Bell)', ''))
    >>> called("Great-uncle Morty - Mortimer Orr"), called("The Orrs: Kit & Ada Orr")
    (('Mortimer Orr', 'Great-uncle Morty'), ('Kit & Ada Orr', 'The Orrs'))
    >>> called("The Canadians - Ted & Bev Orr"), called("The Willows - Ted & Bev Orr")
    (('Ted & Bev Orr', 'The Canadians'), ('The Willows - Ted & Bev Orr', ''))
    """
    found = _BEHIND.fullmatch(names.strip()) or _NAMED.fullmatch(names.strip())
    if found is None:
        return names, ""
    call, named = found["call"], found["names"]
    if is_call(call, named) or _is_family(call, named) or _is_label(call, named):
        return named, call
    return names, ""


def is_call(call: str, names: str) -> bool:
    """True where the first words only call those so whom the second name in full.

    >>> is_call("jess and marco", "Jessica Orr and Marco Bell"), is_call("Kit", "Penhew Farm")
    (True, False)
    """
    if _LETTER.search(_JOINT.sub(" ", call)) or has_verb(call) or not is_name(names):
        return False
    ours, theirs = _people(call), _people(names)
    whole = len(theirs[-1]) >= _TWO and not ends_building(names)
    if len(ours) != len(theirs) or not whole or not all(map(_is_a_name, theirs)):
        return False
    return all(_may_be(one, other) for one, other in zip(map(_bare, ours), theirs, strict=True))


def _is_family(call: str, names: str) -> bool:
    """True for "The Orrs" of those all of whom that family name stands behind."""
    label = fold(call).removeprefix("the ")
    theirs = _people(names)
    family = fold(theirs[-1][-1]) if theirs and len(theirs[-1]) >= _TWO else ""
    label = label.removesuffix(" family")
    own = bool(family) and label in (family, f"{family}s", f"{family}es")
    return own and all(len(part) == 1 or fold(part[-1]) == family for part in theirs)


def _is_label(call: str, names: str) -> bool:
    """True for "The Canadians" before the names of people, one of them with a family name."""
    said = fold(call).split()
    if said[:1] != ["the"] or said[-1] not in prose_words("called-the") or not is_name(names):
        return False
    theirs = _people(names)
    whole = bool(theirs) and len(theirs[-1]) >= _TWO and not ends_building(names)
    return whole and any(part and may_be_given(part[0]) for part in theirs)


def _people(text: str) -> list[list[str]]:
    return [_untitled(part.split()) for part in _JOINT.split(text) if part.split()]


def _untitled(part: list[str]) -> list[str]:
    title = known_title(part[0]) if len(part) > 1 else None
    return part[1:] if title is not None and not title.also_a_name else part


def _is_a_name(part: list[str]) -> bool:
    return bool(part) and (may_be_given(part[0]) or len(part) >= _TWO)


def _bare(part: list[str]) -> list[str] | None:
    """The name in what somebody is called: none ("my boss"), or one; None for a whole name."""
    kin = words("kin") | words("relation") | words("nameless")
    part = [word for whole in part for word in _whole(whole)]
    part = part[
        : next((at for at, word in enumerate(part) if at and fold(word) in _FROM), len(part))
    ]
    last = max((at for at, word in enumerate(part) if fold(word) in kin), default=-1)
    rest = [word for word in part[last + 1 :] if fold(word) not in kin]
    if rest and last >= 0:
        rest = [rest[0], *(word for word in rest[1:] if word[:1].isupper())]
    owned = bool(part) and fold(part[0]) in prose_words("of")
    return rest if len(rest) < _TWO and (last >= 0 or owned or rest) else None


def _whole(word: str) -> list[str]:
    """The kin of "Great-uncle", behind its hyphen."""
    before, hyphen, behind = word.partition("-")
    return [behind] if hyphen and fold(before) in ("great", "step", "god") else [word]


def _may_be(call: list[str] | None, names: list[str]) -> bool:
    """True for no name, the same given name, or a form of it."""
    if call is None:
        return False
    one, other = (fold(part[0]) if part else "" for part in (call, names))
    initial = len(one) == 1 and any(fold(name).startswith(one) for name in names)
    stem = _PET.sub("", one)
    pet = len(stem) >= _STEM and other.startswith(stem)  # Morty of Mortimer
    return not one or one == other or initial or pet or is_form(one, other)
