"""A package for a shop, held against its job: read where it lies, nothing of it is unpacked."""

import hashlib
import zipfile
from collections.abc import Collection, Iterable, Iterator, Mapping
from pathlib import Path

from addressing.job.proof_held import proof_faults
from addressing.job.ticket_held import ticket_faults
from addressing.job.tickets import SHOP_PROOF
from addressing.plates import CHECKSUMS, NAME, data_file, pages_of
from addressing.preflight import bears_seal, blank_digest
from addressing.records.kept import KeptJob
from addressing.records.pages import Setting
from addressing.records.plates import PlateOrder
from addressing.records.tickets import DataRow

DATA = "data.tsv"
"""What stands on each page, as text: the package's only file beside the plates that follows from
their orders."""
_PROOF, _TICKET, _SENT_IN = "proof.pdf", "job-ticket.pdf", "envelopes-sent-in.pdf"
_SEALED = {
    _PROOF: "Proof no.",
    _TICKET: "Job ticket to proof no.",
    _SENT_IN: "Envelopes and paper sent in to proof no.",
}
"""Its sheets, which bear the seal of its plates."""
_MOST = 20_000
"""Files in a package; no job has so many plates."""
_BIT_LOCKED = 1
"""The bit of a zip entry that says it is encrypted (APPNOTE 4.4.4, from memory)."""


def data_rows(printed: Iterable[tuple[PlateOrder, Setting]]) -> Iterator[DataRow]:
    """What stands on each page of plates, kind by kind."""
    for order, setting in printed:
        for page, piece in zip(pages_of(order), setting.pieces, strict=True):
            own = [line for line in piece.lines if order.bears(setting, line.role)]
            lines = tuple(line.text for line in own)
            yield DataRow(f"{order.name}.pdf", page, order.copies, piece.household, lines)


def package_faults(path: Path, kept: KeptJob, plates: Mapping[str, str]) -> tuple[str, ...]:
    """What is wrong in a package, in sentences; `plates` are fingerprints by path.

    Its plates must be those of the job byte for byte, its data what their orders say, its sheets
    under their seal, its checksums those of its files.
    """
    try:
        with zipfile.ZipFile(path) as package:
            return tuple(_faults(package, kept, plates))
    except (OSError, ValueError, zipfile.BadZipFile, NotImplementedError, EOFError):
        return ("It can't be read as a package: it is damaged, or no zip.",)


def _faults(package: zipfile.ZipFile, kept: KeptJob, plates: Mapping[str, str]) -> Iterator[str]:
    entries = package.infolist()
    if package.comment or any(entry.comment for entry in entries):
        yield "It has a remark in it that this program didn't write."
    if wrong := _unsafe(entries):
        yield wrong
        return
    sums = {entry.filename: _digest(package, entry) for entry in entries}
    yield from _plate_faults(sums, plates)
    yield from _strange_faults(sums)
    yield from _sealed_faults(package, kept)
    if DATA in sums and sums[DATA] != hashlib.sha256(_data(kept)).hexdigest():
        yield f"{DATA} in it says something else than the plates of the job hold."
    told = sums.pop(CHECKSUMS, None)
    rows = "".join(f"{digest}  {name}\n" for name, digest in sums.items())
    if told != hashlib.sha256(rows.encode()).hexdigest():
        yield f"{CHECKSUMS} in it doesn't fit its files."


def _strange_faults(names: Collection[str]) -> Iterator[str]:
    """What every package has and this one lacks; what lies in it and is none of it."""
    own = {*_SEALED, DATA, CHECKSUMS}
    yield from (f"{name} isn't in it." for name in sorted(own.difference(names)))
    for name in names:
        if name not in own and not name.startswith("plates/"):
            yield f"{name} in it is no file that a package has."


def _sealed_faults(package: zipfile.ZipFile, kept: KeptJob) -> Iterator[str]:
    """The sheets in it that must bear the seal of the job's plates, in jobs whose sheets do."""
    names = package.namelist() if kept.origin is not None and kept.origin.sealed else ()
    for name, said in _SEALED.items():
        if name in names and not bears_seal(package.read(name), kept.seal, said):
            yield f"{name} in it doesn't bear the seal of the job's plates, {kept.seal}."
    if _PROOF in names:
        yield from _proof_faults(package.read(_PROOF), kept)
    if _TICKET in names:
        yield from (
            f"{_TICKET} in it {each}" for each in ticket_faults(package.read(_TICKET), kept)
        )
    for name in (_TICKET, _SENT_IN):
        if name in names and is_other_sheet(package.read(name), name, kept):
            yield (
                f"{name} in it isn't the one that goes with these plates: papers, sizes, counts or"
                " terms on it may be others."
            )


def _proof_faults(sheets: bytes, kept: KeptJob) -> Iterator[str]:
    """What its proof shows otherwise; where all envelopes are right, whether all else is."""
    known = SHOP_PROOF in dict(kept.origin.sheets if kept.origin is not None else ())
    if known and not is_other_sheet(sheets, SHOP_PROOF, kept):
        return
    faults = [f"{_PROOF} in it: {fault}" for fault in proof_faults(sheets, kept, alone=True)]
    if known and not faults:
        other = "names, counts or dates beside its envelopes may be others"
        faults = [f"{_PROOF} in it isn't the one that goes with these plates: {other}."]
    yield from faults


def is_other_sheet(sheets: bytes, name: str, kept: KeptJob) -> bool:
    """Whether a sheet isn't the one whose fingerprint went into the seal; False where none did."""
    known = dict(kept.origin.sheets) if kept.origin is not None else {}
    return name in known and blank_digest(sheets, kept.seal) != known[name]


def _unsafe(entries: list[zipfile.ZipInfo]) -> str | None:
    """What shows that another hand packed it; then nothing of it is read."""
    names = [entry.filename for entry in entries]
    if len(names) > _MOST or len(set(names)) != len(names):
        return "It holds a file twice, or far too many."
    if strange := next((name for name in names if not NAME.fullmatch(name)), None):
        return f"It holds a file under a name that no package has: {strange[:60]!a}."
    for entry in entries:
        stored = entry.compress_type == zipfile.ZIP_STORED
        if not stored or entry.flag_bits & _BIT_LOCKED or entry.compress_size != entry.file_size:
            return "It was packed by another program: its files aren't laid in as they are."
    return None


def _digest(package: zipfile.ZipFile, entry: zipfile.ZipInfo) -> str:
    with package.open(entry) as member:
        return hashlib.file_digest(member, "sha256").hexdigest()  # type: ignore[arg-type]


def _plate_faults(sums: Mapping[str, str], plates: Mapping[str, str]) -> Iterator[str]:
    """Its plates against the job's, by fingerprints; which plate lies under another's name."""
    whose = {digest: path for path, digest in plates.items()}
    for path, digest in plates.items():
        own = sums.get(path)
        if own is None:
            yield f"The plate {path} isn't in it."
        elif own != digest:
            other = f"it is {whose[own]}" if own in whose else "it was changed, or is an older one"
            yield f"{path} in it isn't the plate that was proved: {other}."
    for name in sums:
        if name.startswith("plates/") and name not in plates:
            yield f"{name} in it is no plate of this job."


def _data(kept: KeptJob) -> bytes:
    kinds: dict[str, list[tuple[PlateOrder, Setting]]] = {}
    for each in kept.orders:
        kinds.setdefault(each.order.kind, []).append((each.order, each.setting))
    return data_file(data_rows(pair for its in kinds.values() for pair in its))
