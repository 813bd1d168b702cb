"""Children whom a note names: “kids: Nell, Bram” beside a family."""

import re

from addressing.guestlist.people.vocabulary import may_be_given

_NAME = r"[^\W\d_a-z][\w'’-]+"
_AGED = rf"{_NAME}(?:\s*\(\s*\d{{1,2}}\s*\)|\s+\d{{1,2}}(?!\w))?"
_NAMES = rf"{_AGED}(?:\s*(?:,|&|\+|\band\b)\s*(?:and\s+)?{_AGED})*"
_KIDS = re.compile(
    r"(?:^|[.;,(\n]\s*)(?:(?:the|their|her|his|our)\s+)?"
    r"(?i:kids?|children|sons?|daughters?|twins|triplets)"
    rf"(?P<joint>\s*[:=]\s*|\s+(?:are|is|named)\s+|\s+)(?P<names>{_NAMES})\s*(?=[.;)\n]|$)"
)


def children_named(note: str) -> str:
    """The names of children in a note, as it has them; "" where it names none.

    One of them is a known given name, without a colon or an "are" the first: "Kids Menu" names
    nobody, nor does "Kids: Chicken, Pasta".

    >>> [children_named(note) for note in ("kids: Nell, Bram", "Kids Menu", "kids: vegan")]
    ['Nell, Bram', '', '']
    """
    found = _KIDS.search(note)
    if found is None:
        return ""
    names = re.findall(_NAME, found["names"])
    known = map(may_be_given, names if found["joint"].strip() else names[:1])
    return found["names"] if any(known) else ""
