"""What holds a plate together: catalogue, page tree, shared resources, its inks.

Every dictionary has exactly the keys that DEVELOPERS.md lists, so a crop box, a rotation, a script
or a layer is refused because it is not in the list, not because anyone thought of it.
"""

import re
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from addressing.preflight.container import Container
from addressing.preflight.exchange import CATALOGUE, INFO, exchange_faults, exchange_objects
from addressing.preflight.fonts import Font, read_fonts
from addressing.preflight.values import (
    TRUE,
    Objection,
    Ref,
    Value,
    quoted,
    read_dict,
    read_value,
    words_of,
)
from addressing.records.pages import FACE
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Ink

BRANCH = 200
"""The most pages that one branch of the tree may carry."""
CHANNELS = {"cyan": b"1 0 0 0 k", "magenta": b"0 1 0 0 k", "yellow": b"0 0 1 0 k"}
CHANNELS |= {"black": b"0 0 0 1 k", "grey": b"0 g"}
PROCESS_NAMES = frozenset({"All", "None", "Cyan", "Magenta", "Yellow", "Black"})
"""Names that a Separation may not have if it is to be an ink of its own (ISO 32000-1, 8.6.6.4)."""
OVERPRINT: Value = {
    "Over": {"Type": "ExtGState", "OP": TRUE, "op": TRUE, "OPM": 1.0},
}
"""Lines and fills are laid over other inks; a CMYK of nought too (ISO 32000-1, 8.6.7)."""
_TINT = ("FunctionType", "Domain", "C0", "C1", "N")
_FORM = re.compile(r"g([0-9]{1,7})")


@dataclass(frozen=True, slots=True)
class Skeleton:
    """The numbers of a plate's objects, and how each ink of a page stream must begin.

    `root` is the catalogue, `top` the root of the page tree; `pages[i]` is the object of page
    i + 1, `parents[i]` its branch. `forms` maps a glyph to its drawing. `shared` are all objects
    but the page tree's, its pages and their content streams. `openings` has one for each of the
    plate's inks, in their order.
    """

    root: int
    top: int
    branches: tuple[int, ...]
    pages: Sequence[int]
    parents: Sequence[int]
    resources: int
    forms: dict[int, int]
    openings: tuple[bytes, ...]
    shared: tuple[int, ...]
    fonts: tuple[Font, ...] = ()
    """Of live type, whose letters are in `forms` with the object of their font."""


def read_skeleton(file: Container, order: PlateOrder) -> tuple[Skeleton, tuple[str, ...]]:
    """Walk from the trailer to the last page and to every letter.

    Returns:
        The skeleton, and what was found wrong on the way.

    Raises:
        Objection: the walk can't go on.
    """
    faults: list[str] = []
    root, info = _trailer(file, faults)
    more = CATALOGUE if order.exchange is not None else ()
    catalogue = _dict(file, root, "The catalogue", ("Type", "Pages", *more), faults)
    if catalogue.get("Type") != "Catalog":
        faults.append("The catalogue isn't marked as one.")
    information = _dict(file, info, "The plate's information", None, faults)
    faults.extend(_info_faults(information, order))
    faults.extend(exchange_faults(file, catalogue, information, order))
    claimed = exchange_objects(file, catalogue) if order.exchange is not None else ()
    top = _ref(catalogue, "Pages", "the catalogue")
    branches, pages, parents = _tree(file, top, faults)
    resources = _ref(read_dict(file.plain(pages[0])), "Resources", "page 1")
    shared = read_dict(file.plain(resources))
    fonts = read_fonts(file, shared) if order.live else ()
    forms = _letters_of(fonts) if order.live else _forms(shared)
    if list(forms) != sorted(forms):
        faults.append("The plate's letters aren't in the order of their numbers.")
    inks = _ink_objects(file, shared, order, faults)
    held = (root, info, *claimed, resources, *inks)
    held += tuple(n for font in fonts for n in font.objects) or tuple(forms.values())
    tree = (top, branches, pages, parents)
    skeleton = Skeleton(root, *tree, resources, forms, openings_of(order), held, fonts)
    return skeleton, tuple(faults)


def _letters_of(fonts: Sequence[Font]) -> dict[int, int]:
    """The font of each letter, by the letter's number in the set."""
    return {f.face * FACE + letter: f.objects[0] for f in fonts for letter in f.letters}


def named_inks(order: PlateOrder) -> tuple[tuple[str, Ink], ...]:
    """The plate's inks, each with the name of its colour space: Ink, or Ink1, Ink2 and so on."""
    if not order.layers:
        return (("Ink", order.ink),)
    return tuple((f"Ink{n}", each.ink) for n, each in enumerate(order.layers, start=1))


def openings_of(order: PlateOrder) -> tuple[bytes, ...]:
    """How each ink begins on a page; where they are printed over others, that is said first."""
    first, *others = (
        b"/%b cs 1 scn\n" % name.encode() if ink.channel is None else _channel(ink)
        for name, ink in named_inks(order)
    )
    return (b"/Over gs\n" + first if order.overprints else first, *others)


def _channel(ink: Ink) -> bytes:
    """How the lines of an ink begin that stands in a process slot."""
    operator = CHANNELS.get(ink.channel or "")
    if operator is None:
        raise Objection(f"The order asks for a channel that doesn't exist: {ink.channel}.")
    return operator + b"\n"


def _trailer(file: Container, faults: list[str]) -> tuple[int, int]:
    """The catalogue and the information; size and seal are judged on the way."""
    trailer = file.trailer
    faults.extend(key_faults(trailer, ("Size", "Root", "Info", "ID"), "The trailer"))
    if trailer.get("Size") != file.count + 1:
        faults.append("The trailer states another number of objects than the file's table.")
    if not file.sealed:
        faults.append("The file was changed after it was written: its ID isn't that of its bytes.")
    return _ref(trailer, "Root", "the trailer"), _ref(trailer, "Info", "the trailer")


def _told(key: str, value: Value) -> str:
    """A part's name; of one that turns pages how far, since a whole turn turns nothing."""
    return f"{key} by {value:g}" if key == "Rotate" and isinstance(value, float) else key


def key_faults(found: dict[str, Value], wanted: Sequence[str], what: str) -> Iterator[str]:
    """Sentences on keys that must not be there, that must, and on their order; `what` begins."""
    if extra := sorted(found.keys() - set(wanted)):
        named = quoted(", ".join(_told(key, found[key]) for key in extra))[1:-1]
        yield f"{what} holds what no plate may hold: {named}."
    if missing := sorted(set(wanted) - found.keys()):
        yield f"{what} lacks what every plate has: {', '.join(missing)}."
    if not extra and not missing and list(found) != list(wanted):
        yield f"{what} has its parts in another order than every plate."


def _dict(
    file: Container, number: int, what: str, keys: Sequence[str] | None, faults: list[str]
) -> dict[str, Value]:
    """A dictionary, judged by its keys when they are given."""
    found = read_dict(file.plain(number))
    if keys is not None:
        faults.extend(key_faults(found, keys, what))
    return found


def _ref(found: dict[str, Value], key: str, what: str) -> int:
    """The object that a key refers to."""
    value = found.get(key)
    if not isinstance(value, Ref):
        raise Objection(f"{key} in {what} doesn't lead anywhere.")
    return value.number


def _info_faults(info: dict[str, Value], order: PlateOrder) -> Iterator[str]:
    """The plate's own name and maker, and nothing that could name a guest or a day."""
    wanted = INFO if order.exchange is not None else ("Title", "Producer", "Trapped")
    yield from key_faults(info, wanted, "The plate's information")
    if words_of(info.get("Title", 0.0)) != order.name:
        yield f"The plate's title isn't {order.name}."
    if words_of(info.get("Producer", 0.0)) != f"addressing {order.version}":
        yield f"The plate wasn't written by addressing {order.version}."
    if info.get("Trapped") != "False":
        yield "The plate must say that it isn't trapped."


def _tree(
    file: Container, top: int, faults: list[str]
) -> tuple[tuple[int, ...], Sequence[int], Sequence[int]]:
    """Branches, pages and each page's branch, in order of print."""
    root = _dict(file, top, "The page tree", ("Type", "Kids", "Count"), faults)
    branches = _kids(root, "the page tree")
    pages, parents = array("Q"), array("Q")
    for place, branch in enumerate(branches, start=1):
        what = f"Branch {place} of the page tree"
        found = _dict(file, branch, what, ("Type", "Parent", "Kids", "Count"), faults)
        kids = _kids(found, what)
        if found.get("Parent") != Ref(top) or found.get("Type") != "Pages":
            faults.append(f"{what} is wrong in its type or its parent.")
        full = len(kids) == BRANCH if place < len(branches) else 0 < len(kids) <= BRANCH
        if found.get("Count") != len(kids) or not full:
            faults.append(f"{what} is wrong in its count of pages.")
        pages.extend(kids)
        parents.extend([branch] * len(kids))
    if not pages:
        raise Objection("The plate has no page.")
    if root.get("Count") != len(pages) or root.get("Type") != "Pages":
        faults.append("The page tree states another number of pages than it has.")
    return branches, pages, parents


def _kids(found: dict[str, Value], what: str) -> tuple[int, ...]:
    """The objects below one of the page tree."""
    kids = found.get("Kids")
    if not isinstance(kids, tuple):
        raise Objection(f"Kids in {what} isn't a list.")
    return tuple(_ref({"Kids": kid}, "Kids", what) for kid in kids)


def _forms(shared: dict[str, Value]) -> dict[int, int]:
    """The drawing of each glyph, by the glyph's number."""
    named = shared.get("XObject")
    if not isinstance(named, dict):
        raise Objection("The plate has no letters.")
    forms: dict[int, int] = {}
    for name in named:
        match = _FORM.fullmatch(name)
        if match is None or name != f"g{int(match[1])}":
            raise Objection(f"The plate holds a drawing that isn't a letter: {quoted(name)}.")
        forms[int(match[1])] = _ref(named, name, "the plate's letters")
    return forms


def _ink_objects(
    file: Container, shared: dict[str, Value], order: PlateOrder, faults: list[str]
) -> tuple[int, ...]:
    """The objects of the spot inks (a process slot has none): name, alternate, function of each."""
    spots = {name: ink for name, ink in named_inks(order) if ink.channel is None}
    spaces_wanted = ("ColorSpace",) if spots else ()
    states = ("ExtGState",) if order.overprints else ()
    keys = ("Font" if order.live else "XObject", *spaces_wanted, *states)
    faults.extend(key_faults(shared, keys, "The plate's list of parts"))
    if order.overprints and shared.get("ExtGState") != OVERPRINT:
        faults.append("The plate's inks aren't set to overprint: one would knock out another.")
    if not spots:
        return ()
    spaces = shared.get("ColorSpace")
    if not isinstance(spaces, dict):
        raise Objection("The plate has no ink.")
    faults.extend(key_faults(spaces, tuple(spots), "The plate's list of inks"))
    numbers = []
    for name, ink in spots.items():
        numbers.append(_ref(spaces, name, "the plate's inks"))
        faults.extend(_ink_faults(read_value(file.plain(numbers[-1])), ink))
    return tuple(numbers)


def _ink_faults(value: Value, ink: Ink) -> Iterator[str]:
    """Hold a Separation against the ink of the order."""
    ordered = quoted(ink.spot)
    if not isinstance(value, tuple) or len(value) != 4 or value[0] != "Separation":  # noqa: PLR2004
        yield f"The plate's ink isn't a spot ink; {ordered} was ordered."
        return
    if value[1] != ink.spot:
        yield f"The plate's ink is named {_name(value[1])}; {ordered} was ordered."
    if ink.spot in PROCESS_NAMES:
        yield f"A spot ink can't be named {ordered}: a shop prints that on process plates."
    if value[2] != "DeviceCMYK":
        yield f"The alternate of {ordered} isn't in CMYK."
    yield from _tint_faults(value[3], ink)


def _tint_faults(function: Value, ink: Ink) -> Iterator[str]:
    """The tint function: from no ink to the alternate, evenly."""
    what = f"The alternate of {quoted(ink.spot)}"
    if not isinstance(function, dict):
        yield f"{what} isn't given."
        return
    exact = {"FunctionType": 2.0, "Domain": (0.0, 1.0), "C0": (0.0,) * 4, "N": 1.0}
    yield from key_faults(function, _TINT, what)
    for key, wanted in exact.items():
        if key in function and function[key] != wanted:
            yield f"{what} isn't even from 0 to 1 ({key})."
    if function.get("C1") != written(ink.alternate):
        yield f"{what} is another colour than was ordered."


def _name(value: Value) -> str:
    """A name of the file for a sentence."""
    return quoted(value) if isinstance(value, str) else "by something that is no name"


def written(numbers: Sequence[float]) -> tuple[float, ...]:
    """Numbers as a plate gives them: to a thousandth."""
    return tuple(round(number, 3) for number in numbers)
