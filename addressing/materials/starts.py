"""Files of the user's own to start from: what stands on the shelf, written out with its remarks."""

import json
import re
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.materials.nearest import unknown
from addressing.materials.shelf import package_folder
from addressing.where import Where

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")


@cache
def starts() -> Mapping[str, Mapping[str, str]]:
    """What can be started, by its kind ("layout", "paper"): the rows of data/starts.toml."""
    return dict(tomllib.loads(_data("starts.toml").read_text(encoding="utf-8")))


def start_path(kind: str, name: str, beside: Path) -> Path:
    """Where a file of the user's own lies beside the docket.

    Raises:
        Fault: no file can have that name (exit 2).
    """
    if not _NAME.fullmatch(name) or name != name.strip():
        raise Fault(
            Exit.OPTIONS,
            "name-unfit",
            f"“{name}” can't name a {kind}.",
            "Use letters, digits, hyphens and blanks; leave the ending out: .toml is added.",
        )
    row = starts()[kind]
    if "folder" in row:
        return beside / row["folder"] / f"{name}.toml"
    return beside / f"{row['file']}.toml"


def start_text(kind: str, name: str, like: str | None, beside: Path) -> str:
    """The text of a file of the user's own that says what `like` on the shelf says, titled `name`.

    Of a file that holds several of a kind and is there already: all of it, with the new one below.

    Raises:
        Fault: `like` isn't on the shelf (exit 3), or the name is taken in that file (exit 4).
    """
    row = starts()[kind]
    like = like or row["like"]
    if "text" in row:
        return _filled(row["text"], name, like)
    if "folder" in row:
        own = beside / row["folder"] / f"{like}.toml"
        text = own.read_text("utf-8-sig") if own.is_file() else _packaged(kind, row, like)
        return _titled(text, name)
    return _one_more(kind, name, like, beside / f"{row['file']}.toml")


def _packaged(kind: str, row: Mapping[str, str], like: str) -> str:
    """A packaged thing as a file of its own."""
    if kind == "layout":
        text = (package_folder(row["folder"]) / f"{like}.toml").read_text(encoding="utf-8")
        return f"{_filled(row['head'], '', like)}\n{text}"
    return alone(_data(f"{row['folder']}.toml"), like) + "\n"


def _one_more(kind: str, name: str, like: str, own: Path) -> str:
    """The user's own file of several with one more in it; a new one begins with the remarks."""
    packaged = _data(own.name)
    there = own.read_text(encoding="utf-8-sig") if own.is_file() else ""
    mine: dict[str, Any] = tomllib.loads(there)
    if name in mine:
        raise Fault(
            Exit.WRITE,
            "already-there",
            f"{own} has a {kind} “{name}” already; it is left as it is.",
            "Choose another name.",
            Where(str(own), None, name),
        )
    table = _table(own if like in mine else packaged, like)
    head = there.rstrip() if there.strip() else _remarks(packaged)
    key = name if _BARE.fullmatch(name) else json.dumps(name)
    return f"{head}\n\n[{key}]\n{_titled(table, name)}\n"


def _titled(text: str, name: str) -> str:
    """The text with the first title in it changed; inks have none."""
    return re.sub(r"^title = .*$", f"title = {json.dumps(name)}", text, count=1, flags=re.MULTILINE)


def alone(path: Path, key: str) -> str:
    """Of a packaged file of several tables its remarks and one table, as a file of its own."""
    return f"{_remarks(path)}\n\n{_table(path, key)}"


def _remarks(path: Path) -> str:
    return path.read_text(encoding="utf-8").partition("\n\n")[0]


def _table(path: Path, key: str) -> str:
    """What stands in a table of a file, without its header."""
    text = path.read_text(encoding="utf-8-sig")
    heads = (f"[{key}]\n", f"[{json.dumps(key)}]\n")
    head = next((each for each in heads if f"\n{each}" in f"\n{text}"), None)
    if head is None:
        raise unknown(path.stem, key, tuple(tomllib.loads(text)), None)
    rest = f"\n{text}".partition(f"\n{head}")[2]
    return rest.partition("\n[")[0].rstrip()


def _filled(text: str, name: str, like: str) -> str:
    return text.lstrip("\n").replace("{name}", name).replace("{like}", like)


def _data(name: str) -> Path:
    return Path(str(files("addressing"))) / "data" / name
