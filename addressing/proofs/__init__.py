"""What people look at and sign: the contact sheet and the job sheet.

In: settings, their pages and outlines, findings, counts. Out: PDF files. Draws the same outlines as
the plates; never lays out an envelope itself.
"""

from addressing.proofs.contact_sheet import contact_sheet
from addressing.proofs.job_sheet import job_sheet

__all__ = ["contact_sheet", "job_sheet"]
