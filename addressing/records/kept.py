"""What a job keeps of a plate, so that it can be judged again when list and docket are gone."""

from dataclasses import dataclass

from addressing.records.pages import Setting
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder
from addressing.records.runs import RunOrder


@dataclass(frozen=True, slots=True)
class KeptOrder:
    """All that the judge was given beside a plate's bytes.

    `setting.pieces` and `pieces` are in page order; of each piece only the wording that was taken.
    """

    order: PlateOrder
    setting: Setting
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Origin:
    """Of what a job's plates were made, who waited (by key), and the plates' fingerprints by path.

    `list` is the list's file without its folder; the digests are SHA-256, None without a docket or
    answers. `files` are fingerprints of what was made beside the plates and bears no seal, `sealed`
    the sheets that bear the plates' seal, `sheets` the fingerprints of these with BLANK_SEAL in its
    place, those of a shop's package too; all are empty in older jobs. `date` is the proof's.
    """

    list: str
    list_sha256: str
    docket_sha256: str | None
    decisions_sha256: str | None
    held: tuple[str, ...]
    later: tuple[str, ...]
    plates: tuple[tuple[str, str], ...]
    files: tuple[tuple[str, str], ...] = ()
    sealed: tuple[str, ...] = ()
    sheets: tuple[tuple[str, str], ...] = ()
    date: str | None = None


@dataclass(frozen=True, slots=True)
class KeptJob:
    """All that a job's folder keeps of its plates; `run` and `origin` are None in older ones.

    `seal` is what is said of all of it in a few figures.
    """

    orders: tuple[KeptOrder, ...]
    run: RunOrder | None = None
    origin: Origin | None = None
    seal: str = ""
