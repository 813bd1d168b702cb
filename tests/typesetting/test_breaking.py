"""The choice of breaks against trying everything: the ruler face makes widths a matter of counting.

A letter is half an em wide and a capital 0.7 em high, leading is 1.3 em, the room 240 by 120 pt.
"""

import itertools
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from addressing.records.docket import PieceChoice
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Face, Ink, Layout
from addressing.tables import table
from addressing.typesetting import fit

SIZE, WIDE, HIGH = 20.0, 240.0, 120.0
CHOICE = PieceChoice(
    "outer",
    "trial",
    "ruler",
    "White",
    "deep-green",
    size=SIZE,
    smallest=SIZE,
    align="centre",
    balance=False,
)
RULES = {row["key"]: row for row in table("line_demerits")}

Lines = tuple[tuple[str, int], ...]
"""Words, and of which worded line they are."""

words = st.sampled_from(["A", "OF", "and", "WEX", "PENHEW", "FARRENBYS", "LARKMOORLARKMOOR"])


@st.composite
def worded_lines(draw: st.DrawFn) -> Line:
    text = " ".join(draw(st.lists(words, min_size=1, max_size=6)))
    places = [at + 1 for at, character in enumerate(text) if character == " "]
    kept = draw(st.lists(st.sampled_from(places), unique=True, max_size=5)) if places else []
    return Line(text, Role.NAME, (), tuple(kept))


wordings = st.lists(worded_lines(), min_size=1, max_size=3).map(lambda ls: Wording(tuple(ls)))
pieces = st.lists(wordings, min_size=1, max_size=2).map(
    lambda ws: Piece("outer", "h-a", "A", tuple(ws))
)


def weight(key: str) -> float:
    return float(RULES[key]["demerits"])


def width(text: str) -> float:
    return len(text) * 0.5


def fits(lines: Lines) -> bool:
    """All letters here are as high as a capital or, in "and", reach no higher."""
    wide = max(width(text) for text, _ in lines) * SIZE
    high = ((len(lines) - 1) * 1.3 + 0.7) * SIZE
    return wide <= WIDE + 1e-6 and high <= HIGH + 1e-6


def divisions(line: Line) -> Iterator[tuple[str, ...]]:
    if width(line.text) * SIZE <= WIDE:
        yield (line.text,)
        return
    for count in (1, 2):
        for cuts in itertools.combinations(sorted(line.breaks), count):
            ends = [*(cut - 1 for cut in cuts), len(line.text)]
            yield tuple(line.text[a:b] for a, b in zip((0, *cuts), ends, strict=True))


def cost(number: int, wording: Wording, lines: Lines) -> float:
    """The table's rules, one after the other."""
    total = number * weight("wording")
    for source, line in enumerate(wording.lines):
        parts = [text for text, own in lines if own == source]
        ends = list(itertools.accumulate(len(part) + 1 for part in parts[:-1]))
        total += len(ends) * weight("break")
        total += sum(weight("later") for end in ends if end != line.breaks[0])
        if ends:
            short = float(RULES["lonely"]["limit"])
            total += sum(weight("lonely") for p in parts if " " not in p and len(p) <= short)
            joining = RULES["joining"]["words"].split()
            total += sum(weight("joining") for p in parts[:-1] if p.split()[-1] in joining)
        for upper, lower in itertools.pairwise(map(width, parts)):
            gain = (lower - upper) / max(lower, upper)
            total += gain**2 * (weight("uneven") + (weight("swell") if gain > 0 else 0))
    for above, one, below in zip(lines, lines[1:], lines[2:], strict=False):
        narrow = min(width(above[0]), width(below[0]))
        share = (narrow - width(one[0])) / max(narrow, width(one[0]))
        if share > float(RULES["waist"]["limit"]):
            total += share**2 * weight("waist")
    return total


def by_trying_all(piece: Piece) -> tuple[float, list[Lines]]:
    """The least cost of all settings that fit, and all that have it."""
    first = tuple((line.text, source) for source, line in enumerate(piece.wordings[0].lines))
    if fits(first):
        return 0.0, [first]
    found: list[tuple[float, Lines]] = []
    for number, wording in enumerate(piece.wordings):
        for choice in itertools.product(*map(divisions, wording.lines)):
            lines = tuple((text, n) for n, parts in enumerate(choice) for text in parts)
            if fits(lines):
                found.append((cost(number, wording, lines), lines))
    least = min((total for total, _ in found), default=0.0)
    return least, [lines for total, lines in found if total < least + 1e-9]


@settings(
    max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(pieces)
def test_no_permitted_setting_has_fewer_demerits(
    ruler: Face, envelope: Layout, white: Ink, piece: Piece
) -> None:
    setting, findings = fit([piece], CHOICE, envelope, ruler, white, 0.0)
    _, best = by_trying_all(piece)
    if not best:
        assert [finding.code for finding in findings if finding.holds]
        return
    (placed,) = setting.pieces
    assert tuple((line.text, line.source) for line in placed.lines) in best


@pytest.mark.parametrize(
    ("marked", "wanted"),
    [
        # of three commas the one that halves the line, though the last is the wording's first
        ("LINNET,/CORWIN,/BRAM,*ODILE", ["LINNET, CORWIN,", "BRAM, ODILE"]),
        # never one short word alone, if there is another way
        ("WEXCOMBE FARRENBYS/PENHEWS*OF", ["WEXCOMBE FARRENBYS", "PENHEWS OF"]),
        # "and" stands at the head of a line and not at its end
        ("PENHEW LARKMOORS/and*FARRENBYS", ["PENHEW LARKMOORS", "and FARRENBYS"]),
        # the wording's own choice goes before a break that is only a little more even
        ("PENHEW WEXCOMBES/AB*TOBIAS PENHEW", ["PENHEW WEXCOMBES AB", "TOBIAS PENHEW"]),
        # two breaks only where one is not enough
        ("TOBIASWEX PENHEWS/ODILES*CORWINWEX", ["TOBIASWEX PENHEWS", "ODILES CORWINWEX"]),
    ],
)
def test_a_line_is_broken_as_a_careful_letterer_would(
    ruler: Face, envelope: Layout, white: Ink, marked: str, wanted: list[str]
) -> None:
    """Breaks are permitted at strokes; the star is the wording's first choice."""
    breaks = [at + 1 for at, mark in enumerate(marked) if mark in "/*"]
    breaks.sort(key=lambda at: marked[at - 1] != "*")
    text = marked.replace("/", " ").replace("*", " ")
    piece = Piece("outer", "h-a", "A", (Wording((Line(text, Role.NAME, (), tuple(breaks)),)),))
    setting, _ = fit([piece], CHOICE, envelope, ruler, white, 0.0)
    assert [one.text for one in setting.pieces[0].lines] == wanted


def test_words_of_absurd_length_are_given_up_and_never_searched_for_ever(
    ruler: Face, envelope: Layout, white: Ink
) -> None:
    text = " ".join(["PENHEW"] * 120)
    breaks = tuple(at + 1 for at, character in enumerate(text) if character == " ")
    lines = tuple(Line(text, Role.NAME, (), breaks) for _ in range(6))
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    setting, findings = fit([piece], CHOICE, envelope, ruler, white, 0.0)
    assert (setting.pieces, [finding.code for finding in findings]) == ((), ["line-too-wide"])
