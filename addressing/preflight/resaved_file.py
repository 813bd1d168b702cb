"""What a file that another program saved holds besides its pages: actions, layers, inks."""

from collections.abc import Iterator

import pikepdf

from addressing.preflight.skeleton import named_inks, written
from addressing.preflight.values import quoted
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Ink

_CATALOGUE = {"/Type", "/Pages", "/Version", "/Extensions"}
"""What any program may write there; the rest is no plate's."""
_EXCHANGE = {"/Metadata", "/OutputIntents"}
_NEAR = 0.002
"""By so much another program may write a part of a colour otherwise."""
_EVEN = 2
"""The kind of function that goes evenly from one colour to the other (ISO 32000-1, 7.10.3)."""
_PARTS = 4
"""Of a spot ink's colour space."""


def whole_faults(document: pikepdf.Pdf, order: PlateOrder) -> Iterator[str]:
    """What the file does or holds as a whole, and whose plate it says it is."""
    own = _CATALOGUE | (_EXCHANGE if order.exchange is not None else set())
    held = set(document.Root.keys()) - own
    if "/Names" in held:
        held -= {"/AF"}  # the same files, said again
    for key in sorted(held):
        yield f"The catalogue holds what no plate may hold: {key[1:]}."
    title = document.docinfo.get("/Title")
    if title is not None and str(title) != order.name:
        yield f"The file's title was changed: it isn't {order.name} any more."


def ink_faults(page: pikepdf.Page, order: PlateOrder) -> Iterator[str]:
    """The spot inks that a page is in by another name, or as another colour, than was ordered."""
    spaces = page.resources.get("/ColorSpace")
    if not isinstance(spaces, pikepdf.Dictionary):
        return
    for name, ink in named_inks(order):
        space = spaces.get(f"/{name}") if ink.channel is None else None
        if not isinstance(space, pikepdf.Array) or len(space) < _PARTS:
            continue
        if _names_of(space[1]) != (f"/{ink.spot}",):
            own = quoted(" and ".join(each[1:] for each in _names_of(space[1])))
            yield f"The plate's ink is named {own}; {quoted(ink.spot)} was ordered."
        yield from _shown_faults(space, ink)


def _names_of(colorants: pikepdf.Object) -> tuple[str, ...]:
    """The inks that a colour space names: one, or a list of them."""
    several = colorants if isinstance(colorants, pikepdf.Array) else (colorants,)
    return tuple(str(each) for each in several)


def _shown_faults(space: pikepdf.Array, ink: Ink) -> Iterator[str]:
    """How a screen, or a printer that doesn't know the ink, shows it."""
    what, function = f"The alternate of {quoted(ink.spot)}", space[3]
    if str(space[2]) != "/DeviceCMYK":
        yield f"{what} isn't in CMYK."
    elif not isinstance(function, pikepdf.Dictionary) or function.get("/FunctionType") != _EVEN:
        yield f"{what} isn't even from 0 to 1 (FunctionType)."
    else:
        full = [float(each) for each in function.get("/C1", ())]
        pairs = zip(full, written(ink.alternate), strict=False)
        if len(full) != len(ink.alternate) or any(abs(one - two) > _NEAR for one, two in pairs):
            yield f"{what} is another colour than was ordered."
