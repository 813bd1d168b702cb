"""From pages to one PDF for each ink, object by object.

In: pages, their outlines, and the order that says what the plate must be. Out: a file under a
working name; drawing the pages and binding them are two doors, or one. Decides nothing about place
or wording; never judges its own work.
"""

from addressing.plates.drawing import Sheaf, draw_pages
from addressing.plates.imposing import impose, pages_of, plan_sheet
from addressing.plates.package import data_file, write_package
from addressing.plates.plate import bind_plate, write_plate

__all__ = [
    "Sheaf",
    "bind_plate",
    "data_file",
    "draw_pages",
    "impose",
    "pages_of",
    "plan_sheet",
    "write_package",
    "write_plate",
]
