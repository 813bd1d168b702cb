"""Households that stand behind each other in one line, a semicolon or a stop between them."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line

_BETWEEN = re.compile(r"(?<=\d{5})\s*[;.]\s+(?=[^\W\d_a-z])")
"""Behind a ZIP code, before a capital."""


def apart(lines: Sequence[Line]) -> list[Line]:
    """The lines, those of several households and nothing else with a line for each.

    >>> line = Line(1, "Kit Orr, 9 Elm St, Bath ME 04530; Ada Bell, 4 Oak St, Bath ME 04530")
    >>> [each.text[:8] for each in apart([line])]
    ['Kit Orr,', 'Ada Bell']
    """
    return [part for line in lines for part in _parts(line)]


def _parts(line: Line) -> Iterator[Line]:
    texts = _BETWEEN.split(line.text)
    if len(texts) > 1 and all(entry_of(text) is not None for text in texts):
        yield from (replace(line, text=text, opens=True) for text in texts)
    else:
        yield line
