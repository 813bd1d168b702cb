"""A cell of names cut at what joins people: parts, each with its titles, names and endings."""

import re
from dataclasses import dataclass, replace

from addressing.guestlist.folding import fold
from addressing.guestlist.names import GLUE, NameParts, take_endings, take_titles
from addressing.guestlist.vocabulary import words
from addressing.records.guests import Kind

_COUNTED = re.compile(
    r"(?:\+|&|\band\b|\bplus\b|\bw/)?\s*\+?\s*\b(\d|one|two|three|four|five|a)\s+"
    r"(guests?|kids?|children|child|kiddos|sons?|daughters?)\b",
    re.IGNORECASE,
)
_PLUS = re.compile(
    r"(?:&|\band\b|,)?\s*(?:(?<!⟨)\+|\bplus\b)[\s-]*(\d{1,2}|one|two|three)\b(?![\w'])"
    r"(?:\s+guests?\b)?",
    re.IGNORECASE,
)
_Y_FAMILY = re.compile(r"\by\s+(?=familia\b)", re.IGNORECASE)
"""Elsewhere y parts nobody: it stands inside family names ("Ruiz y Larkmoor")."""
_MONSIEUR = re.compile(r"\bM\.?(?=\s*(?:et|&|and|\+)\s*(?:Mme|Mlle|Madame)\b)")
_TOKEN = re.compile(r"⟨[^⟩]*⟩|\bw/|[&+/;,\n]|[^\s&+/;,⟨⟩]+")
_NUMBERS = {"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5}
_MARKS = ("&", "+", "/", ";", ",", "\n", "w/")
_ARTICLES = frozenset(("the", "a", "his", "her", "their", "our", "s"))


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something in a cell that only the client can say; `code` is the finding's."""

    code: str
    text: str


@dataclass(frozen=True, slots=True)
class Part:
    """One person, or a word for several, and what joined it to the part before.

    `joint` is "", "and", ",", "/", ";" or a line feed. `count` is how many companions or unnamed
    children are meant; `family_word` is what was written for unnamed family.
    """

    names: NameParts
    joint: str = ""
    kind: Kind = Kind.NAMED
    count: int = 1
    family_word: str | None = None


def cut(text: str, *, family_first: bool | None) -> tuple[tuple[Part, ...], tuple[Doubt, ...]]:
    """The parts of a cell, and whether the order of names in it is in doubt."""
    text = _MONSIEUR.sub("Monsieur", _Y_FAMILY.sub("& ", text))
    text = _COUNTED.sub(_counted, text)
    text = _PLUS.sub(lambda found: f" ⟨+{_number(found[1])}⟩ ", text)
    tokens = _TOKEN.findall(text)
    if family_first is None:
        return _gather(tokens), ()
    tokens, doubts = _turn_family_first(tokens, trusted=family_first)
    return _gather(tokens), doubts


def without_counts(text: str) -> str:
    """The text without "+2", "3 kids" and marked nicknames, for a look at what is left."""
    return re.sub(r"⟨[^⟩]*⟩", "", _PLUS.sub("", _COUNTED.sub("", text)))


def _number(word: str) -> int:
    return _NUMBERS.get(word.casefold()) or int(word)


def _counted(found: re.Match[str]) -> str:
    sign = "+" if fold(found[2]).startswith("guest") else "*"
    return f" ⟨{sign}{_number(found[1])}⟩ "


def _turn_family_first(tokens: list[str], *, trusted: bool) -> tuple[list[str], tuple[Doubt, ...]]:
    """Turn "Wexcombe, Mr. Tobias and Odile" round: the family name goes behind the given ones."""
    if "," not in tokens:
        return tokens, ()
    comma = tokens.index(",")
    head, tail = tokens[:comma], tokens[comma + 1 :]
    if not _looks_like_family(head) or not tail or _is_ending(tail):
        return tokens, ()
    ending: list[str] = []
    if "," in tail:
        second = tail.index(",")
        if not _is_ending(tail[second + 1 :]):
            return tokens, ()
        tail, ending = tail[:second], tail[second:]
    doubt = Doubt("name-order-doubtful", f"{' '.join(head)}, {' '.join(tail)}")
    if _ends_in_full_name(tail):
        # "Linnet, Sorrel and Corwin Wexcombe" lists three; "Wexcombe, Tobias and Odile Ann" two.
        return (_behind(tail, GLUE.join(head)) + ending if trusted else tokens), (doubt,)
    sure = trusted or not _bare_list(tail)
    return [*_behind(tail, GLUE.join(head)), *ending], () if sure else (doubt,)


def _ends_in_full_name(tail: list[str]) -> bool:
    """True for single names, joined, of which only the last has a second one behind it."""
    joints = [place for place, token in enumerate(tail) if _joins(token)]
    last = tail[joints[-1] + 1 :] if joints else []
    if len(last) != 2 or last[1].startswith("⟨") or len(last[1].rstrip(".")) == 1:  # noqa: PLR2004
        return False
    group = words("guest") | words("family") | words("children")
    if any(fold(word) in group for word in last) or take_titles(list(last))[0]:
        return False
    return _bare_list(tail[: joints[-1]])


def _bare_list(tail: list[str]) -> bool:
    """True for single words joined by "and": given names behind a family name, or a plain list."""
    return (
        bool(tail)
        and all(
            _joins(token) != (place % 2 == 0) or token.startswith("⟨")
            for place, token in enumerate(tail)
        )
        and not take_titles(list(tail))[0]
    )


def _behind(tail: list[str], family: str) -> list[str]:
    """Put the family name behind the last given name, before "and Guest", "+1", "& kids"."""
    end = len(tail)
    group = words("guest") | words("family") | words("children") | words("and")
    while end > 1 and (
        tail[end - 1].startswith(("⟨+", "⟨*"))
        or tail[end - 1] in _MARKS
        or fold(tail[end - 1]) in group
    ):
        end -= 1
    return [*tail[:end], family, *tail[end:]]


def _looks_like_family(head: list[str]) -> bool:
    """One word, or particles and one word: a family name before a comma."""
    if not head or any(_joins(token) for token in head) or take_titles(list(head))[0]:
        return False
    return len(head) == 1 or all(fold(word) in words("particle") for word in head[:-1])


def _is_ending(tokens: list[str]) -> bool:
    """True when the words behind a comma, up to the next joint, are a suffix or credentials."""
    upto = next((i for i, word in enumerate(tokens) if _joins(word) and word != ","), len(tokens))
    here = [word for word in tokens[:upto] if word.strip(",")]
    return bool(here) and not take_endings(here, after_comma=True)[0]


def _joins(token: str) -> bool:
    return token in _MARKS or (fold(token) in words("and") and len(token.strip(".")) > 1)


def _gather(tokens: list[str]) -> tuple[Part, ...]:
    """Cut the tokens at their joints; suffixes behind a comma go to the part before."""
    parts: list[Part] = []
    joint = ""
    current: list[str] = []
    for word in [*tokens, ""]:
        if word and not _joins(word):
            current.append(word)
            continue
        if current:
            _add(parts, current, joint)
            joint, current = "", []
        joint = _joint(word, joint)
    return tuple(parts)


def _joint(word: str, before: str) -> str:
    """The joint of the next part; "and" wins over the comma before it."""
    if word in ("/", ";", ",", "\n"):
        return before or word
    return "and" if word else before


def _add(parts: list[Part], tokens: list[str], joint: str) -> None:
    """One part's tokens become a Part, or the ending of the one before."""
    counted = [token for token in tokens if token.startswith(("⟨+", "⟨*"))]
    tokens = [token for token in tokens if not token.startswith(("⟨+", "⟨*"))]
    if tokens and joint == "," and parts and _is_ending(tokens):
        _hang_ending(parts, tokens)
    elif tokens:
        parts.append(_part(tokens, joint))
    for token in counted:
        kind = Kind.GUEST if token[1] == "+" else Kind.CHILD
        parts.append(Part(NameParts(), "and", kind, int(token[2:-1])))


def _hang_ending(parts: list[Part], tokens: list[str]) -> None:
    """Hang a suffix or credentials on the last person read."""
    _, suffix, credentials = take_endings(list(tokens), after_comma=True)
    names = parts[-1].names
    parts[-1] = replace(
        parts[-1],
        names=replace(
            names, suffix=suffix or names.suffix, credentials=names.credentials + credentials
        ),
    )


def _part(tokens: list[str], joint: str) -> Part:
    marks = [token for token in tokens if token.startswith("⟨")]
    plain = [token for token in tokens if not token.startswith("⟨")]
    folded = [fold(word) for word in plain]
    group = _group_kind([word for word in folded if word not in _ARTICLES])
    if group is not None:
        is_family = group is Kind.CHILD
        return Part(NameParts(), joint, group, 1, " ".join(plain) if is_family else None)
    if _is_guest_of(folded, plain):
        return Part(NameParts(), joint, Kind.GUEST)
    kind, plain = _relation(plain)
    found, rest = take_titles(plain)
    rest, suffix, credentials = take_endings(rest, after_comma=False)
    age = next((int(mark[2:-1]) for mark in marks if mark.startswith("⟨#")), None)
    nickname = next((mark[1:-1] for mark in marks if not mark.startswith("⟨#")), None)
    return Part(NameParts(found, tuple(rest), suffix, credentials, nickname, age), joint, kind)


def _is_guest_of(folded: list[str], plain: list[str]) -> bool:
    """True for "Guest of Bram Penhew", "Bram's plus one", "Plus One (Bram)"."""
    guest = words("guest")
    of = len(folded) > 1 and folded[0] in guest and folded[1] in ("of", "for")
    owner = plain[-2] if len(plain) > 1 else ""
    theirs = folded[-1] in guest and owner.endswith(("'s", "’s", "s'", "s’"))
    return of or theirs


def _group_kind(folded: list[str]) -> Kind | None:
    """CHILD for unnamed family or children, GUEST for a companion, None when there is a name."""
    if not folded:
        return None
    if all(word in words("family") | words("children") for word in folded):
        return Kind.CHILD
    if all(word in words("guest") for word in folded):
        return Kind.GUEST
    return None


def _relation(plain: list[str]) -> tuple[Kind, list[str]]:
    """Take "son", "kids:", "his wife" off the front of a name; a child's word makes a child."""
    kind = Kind.NAMED
    known = words("children") | words("guest")
    while len(plain) > 1 and (fold(plain[0]) in known or fold(plain[0]) in _ARTICLES - {"a"}):
        if fold(plain[0]) == "the" or fold(plain[0].rstrip(":")) == "date":
            break
        if fold(plain[0]) in words("children"):
            kind = Kind.CHILD
        plain = plain[1:]
    return kind, plain
