"""Where a piece lies on its page: the page's boxes, and the step that takes all ink there."""

from addressing.plates.imposing import marks
from addressing.plates.numbers import number
from addressing.records.affine import SAME, after, on_page, piece_box
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box


def page_boxes(order: PlateOrder) -> str:
    """The entries of a page's dictionary: the page, the piece with its bleed, the piece."""
    if order.sheets is not None:
        sheet = _edges(Box(0.0, 0.0, *order.sheets.sheet))
        return f"/MediaBox {sheet} /BleedBox {sheet} /TrimBox {sheet}"
    bleed = order.bleed if order.lay is None else 0.0
    width, height = order.lay.page if order.lay is not None else order.trim
    page = Box(0.0, 0.0, width + 2 * bleed, height + 2 * bleed)
    piece = piece_box(order.lay, order.trim)
    if bleed:
        piece = Box(bleed, bleed, piece.width, piece.height)
    over = page if bleed else piece
    return f"/MediaBox {_edges(page)} /BleedBox {_edges(over)} /TrimBox {_edges(piece)}"


def _edges(box: Box) -> str:
    edges = (box.left, box.bottom, box.right, box.top)
    return f"[{' '.join(number(edge) for edge in edges)}]"


def laying(order: PlateOrder) -> bytes:
    """What goes before a page's lines: the step to their place if any, or a sheet's marks."""
    if order.sheets is not None:
        return marks(order.sheets)
    bleed = order.bleed if order.lay is None else 0.0
    *turning, x, y = after(on_page(order.lay, order.trim), (1.0, 0.0, 0.0, 1.0, bleed, bleed))
    written = [*(number(part, 8) for part in turning), number(x), number(y)]
    if written == [number(part) for part in SAME]:
        return b""
    return f"{' '.join(written)} cm\n".encode("ascii")
