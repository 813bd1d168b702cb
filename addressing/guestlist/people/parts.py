"""A cell of names cut at what joins people: parts, each with its titles, names and endings."""

import re
from dataclasses import dataclass, replace

from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import (
    GLUE,
    NameParts,
    known_title,
    take_endings,
    take_inner_suffix,
    take_titles,
)
from addressing.guestlist.people.preparing import (
    joints_between,
    paired_titles,
    parted_titles,
    titles_first,
    with_titles_beside,
)
from addressing.guestlist.people.turning import is_ending, joins, turn
from addressing.guestlist.people.vocabulary import Title, may_be_given, meanings, words
from addressing.records.guests import Kind

_COUNTED = re.compile(
    r"(?:\+|&|\band\b|\bplus\b|\bw/)?\s*\+?\s*(?:\b(?:their|his|her|our|the)\s+)?\b(\d|one|two|three|four|five|a)\s+"
    r"(guests?|kids?|children|child|kiddos|sons?|daughters?)\b",
    re.IGNORECASE,
)
_PLUS = re.compile(
    r"(?:&|\band\b|,)?\s*(?:(?<!⟨)\+|\bplus\b)[\s-]*(\d{1,2}|one|two|three)\b(?![\w'])"
    r"(?:\s+(?:guests?|tb[acd])\b)?",
    re.IGNORECASE,
)
_Y_FAMILY = re.compile(r"\by\s+(?=familia\b)", re.IGNORECASE)
"""Elsewhere y parts nobody: it stands inside family names ("Ruiz y Larkmoor")."""
_NAMED_KIDS = re.compile(
    r"\b(?:(?:\d|one|two|three|four|five)\s+(?:kids?|children)\s*[:(–-]"
    r"|(?:their|our|his|her)\s+(?:kids|children|sons|daughters)\s*[,:])\s*(?=\S)"
    r"|\b(?:\d|one|two|three|four|five)\s+(?:kids?|children)\s+(?-i:(?=[A-ZÀ-Ý][\w'’-]))",
    re.IGNORECASE,
)
_TOKEN = re.compile(r"⟨[^⟩]*⟩|\bw/(?!o\b)|\bw/o\b|[&+/;,\n]|[^\s&+/;,⟨⟩]+")
_OUR_ARTICLES = frozenset(("the", "his", "her", "their", "our"))
_THEIR_ARTICLES = frozenset(
    ("s", "sa", "su", "sus", "ses", "leurs", "seine", "seiner", "ihre", "ihrem", "ihren")
)
"""Those of other tongues may be names and initials: "S. Karen Moss", "Su Lin Moss"."""
_ARTICLES = _OUR_ARTICLES | _THEIR_ARTICLES | {"a"}


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
    partner: bool = False
    """True when the cell calls the person wife, husband, fiancé of the one before."""


def cut(text: str, *, family_first: bool | None) -> tuple[tuple[Part, ...], tuple[Doubt, ...]]:
    """The parts of a cell, and whether the order of names in it is in doubt."""
    text = _NAMED_KIDS.sub("kids ", _Y_FAMILY.sub("& ", text))
    text = _COUNTED.sub(_counted, text)
    text = _PLUS.sub(lambda found: f" ⟨+{_number(found[1])}⟩ ", text)
    tokens = joints_between(parted_titles(_TOKEN.findall(text)))
    tokens = titles_first(paired_titles(tokens))
    if family_first is None:
        return _gather(tokens), ()
    turned = turn(tokens, trusted=family_first)
    doubt = Doubt("name-order-doubtful", text.replace(GLUE, " "))
    return _gather(list(turned.tokens)), (doubt,) if turned.doubtful else ()


def without_counts(text: str) -> str:
    """The text without "+2", "3 kids" and marked nicknames, for a look at what is left."""
    return re.sub(r"⟨[^⟩]*⟩", "", _PLUS.sub("", _COUNTED.sub("", text)))


def _number(word: str) -> int:
    return int(meanings("number").get(fold(word), word))


def _counted(found: re.Match[str]) -> str:
    sign = "+" if fold(found[2]).startswith("guest") else "*"
    return f" ⟨{sign}{_number(found[1])}⟩ "


def _gather(tokens: list[str]) -> tuple[Part, ...]:
    """Cut the tokens at their joints; suffixes behind a comma go to the part before."""
    parts: list[Part] = []
    joint = ""
    current: list[str] = []
    for word in [*tokens, ""]:
        if word and not joins(word):
            current.append(word)
            continue
        if current:
            _add(parts, current, joint)
            joint, current = "", []
        joint = _joint(word, joint)
    followed = zip(parts, (*parts[1:], None), strict=False)
    return tuple(_given_for_title(part, behind) for part, behind in followed)


def _given_for_title(part: Part, behind: Part | None) -> Part:
    """The Dean of "Dean & Susan Penhew", who is no dean: a name, and a given name goes on.

    A title that is a name too stays one before another title ("Dean and Mrs. Walter Penhew").
    """
    titles, names = part.names.titles, part.names.names
    title = titles[0] if len(titles) == 1 and not names else None
    if not isinstance(title, Title) or not title.also_a_name or not may_be_given(title.canonical):
        return part
    named = behind.names if behind is not None and behind.kind is Kind.NAMED else NameParts()
    goes_on = bool(named.names) and not named.titles and may_be_given(named.names[0])
    given = replace(part.names, titles=(), names=(title.canonical,))
    return replace(part, names=given) if goes_on else part


def _joint(word: str, before: str) -> str:
    """The joint of the next part; "and" wins over the comma before it."""
    if word in ("/", ";", ",", "\n"):
        return before or word
    return "and" if word else before


def _add(parts: list[Part], tokens: list[str], joint: str) -> None:
    """One part's tokens become a Part, or the ending of the one before."""
    counted = [token for token in tokens if token.startswith(("⟨+", "⟨*"))]
    tokens = [token for token in tokens if not token.startswith(("⟨+", "⟨*"))]
    if tokens and joint == "," and parts and is_ending(tokens):
        _hang_ending(parts, tokens)
    elif tokens:
        parts.append(_among_children(_part(tokens, joint), parts))
    for token in counted:
        kind = Kind.GUEST if token[1] == "+" else Kind.CHILD
        parts.append(Part(NameParts(), "and", kind, int(token[2:-1])))


def _among_children(part: Part, before: list[Part]) -> Part:
    """Names that go on behind "kids Ned" are children too."""
    last = before[-1] if before else None
    follows = last is not None and last.kind is Kind.CHILD and bool(last.names.names)
    alone = len(part.names.names) == 1 and not part.names.titles
    return replace(part, kind=Kind.CHILD) if follows and alone else part


def _hang_ending(parts: list[Part], tokens: list[str]) -> None:
    """Hang a suffix or credentials on the last person read."""
    plain = [token[2:-1] if token.startswith("⟨%") else token for token in tokens]
    _, suffix, credentials = take_endings(plain, after_comma=True)
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
    called = next((mark[1:-1] for mark in marks if mark[1] not in "#%="), None)
    folded = [fold(word) for word in plain]
    group = _group_kind([word for word in folded if word not in _ARTICLES])
    if group is Kind.GUEST and called:
        return Part(NameParts(names=tuple(called.split())), joint, partner=True)  # "wife (Nell)"
    if group is not None:
        letters = tuple(mark[2:-1] for mark in marks if mark.startswith("⟨%"))
        is_family = group is Kind.CHILD
        family = " ".join(plain) if is_family else None
        return Part(NameParts(credentials=letters), joint, group, 1, family)
    if _is_guest_of(folded, plain):
        return Part(NameParts(), joint, Kind.GUEST)
    kind, plain = _relation(plain)
    found, rest = with_titles_beside(*take_titles(plain), marks)
    rest, suffix, credentials = take_endings(rest, after_comma=False, titled=bool(found))
    rest, suffix = (rest, suffix) if suffix else take_inner_suffix(rest)
    credentials += tuple(mark[2:-1] for mark in marks if mark.startswith("⟨%"))
    ages = [mark[2:-1] for mark in marks if mark.startswith("⟨#")]
    age = next((int(said) for said in ages if said.isdecimal()), None)
    kind = Kind.CHILD if ages and age is None else kind
    if not rest and called and not found:
        rest, called = called.split(), None  # a whole name in quotes
    names = NameParts(found, tuple(rest), suffix, credentials, called, age)
    partner = len(folded) > 1 and any(word in words("guest") for word in folded[:2])
    return Part(names, joint, kind, partner=partner)


def _is_guest_of(folded: list[str], plain: list[str]) -> bool:
    """True for "Guest of Bram Penhew", "Bram's plus one", "Plus One (Bram)"."""
    guest = words("guest")
    of = len(folded) > 1 and folded[0] in guest and folded[1] in ("of", "for")
    owner = plain[-2] if len(plain) > 1 else ""
    theirs = bool(folded) and folded[-1] in guest and owner.endswith(("'s", "’s", "s'", "s’"))
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


def _is_article(plain: list[str]) -> bool:
    """True for "his" before any word, for "su" and "s" only before a word for somebody."""
    said, behind = fold(plain[0]), fold(plain[1])
    led = behind in words("children") | words("guest") or known_title(plain[1]) is not None
    return said in _OUR_ARTICLES or (said in _THEIR_ARTICLES and led and "." not in plain[0])


def _relation(plain: list[str]) -> tuple[Kind, list[str]]:
    """Take "son", "kids:", "his wife" off the front of a name; a child's word makes a child.

    So "room-mate" or "friend" before a name, where only its small letters tell it from one.
    """
    kind = Kind.NAMED
    known = words("children") | words("guest")
    while len(plain) > 1 and (fold(plain[0]) in known or _is_article(plain)):
        if fold(plain[0]) == "the" or fold(plain[0].rstrip(":")) == "date":
            break
        if fold(plain[0]) in words("children"):
            kind = Kind.CHILD
        plain = plain[1:]
    told = len(plain) > 1 and plain[0].islower() and plain[1][:1].isupper()
    return kind, plain[1:] if told and fold(plain[0]) in meanings("relation") else plain
