"""How envelopes go through a home device: on which page, which way round, in which order.

In: a device's record, a layout, the docket's choice, what was measured. Out: the lay of a piece,
the part of it that can be inked, a calibration, the order of print. Draws and writes nothing.
"""

from addressing.feeding.calibrating import Solved, marks_on, solve
from addressing.feeding.laying import check_stock, lay_for, within_reach
from addressing.feeding.mixing_up import Measured
from addressing.feeding.sequence import in_order

__all__ = [
    "Measured",
    "Solved",
    "check_stock",
    "in_order",
    "lay_for",
    "marks_on",
    "solve",
    "within_reach",
]
