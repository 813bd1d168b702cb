"""Several kinds on one plate, beside each other or front and back: each proved, none exchanged."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from addressing.job.drawing import draw_sheets
from addressing.plates import bind_plate, plan_sheets
from addressing.preflight import judge_plate
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.sheets import Beside, SheetChoice
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit

LETTER = (612.0, 792.0)
NAMES = ("Tobias Penhew", "Ottoline Grayling", "Ingrid Halvorsby", "Cosmo Larkmoor", "Ida Quill")
Part = tuple[PlateOrder, Setting, tuple[Piece, ...]]
KINDS = ("place-card", "reply-number")

CHOICES = {
    "beside": SheetChoice("place-card", across=1, down=2, beside=(Beside("reply-number", 1),)),
    "turned": SheetChoice("place-card", across=1, down=2, behind="reply-number"),
    "tumbled": SheetChoice(
        "place-card", across=2, down=1, behind="reply-number", turn="work-and-tumble"
    ),
    "in rows": SheetChoice(
        "place-card", across=1, down=1, behind="reply-number", order="rows", turned=True
    ),
}


def part_of(kind: str, names: tuple[str, ...], face: Face, ink: Ink, zone: Zone) -> Part:
    """The cards of a kind, 2½ by 2 inches; one that is the same for all where it has one name."""
    zone = replace(zone, kind=kind)
    layout = Layout("card", "Card", 180, 144, "square", 0, (zone,), Box(5, 5, 170, 134), (), "own")
    keys = [f"h-{n}" for n in range(len(names))] if len(names) > 1 else [None]
    pieces = tuple(
        Piece(kind, key, "", (Wording((Line(words, Role.NAME),)),))
        for key, words in zip(keys, names, strict=True)
    )
    chosen = PieceChoice(kind, "card", face.key, ink.key, "ivory", size=14.0)
    setting, _ = fit(pieces, chosen, layout, face, ink, 0.0)
    households = tuple(keys)
    order = PlateOrder("01-cards", kind, ink, (180.0, 144.0), households, 1, "0.1.0")
    return order, setting, pieces


class Job:
    """Place cards and numbers on sheets, and what the judge is given."""

    def __init__(self, folder: Path, parts: list[Part], choice: SheetChoice) -> None:
        self.path = folder / "01-cards.pdf"
        plans = plan_sheets(choice, LETTER, dict.fromkeys(choice.kinds, (180.0, 144.0)))
        least = max(
            (plans[o.kind].sheets(len(o.households)) for o, *_ in parts if o.households != (None,)),
            default=0,
        )
        self.parts: list[Part] = [
            (replace(order, sheets=replace(plans[order.kind], least=least)), setting, pieces)
            for order, setting, pieces in parts
        ]
        self.write(self.parts)

    def write(self, parts: list[Part]) -> None:
        """Sheets of some parts; the judge is asked about the job's own."""
        sheaves, outlines = draw_sheets([(order, setting) for order, setting, _ in parts])
        bind_plate(self.path, parts[0][0], sheaves, outlines)

    def judge(self) -> Verdict:
        first, *others = self.parts
        return judge_plate(self.path, *first, others)


LEVEL = Zone("", Box(15, 15, 150, 114), "centre", "middle")
BENT = replace(LEVEL, align="arch", radius=160.0)


@pytest.fixture
def parts(script: Face, white: Ink) -> list[Part]:
    numbers = tuple(str(n) for n in range(11, 16))
    return [
        part_of("place-card", NAMES, script, white, LEVEL),
        part_of("reply-number", numbers, script, white, BENT),
    ]


@pytest.mark.parametrize("how", CHOICES)
def test_right_plates_of_two_kinds_are_proved(how: str, parts: list[Part], tmp_path: Path) -> None:
    job = Job(tmp_path, parts, CHOICES[how])
    verdict = job.judge()
    assert verdict.faults == ()
    counted = dict(verdict.counted)
    assert counted["cards"] == 10
    assert counted["pages"] == counted["pages seen as pixels"] == job.parts[0][0].pages


@pytest.mark.parametrize("how", ["turned", "tumbled"])
def test_a_back_that_is_the_same_for_all_is_proved(
    how: str, parts: list[Part], script: Face, white: Ink, tmp_path: Path
) -> None:
    static = part_of("reply-number", ("Kindly reply",), script, white, LEVEL)
    job = Job(tmp_path, [parts[0], static], CHOICES[how])
    assert job.judge().faults == ()
    alike = [part_of(kind, ("Kindly reply",), script, white, LEVEL) for kind in KINDS]
    both = Job(tmp_path, alike, CHOICES[how])
    assert both.judge().faults == ()
    assert both.parts[0][0].pages == 1


def swapped(part: Part) -> Part:
    """Two cards change what stands on them, and keep whose they are."""
    order, setting, pieces = part
    one, two, *rest = setting.pieces
    changed = (replace(one, lines=two.lines), replace(two, lines=one.lines), *rest)
    return order, replace(setting, pieces=changed), pieces


def other_sheets(part: Part, **changes: object) -> Part:
    order, setting, pieces = part
    assert order.sheets is not None
    return replace(order, sheets=replace(order.sheets, **changes)), setting, pieces  # type: ignore[arg-type]


HURT: dict[str, Callable[[list[Part]], list[Part]]] = {
    "two fronts exchanged": lambda parts: [swapped(parts[0]), parts[1]],
    "two backs exchanged": lambda parts: [parts[0], swapped(parts[1])],
    "the backs before the fronts": lambda parts: parts[::-1],
    "the backs as fronts": lambda parts: [parts[0], other_sheets(parts[1], behind=False)],
    "turned otherwise": lambda parts: [
        other_sheets(part, turn="work-and-tumble") for part in parts
    ],
    "in rows instead": lambda parts: [other_sheets(part, order="rows") for part in parts],
    "more sheets than are needed": lambda parts: [other_sheets(part, least=4) for part in parts],
}


@pytest.mark.parametrize("hurt", HURT)
def test_each_hurt_of_a_plate_of_fronts_and_backs_is_found(
    hurt: str, parts: list[Part], tmp_path: Path
) -> None:
    job = Job(tmp_path, parts, CHOICES["turned"])
    assert job.judge().faults == ()
    job.write(HURT[hurt](job.parts))
    assert not job.judge().proved


def test_orders_that_don_t_agree_on_their_sheets_are_found(
    parts: list[Part], tmp_path: Path
) -> None:
    job = Job(tmp_path, parts, CHOICES["turned"])
    right = job.parts
    moved = other_sheets(right[1], corner=(330.0, 324.0))
    for wrong in (
        [right[0]],
        [right[0], other_sheets(right[1], turn="")],
        [right[0], moved],
        [right[0], (replace(right[1][0], name="02-cards"), *right[1][1:])],
        [right[0], right[0]],
    ):
        job.parts = wrong
        assert not job.judge().proved


def test_kinds_that_are_lettered_in_two_faces_don_t_share_a_plate(
    parts: list[Part], roman: Face, white: Ink, tmp_path: Path
) -> None:
    job = Job(tmp_path, parts, CHOICES["beside"])
    other = part_of("reply-number", ("11", "12", "13", "14", "15"), roman, white, LEVEL)
    order, setting, pieces = other
    job.parts[1] = (replace(order, sheets=job.parts[1][0].sheets), setting, pieces)
    assert any("lettered otherwise" in fault for fault in job.judge().faults)
