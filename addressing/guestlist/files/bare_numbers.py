"""Numbers before the households of a text with nothing behind them: "1 Kit Orr, 9 Elm St, …".

Alone they could be a house's; where they count on from line to line, each before names and an
address, they number a list as "1." does.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.files.entries import entry_of
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.small_letters import with_capitals

_NUMBER = re.compile(r"(?P<number>\d{1,3})\s+(?P<rest>[^\W\d_].*)")
_FEWEST = 3


def with_bare_numbers(lines: Sequence[Line]) -> list[Line]:
    """The lines, those of a list that is numbered so as if a point stood behind each number.

    >>> homes = [Line(at, f"{at} Kit Orr, 9 Elm St, Bath ME 04530") for at in (1, 2, 3)]
    >>> with_bare_numbers(homes)[1].raw, with_bare_numbers(homes[:2]) == homes[:2]
    ('2. Kit Orr, 9 Elm St, Bath ME 04530', True)
    """
    found = [(line, match) for line in lines if (match := _NUMBER.fullmatch(line.text))]
    homes = {
        line.number: match for line, match in found if not line.opens and _is_home(match["rest"])
    }
    counted = [int(match["number"]) for match in homes.values()]
    if len(homes) < _FEWEST or counted != list(range(counted[0], counted[0] + len(counted))):
        return list(lines)
    return [_opened(line, homes[line.number]) if line.number in homes else line for line in lines]


def _is_home(rest: str) -> bool:
    return entry_of(with_capitals([Line(1, rest)])[0].text) is not None


def _opened(line: Line, match: re.Match[str]) -> Line:
    raw = f"{match['number']}. {match['rest']}"
    return replace(line, text=match["rest"], opens=True, raw=raw)
