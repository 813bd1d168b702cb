"""From pages to one PDF for each ink, or for all inks of a piece, object by object.

In: pages, their outlines, and the order that says what the plate must be. Out: a file under a
working name; drawing the pages and binding them are two doors, or one. Decides nothing about place
or wording; never judges its own work.
"""

from addressing.plates.choking import Choked
from addressing.plates.drawing import SHEAF, Sheaf, draw_layers, draw_pages
from addressing.plates.imposing import SheetPage, merged, page_households, pages_of, sheet_pages
from addressing.plates.package import CHECKSUMS, NAME, data_file, write_package
from addressing.plates.plate import bind_plate, write_plate
from addressing.plates.sheet_plans import plan_sheet, plan_sheets

__all__ = [
    "CHECKSUMS",
    "NAME",
    "SHEAF",
    "Choked",
    "Sheaf",
    "SheetPage",
    "bind_plate",
    "data_file",
    "draw_layers",
    "draw_pages",
    "merged",
    "page_households",
    "pages_of",
    "plan_sheet",
    "plan_sheets",
    "sheet_pages",
    "write_package",
    "write_plate",
]
