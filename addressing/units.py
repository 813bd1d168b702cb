"""Millimetres where people read and write, points inside.

A point is the PDF unit: 1/72 inch (ISO 32000-1, 8.3.2.3); an inch is 25.4 mm exactly.
"""

PT_PER_INCH = 72.0
MM_PER_INCH = 25.4
PT_PER_MM = PT_PER_INCH / MM_PER_INCH


def mm_to_pt(mm: float) -> float:
    """Points for a length in millimetres.

    >>> mm_to_pt(25.4)
    72.0
    """
    return mm * PT_PER_MM


def pt_to_mm(pt: float) -> float:
    """Millimetres for a length in points.

    >>> round(pt_to_mm(522.0), 3)
    184.15
    """
    return pt / PT_PER_MM
