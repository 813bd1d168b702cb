"""The column of children beside the names: how many, who, how old, or that none come."""

import re
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.people.asides import phrase
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.companions import NUMBER, read_companion, unnamed
from addressing.guestlist.people.news import is_marker
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.promised import says_no
from addressing.guestlist.people.vocabulary import may_be_given, meanings, row_words, words
from addressing.records.guests import Kind, Person

_YES_CHILDREN = re.compile(
    r"^\s*(?:(?:yes|yep|yup|yeah|ja|oui)\b[\s,:;.!–—-]*|y\b\s*[,:;.!–—-]+\s*)(?=[(\w])",
    re.IGNORECASE,
)
_COUNTED_NAMES = re.compile(
    r"^\s*(?P<number>\d)\s*(?:[(:–—-]|(?:kids?|children)\b\s*[(:–—-]?)\s*(?P<names>[^)]*[^\W\d_][^)]*)\)?$"
)
_AGES_ALONE = re.compile(r"^(?:\(?\s*(?:aged?|ages)\b)[\s:]*\d[\d\s,&and]*\)?$", re.IGNORECASE)
_BETWEEN = re.compile(r"[,;&+/]|\band\b")
_MOST_COUNTED = 9
_CAPITAL = re.compile(r"\b[^\W\d_a-z][a-zà-ÿ]")
_NO_MORE = re.compile(r"\s*(?P<no>[\w/.]+)\s*(?:[-–—,;:!(]|\.\s)")
"""A no that something is said behind: "N/A - grown", "no, they are staying home"."""
_HEADED = re.compile(r"^\s*(?:the\s+)?(?:kids?|children|twins|triplets)\s*:\s*", re.IGNORECASE)
_REMARKED = re.compile(r"(\([^()]*\s[^()]*\)|\([a-z][^()]*\))\s+(?=[A-ZÀ-Ý])")
_ALL_OF = re.compile(r"^(?:all|both)?\s*(?:of\s+)?(?:the|their|our)?\s*(?=\d|two|three|four|five)")
_AGED = re.compile(
    r"(?<=[^\W\d_])(?P<before>,?[\s(–-]+)(?P<age>\d{1,2}(?:\s?(?:y/?o|yrs?|years?|mos?|months?)\b\.?"
    r"(?:\s?old)?)?)\s*\)?\s*(?=[A-ZÀ-Ý])"
)
"""An age behind a name, with the next name behind it and nothing between: "Kofi (8) Ama (5)"."""


def read_children(text: str) -> CellReading:
    """The children by their column: a number, names with or without ages, "and baby Una".

    >>> [(p.given, p.age) for p in read_children("Linnet (7), Corwin 4").people]
    [('Linnet', 7), ('Corwin', 4)]
    """
    if says_no(_without_courtesy(text)):
        return CellReading()
    if is_marker(text):
        return CellReading(remarks=(f"children {text}",) if _are_out(text) else (text,))
    if _names_no_child(text):
        return CellReading(remarks=(text,))
    text = _YES_CHILDREN.sub("", text)
    said, text = _without_others(text)
    reading = _children_of(text) if text else CellReading()
    return replace(reading, remarks=(*reading.remarks, *said)) if said else reading


def _children_of(text: str) -> CellReading:
    number = NUMBER.match(text.strip())
    counted = int(number[1]) if number and not text.strip().startswith("+") else _counted(text)
    if counted:
        return CellReading(people=unnamed(Kind.CHILD, counted))
    if _AGES_ALONE.match(text) or fold(text) in words("yes") - {"plus one", "1 guest", "1"}:
        return CellReading(family=text)
    if number or fold(text) in ("plus one", "1 guest"):
        return read_companion(text)
    return _named_children(text)


def _named_children(text: str) -> CellReading:
    """Children by name, perhaps behind their number: of "3 (Linnet, Una)" one has no name yet."""
    told = _COUNTED_NAMES.match(text)
    names = told["names"] if told else text
    if told and _AGES_ALONE.match(names):
        return CellReading(people=unnamed(Kind.CHILD, int(told["number"])), remarks=(names,))
    reading = read_people(_parted(_HEADED.sub("", names)), family_first=None)
    open_ = _is_no_name(reading) and (_says_unsure(names) or not re.search(r"\w", names))
    if open_ or _says_more_than_names(names, reading.people):
        return CellReading(doubts=(Doubt("children-noted", text.strip()),))
    people = tuple(_as_child(person) for person in _by_given_names(reading.people))
    more = int(told["number"]) - len(people) if told else 0
    people += unnamed(Kind.CHILD, max(0, more))
    doubts = tuple(d for d in reading.doubts if told is None or d.code != "surname-missing")
    return replace(reading, people=people, label=None, doubts=doubts)


def _parted(text: str) -> str:
    """The text with a comma behind each age or remark that stands right before the next name.

    >>> _parted("Linnet (8) Corwin (5)"), _parted("Linnet 8, Corwin 5"), _parted("Una-8 Kit-5")
    ('Linnet (8), Corwin (5)', 'Linnet 8, Corwin 5', 'Una (8), Kit-5')
    >>> _parted("Linnet (in college) Corwin"), _parted("Linnet (Lin) Penhew")
    ('Linnet (in college), Corwin', 'Linnet (Lin) Penhew')
    """
    return _REMARKED.sub(r"\1, ", _AGED.sub(r" (\g<age>), ", text))


def _says_more_than_names(text: str, people: tuple[Person, ...]) -> bool:
    """True where the cell isn't names alone: whom it means only the client knows.

    So for "Baby coming soon", "ask Odile", "TBD" and "Linnet + boyfriend"; a number is one.
    """
    guests = [person for person in people if person.kind is Kind.GUEST]
    if guests and len(guests) < len(people):
        return True  # whose companion is it?
    given = " ".join(person.given or person.family or "" for person in people)  # of Linnet Way one
    said = fold(text).split() if guests else given.split()
    if any(fold(word) in row_words("no-childs-name") for word in said):
        return True
    small = bool(said) and not guests and not any(mark.isupper() for mark in text)
    return small and len(said) == 1 and not may_be_given(said[0])


def _without_courtesy(text: str) -> str:
    """The words without a last "please": "No kids, please!"."""
    said = fold(text).split()
    while said and said[-1] in row_words("courtesy"):
        said.pop()
    return " ".join(said) if said else text


def _counted(text: str) -> int:
    """How many children a number and a word for them count; 0 for anything else.

    >>> [_counted(text) for text in ("two girls", "3 boys", "Linnet", "two", "3")]
    [2, 3, 0, 2, 0]
    """
    number, _, what = _ALL_OF.sub("", fold(text)).partition(" ")
    if not what and not text.strip().isdecimal():
        return int(meanings("number").get(number, "0"))
    if what not in words("children") | words("child-group"):
        return 0
    told = number if number.isdecimal() else meanings("number").get(number, "")
    return int(told) if told and int(told) <= _MOST_COUNTED else 0


def _without_others(text: str) -> tuple[tuple[str, ...], str]:
    """(parts in small letters that tell of a child to be born or of a pet, the rest of the text).

    >>> _without_others("Linnet (7), baby due in May"), _without_others("just the dog, Biscuit")
    ((('baby due in May',), 'Linnet (7)'), (('just the dog, Biscuit',), ''))
    """
    parts = [part.strip() for part in _BETWEEN.split(text)]
    said: list[str] = []
    kept: list[str] = []
    for part in parts:
        called = said and not kept and _tells(said[-1], "pet") and not _CAPITAL.search(said[-1])
        if called and part.isalpha():
            said[-1] += f", {part}"
        elif _tells_of_unborn(part) or (part[:1].islower() and _tells(part, "pet")):
            said.append(part)
        elif part:
            kept.append(part)
    return (tuple(said), ", ".join(kept)) if said else ((), text)


def _tells_of_unborn(part: str) -> bool:
    """True for "baby due in May" and "Baby on the way", not for "Linnet and Una due"."""
    small = part[:1].islower() or not _CAPITAL.search(part[1:])
    return small and _tells(part, "unborn")


def _tells(part: str, kind: str) -> bool:
    told = f" {' '.join(fold(part).split())} "
    return any(f" {said} " in told for said in row_words(kind))


def _names_no_child(text: str) -> bool:
    """True for words that name nobody: a no with a reason, "all grown", "staying with a sitter".

    >>> [_names_no_child(text) for text in ("N/A - GROWN", "with the sitter", "no, just Linnet")]
    [True, True, False]
    """
    found = _NO_MORE.match(text)
    no = found is not None and says_no(found["no"])
    said = text[found.end() :].lstrip() if found and no else text.lstrip()
    told = not row_words("no-child").isdisjoint(fold(said).split())
    return (no or told) and not _CAPITAL.search(said[1:])


def _are_out(text: str) -> bool:
    """True where a marker is said of the children alone: "not coming", "the baby stays home"."""
    rest = fold(phrase("marker").sub(" ", text)).split()
    return set(rest) <= words("children") | words("child-group") | {"the", "their", "our"}


def _by_given_names(people: tuple[Person, ...]) -> tuple[Person, ...]:
    """A child's one name behind a title is the given one, and nobody else's family name.

    >>> [(p.given, p.family) for p in read_children("Miss Linnet, Master Corwin").people]
    [('Linnet', None), ('Corwin', None)]
    """
    alone = {person.family for person in people if person.title and not person.given}
    return tuple(
        replace(person, given=person.given or person.family, family=None)
        if person.family in alone
        else person
        for person in people
    )


def _is_no_name(reading: CellReading) -> bool:
    """True for a mark, and for small letters that nobody is called: "?", "possibly", "not sure"."""
    named = [p for p in reading.people if p.kind is not Kind.GUEST]
    if not named or any(p.title for p in named):
        return False
    first = " ".join(part for part in (named[0].given, named[0].family) if part)
    if not any(mark.isalpha() for mark in first):
        return True
    return first == first.lower() and not may_be_given(first.split()[0])


def _says_unsure(text: str) -> bool:
    return not row_words("no-name").isdisjoint(fold(text).split())


def _as_child(person: Person) -> Person:
    return person if person.kind is Kind.GUEST else replace(person, kind=Kind.CHILD)
