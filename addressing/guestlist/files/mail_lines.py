"""What a line of pasted text is: part of a mail, an address, a name, a remark, a labelled value."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import may_be_given
from addressing.guestlist.people.vocabulary import words as kind_of_words
from addressing.guestlist.tables.contents import kind_of_text
from addressing.guestlist.tables.headings import says_whose
from addressing.guestlist.tables.meanings import Hit, exact_meaning, fold, signs
from addressing.guestlist.tables.totals import sums_the_list
from addressing.tables import table

_QUOTED = re.compile(r"^(?:[ \t]*>)+[ \t]?")
_BULLET = re.compile(
    r"^[ \t]*(?:-{1,3}|[*+•·–▪◦‣●○✓✔☐☑]|\(?\d{1,3}[.)](?! ?\d{3}[-. ]\d{4})|\[[ xX]?\])[ \t]+(?=\S)"
)
"""A bullet or a number, not that of a telephone: "(860) 555-0134"."""
_STAMP = re.compile(
    r"\[?\d{1,4}[/.-]\d{1,2}[/.-]\d{2,4},? \d{1,2}:\d{2}(?::\d{2})?(?:\s?[AaPp]\.?[Mm]\.?)?\]?"
    r"(?:\s*[-–])?\s+[^:\n]{1,40}:\s+(?=\S)"
)
"""What a telephone puts before a message: date, time, sender."""
_RULE = re.compile(r"[-=_*~#+|:. ]{3,}")
_INTRO = re.compile(
    r".*\b(?:wrote|writes|schrieb|a écrit|escribió|ha scritto|schreef|escreveu)\b.*:"
)
_LABEL = re.compile(r"([^\W\d][\w .’'/&-]{1,28}?)[ \t]*:[ \t]*(\S.*)")
_BRACKETS = re.compile(r"[(\[][^()\[\]]*[)\]]")
_POSTSCRIPT = re.compile(r"(?:p\.? ?)+s\b[.:]?\s*(?:\d[:.)]\s+)?", re.IGNORECASE)
_ROUND = re.compile(r"[(\[].*[)\]]")
_POSTCODE = r"(?:\d{5}(?:-\d{4})?|[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}|[A-Z]\d[A-Z] ?\d[A-Z]\d)"
_ENDS_IN_PLACE = re.compile(
    rf".*[^\W\d]{{2,}}[.,]*[ ,]+(?:[A-Z]{{2,3}}|[A-Z][\w.]+)?[ ,]*{_POSTCODE}(?:[ ,]+[^\d]+)?"
    rf"|(?:[A-Z]{{1,2}}-)?\d{{4,5}}(?: [A-Z]{{2}})? [^\d]{{2,}}",
)
_CODE_LINE = re.compile(r"[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}|[A-Z]\d[A-Z] ?\d[A-Z]\d")
"""A postcode with letters, alone on its line."""
_STREETS = frozenset(("street", "address", "place"))
_TOWNS = frozenset(("address", "place"))
_ENDS = re.compile(r"(?<![JS]r)(?<!\.[A-Z])[.!?]$")
_SMALL_END = re.compile(r"\b[a-zà-ÿ]{3,}[.!]$")
_TELLS = re.compile(r"\b[A-Z][\w'’-]*\s+[a-z]{3,}ed\b")
"""A name and what its bearer did: "the Penhews downsized"."""
_INNER_STOP = re.compile(r"([^\W\d_]+)(?:[!?]+|(?<=[a-zà-ÿ]{4})\.)\s+(?=[^\W\d_])")
_COUNTED = re.compile(r"\b\d\s+([^\W\d_]+)")
_PLUS = re.compile(r"\s*(?:\+|\bplus)\s*[1-9]\s*$", re.IGNORECASE)
"""Companions by number behind a name."""
_CALLED = re.compile(r"[^\W\d_]{1,6}[.:]{1,2}\s*(?=[+(\d])")
"""What stands before a telephone number: "H:", "cell:", "tel."."""
_CHANGES = re.compile(r"\s(?:[-=]+>|→|=)\s")
"""Between what is listed and what it should be: "The Penhews -> Mr. Penhew"."""
_FAMILY = re.compile(r"[Tt]he [^\W\d_a-z][\w-]+s")
_SAID = re.compile(r"\s+[-–—]+\s+")
"""Between names and what is said of them."""
GREETING, SENTENCE = "a greeting", "a sentence"
_LONGEST_GREETING = 60
_GREETING_WORDS = 4
_SENTENCE_WORDS = 4
_SHORTEST_LETTER = 8
"""Words of a mail in one cell at most that are none yet."""
_LONGEST_NAME = 12
"""Words; a longer line is a sentence."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of pasted text: its number in the file, its words, and whether a bullet opens it."""

    number: int
    text: str
    opens: bool = False
    raw: str = ""
    """As typed but for quote marks: a table's columns are told by its blanks and tabs."""
    more: tuple["Line", ...] = ()
    """The lines that were broken off it, already joined to `text`."""

    @property
    def indent(self) -> int:
        """How many blanks stand before its words; a tab counts as up to eight."""
        wide = self.raw.expandtabs()
        return len(wide) - len(wide.lstrip())


def cleaned(number: int, raw: str) -> Line:
    """A line without what isn't the guest's: quote marks, bullets, numbers, who texted it when."""
    text = _QUOTED.sub("", raw)
    bare = _BULLET.sub("", text, count=1)
    bare = _STAMP.sub("", bare, count=1)
    return Line(number, bare.strip(), opens=bare != text, raw=text.rstrip())


@cache
def _words(kind: str) -> tuple[str, ...]:
    return tuple(row["word"] for row in table("mail_words") if row["kind"] == kind)


def why_no_guest(line: Line) -> str | None:
    """What a line of a mail is that can hold no guest; None where it may hold one."""
    folded = fold(line.text)
    head, colon, _ = line.text.partition(":")
    tests = (
        ("a ruled line", _is_ruled(line.text)),
        ("the head of a mail", bool(colon) and fold(head) in _words("head")),
        ("the opening of a quoted mail", _INTRO.fullmatch(line.text) is not None),
        ("the opening of a quoted mail", begins(folded, "quoting")),
        ("the foot of a mail", begins(folded, "footer")),
        (GREETING, begins(folded, "greeting") and _is_short(line.text)),
        ("a heading", says_whose(line.text) or sums_the_list(line.text)),
        (SENTENCE, _says_nobody(line.text)),
    )
    return next((why for why, holds in tests if holds), None)


def _is_ruled(text: str) -> bool:
    """True for marks without a word; a question mark asks."""
    return not (fold(text) or "?" in text) or _RULE.fullmatch(text) is not None


def is_postscript(text: str) -> bool:
    """True for a line that begins with PS."""
    return _POSTSCRIPT.match(text) is not None


def after_postscript(text: str) -> str:
    """A text without the PS, P.P.S. and so on that it begins with."""
    found = _POSTSCRIPT.match(text)
    return text[found.end() :] if found is not None else text


def closes(line: Line) -> bool:
    """True for the line that ends a mail; what follows is its signature."""
    if line.text == "--":
        return True
    folded = fold(line.text)
    sole = folded in _words("closing")
    told = line.text[-1:] in ",!." or any(" " in word for word in _begun(folded, "closing"))
    return sole or (begins(folded, "closing") and told and _is_short(line.text))


def opens_or_closes(sentence: str) -> bool:
    """True for a greeting or a closing with hardly a word beside it: "Hi Odile!", "xx Bea".

    >>> [opens_or_closes(each) for each in ("Hi Odile!", "Love, B.", "Thanks for the Penhews too")]
    [True, True, False]
    """
    folded = fold(sentence)
    short = len(folded.split()) <= _GREETING_WORDS
    return short and (begins(folded, "greeting") or begins(folded, "closing"))


def is_courtesy(sentence: str) -> bool:
    """True for thanks and the like beside answers: nobody is named and nothing is wished.

    >>> [is_courtesy(each) for each in ("And thank you for all this!", "Thanks, add my aunt")]
    [True, False]
    >>> is_courtesy("Thanks so much, talk soon!")
    True
    """
    bare = _ALSO.sub("", sentence.strip())
    parts = re.split(r",\s+", bare)
    if len(parts) == _TWO_WISHES and all(
        any(begins(fold(part), k) for k in _POLITE) for part in parts
    ):
        return all(map(is_courtesy, parts))
    folded = fold(bare)
    _, *words = bare.split() or [""]
    plain = not any(mark.isdecimal() or mark in ",;:" for mark in bare.rstrip(",;:"))
    plain = plain and not any(fold(word) in WISHES for word in words)
    plain = plain and not any(word[:1].isupper() and len(word) > 1 for word in words)
    return not folded or (plain and any(begins(folded, kind) for kind in _POLITE))


_ALSO = re.compile(r"^(?:(?:and|ps|p\.s\.)\W+)+", re.IGNORECASE)
_TWO_WISHES = 2
_POLITE = ("greeting", "closing", "courtesy")
WISHES = frozenset(("please", "but", "add", "also", "except", "and"))
"""Words behind which more is said than thanks."""


def is_letter(text: str) -> bool:
    """True for a whole mail in one cell: a greeting, and sentences behind it.

    >>> is_letter("Hi Odile, our address is 9 Mill Row, Litchfield. Thanks!")
    True
    >>> is_letter("Hilda Penhew, 9 Mill Row, Litchfield, CT 06759, she is in Apt 4")
    False
    """
    if text[:2].casefold() not in _greeted() or len(text.split()) <= _SHORTEST_LETTER:
        return False
    return begins(fold(text), "greeting") and has_verb(text)


@cache
def _greeted() -> frozenset[str]:
    """The first two letters of every greeting."""
    return frozenset(word[:2] for word in _words("greeting"))


def _says_nobody(text: str) -> bool:
    """True for a sentence without a number and without a capital behind its first word."""
    words = text.split()
    plain = all(word[:1].islower() or word in ("I", "I’m", "I'm") for word in words[1:])
    titled = known_title(words[0]) is not None  # "mr and mrs tobias penhew"
    numbered = any(mark.isdecimal() for mark in text)
    return len(words) >= _SENTENCE_WORDS and plain and not numbered and not titled


def begins(folded: str, kind: str) -> bool:
    """True for folded words that open with a word of a kind in `mail_words.tsv`."""
    return next(_begun(folded, kind), None) is not None


def _begun(folded: str, kind: str) -> Iterator[str]:
    """The words of a kind with which a line begins."""
    return (word for word in _words(kind) if folded == word or folded.startswith(f"{word} "))


def _is_short(text: str) -> bool:
    plain = len(text) <= _LONGEST_GREETING and not any(mark.isdecimal() for mark in text)
    return plain and kind_of_text(text) not in _STREETS


def labelled(line: Line) -> tuple[Hit, str] | None:
    """The meaning and the value of "Address: 14 Larkmoor Lane"; None for a line without label."""
    match = _LABEL.fullmatch(line.text)
    hit = exact_meaning(match[1]) if match else None
    return (hit, match[2]) if match and hit else None


def is_place(text: str) -> bool:
    """True for a line that begins with a number or a box, or ends in a town with its code."""
    return kind_of_text(text) in _STREETS or _ends_in_place(text)


def is_town(text: str) -> bool:
    """True for a line with which an address ends: a town with its code."""
    return kind_of_text(text) in _TOWNS or _ends_in_place(text)


def _ends_in_place(text: str) -> bool:
    return any(way.fullmatch(text) is not None for way in (_ENDS_IN_PLACE, _CODE_LINE))


def is_aside(text: str) -> bool:
    """True for a remark in brackets, an e-mail address, a telephone number."""
    bare = _CALLED.sub("", text, count=1)
    return _ROUND.fullmatch(text) is not None or kind_of_text(bare) in {"email", "phone"}


def without_brackets(text: str) -> str:
    """The words outside brackets: an age or a remark inside makes no name less of one."""
    return " ".join(_BRACKETS.sub(" ", text).split())


def has_verb(text: str) -> bool:
    """True for words of a sentence: a verb, a pronoun, a stop at the end."""
    return speaks_in_verbs(text) or _ENDS.search(text) is not None


def is_verb(word: str) -> bool:
    """True for a folded word that is a sign of a sentence where it stands in small letters."""
    return word in _words("verb")


def is_pronoun(word: str) -> bool:
    """True for a word that stands for somebody: "She", "they"."""
    return fold(word) in _words("pronoun")


@cache
def _speaking() -> re.Pattern[str]:
    verbs, pronouns = ("|".join(map(re.escape, _words(kind))) for kind in ("verb", "pronoun"))
    return re.compile(rf"\b(?:I|{verbs})\b|\b(?i:{pronouns})\b")


def speaks_in_verbs(text: str) -> bool:
    """True for words with a verb or a pronoun, whatever stands at their end."""
    return _speaking().search(text) is not None


def is_name(text: str) -> bool:
    """True for a line that may name guests: few words, none of a sentence."""
    text = _SAID.split(without_brackets(text), maxsplit=1)[0]
    text = _COUNTED.sub(
        lambda found: found[1] if fold(found[1]) in kind_of_words("children") else found[0], text
    )
    text = _PLUS.sub("", text)
    words = text.split()
    told = _TELLS.search(text) is not None or _CHANGES.search(text) is not None
    told = told or _ends_inside(text) or _commands(words)
    if not words or told or len(words) > _LONGEST_NAME or any(mark.isdecimal() for mark in text):
        return False
    if any(fold(word) in signs("name-sign") for word in words):
        return not speaks_in_verbs(text) and _SMALL_END.search(text) is None
    return (words[0][:1].isupper() or is_family(text)) and not has_verb(text)


def is_family(text: str) -> bool:
    """True for "the Penhews" and nothing else."""
    return _FAMILY.fullmatch(text) is not None


def _commands(words: list[str]) -> bool:
    """True for "Swap Kit and the Penhews": what is to be done with whoever is named behind it."""
    first, second = ((*words, "", "")[place] for place in range(2))
    known = fold(first) in _acts() and fold(first) == first.casefold() and not may_be_given(first)
    return known and (second[:1].isupper() or second == "the")


@cache
def _acts() -> frozenset[str]:
    rows = (row for row in table("list_numbers") if row["kind"] in ("act", "act-many"))
    return frozenset(row["word"].removesuffix(" …") for row in rows)


def _ends_inside(text: str) -> bool:
    """True where a sentence ends inside a line: "lost Odile!! Just him"; no title ends one."""
    return any(known_title(found[1]) is None for found in _INNER_STOP.finditer(text))


def has_title(text: str) -> bool:
    """True for a line that begins with a capital and has a title, an "and" or the like in it.

    What is said of the name behind a dash doesn't count.
    """
    text = _SAID.split(text, maxsplit=1)[0]
    return (
        text[:1].isupper()
        and text[-1:] not in "?!:"
        and any(fold(word) in signs("name-sign") for word in text.replace("&", " and ").split())
    )
