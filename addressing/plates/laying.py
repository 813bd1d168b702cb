"""Where a piece lies on its page: the page's boxes, and the step that takes all ink there."""

from addressing.plates.numbers import number
from addressing.records.affine import SAME, on_page, piece_box
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box


def page_boxes(order: PlateOrder) -> str:
    """The entries of a page's dictionary: the page that is fed, and the piece on it."""
    page = order.lay.page if order.lay is not None else order.trim
    piece = _edges(piece_box(order.lay, order.trim))
    return f"/MediaBox {_edges(Box(0.0, 0.0, *page))} /BleedBox {piece} /TrimBox {piece}"


def _edges(box: Box) -> str:
    edges = (box.left, box.bottom, box.right, box.top)
    return f"[{' '.join(number(edge) for edge in edges)}]"


def laying(order: PlateOrder) -> bytes:
    """The step before a page's lines; nothing where they stand as they are."""
    *turning, x, y = on_page(order.lay, order.trim)
    written = [*(number(part, 8) for part in turning), number(x), number(y)]
    if written == [number(part) for part in SAME]:
        return b""
    return f"{' '.join(written)} cm\n".encode("ascii")
