"""The operator's sheet: what is held back, which plates, how many, and how to run them."""

from collections.abc import Sequence
from pathlib import Path, PurePosixPath

from addressing.proofs.cover import title_blocks
from addressing.proofs.flow import Block, Imprint, Sheet, gap, sheet_for, write_sheets
from addressing.proofs.notices import by_household
from addressing.proofs.operating import (
    CARDS_ALONE,
    MANUAL,
    afterwards,
    before,
    inks_of,
    limits,
    loading,
    no_envelopes,
    pages_of,
)
from addressing.proofs.passages import heading, listed, paragraph, points
from addressing.proofs.ruled import Column, ruled
from addressing.proofs.sheet_running import first_sheet, sheets_of
from addressing.proofs.slips import Slip, slips_of
from addressing.proofs.words import kind_name, many, mark, size_words, times
from addressing.records.findings import told_left_out
from addressing.records.pages import Setting
from addressing.records.plates import BESIDE, PlateFile
from addressing.records.proofs import SEAL, PlateRun, ProofJob
from addressing.records.shelf import Device, Shop
from addressing.units import mm_to_pt, pt_to_mm

_AGAIN = (
    "on the same envelopes. Print the first plate, let it dry, and feed the same stack again in the"
    " same order and the same way up; where a page is blank in an ink, its envelope goes through"
    " all the same."
)
_LAYERS = (
    "are layers of one file, laid down in this order. Each overprints and knocks nothing out: let"
    " the print controller keep it so."
)
PRIVACY = (
    "The plates hold names and home addresses. Use them for this job only, keep them on this "
    "machine, remove them when the job ends; tear or shred spoiled envelopes."
)


def job_sheet(path: Path, job: ProofJob, run: PlateRun) -> int:
    """Write the operator's sheet to `path` (a working name); returns its number of sheets.

    First the households that are held back, with their keys and why, and those that an answer left
    out; then plates, counts, how the
    sets are set, and the steps and cautions of the device or the notes of the shop. The same
    arguments give the same bytes; the file's properties name nobody.

    Raises:
        OSError: the place can't be written.
    """
    sheet = sheet_for(job.country)
    blocks = [
        *title_blocks(job, "Job sheet", sheet),
        *_held(job, sheet),
        *listed("Left out", told_left_out(job.findings), sheet),
        *_plates(job, run, sheet),
        *_sealed(job, sheet),
        *_batches(run, sheet),
        *_counts(job, sheet),
        *_settings(run.settings, sheet),
        *_press(run, sheet, job.country),
    ]
    imprint = Imprint(
        title=f"Job sheet {mark(job)}",
        producer=f"addressing {job.version}",
        footer=f"Job sheet to proof no. {mark(job)}",
        seal=job.seal,
    )
    return write_sheets(path, sheet, blocks, imprint)


def _held(job: ProofJob, sheet: Sheet) -> list[Block]:
    """The households on no plate, each with everything that holds it."""
    found = by_household(job)
    rows = []
    for household in job.households:
        if household.held:
            why = [one.text for one in found.get(household.key, ()) if one.holds]
            rows.append((str(household.number), household.name, household.key, " ".join(why)))
    if not rows:
        return [paragraph("No household is held back: every one is on the plates.", sheet)]
    columns = (
        Column("On proof", 1.1, right=True),
        Column("Household", 4),
        Column("Key", 2),
        Column("Waits because", 6),
    )
    title = f"{many(len(rows), 'household')} held back, on no plate"
    _, head = heading(title)
    return [head, *ruled(columns, rows, sheet.measure)]


def _sealed(job: ProofJob, sheet: Sheet) -> list[Block]:
    """What these plates are known by: this sheet on paper proves it later."""
    if job.seal is None:
        return []
    told = (
        f"Seal of these plates: {SEAL} (preflight says the same for as long as the record of "
        "what they should be is the one that was written with them)."
    )
    return [gap(4), paragraph(told, sheet)]


def _plates(job: ProofJob, run: PlateRun, sheet: Sheet) -> list[Block]:
    """The files in the order of print."""
    columns = (
        Column("File", 4.4),
        Column("Piece", 1.5),
        Column("Ink", 2),
        Column("Pages", 1, right=True),
        Column("Copies", 1.1, right=True),
        Column("Passes", 1.1, right=True),
        Column("Size", 4.3),
    )
    rows = [
        (
            _together(same),
            kind_name(" and ".join(kinds)),
            same[0].ink,
            f"{sum(one.pages for one in same):,}",
            f"{same[0].copies:,}",
            f"{same[0].hits}",
            size_words(mm_to_pt(same[0].width_mm), mm_to_pt(same[0].height_mm), job.country),
        )
        for kinds, same in _sets(run.files)
    ]
    if not rows:
        return [*heading("Plates"), paragraph("No plate was made.", sheet)]
    one_file = {one.kind for one in run.files if BESIDE in one.ink}
    twice = [
        f"{kind_name(one.kind)}: {_inks_laid(one)} {_LAYERS if one.kind in one_file else _AGAIN}"
        for one in run.settings
        if one.passes > 1
    ]
    more = [gap(8), *points(twice, sheet, "–")] if twice else []
    return [*heading("Plates, in the order of print"), *ruled(columns, rows, sheet.measure), *more]


def _inks_laid(setting: Setting) -> str:
    """The inks in order of print, with how often each is laid down where that isn't once."""
    return " and ".join(
        ink.key if setting.hits_of(ink) == 1 else f"{ink.key} {times(setting.hits_of(ink))}"
        for ink in setting.laid
    )


def _sets(files: Sequence[PlateFile]) -> list[tuple[list[str], list[PlateFile]]]:
    """The plates of one kind and ink together; those that several kinds share are there once.

    With each set go its kinds.
    """
    sets: dict[tuple[str, str], list[PlateFile]] = {}
    for one in files:
        sets.setdefault((one.kind, one.ink), []).append(one)
    once: dict[tuple[str, ...], tuple[list[str], list[PlateFile]]] = {}
    for (kind, _), same in sets.items():
        paths = tuple(one.path for one in same)
        once.setdefault(paths, ([], same))[0].append(kind)
    return list(once.values())


def _together(same: Sequence[PlateFile]) -> str:
    """The path of a plate, or of the first and the last of several."""
    if len(same) == 1:
        return same[0].path
    return f"{same[0].path} to {PurePosixPath(same[-1].path).name} ({len(same)} files)"


def _batches(run: PlateRun, sheet: Sheet) -> list[Block]:
    """Each pile with its numbers, so that a run can be taken up again after a jam."""
    slips = slips_of(run.files, run.backs)
    if run.load is None or not slips:
        return []
    columns = (
        Column("File", 4),
        Column("Prints", 1.6, right=True),
        Column("First, on top", 3.6),
        Column("Last", 3.6),
        Column("How many", 1.4, right=True),
        Column("Goes in first", 1.7, right=True),
    )
    rows = [
        (
            PurePosixPath(slip.path).name,
            f"{slip.first}–{slip.last}" if slip.count > 1 else f"{slip.first}",
            slip.first_name,
            slip.last_name,
            f"{slip.count}",
            first_sheet(slip.path, run) or f"{slip.feeds}",
        )
        for slip in slips
    ]
    told = _after_a_jam(slips)
    table = ruled(columns, rows, sheet.measure)
    return [*heading("Batches"), *table, gap(6), paragraph(told, sheet)]


def _after_a_jam(slips: Sequence[Slip]) -> str:
    """How to go on from a number; the example is one of this job's own."""
    longest = max(slips, key=lambda slip: slip.last)
    some = f"--from {min(57, longest.last)} --kind {longest.kind}"
    return f"After a jam go on from a print: addressing plates … {some}."


def _counts(job: ProofJob, sheet: Sheet) -> list[Block]:
    """Needed, overs, packs; held ones are counted in, since their envelopes will be wanted."""
    heads = ("Needed", "of these held", "Overs", "Pack of", "Packs", "To order")
    columns = (Column("Piece", 2.5), *(Column(head, 1.7, right=True) for head in heads))
    named = [(kind_name(one.kind), one) for one in job.counts]
    rows = [
        (
            name,
            *(
                f"{number:,}"
                for number in (one.needed, one.held, one.overs, one.pack, one.packs, one.to_order)
            ),
        )
        for name, one in (*named, *((one.kind, one) for one in job.suite))
    ]
    return [*heading("Counts"), *ruled(columns, rows, sheet.measure)] if rows else []


def _sizes(setting: Setting) -> str:
    """The size of the names, and the address's where it is another."""
    if setting.second is None or setting.second.ratio == 1:
        return f"{setting.size:g} pt"
    return f"{setting.size:g} / {setting.size * setting.second.ratio:.1f} pt"


def _settings(settings: Sequence[Setting], sheet: Sheet) -> list[Block]:
    """The face, size and layout of each kind, and pieces that are set out of the common run."""
    if not settings:
        return []
    columns = (
        Column("Piece", 2),
        Column("Layout", 3),
        Column("Face", 4),
        Column("Size", 1.5, right=True),
        Column("Ink stays from the edge", 3.5, right=True),
    )
    rows = [
        (
            kind_name(one.kind),
            one.layout.title,
            one.lettered,
            _sizes(one),
            f"{pt_to_mm(_edge(one)):.1f} mm",
        )
        for one in settings
    ]
    apart = [
        f"{kind_name(one.kind)}, {piece.name}: {piece.why}"
        for one in settings
        for piece in one.pieces
        if piece.why
    ]
    more = [gap(8), *points(apart, sheet, "–")] if apart else []
    return [*heading("Setting"), *ruled(columns, rows, sheet.measure), *more]


def _edge(setting: Setting) -> float:
    """The least distance between the room for ink and the envelope's edge, points."""
    room, layout = setting.room, setting.layout
    return min(room.left, room.bottom, layout.width - room.right, layout.height - room.top)


def _press(run: PlateRun, sheet: Sheet, country: str) -> list[Block]:
    """Steps, cautions and what comes after, as the device's or the shop's record has them."""
    blocks: list[Block] = []
    match run.press:
        case Device() as device:
            alone = f" {CARDS_ALONE}" if no_envelopes(run) else ""
            blocks += [*heading(device.title), paragraph(MANUAL + alone, sheet, keep=True)]
            for title, items, numbered in (
                ("Before the run", before(device), True),
                ("The page in the driver", pages_of(run, country), False),
                ("Sheets of cards", sheets_of(run, country), False),
                ("Ink", inks_of(run, device), False),
                ("Loading", loading(run, device), False),
                ("Paper", limits(device), False),
                ("Take care", device.cautions, False),
                ("After the run", afterwards(device), True),
            ):
                blocks += listed(title, items, sheet, numbered=numbered)
        case Shop() as shop:
            blocks += [*heading(shop.title), *listed("For the shop", shop.notes, sheet)]
        case None:
            words = "The docket names neither a device nor a shop: no steps are given here."
            blocks += [*heading("Where to print"), paragraph(words, sheet)]
            blocks += listed("Sheets of cards", sheets_of(run, country), sheet)
    return blocks + listed("Notes", (*run.notes, PRIVACY), sheet)
