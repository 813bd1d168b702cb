"""Two words before "and": given and family name, or two given names? And which of two comes first?

Given names and family names can't be told apart by looking at them. A table of frequent pairs
("Mary Ann") settles some; a word that is seldom a family name makes the rest a question.
"""

from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import GIVEN_GLUE, GLUE, NameParts, is_initial, known_title
from addressing.guestlist.people.parts import Doubt, Part
from addressing.guestlist.people.vocabulary import Title, given_names, is_given, may_be_given
from addressing.records.guests import Kind

_TWO = 2
_SHOUTED = 3
"""Letters from which on a word in capitals is a family name written so, and no initials."""


def join_givens(parts: tuple[Part, ...]) -> tuple[tuple[Part, ...], tuple[Doubt, ...]]:
    """Parts whose two given names are kept together, and who may have two and isn't known to.

    Only where another's family name may be meant for both: "Mary Ann and Tobias Wexcombe".
    """
    joined: list[Part] = []
    doubts: list[Doubt] = []
    for place, part in enumerate(parts):
        names = part.names.names
        behind = parts[place + 1] if place + 1 < len(parts) else None
        if not _is_pair(part) or not _lends(behind):
            joined.append(part)
        elif fold(" ".join(names)) in given_names("double"):
            joined.append(_as_givens(part))
        else:
            joined.append(part)
            if is_given(names[1]) or _is_perhaps(names):
                doubts.append(Doubt("family-name-doubtful", " ".join(names)))
    return tuple(joined), tuple(doubts)


def _is_perhaps(names: tuple[str, ...]) -> bool:
    """True for a pair that may be two given names, and for the office of "Judge Walter"."""
    office = known_title(names[0]) is not None and may_be_given(names[1])
    return office or fold(" ".join(names)) in given_names("perhaps")


def _is_pair(part: Part) -> bool:
    names = part.names.names
    return part.kind is not Kind.GUEST and len(names) == _TWO and not any(GLUE in n for n in names)


def _lends(behind: Part | None) -> bool:
    """True when the part behind is joined by "and" or "/" and is a person by name."""
    return behind is not None and behind.joint in ("and", "/", ",") and bool(behind.names.names)


def _as_givens(part: Part) -> Part:
    names = part.names.names
    return replace(part, names=replace(part.names, names=(GIVEN_GLUE.join(names),)))


def settle_order(parts: tuple[Part, ...]) -> tuple[tuple[Part, ...], tuple[Doubt, ...]]:
    """Family names that stand first without a comma: turned if in capitals, always asked about.

    "WEXCOMBE Tobias" is turned; "Wexcombe Tobias" is left as it stands.
    """
    settled: list[Part] = []
    doubts: list[Doubt] = []
    for part in parts:
        names = part.names.names
        if _is_pair(part) and _is_shouted_first(names):
            doubts.append(Doubt("name-order-doubtful", " ".join(names)))
            settled.append(replace(part, names=_turned(part.names)))
            continue
        if _is_pair(part) and is_given(names[1]) and not _may_be_given(part.names):
            doubts.append(Doubt("name-order-doubtful", " ".join(names)))
        settled.append(part)
    return tuple(settled), tuple(doubts[:1]) or _pair_at_end(parts)


def _pair_at_end(parts: tuple[Part, ...]) -> tuple[Doubt, ...]:
    """The doubt about "Tobias & Mary Beth", where nobody else has a family name."""
    if not parts or not _is_pair(parts[-1]) or _is_clergy(parts[-1].names):
        return ()
    if any(len(p.names.names) > 1 for p in parts[:-1]):
        return ()
    pair = " ".join(parts[-1].names.names)
    return (Doubt("family-name-doubtful", pair),) if fold(pair) in given_names("double") else ()


def _is_shouted_first(names: tuple[str, ...]) -> bool:
    first, second = names
    letters = first.replace("-", "").replace("'", "").replace("’", "")
    return first.isupper() and letters.isalpha() and len(first) >= _SHOUTED and not second.isupper()


def _turned(names: NameParts) -> NameParts:
    return replace(names, names=names.names[::-1])


def _may_be_given(names: NameParts) -> bool:
    """True when the first word can well be a given name: a known one, an initial, with a point."""
    first, second = names.names
    pair = fold(f"{first} {second}") in given_names("double")
    return pair or may_be_given(first) or _is_clergy(names) or is_initial(first) or "." in first


def _is_clergy(names: NameParts) -> bool:
    """Sister Mary Odile has no family name."""
    return any(isinstance(title, Title) and title.group == "clergy" for title in names.titles)
