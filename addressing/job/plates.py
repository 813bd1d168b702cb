"""The main job: proved plates, proof sheet, counts, job sheet and manifest in the job's folder."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from hashlib import sha256
from pathlib import Path, PurePosixPath

from addressing.estimating import counts_tsv
from addressing.faults import Exit, Fault
from addressing.files import Together, alone_in, make_folder, same_as_any, sha256_of
from addressing.hands import Hand, steadily
from addressing.job.counting import count_job
from addressing.job.counts_told import told_blanks
from addressing.job.deciding import kept_decisions
from addressing.job.device_notes import device_notes, varnish_notes
from addressing.job.drawing import draw_setting, draw_sheets
from addressing.job.entries import SEALED, entry_of, origin_of
from addressing.job.fault_words import in_words
from addressing.job.fineness import to_look_at, too_few, too_fine
from addressing.job.kept_orders import kept_job, seal_kept, seal_of_plates
from addressing.job.manifest import (
    MANIFEST,
    NotPlate,
    ledger_noted,
    manifest_text,
    old_files,
    refuse_other_job,
    settled,
    with_file,
)
from addressing.job.orders import ORDERS, Kept, orders_bytes, seal_of
from addressing.job.parting import job_orders, run_of
from addressing.job.proofs import for_client, job_of, of_reprint, proof_sets
from addressing.job.reading import Reading
from addressing.job.remembering import HOUSEHOLDS, households_text
from addressing.job.sharing import backs_of, on_one_sheet
from addressing.job.tickets import unsealed_sheets
from addressing.plates import bind_plate
from addressing.preflight import judge_orders, judge_plate, judge_sequence, judge_type
from addressing.proofs import contact_sheet, job_sheet, sealed, slip_sheets, slips_of
from addressing.records.counts import PieceCount
from addressing.records.findings import Finding
from addressing.records.kept import KeptOrder
from addressing.records.plates import PlateFile, Verdict
from addressing.records.proofs import BLANK_SEAL, PlateRun, ProofJob
from addressing.records.shelf import Device, Shop
from addressing.where import Where

Tell = Callable[[str, int], None]
"""Called when a step is done, with what it was and how many pieces it did; a terminal shows it."""


SLIPS = "slips.pdf"
"""A slip for each pile, where the job is printed in batches."""


@dataclass(frozen=True, slots=True)
class Made:
    """What was written: plates with their verdicts, the counts, and all files by path."""

    folder: Path
    plates: tuple[PlateFile, ...]
    verdicts: tuple[Verdict, ...]
    counts: tuple[PieceCount, ...]
    proof_sheets: int
    notes: tuple[Finding, ...] = ()
    """Strokes finer than the way of printing holds."""
    slips: bool = False
    gone: tuple[str, ...] = ()
    """Files beside the plates that other commands had made of the plates before (a stuffing list, a
    package for the shop): taken away."""


def make_plates(
    reading: Reading, folder: Path, tell: Tell, counts: tuple[PieceCount, ...] | None = None
) -> Made:
    """Write everything under working names, judge the plates, then settle all names together.

    `counts` are a reprint's own; None counts the whole job.

    Raises:
        Fault: a file can't be written (exit 4); a plate failed its proof (exit 5).
    """
    make_folder(folder)
    make_folder(folder / "plates")
    with alone_in(folder):
        refuse_other_job(folder, reading)
        again = counts is not None
        return _make(reading, folder, tell, counts or count_job(reading), again=again)


def _make(
    reading: Reading, folder: Path, tell: Tell, counts: tuple[PieceCount, ...], *, again: bool
) -> Made:
    before = old_files(folder)
    with settled(folder, reading.sources) as together:
        plates, verdicts, kept = _plates(reading, folder, together, counts, tell)
        job = job_of(reading, counts)
        together.working(folder / "counts.tsv", private=False).write_text(
            counts_tsv(counts), encoding="utf-8", newline="\n"
        )
        _slips(reading, together.working, folder, job, plates)
        job = replace(job, seal=BLANK_SEAL if kept else None)
        fine = to_look_at(reading.kinds, plates, verdicts)
        for_shop = Hand(partial(unsealed_sheets, reading, counts) if kept else tuple[NotPlate])
        with for_shop:
            sheets = _proofs(reading, together, (folder, plates, counts), job, fine, again=again)
            unsealed = for_shop.answer()
        tell("Proof sheet", len(reading.guest_list.households))
        if kept:
            origin = origin_of(reading, plates, (*_others(together), *unsealed))
            orders = orders_bytes(kept, run_of(reading), origin)
            _seal(together, seal_of(sha256(orders).hexdigest()))
            together.working(folder / ORDERS).write_bytes(orders)
        others = _others(together)
        known = together.working(folder / HOUSEHOLDS)
        noted = ledger_noted(folder)
        answered = [decision.ref for decision in kept_decisions(folder)]
        homes = households_text(reading.known, reading.versions, noted, answered)
        known.write_text(homes, encoding="utf-8", newline="\n")
        made = {*(plate.path for plate in plates), *(other.path for other in others)}
        stale = _stale(folder, before - made, reading.sources)
        together.let_go(stale)
        text = manifest_text(reading, plates, others, noted)
        together.working(folder / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    own = (path for path in stale if path.parent == folder and path.name not in _OWN)
    gone = tuple(path.name for path in own)
    slips = any(other.kind == "slips" for other in others)
    notes = tuple(_notes(reading, plates, verdicts))
    return Made(folder, plates, verdicts, counts, sheets, notes, slips, gone)


def _notes(
    reading: Reading, plates: Sequence[PlateFile], verdicts: Sequence[Verdict]
) -> Iterator[Finding]:
    """What is worth knowing of plates that are right, each once."""
    kinds = {kind.kind: kind for kind in reading.kinds}
    yield from dict.fromkeys(
        note
        for plate, verdict in zip(plates, verdicts, strict=True)
        for note in too_fine(kinds[plate.kind], verdict)
    )
    if isinstance(reading.press, Shop):
        yield from too_few(reading.kinds, plates, reading.press)


def steps(reading: Reading) -> int:
    """How many pieces the whole job goes through, for a bar."""
    return sum(len(kind.setting.pieces) for kind in reading.kinds) + len(
        reading.guest_list.households
    )


def draw_proof(reading: Reading, folder: Path) -> tuple[Path, int, bool]:
    """The proof sheet alone: (its path, its number of sheets, True where plates lack their seal).

    Only the one that was made with the plates bears it, drawn again of the same.

    Raises:
        Fault: it can't be written (exit 4).
    """
    make_folder(folder)
    final = folder / "proof.pdf"
    refuse_other_job(folder, reading)
    with alone_in(folder), settled(folder, reading.sources) as together:
        job = for_client(job_of(reading, count_job(reading)))
        working = together.working(final)
        seal, sets = seal_kept(folder, reading), proof_sets(reading)
        sheets = contact_sheet(working, replace(job, seal=seal and BLANK_SEAL), sets)
        own = seal is not None and _is_made_with(folder, sha256_of(working))
        if own:
            working.write_bytes(sealed(working.read_bytes(), seal))
        elif seal is not None:
            sheets = contact_sheet(working, job, sets)
        proof = NotPlate(final.name, sha256_of(working), "proof")
        text = with_file(folder, reading, proof)
        together.working(folder / MANIFEST).write_text(text, encoding="utf-8", newline="\n")
    return final, sheets, not own and seal_of_plates(folder) is not None


def _is_made_with(folder: Path, digest: str) -> bool:
    """Whether a proof is the one that was made with a folder's plates, by its fingerprint unsealed.

    In older jobs none was kept.
    """
    origin = kept_job(folder, faces=False).origin
    return origin is None or dict(origin.sheets).get("proof.pdf", digest) == digest


_OWN = {
    "proof.pdf": "proof",
    "job-sheet.pdf": "job-sheet",
    "counts.tsv": "counts",
    ORDERS: "orders",
    SLIPS: "slips",
}
"""What a run makes beside the plates: name → kind."""


def _others(together: Together) -> tuple[NotPlate, ...]:
    """The files beside the plates, with their fingerprints."""
    return tuple(
        NotPlate(final.name, sha256_of(working), _OWN[final.name])
        for working, final in together.lent
        if final.name in _OWN
    )


def _seal(together: Together, seal: str) -> None:
    """Let the sheets that bear a seal bear this one."""
    for working, final in together.lent:
        if final.name in SEALED:
            working.write_bytes(sealed(working.read_bytes(), seal))


def _stale(folder: Path, names: set[str], sources: tuple[Path, ...]) -> list[Path]:
    """What the manifest of an earlier run named and this run doesn't make."""
    paths = [folder / name for name in sorted(names)]
    return [path for path in paths if path.is_file() and not same_as_any(path, sources)]


@steadily()
def _plates(
    reading: Reading, folder: Path, together: Together, counts: tuple[PieceCount, ...], tell: Tell
) -> tuple[tuple[PlateFile, ...], tuple[Verdict, ...], tuple[Kept, ...]]:
    jobs = tuple(job_orders(reading, counts))
    addressed = {kind.kind: [o for o, _ in orders] for kind, _, orders in jobs if not kind.static}
    if wrong := judge_sequence(addressed, run_of(reading)):
        _refuse(next(iter(addressed)), wrong)
    whole = [order for *_, orders in jobs for order, _ in orders]
    if whole:
        _refuse(whole[0].name, judge_type(whole))
    together_on: dict[str, list[Kept]] = {}
    for kind, setting, orders in jobs:
        _refuse(orders[0][0].name, judge_orders([order for order, _ in orders], setting))
        for order, part in orders:
            together_on.setdefault(order.name, []).append((order, part, kind.pieces))
    done: dict[str, tuple[str, Verdict]] = {}
    plates: list[PlateFile] = []
    for kind, _, orders in jobs:
        for order, part in orders:
            if order.name not in done:
                working = together.working(folder / "plates" / f"{order.name}.pdf")
                done[order.name] = _made_plate(working, together_on[order.name])
            plates.append(entry_of(order, part, done[order.name][0]))
        tell(f"{kind.kind} proved", len(kind.setting.pieces))
    verdicts = tuple(done[PurePosixPath(plate.path).stem][1] for plate in plates)
    return tuple(plates), verdicts, tuple(each for its in together_on.values() for each in its)


def _made_plate(working: Path, kinds: Sequence[Kept]) -> tuple[str, Verdict]:
    """A plate written and proved, with all kinds on it: (its fingerprint, the verdict).

    Raises:
        Fault: it can't be written (exit 4); it failed its proof (exit 5).
    """
    first, *others = kinds
    order, setting, pieces = first
    if order.sheets is None:
        sheaves, outlines = draw_setting(setting, order)
    else:
        sheaves, outlines = draw_sheets([(its, part) for its, part, _ in kinds])
    bind_plate(working, order, sheaves, outlines)
    verdict = judge_plate(working, order, setting, pieces, others)
    if verdict.faults:
        kept = [KeptOrder(its, part, tuple(own)) for its, part, own in kinds]
        _refuse(order.name, in_words(verdict.faults, kept, named=False))
    return sha256_of(working), verdict


def _refuse(name: str, faults: Sequence[str]) -> None:
    """Let no plate go that the judge objects to."""
    if faults:
        raise Fault(
            Exit.PREFLIGHT,
            "plate-not-proved",
            f"The plate {name} failed its proof: {' '.join(faults[:3])}",
            "No file was changed. Run again; if it comes back, this is a fault of the program.",
            Where(f"{name}.pdf"),
        )


def _proofs(
    reading: Reading,
    together: Together,
    made: tuple[Path, tuple[PlateFile, ...], tuple[PieceCount, ...]],
    job: ProofJob,
    fine: tuple[str, ...],
    *,
    again: bool,
) -> int:
    """Proof and job sheet; `made` are folder, plates and counts. Returns sheets of proof.

    `fine` is what is to be looked at on the first print; `again` says that it is a reprint's.
    """
    folder, plates, counts = made
    sets = proof_sets(reading)
    shown = of_reprint(for_client(job), sets) if again else for_client(job)
    sheets = contact_sheet(together.working(folder / "proof.pdf"), shown, sets)
    run = PlateRun(
        plates,
        tuple(kind.setting for kind in reading.kinds),
        reading.press,
        (*fine, *told_blanks(reading, counts), *device_notes(reading), *varnish_notes(reading)),
        tuple((kind.kind, kind.lay) for kind in reading.kinds if kind.lay is not None),
        run_of(reading).load if isinstance(reading.press, Device) else None,
        tuple(on_one_sheet(reading.kinds, reverse=run_of(reading).reverse)),
        backs_of(reading.kinds),
    )
    job_sheet(together.working(folder / "job-sheet.pdf"), job, run)
    return sheets


def _slips(
    reading: Reading,
    working: Callable[[Path], Path],
    folder: Path,
    job: ProofJob,
    plates: Sequence[PlateFile],
) -> None:
    """A slip for each pile, where the job is printed at home in batches."""
    slips = slips_of(plates, backs_of(reading.kinds))
    if slips and isinstance(reading.press, Device) and run_of(reading).load is not None:
        slip_sheets(working(folder / SLIPS), job, slips)
