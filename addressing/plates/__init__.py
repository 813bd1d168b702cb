"""From pages to one PDF for each ink, object by object.

In: pages, their outlines, and the order that says what the plate must be. Out: a file under a
working name. Decides nothing about place or wording; never judges its own work.
"""

from addressing.plates.plate import write_plate

__all__ = ["write_plate"]
