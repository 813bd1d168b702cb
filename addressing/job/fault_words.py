"""What the judge objects to, in a designer's words: whose page, which line or letter, how far.

The judge's own sentence follows in brackets where other words stand for it.
"""

import re
from collections.abc import Sequence
from functools import cache

from addressing.job.letter_words import LetterWords
from addressing.preflight.sheets import sides
from addressing.preflight.values import Objection
from addressing.records.kept import KeptOrder
from addressing.records.set_lines import SetLine
from addressing.tables import table
from addressing.units import pt_to_mm

_SUBJECT = re.compile(r"(Page|Card) (\d+)(?: \((h-[a-z0-9-]+)\))? (.*?)\.?")
_KEY = re.compile(r"h-[a-z0-9-]+")
_PAGES = re.compile(r"The plate has \d+ pages; \d+ were ordered\.")
_MORE = " is more than was ordered."
"""What needn't be said of each page behind it."""
_LETTER = re.compile(r"Letter \d+ ")
_OTHER, _PART = 0, 3
"""The ranks of another plate's file, and of how a font is built: a letter's sentence says more."""
_DRAWN = re.compile(r"other letters in line|from its place|turned otherwise|laid in another way")
"""What is said of lines as they are drawn: a plate's own are counted, not all of the piece."""
_LAST = 5
"""The rank of what no row of the table says: before what follows from others."""


def in_words(
    faults: Sequence[str], kept: Sequence[KeptOrder], *, named: bool = True
) -> tuple[str, ...]:
    """The judge's sentences for people, causes first; `kept` is what the plate was judged by.

    Without `named` no guest's name or line stands in them: such sentences may leave the desk.
    """
    told = _Told(kept, named=named)
    if any(_PAGES.fullmatch(fault) for fault in faults):
        faults = [fault for fault in faults if not fault.endswith(_MORE)]
    ranked = sorted([told.sentence(fault) for fault in faults], key=lambda each: each[0])
    if ranked and ranked[0][0] == _OTHER:
        return (ranked[0][1],)  # all else follows from that
    letters = any(_LETTER.match(fault) for fault in faults)
    once = {text.partition(" (Font F")[0]: text for rank, text in reversed(ranked)}
    parts = {text for rank, text in ranked if rank == _PART and letters}
    return tuple(text for text in reversed(once.values()) if text not in parts)


@cache
def _rows() -> tuple[tuple[int, re.Pattern[str], str], ...]:
    return tuple(
        (int(row["rank"]), re.compile(row["matches"]), row["says"]) for row in table("fault_words")
    )


def _told_mm(length: float) -> str:
    """A length to a hundredth; what is shorter, and not nought, is told as that."""
    return "under 0.01" if 0 < abs(length) < 0.005 else f"{length:.2f}"  # noqa: PLR2004 - half of it


class _Told:
    """What sentences speak of: pages, cards, lines, letters and guests of one plate."""

    def __init__(self, kept: Sequence[KeptOrder], *, named: bool) -> None:
        self._kept = kept
        self._named = named
        self._letters = LetterWords(kept, named=named)
        pieces = (piece for each in kept for piece in each.setting.pieces)
        self._names = {piece.household: piece.name for piece in pieces} if named else {}

    def sentence(self, fault: str) -> tuple[int, str]:
        """(its rank, the sentence)."""
        match = _SUBJECT.fullmatch(fault)
        if match is None:
            rank, said, plain = self._said(fault, None)
            whole = _whose(said, self._names)
            return rank, whole if plain else f"{whole.rstrip('.')}{_aside(fault)}."
        what, number, key, rest = match.groups()
        line = re.match(r"\D*lines? (\d+)", rest)
        subject, placed, rest = self._subject(what, int(number), key, (rest, line))
        rank, said, plain = self._said(rest, placed)
        ended = f"{subject} {_whose(said, self._names)}"
        return rank, f"{ended}." if plain else f"{ended}{_aside(rest)}."

    def _said(self, text: str, placed: SetLine | None) -> tuple[int, str, bool]:
        """(rank, words, whether they are the judge's own) of a sentence or of what a page does."""
        for rank, pattern, says in _rows():
            match = pattern.fullmatch(text)
            if match is not None:
                groups = {name: found or "" for name, found in match.groupdict().items()}
                if not says:
                    return rank, text, True
                return rank, says.format(**self._more(groups, placed)), "_mm" in says
        return _LAST, text, True

    def _more(self, groups: dict[str, str], placed: SetLine | None) -> dict[str, str]:
        """What a row may say beside what was matched."""
        shown = placed is not None and self._named
        more = dict(groups) | {"words": f" (“{placed.text}”)" if placed and shown else ""}
        for side in ("x", "y"):
            if side in groups:
                more[f"{side}_mm"] = _told_mm(pt_to_mm(float(groups[side])))
        if "x_mm" in more and "y_mm" in more:
            sides = ((more["x_mm"], "aside"), (more["y_mm"], "up or down"))
            away = [f"{far} mm {way}" for far, way in sides if far != "0.00"]
            more["away_mm"] = " and ".join(away) or "less than can be told"
        if "letter" in groups:
            number = int(groups["letter"])
            words, face, where = self._letters.of(number)
            more |= {"letter_words": words, "face": face, "where": where}
        if "letters" in groups:
            numbers = [int(each) for each in re.findall(r"\d+", groups["letters"])]
            some = ", ".join(self._letters.of(number)[0].lower() for number in numbers)
            more["letters_words"] = some + (", …" if "…" in groups["letters"] else "")
        return more

    def _subject(
        self, what: str, number: int, key: str | None, about: tuple[str, re.Match[str] | None]
    ) -> tuple[str, SetLine | None, str]:
        """(how the sentence begins, the line that it speaks of, the rest of it).

        On a sheet the lines of all its cards are counted on: the card is named whose line it is,
        and the line as its own.
        """
        rest, match = about
        line = int(match[1]) if match is not None else 0
        first = self._kept[0]
        if what == "Page" and first.order.sheets is not None:
            found = self._card(number, line) if line else None
            if found is None:
                return f"Sheet {number}", None, rest
            place, who, its, own = found
            assert match is not None  # noqa: S101 - a card is found by its line
            rest = f"{rest[: match.start(1)]}{own}{rest[match.end(1) :]}"
            return f"Sheet {number}, card {place}{who}", its, rest
        pieces = first.setting.pieces
        owner = next((p for p in pieces if p.household == key), None)
        lines = owner.lines if owner is not None else ()
        if _DRAWN.search(rest):
            lines = tuple(each for each in lines if self._bears(each, rest))
        placed = lines[line - 1] if 0 < line <= len(lines) else None
        name = f" ({key}, {self._names[key]})" if key in self._names else f" ({key})" if key else ""
        return f"{what} {number}{name}", placed, rest

    def _bears(self, line: SetLine, rest: str) -> bool:
        """True for a line that is drawn in the ink that a sentence speaks of."""
        order, setting = self._kept[0].order, self._kept[0].setting
        layer = re.search(r", in the layer of “(.+)”", rest)
        inks = order.apart if order.layers else (order,)
        if layer is not None:
            inks = tuple(each for each in inks if each.ink.spot == layer[1])
        return any(each.bears(setting, line.role) for each in inks)

    def _card(self, page: int, line: int) -> tuple[int, str, SetLine, int] | None:
        """(a card's place on a sheet, whose it is, the line, its number on the card)."""
        try:
            side = sides([each.order for each in self._kept])[page - 1]
        except (Objection, IndexError):
            return None
        before = 0
        for place, lying in enumerate(side.cards, start=1):
            each = self._kept[lying.part]
            card = each.setting.pieces[lying.card]
            own = [one for one in card.lines if each.order.bears(each.setting, one.role)]
            if line <= before + len(own):
                name = f", {card.name}" if self._named else ""
                who = f" ({card.household}{name})" if card.household else ""
                return place, who, own[line - before - 1], line - before
            before += len(own)
        return None


def _whose(text: str, names: dict[str | None, str]) -> str:
    """A sentence with the guest's name behind each key."""
    return _KEY.sub(lambda key: f"{key[0]}, {names[key[0]]}" if key[0] in names else key[0], text)


def _aside(own: str) -> str:
    """The judge's own words in brackets."""
    return f" ({own.rstrip('.')})"
