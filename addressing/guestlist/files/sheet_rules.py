"""Rules by which a sheet gives cells another look, as its part streams by: old ones and extended.

An old rule (conditionalFormatting) names its cells first and its look by a number; one of the
extension list (x14) has both behind it, the look as a tag of its own ([MS-XLSX] 2.6, from memory).
"""

import contextlib

from addressing.guestlist.files.markup import Attributes, BrokenPartError
from addressing.guestlist.files.ranges import box
from addressing.guestlist.grid import Merge, Rule

MAX_RULES = 200
"""Rules that give cells another look; more tell no more."""


class SheetRules:
    """Gathers the rules of a sheet that have a look; bars, scales and icons colour no guests."""

    def __init__(self) -> None:
        """No rule is known yet."""
        self.found: list[Rule] = []
        self._ranges = ""
        self._said: list[str] = []
        self._conditions: list[str] = []
        self._has_look = False

    def start_format(self, attributes: Attributes) -> None:
        """Rules for some cells begin."""
        self._ranges, self._said = attributes.get("sqref", ""), []

    def start_rule(self, attributes: Attributes) -> None:
        """One rule begins."""
        self._conditions, self._has_look = [], "dxfId" in attributes

    def look(self) -> None:
        """The rule has a look of its own."""
        self._has_look = True

    def condition(self, said: str) -> None:
        """What the rule asks, in the file's own words."""
        if said.strip():
            self._conditions.append(said.strip())

    def ranges(self, said: str) -> None:
        """The cells, where they are told behind their rules."""
        self._ranges = said

    def end_rule(self) -> None:
        """One rule is over."""
        if self._has_look and len(self._said) < MAX_RULES:
            self._said.append(", ".join(self._conditions))

    def end_format(self) -> None:
        """Take each rule for each of its ranges; one that is no range is no reason to refuse."""
        for said in self._said:
            for reference in self._ranges.split()[:MAX_RULES]:
                if len(self.found) < MAX_RULES:
                    with contextlib.suppress(BrokenPartError):
                        left, top, right, bottom = box(reference)
                        self.found.append(Rule(Merge(top, left - 1, bottom, right - 1), said))
        self._said = []
