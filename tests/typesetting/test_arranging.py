"""How lines stand: by the room's edges, by each other, or each further in."""

from dataclasses import replace

import pytest

from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import ALIGNS, Face, Ink, Layout
from addressing.typesetting import fit, stream

TEXTS = ("Mr. and Mrs. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield, Connecticut 06759")
PIECE = Piece("outer", "h-a", "A", (Wording(tuple(Line(text, Role.STREET) for text in TEXTS)),))


def edges(setting: Setting) -> tuple[list[float], list[float], float]:
    """Left and right edges of the ink of each line of the first page, and the size, in points."""
    pages, _ = stream(setting)
    lines = next(iter(pages)).lines
    scale = [size / line.em for line, _, _, size in lines]
    lefts = [x + line.ink[0] * s for (line, x, _, _), s in zip(lines, scale, strict=True)]
    rights = [x + line.ink[2] * s for (line, x, _, _), s in zip(lines, scale, strict=True)]
    return lefts, rights, lines[0][3]


def arranged(align: str, face: Face, layout: Layout, ink: Ink, step: float = 1.5) -> Setting:
    zones = tuple(replace(zone, step=step) for zone in layout.zones)
    choice = PieceChoice("outer", "trial", "face", "White", "deep-green", size=14.0, align=align)
    setting, findings = fit([PIECE], choice, replace(layout, zones=zones), face, ink, 0.0)
    assert not findings
    return setting


def near(numbers: list[float], wanted: list[float]) -> bool:
    return numbers == pytest.approx(wanted, abs=0.002)


def test_centred_lines_have_the_middle_of_their_ink_in_the_middle_of_the_room(
    script: Face, envelope: Layout, white: Ink
) -> None:
    setting = arranged("centre", script, envelope, white)
    lefts, rights, _ = edges(setting)
    middle = (setting.room.left + setting.room.right) / 2
    assert near([(a + b) / 2 for a, b in zip(lefts, rights, strict=True)], [middle] * 3)


def test_flush_lines_stand_at_the_rooms_edge(script: Face, envelope: Layout, white: Ink) -> None:
    left, right = (arranged(side, script, envelope, white) for side in ("left", "right"))
    assert near(edges(left)[0], [left.room.left] * 3)
    assert near(edges(right)[1], [right.room.right] * 3)


def test_a_block_is_flush_left_in_itself_and_centred_or_at_the_right_as_a_whole(
    script: Face, envelope: Layout, white: Ink
) -> None:
    block = arranged("block", script, envelope, white)
    lefts, rights, _ = edges(block)
    assert near(lefts, [lefts[0]] * 3)
    assert near([lefts[0] - block.room.left], [block.room.right - max(rights)])
    far = arranged("block-right", script, envelope, white)
    lefts, rights, _ = edges(far)
    assert near(lefts, [lefts[0]] * 3)
    assert near([max(rights)], [far.room.right])


@pytest.mark.parametrize("step", [0.0, 0.5, 1.5, 3.0])
def test_stepped_lines_begin_further_in_by_equal_steps(
    script: Face, envelope: Layout, white: Ink, step: float
) -> None:
    setting = arranged("stepped", script, envelope, white, step)
    lefts, rights, size = edges(setting)
    assert near(lefts, [lefts[0] + number * step * size for number in range(3)])
    assert near([lefts[0] - setting.room.left], [setting.room.right - max(rights)])


def test_steps_count_when_the_size_is_chosen(script: Face, envelope: Layout, white: Ink) -> None:
    """A wide step leaves less room for the last line, so the set must be smaller or broken."""
    sizes = []
    for step in (0.0, 2.0, 6.0):
        zones = tuple(replace(zone, step=step) for zone in envelope.zones)
        choice = PieceChoice("outer", "trial", "face", "White", "deep-green", align="stepped")
        setting, _ = fit([PIECE], choice, replace(envelope, zones=zones), script, white, 0.0)
        sizes.append(setting.size)
    assert sizes[0] > sizes[1] > sizes[2]


def test_every_way_of_standing_keeps_its_ink_in_the_room(
    script: Face, envelope: Layout, white: Ink
) -> None:
    for align in ALIGNS:
        choice = PieceChoice("outer", "trial", "face", "White", "deep-green", align=align)
        setting, _ = fit([PIECE], choice, envelope, script, white, 0.0)
        lefts, rights, _ = edges(setting)
        assert min(lefts) >= setting.room.left - 0.002
        assert max(rights) <= setting.room.right + 0.002


def test_columns_of_which_one_is_empty_are_a_block_in_the_middle(
    script: Face, envelope: Layout, white: Ink
) -> None:
    """A return address bears no names: it would stand in the right half alone."""
    lines = tuple(Line(text, Role.STREET) for text in ("14 Larkmoor Lane", "Ely, Vermont"))
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    choice = PieceChoice("outer", "trial", "face", "White", "deep-green", align="columns")
    setting, findings = fit([piece], choice, envelope, script, white, 0.0)
    assert not findings
    lefts, rights, _ = edges(setting)
    assert near(lefts, [lefts[0]] * 2)
    assert near([lefts[0] - setting.room.left], [setting.room.right - max(rights)])


@pytest.mark.parametrize(("valign", "which"), [("top", 0), ("bottom", -1)])
def test_two_columns_of_two_hands_share_a_baseline_at_the_rooms_edge(
    script: Face, roman: Face, envelope: Layout, white: Ink, valign: str, which: int
) -> None:
    """Names in a script beside a small roman: what is read across stands on one line."""
    zones = tuple(replace(zone, valign=valign) for zone in envelope.zones)
    lines = (Line("Helena", Role.NAME), *(Line(text, Role.STREET) for text in TEXTS[1:]))
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    choice = PieceChoice(
        "outer",
        "trial",
        "face",
        "White",
        "deep-green",
        align="columns",
        address=AddressChoice(size=0.6),
    )
    layout = replace(envelope, zones=zones)
    setting, _ = fit([piece], choice, layout, (script, roman), white, 0.0)
    name, *address = setting.pieces[0].lines
    assert name.y == pytest.approx(address[which].y, abs=0.002)
