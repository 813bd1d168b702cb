"""Who sent a mail, and which block below its closing is the sender's own address."""

import re
from collections.abc import Container, Sequence
from dataclasses import replace

from addressing.guestlist.files.mail_lines import Line, is_name, is_place, is_town, without_brackets
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import words as kind_of_words

_STAMP = re.compile(
    r"\d{1,2}[/.-]\d{1,2}(?:[/.-]\d{2,4})?\s*[-–—:,]?\s*(?P<name>[^\W\d_a-z]\w+)\s*[-–—:]\s+(?=\S)"
)
_NAMES = 2
"""Words with which a mail is signed at most."""
_LONGEST = 8
"""Lines of a signature at most."""


def sender_of(lines: Sequence[Line]) -> str:
    """Whom the head of the mail names as its sender, "" without one; not the mail's address."""
    heads = (line.text.partition(":") for line in lines)
    named = next((said for head, colon, said in heads if colon and fold(head) == "from"), "")
    return " ".join(re.sub(r"<[^<>]*>|\S*@\S*", " ", named).split())


def is_lone_name(block: Sequence[Line], sender: str = "") -> bool:
    """True for "– Odile Orr", "Odile", or the sender's name by itself: no guest is listed so."""
    line = block[0]
    words = line.text.split()
    dashed = line.raw.lstrip()[:1] in "-–—~" if line.opens else False
    longest = _NAMES if dashed or _name_words(line.text) <= _name_words(sender) else 1
    named = 0 < len(words) <= longest and all(word.isalpha() and word.istitle() for word in words)
    return len(block) == 1 and (dashed or not line.opens) and named and is_name(line.text)


def without_stamps(lines: Sequence[Line], sender: str) -> list[Line]:
    """The lines without the date and the writer's own name before them: "5/1 – Odile – strike 12".

    The writer is known from the head of the mail, from the signature, or by several such lines.
    """
    names = [fold(found["name"]) for line in lines if (found := _STAMP.match(line.text))]
    if not names:
        return list(lines)
    signed = {fold(line.text) for line in lines if is_lone_name([line])}
    writers = signed | set(fold(sender).split()[:1]) | {n for n in names if names.count(n) > 1}
    return [_without_stamp(line, writers) for line in lines]


def _without_stamp(line: Line, writers: Container[str]) -> Line:
    found = _STAMP.match(line.text)
    known = found is not None and fold(found["name"]) in writers
    return replace(line, text=line.text[found.end() :]) if found is not None and known else line


def signs(block: Sequence[Line], signed: tuple[Line, ...] | None, sender: str) -> bool:
    """True for a block just behind a closing that goes on with the signature.

    `signed` are the names below the closing itself, None where no closing stands there; behind
    one that is signed only the sender's own name begins a block of the signature.
    """
    if signed is None or len(block) > _LONGEST:
        return False
    first = _name_words(block[0].text)
    names = (line.text for line in signed if not any(map(str.isdecimal, line.text)))
    own = [_name_words(" ".join(names)), _name_words(sender)]
    return not signed or any(words and words <= first for words in own)


def ends_home(block: Sequence[Line]) -> bool:
    """True for a name with an address below it, to the town."""
    below = [line.text for line in block[1:]]
    return any(map(is_place, below)) and any(map(is_town, below))


def said_in_one(block: Sequence[Line]) -> Line:
    """A block as one line, as it is quoted."""
    return replace(block[0], text=", ".join(line.text.strip(" ,") for line in block))


def _name_words(text: str) -> frozenset[str]:
    words = fold(without_brackets(text)).split()
    return frozenset(word for word in words if word not in kind_of_words("and"))
