"""A file of the user's own, written to start from and read back at once."""

from collections.abc import Callable
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import make_folder, write_text
from addressing.materials.shelf import Shelf, open_shelf
from addressing.materials.starts import start_path, start_text, starts
from addressing.where import Where

_ON_SHELF: dict[str, Callable[[Shelf, str], object]] = {
    "layout": Shelf.layout,
    "style": Shelf.style,
    "device": Shelf.device,
    "shop": Shelf.shop,
    "paper": Shelf.stock,
    "ink": Shelf.ink,
}


def start_own(kind: str, name: str, like: str | None, beside: Path) -> tuple[Path, str]:
    """Write a file of the user's own beside the docket: its path, and how a docket names it.

    Raises:
        Fault: what it is to be like isn't on the shelf or can't be read (exit 3), the name can't
            be a file's (exit 2), it is there already or can't be written (exit 4).
    """
    shelf, row = open_shelf(beside), starts()[kind]
    path = start_path(kind, name, beside)
    key = like or row["like"]
    _ON_SHELF[kind](shelf, key)  # or it is told what there is
    if "folder" in row and path.exists():
        raise Fault(
            Exit.WRITE,
            "already-there",
            f"{path} is already there and is left as it is.",
            "Choose another name, or take the old file away first.",
            Where(str(path)),
        )
    text = start_text(kind, name, key, beside)
    make_folder(path.parent)
    write_text(path, text)
    _ON_SHELF[kind](open_shelf(beside), name)
    return path, row["docket"].replace("{name}", name)
