"""What people look at and sign: contact sheet, job sheet, test sheets, what goes to a shop.

In: settings, their pages and outlines, findings, counts. Out: PDF files. Draws the same outlines as
the plates; never lays out an envelope itself.
"""

from addressing.proofs.contact_sheet import contact_sheet
from addressing.proofs.cost_picture import cost_pdf, cost_png, cost_svg
from addressing.proofs.flow import sealed
from addressing.proofs.job_sheet import job_sheet
from addressing.proofs.job_ticket import job_ticket, sent_in_sheet
from addressing.proofs.light_sheet import light_sheet
from addressing.proofs.ruled_sheet import test_sheet
from addressing.proofs.shop_proof import shop_proof
from addressing.proofs.slips import slip_sheets, slips_of
from addressing.proofs.specimen_sheet import draw_specimen_pictures, draw_specimens
from addressing.proofs.stuffing_list import stuffing_list

__all__ = [
    "contact_sheet",
    "cost_pdf",
    "cost_png",
    "cost_svg",
    "draw_specimen_pictures",
    "draw_specimens",
    "job_sheet",
    "job_ticket",
    "light_sheet",
    "sealed",
    "sent_in_sheet",
    "shop_proof",
    "slip_sheets",
    "slips_of",
    "stuffing_list",
    "test_sheet",
]
