"""Who sent a mail, and which block below its closing is the sender's own address."""

import re
from collections.abc import Sequence

from addressing.guestlist.files.mail_lines import Line, without_brackets
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import words as kind_of_words

_LONGEST = 8
"""Lines of a signature at most."""


def sender_of(lines: Sequence[Line]) -> str:
    """Whom the head of the mail names as its sender, "" without one; not the mail's address."""
    heads = (line.text.partition(":") for line in lines)
    named = next((said for head, colon, said in heads if colon and fold(head) == "from"), "")
    return " ".join(re.sub(r"<[^<>]*>|\S*@\S*", " ", named).split())


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


def _name_words(text: str) -> frozenset[str]:
    words = fold(without_brackets(text)).split()
    return frozenset(word for word in words if word not in kind_of_words("and"))
