"""What people look at and sign: the contact sheet and the job sheet.

In: settings, their pages and outlines, findings, counts. Out: PDF files. Draws the same outlines as
the plates; never lays out an envelope itself.
"""
