"""A user's own font tried in a process of its own, before this one lets any library near it.

A font is a program of a kind: letters made of letters, rules that rewrite rules. One that was made
to harm, or only badly, can keep a library busy for ever, eat all memory, or end the process. So
what setting and judging will do with it (read its tables, shape the lines, draw each letter) is
done first by a child that is stopped after a while and may take so much memory and no more.

It promises that these lines can be set and judged; other words in the same font are another trial.
"""

import json
import subprocess
import sys
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.materials.own_face import damaged
from addressing.records.shelf import Face
from addressing.where import Where

SECONDS = 15
"""Of the processor's time; the eight faces of the shelf take less than one with 5 000 lines."""
PATIENCE = 60
"""Seconds by the wall after which the child is ended, however busy the machine is."""
MEGABYTES = 2048
"""Memory that the child may take."""
LINES = 20_000
"""Lines that are tried; more are set by the same letters."""

SAMPLE = (
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "abcdefghijklmnopqrstuvwxyz",
    "0123456789 .,-’&/#()",
    "Mr. and Mrs. Tobias Wexcombe",
    "14 Larkmoor Lane",
)
"""What is tried of a font when nothing else is known of it."""


def try_font(path: Path, index: int = 0) -> None:
    """Have a font file looked over and its usual letters set, in a child.

    Raises:
        Fault: exit 3; as `face_facts`, or `face-damaged` where it takes too long, takes too much
            memory, or ends the child.
    """
    _try({"path": str(path.absolute()), "index": index, "texts": SAMPLE}, path)


def try_face(face: Face, texts: Sequence[str]) -> None:
    """Have lines set in a face and each of their letters drawn, in a child.

    Raises:
        Fault: as for `try_font`.
    """
    asked = {
        "path": str(face.path.absolute()),
        "index": face.index,
        "texts": [text.upper() if face.in_capitals else text for text in texts[:LINES]],
        "axes": dict(face.axes),
        "features": {"kern": 1, **dict(face.features)},
    }
    _try(asked, face.path)


def letters_lacking(path: Path, letters: str, index: int = 0) -> tuple[str, ...]:
    """The letters that a refused font lacks besides, told by a child; () where nobody can tell."""
    asked = {"path": str(path.absolute()), "index": index, "letters": letters}
    try:
        told = _told(asked)
    except (ValueError, subprocess.TimeoutExpired):
        return ()
    return tuple(map(str, told.get("lacks", ()))) if told else ()


def _try(asked: dict[str, Any], path: Path) -> None:
    try:
        told = _told(asked)
    except subprocess.TimeoutExpired as error:
        raise damaged(path, "reading it takes too long") from error
    except ValueError as error:
        raise damaged(path, "reading it fails") from error
    if told is None:
        raise damaged(path, "reading it takes too long or too much memory, or ends the program")
    if told:
        text = str(told["text"])
        raise Fault(Exit.INPUT, str(told["code"]), text, str(told["mend"]), Where(str(path)))


def _told(asked: dict[str, Any]) -> dict[str, Any] | None:
    """What the child says; None when it was ended."""
    child = subprocess.run(
        [sys.executable, "-m", "addressing.materials.font_child"],
        input=json.dumps(asked | {"seconds": SECONDS, "megabytes": MEGABYTES}).encode(),
        capture_output=True,
        cwd=Path(str(files("addressing"))).parent,
        timeout=PATIENCE,
        check=False,
    )
    told: dict[str, Any] | None = json.loads(child.stdout or b"null")
    return told
