"""From worded lines to shaped, fitted, placed ones: what ink goes where.

In: the pieces of one kind, a layout, a face, an ink. Out: a setting (one size for the whole
set) and the pages of it, streamed. Never changes a word, never writes a file.
"""

from addressing.typesetting.fitting import fit
from addressing.typesetting.live import live_faces
from addressing.typesetting.near_words import Near, near_words
from addressing.typesetting.stepping_in import within_leading
from addressing.typesetting.streaming import chokes, stream
from addressing.typesetting.swashes import swinging
from addressing.typesetting.typeface import outlines_for, shape_line

__all__ = [
    "Near",
    "chokes",
    "fit",
    "live_faces",
    "near_words",
    "outlines_for",
    "shape_line",
    "stream",
    "swinging",
    "within_leading",
]
