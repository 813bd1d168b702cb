"""Cells that put the family name first, "Wexcombe, Tobias and Odile", turned round.

The family name goes behind the first person's given names, and behind those of a partner who has
one given name only; a partner with two or more words has a name of her own, or is asked about.
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import (
    GLUE,
    known_title,
    may_be_initials,
    take_endings,
    take_titles,
)
from addressing.guestlist.people.vocabulary import given_names, is_given, may_be_given, words

MARKS = ("&", "+", "/", ";", ",", "\n", "w/")
"""Signs that join people, and the comma."""
_MOST_FAMILY = 3
"""Words of a family name before a comma, at most."""
_BESIDE_NAMES = frozenset(("a", "his", "her", "their", "our"))
_OWN_NAME = 2
"""A partner of so many words may have a second given name, or a family name of her own."""


@dataclass(frozen=True, slots=True)
class Turned:
    """Tokens in given-name order; `doubtful` when only the client knows the order."""

    tokens: tuple[str, ...]
    doubtful: bool = False


def _without_last_comma(tokens: list[str]) -> list[str]:
    """Tokens without the comma before "and" in "Orr, Dr. Ada, and Mr. Kit Bell"."""
    first = tokens.index(",") if "," in tokens[:-1] else len(tokens)
    title = known_title(tokens[first + 1]) if first + 1 < len(tokens) else None
    if title is None or title.also_a_name or first > _MOST_FAMILY or take_titles(tokens[:first])[0]:
        return tokens
    last = [
        at
        for at, (mark, behind) in enumerate(pairwise(tokens))
        if at > first and (mark, behind == ",", joins(behind)) == (",", False, True)
    ]
    return [word for at, word in enumerate(tokens) if at not in last]


@lru_cache(maxsize=16_384)  # for every word of a cell, several times
def joins(token: str) -> bool:
    """True for a sign or word that stands between two people, and for a comma."""
    if token in MARKS:
        return True
    return not token.startswith(GLUE) and len(token.strip(".")) > 1 and fold(token) in words("and")


def is_ending(tokens: list[str]) -> bool:
    """True when the words behind a comma, up to the next joint, are a suffix or credentials."""
    upto = next((i for i, word in enumerate(tokens) if joins(word) and word != ","), len(tokens))
    here = [word for word in tokens[:upto] if word.strip(",")]
    return bool(here) and not take_endings(here, after_comma=True)[0]


def turn(tokens: list[str], *, trusted: bool) -> Turned:
    """Turn a cell round where it puts the family name first.

    `trusted` says that the column is known to do so.
    """
    tokens = _without_last_comma(tokens)
    both = _each_turned(tokens)
    if both is not None:
        return Turned(tuple(both))
    if ";" in tokens[1:-1]:
        return _turn_before_semicolon(tokens, trusted=trusted)
    comma = tokens.index(",") if "," in tokens else 0
    turned = _turn_one(tokens[:comma], tokens[comma + 1 :], trusted=trusted) if comma else None
    return turned or Turned(tuple(tokens))


def _turn_before_semicolon(tokens: list[str], *, trusted: bool) -> Turned:
    """Turn "Okafor, Chidi & Ngozi; Ada, Obi": the given names behind the semicolon go on."""
    place = tokens.index(";")
    first, rest = turn(tokens[:place], trusted=trusted), tokens[place + 1 :]
    if first.tokens == tuple(tokens[:place]) or not _bare_list(rest):
        return Turned(tuple(tokens))
    return replace(first, tokens=(*first.tokens, ",", *rest))


def _turn_one(head: list[str], tail: list[str], *, trusted: bool) -> Turned | None:
    """The words before and behind the first comma turned; None where they stay as they are."""
    initials = len(head) == len(tail) == 1 and may_be_initials(tail[0])
    if not tail or (is_ending(tail) and not initials):
        return None
    names, suffix, _ = take_endings(list(head), after_comma=False)
    if suffix and names:  # "Wexcombe Jr., Tobias"
        inner = _turn_one(names, tail, trusted=trusted)
        return replace(inner, tokens=(*inner.tokens, *head[len(names) :])) if inner else None
    titled = _behind_title(head, tail)
    if titled is not None:
        return Turned(titled, doubtful=not trusted)
    if not _looks_like_family(head):
        return _turn_double(head, tail, trusted=trusted)
    if initials:
        return Turned((*tail, *head), doubtful=not trusted)
    return _turn_single(head, tail, trusted=trusted)


def _behind_title(head: list[str], tail: list[str]) -> tuple[str, ...] | None:
    """Turn "Mr. Wexcombe, Tobias": one name on each side, a title in front."""
    found, names = take_titles(list(head))
    alone = len(tail) == 1 and not joins(tail[0]) and not tail[0].startswith("⟨")
    if not found or len(names) != 1 or not alone or any(map(joins, head)):
        return None
    return (*head[:-1], *tail, *names)


def _turn_single(head: list[str], tail: list[str], *, trusted: bool) -> Turned | None:
    """Turn "Wexcombe, Tobias and Odile": the one word before the comma is the family name."""
    tail, ending = _cut_ending(tail)
    if "," in tail:
        return None
    if not trusted and _ends_in_full_name(tail):
        return Turned((*head, ",", *tail, *ending), doubtful=not is_given(head[0]))
    turned, doubtful = _behind_each(tail, GLUE.join(head))
    unsure = not trusted and (_may_all_be_given(head, tail) or _may_be_two(head, tail))
    return Turned((*turned, *ending), doubtful or unsure)


def _turn_double(head: list[str], tail: list[str], *, trusted: bool) -> Turned | None:
    """Turn "García Vega, Ms. Maria" where the column does so, or a title follows; else None."""
    marked = any(joins(token) or token.startswith("⟨") for token in head)
    if marked or len(head) > _MOST_FAMILY or "," in tail or take_titles(list(head))[0]:
        return None
    people = [part for _, part in _people(tail)]
    if any(len(_names_in(part)) > 1 and not _is_initial(_names_in(part)[-1]) for part in people):
        return None
    titled = len(people) == 1 and bool(take_titles(list(tail))[0]) and bool(_names_in(tail))
    if not trusted and not titled:
        return None
    return Turned(tuple(_behind_each(tail, GLUE.join(head))[0]), doubtful=not trusted)


def _may_all_be_given(head: list[str], tail: list[str]) -> bool:
    """True where "Sorrel, Tobias and Odile" may list three; in "Wexcombe, Tobias" one is named.

    A word that is no given name before words that all are is a family name.
    """
    behind = [token for token in tail if not joins(token)]
    clear = not may_be_given(head[0]) and all(map(may_be_given, behind))
    return _bare_list(tail) and not clear


def _may_be_two(head: list[str], tail: list[str]) -> bool:
    """True where "Tobias, Odile Wexcombe" may as well list two people of one name."""
    first = _people(tail)[0][1]
    names = _names_in(first)
    titled = len(take_titles(list(first))[0]) > 0
    return len(head) == 1 and not titled and len(names) > 1 and not _is_initial(names[-1])


def _cut_ending(tail: list[str]) -> tuple[list[str], list[str]]:
    """(names, suffix or credentials with their comma) of what stands behind the family name."""
    if "," in tail and is_ending(tail[tail.index(",") + 1 :]):
        second = tail.index(",")
        return tail[:second], tail[second:]
    return tail, []


def _each_turned(tokens: list[str]) -> list[str] | None:
    """Both halves turned where each puts its family name first: "Penhew, Rufus & Quince, Nell"."""
    parts = _people(tokens)
    if len(parts) < 2:  # noqa: PLR2004 - two halves
        return None
    turned: list[str] = []
    for joint, part in parts:
        if "," not in part or not _looks_like_family(part[: part.index(",")]):
            return None
        comma = part.index(",")
        names = part[comma + 1 :]
        if not names or "," in names or is_ending(names):
            return None
        turned += [*joint, *names, GLUE.join(part[:comma])]
    return turned


def _people(tokens: list[str]) -> list[tuple[list[str], list[str]]]:
    """(joint, words) of each person; a comma is no joint here."""
    parts: list[tuple[list[str], list[str]]] = [([], [])]
    for word in tokens:
        if word != "," and joins(word):
            parts.append(([word], []))
        else:
            parts[-1][1].append(word)
    return parts


def _behind_each(tail: list[str], family: str) -> tuple[list[str], bool]:
    """The family name behind each who has none; True when a partner's second word is in doubt."""
    turned: list[str] = []
    placed = doubtful = False
    for joint, part in _people(tail):
        turned += joint
        names = _names_in(part)
        titled = len(take_titles(list(part))[0]) > 0
        if names and (not placed or len(names) < _OWN_NAME or _is_initial(names[-1])):
            end = part.index(names[-1]) + 1
            turned += [*part[:end], family, *part[end:]]
            placed = True
            continue
        doubtful = doubtful or (len(names) == _OWN_NAME and not titled and not _is_full(names))
        turned += part
    return (turned, doubtful) if placed else ([*turned, family], doubtful)


def _is_full(names: list[str]) -> bool:
    """True for "Jens Wirtham": a known given name, and a word that is none."""
    pair = fold(" ".join(names)) in given_names("double") | given_names("perhaps")
    return may_be_given(names[0]) and not may_be_given(names[1]) and not pair


def _names_in(part: list[str]) -> list[str]:
    """The words of a part that are names: no title, no guest or family word, no mark."""
    group = words("guest") | words("family") | words("children")
    _, rest = take_titles([word for word in part if not word.startswith("⟨")])
    if rest and all(fold(word) in group for word in rest):
        return []
    return take_endings(rest, after_comma=False)[0]


def _is_initial(word: str) -> bool:
    return len(word.rstrip(".")) == 1


def _looks_like_family(head: list[str]) -> bool:
    """One word, or particles and one word: a family name before a comma."""
    if (
        not head
        or any(joins(token) or token.startswith("⟨") for token in head)
        or take_titles(list(head))[0]
    ):
        return False
    return len(head) == 1 or all(fold(word) in words("particle") for word in head[:-1])


def _ends_in_full_name(tail: list[str]) -> bool:
    """Single names, joined, of which only the last has a second one behind it.

    "Linnet, Sorrel and Corwin Wexcombe" lists three; "Wexcombe, Tobias and Odile Ann" two.
    So do "Linnet, Sorrel and baby Corwin Wexcombe" and "… and Corwin Jr. Wexcombe".
    """
    people = _people(tail)
    last = people[-1][1]
    own = [word for word in _names_in(last) if fold(word) not in _BESIDE_NAMES]
    own = [word for word in own if fold(word) not in words("children") | words("suffix")]
    if len(people) < 2 or len(own) != _OWN_NAME or _is_initial(last[-1]):  # noqa: PLR2004
        return False
    return not take_titles(list(last))[0] and _bare_list(tail[: -len(last) - 1])


def _bare_list(tail: list[str]) -> bool:
    """True for single words joined by "and": given names behind a family name, or a plain list."""
    turns = (
        joins(token) != (place % 2 == 0) or token.startswith("⟨")
        for place, token in enumerate(tail)
    )
    return bool(tail) and all(turns) and not take_titles(list(tail))[0]
