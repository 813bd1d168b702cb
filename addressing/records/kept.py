"""What a job keeps of a plate, so that it can be judged again when list and docket are gone."""

from dataclasses import dataclass

from addressing.records.pages import Setting
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder


@dataclass(frozen=True, slots=True)
class KeptOrder:
    """All that the judge was given beside a plate's bytes.

    `setting.pieces` and `pieces` are in page order; of each piece only the wording that was taken.
    """

    order: PlateOrder
    setting: Setting
    pieces: tuple[Piece, ...]
