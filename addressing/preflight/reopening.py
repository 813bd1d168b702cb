"""The plate opened by pikepdf: does a reader that isn't ours see the same file?

pikepdf repairs in silence, so its warnings are asked for; a document that was let go answers
nothing, so it is held open and what it shows is counted.
"""

import io
from collections.abc import Iterator, Sequence
from pathlib import Path

import pikepdf

from addressing.preflight.container import Container
from addressing.preflight.excerpt import with_branches
from addressing.preflight.skeleton import Skeleton


def reopening_faults(
    path: Path, file: Container, skeleton: Skeleton, batch: range
) -> Iterator[str]:
    """What pikepdf sees otherwise of a batch of pages: warnings, objects, pages and their order.

    A batch is at most AT_ONCE pages.
    """
    pages = skeleton.pages[batch.start : batch.stop]
    if len(pages) == len(skeleton.pages):
        yield from _part_faults(path, file, pages)
        return
    part = with_branches(file, skeleton, batch.start, batch.stop)
    yield from _part_faults(part, file, pages)


def _part_faults(part: Path | io.BytesIO, file: Container, pages: Sequence[int]) -> Iterator[str]:
    """What is seen otherwise of the file and of these pages."""
    try:
        with pikepdf.open(part, suppress_warnings=True, attempt_recovery=False) as document:
            seen = [page.objgen for page in document.pages]
            yield from _file_faults(document, file)
            if seen != [(number, 0) for number in pages]:
                yield "Another reader sees other pages, or in another order."
            if warnings := document.get_warnings():
                yield f"Another reader had to mend the file to open it ({len(warnings)} times)."
    except pikepdf.PdfError:
        yield "Another reader can't open the file."


def _file_faults(document: pikepdf.Pdf, file: Container) -> Iterator[str]:
    """Version, protection and the number of objects."""
    if document.is_encrypted:
        yield "The file is protected by a password."
    if document.pdf_version != "1.6":
        yield f"Another reader takes the file for PDF {document.pdf_version}."
    if document.trailer.get("/Size") != file.count + 1:
        yield "Another reader sees another number of objects."
