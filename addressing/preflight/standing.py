"""Whether a level page's lines stand where they should, asked in one go.

It says yes or leaves the answer to `placing`: what it lets pass has no fault there. It is asked
of every page, so it is short; it knows the common run (lines by one edge or the middle, at the
set's own sizes and leadings) and nothing else.
"""

from collections.abc import Sequence
from math import inf

from addressing.preflight.hanging import EndsOf
from addressing.preflight.lines import DrawnLine
from addressing.preflight.placing import (
    ALIGN_SLACK,
    LEADING_SLACK,
    ROOM_SLACK,
    SIZE_SLACK,
    step_between,
)
from addressing.records.pages import Setting, hand_of
from addressing.records.pieces import Role
from addressing.records.set_lines import SetLine

_SHARES = {"left": (1.0, 0.0), "centre": (0.5, 0.5), "right": (0.0, 1.0)}
"""How much of a line's left and right end is held against as much of the room's."""


class Standing:
    """The places, sizes and distances of a set that its pieces have, where nothing is special."""

    def __init__(self, setting: Setting, ends: EndsOf | None = None) -> None:
        """Work out once what is the same for all pieces; `ends` as in `placing`."""
        self._ends = ends
        self._marks = (setting.zone.hanging or "") if ends is not None else ""
        room, second = setting.room, setting.second
        self._known = setting.zone.align in _SHARES and not setting.zone.turn
        self._by_left, self._by_right = _SHARES.get(setting.zone.align, (0.0, 0.0))
        self._axis = self._by_left * room.left + self._by_right * room.right
        self._inner = room.left - ROOM_SLACK, room.right + ROOM_SLACK
        self._low, self._high = room.bottom - ROOM_SLACK, room.top + ROOM_SLACK
        sizes = (setting.size, setting.size * (second.ratio if second is not None else 1.0))
        self._hands = {role: hand_of(role) if second is not None else 0 for role in Role}
        self._sizes = {role: sizes[hand] for role, hand in self._hands.items()}
        self._steps = {
            (one, other): setting.leading
            if second is None
            else step_between(one, other, second, setting.leading)
            for one in Role
            for other in Role
        }

    def right(self, placed: Sequence[tuple[SetLine, DrawnLine]]) -> bool:
        """True when nothing is wrong with where these lines stand; False says nothing."""
        if not self._known or not placed or self._hands[placed[0][0].role]:
            return False
        first, last = self._inner
        above: SetLine | None = None
        for line, words in placed:
            size, x, y, role = line.size, line.x, line.y, line.role
            left, right = x + words.left * size, x + words.right * size
            aside = left * self._by_left + right * self._by_right - self._axis
            if line.text[-1:] in self._marks or line.text[:1] in self._marks:
                aside = self._hung(line, words)
            if (
                line.tighter
                or not -SIZE_SLACK / 4 <= size - self._sizes[role] <= SIZE_SLACK / 4
                or left < first
                or right > last
                or y + words.bottom * size < self._low
                or y + words.top * size > self._high
                or not -ALIGN_SLACK <= aside <= ALIGN_SLACK
            ):
                return False
            if above is not None:
                off = above.y - y - self._steps[above.role, role]
                if not -LEADING_SLACK <= off <= LEADING_SLACK:
                    return False
            above = line
        return True

    def _hung(self, line: SetLine, words: DrawnLine) -> float:
        """How far (pt) a line stands aside that is centred without the marks at its ends."""
        left, right = self._ends(line, words) if self._ends is not None else (inf, inf)
        return line.x + (left + right) / 2 * line.size - self._axis
