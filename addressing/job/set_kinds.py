"""One kind of piece of a job, from its words to its paper."""

from dataclasses import dataclass

from addressing.records.lays import Lay
from addressing.records.methods import Method
from addressing.records.pages import Setting
from addressing.records.pieces import Piece
from addressing.records.sheets import Imposition
from addressing.records.shelf import Stock


@dataclass(frozen=True, slots=True)
class SetKind:
    """One kind of piece of the job: as worded, as set, on its paper.

    `setting` holds every piece that could be set, held ones too.
    """

    kind: str
    pieces: tuple[Piece, ...]
    setting: Setting
    stock: Stock
    lay: Lay | None = None
    """How it lies on the device's page; None without a device."""
    method: Method | None = None
    """How it is printed; None when nobody said."""
    sheets: Imposition | None = None
    """How several lie on a sheet; None when each has a page of its own."""
    shared: tuple[str, ...] = ()
    """All kinds on its plates, in order, its own too; () when it is alone there."""

    @property
    def static(self) -> bool:
        """True when one page serves all households."""
        return len(self.pieces) == 1 and self.pieces[0].household is None
