"""A device's test sheets: what goes through it, to be measured and to be held to the light."""

from dataclasses import replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.feeding import marks_on, within_reach
from addressing.files import Together, make_folder
from addressing.job.laying import lay_of
from addressing.job.lettering import faces_for
from addressing.job.reading import Reading
from addressing.job.stamping import with_stamps
from addressing.job.written import note_written
from addressing.materials.presses import ink_for
from addressing.materials.shelf import Shelf
from addressing.proofs import light_sheet, test_sheet
from addressing.records.docket import Docket, PieceChoice
from addressing.records.lays import Lay
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.proofs import ProofSet, Trial
from addressing.records.set_lines import SetPiece
from addressing.records.shelf import Device, Ink, Layout
from addressing.typesetting import fit, stream, within_leading
from addressing.version import VERSION

SAMPLE = (
    ("Mr. and Mrs. Tobias Wexcombe", Role.NAME),
    ("48 Larkmoor Lane", Role.STREET),
    ("Farrenby, Connecticut 06759", Role.PLACE),
)
"""Invented words for where no list is given."""


def trial_of(docket: Docket, layout_key: str, shelf: Shelf, reading: Reading | None) -> Trial:
    """What a test sheet shows: the fullest piece of the list on that layout, else a sample.

    Raises:
        Fault: the device, the layout, its ink or face (exit 3).
    """
    device = shelf.device(docket.device or "")
    layout = shelf.layout(layout_key)
    choice = _choice(docket, layout)
    layout = with_stamps(layout, docket.post.stamps_on(choice.kind), docket.post.stamp)
    lay = lay_of(device, layout, docket.feed, shelf)
    ink = ink_for(device, shelf.ink(choice.ink))
    setting = _listed(reading, layout) or _sample(docket, choice, (layout, lay, ink), shelf)
    pages, outlines = stream(setting)
    stock = shelf.stock(choice.stock)
    marks = tuple((name, *at) for name, at in marks_on((layout.width, layout.height)).items())
    return Trial(
        device=device,
        tray=docket.feed.tray,
        layout=layout,
        lay=lay,
        ink=_of_slot(device, ink, shelf),
        marks=marks,
        shown=ProofSet(setting, tuple(pages), outlines, stock),
        version=VERSION,
        country=docket.hosts.country if docket.hosts else "US",
    )


def _of_slot(device: Device, ink: Ink, shelf: Shelf) -> Ink:
    """The ink that the sheet is printed in: one with a slot, since that one is to be proved."""
    if ink.channel is not None or not device.slots:
        return ink
    return ink_for(device, shelf.ink(device.slots[0][0]))


def _choice(docket: Docket, layout: Layout) -> PieceChoice:
    """The docket's choice for a piece on this layout, else for the outer."""
    kinds = {zone.kind for zone in layout.zones}
    own = [each for each in docket.pieces if each.layout == layout.key and each.kind in kinds]
    fitting = [each for each in docket.pieces if each.kind in kinds]
    if not fitting:
        raise Fault(
            Exit.INPUT,
            "layout-unfit",
            f"The layout {layout.title} has no zone for any piece of the docket.",
            "Choose another layout; `addressing layouts` lists them.",
        )
    return (own or fitting)[0]


def _listed(reading: Reading | None, layout: Layout) -> Setting | None:
    """The fullest piece of a list on this layout: most lines, then the longest line."""
    kinds = reading.kinds if reading is not None else ()
    setting = next((k.setting for k in kinds if k.setting.layout.key == layout.key), None)
    if setting is None or not setting.pieces:
        return None

    def full(piece: SetPiece) -> tuple[int, int]:
        return len(piece.lines), max(len(line.text) for line in piece.lines)

    return replace(setting, pieces=(max(setting.pieces, key=full),))


def _sample(
    docket: Docket, choice: PieceChoice, on: tuple[Layout, Lay, Ink], shelf: Shelf
) -> Setting:
    """Invented words as the docket letters them."""
    layout, lay, ink = on
    lines = SAMPLE[:1] if choice.kind == "inner" else SAMPLE
    worded = Wording(tuple(Line(text, role) for text, role in lines))
    piece = Piece(choice.kind, None, SAMPLE[0][0], (worded,))
    faces = within_leading(faces_for(choice, shelf, docket))
    setting, _ = fit((piece,), choice, within_reach(layout, lay), faces, ink, 0.0)
    if not setting.pieces:
        raise Fault(
            Exit.INPUT,
            "sample-unfit",
            f"The sample doesn't fit on {layout.title} in {choice.face}.",
            "Name a list, whose own words are shown then: --list LIST.",
        )
    return setting


def make_test_sheets(trial: Trial, folder: Path, job: Path | None = None) -> tuple[Path, Path]:
    """Write the sheet to measure and the one to hold to the light; their paths.

    With a piece of a list on them they are noted in the folder of its `job`.

    Raises:
        Fault: they can't be written (exit 4).
    """
    make_folder(folder)
    measured = folder / f"test-sheet-{trial.layout.key}.pdf"
    held = folder / f"hold-to-light-{trial.layout.key}.pdf"
    with Together() as together:
        test_sheet(together.working(measured), trial)
        light_sheet(together.working(held), trial)
        if job is not None:
            note_written(together, job, (measured, held))
    return measured, held
