"""What the job sheet tells of sheets of cards: to load, turn over, cut and pile."""

from dataclasses import replace

import pytest

from addressing.materials.shelf import open_shelf
from addressing.proofs.operating import loading, pages_of
from addressing.proofs.sheet_running import first_sheet, sheets_of
from addressing.proofs.slips import slips_of
from addressing.records.plates import PlateFile
from addressing.records.proofs import PlateRun
from addressing.records.sheets import Imposition

TONER = open_shelf(None).device("home-toner")
CARDS = Imposition(
    (612.0, 792.0), (252.0, 144.0), 2, 4, 0.0, (54.0, 108.0), "cut-and-stack", reverse=True
)
FILE = PlateFile(
    path="plates/01-place-card-black.pdf",
    sha256="a" * 64,
    kind="place-card",
    ink="Black",
    pages=4,
    copies=1,
    width_mm=215.9,
    height_mm=279.4,
    households=("h-aaaaaaaa",) * 30,
    names=("Odile Farrenby",) * 30,
    up=8,
)


def run_of(at: Imposition, *files: PlateFile, kinds: tuple[str, ...] = ("place-card",)) -> PlateRun:
    return PlateRun(files or (FILE,), (), TONER, load=10, sheets=((kinds, at),))


def test_sheets_alone_have_no_word_of_flaps_or_of_envelopes() -> None:
    run = run_of(CARDS)
    assert loading(run, TONER) == ()
    assert pages_of(run, "US") == ()
    told = " ".join(sheets_of(run, "US"))
    assert "flap" not in told
    assert "envelope" not in told
    assert told.startswith("Place card: 4 sheets, 8½ × 11 in.")
    assert "Load the sheets face down" in told


def test_an_exit_that_turns_the_stack_round_prints_the_last_sheet_first() -> None:
    assert first_sheet(FILE.path, run_of(CARDS)) == "sheet 4"
    assert "the last sheet is printed first" in " ".join(sheets_of(run_of(CARDS), "US"))
    straight = run_of(replace(CARDS, reverse=False))
    assert first_sheet(FILE.path, straight) == "sheet 1"
    assert "the last sheet" not in " ".join(sheets_of(straight, "US"))


@pytest.mark.parametrize(
    ("turn", "sheet", "how", "edge"),
    [
        ("work-and-turn", (612.0, 792.0), "left to right", "long"),
        ("work-and-turn", (792.0, 612.0), "left to right", "short"),
        ("work-and-tumble", (612.0, 792.0), "head to foot", "short"),
        ("work-and-tumble", (792.0, 612.0), "head to foot", "long"),
    ],
)
def test_fronts_and_backs_say_how_the_pile_is_turned_and_over_which_edge(
    turn: str, sheet: tuple[float, float], how: str, edge: str
) -> None:
    at = replace(CARDS, turn=turn, sheet=sheet)
    run = run_of(at, kinds=("place-card", "escort-card"))
    told = " ".join(sheets_of(run, "US"))
    assert told.startswith("Place card and escort card: 2 sheets")
    assert f"turn the pile over from {how}" in told or f"turn the pile over {how}" in told
    assert f"over the {edge} edge" in told
    assert "side 1 up" in told
    assert "Turn over the piles that show their backs" in told
    assert first_sheet(FILE.path, run) == "sheet 2"


def test_cards_in_rows_are_cut_and_gathered_sheet_by_sheet() -> None:
    told = " ".join(sheets_of(run_of(replace(CARDS, order="rows")), "US"))
    assert "Cut sheet by sheet" in told
    assert "from left to right, from the top down" in told
    assert "pile in order" not in told


def test_a_strip_between_cards_is_cut_twice_and_tents_are_folded() -> None:
    plain = " ".join(sheets_of(run_of(CARDS), "US"))
    assert "strip" not in plain
    assert "Fold" not in plain
    told = " ".join(sheets_of(run_of(replace(CARDS, gutter=9.0, folds=(72.0,))), "US"))
    assert "the strip falls away" in told
    assert "Fold at the dashes" in told


def test_sheets_of_several_files_are_counted_together_and_of_several_inks_once() -> None:
    second = replace(FILE, path="plates/02-place-card-black.pdf", pages=3)
    told = " ".join(sheets_of(run_of(CARDS, FILE, second), "US"))
    assert "7 sheets in 2 files, each a pile of its own" in told
    gold = replace(FILE, path="plates/03-place-card-gold.pdf", ink="Gold")
    assert "Place card: 4 sheets, " in " ".join(sheets_of(run_of(CARDS, FILE, gold), "US"))


def test_the_other_side_of_a_card_has_no_slip_of_its_own() -> None:
    back = replace(FILE, kind="escort-card")
    assert [slip.kind for slip in slips_of((FILE, back))] == ["place-card", "escort-card"]
    assert [slip.kind for slip in slips_of((FILE, back), ("escort-card",))] == ["place-card"]
