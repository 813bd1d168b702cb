"""Faces: the catalogue's TOML, and a user's own font files, opened only when somebody asks."""

import re
from importlib.util import find_spec
from pathlib import Path
from typing import Annotated

from pydantic import Field

from addressing.faults import Exit, Fault
from addressing.files import sha256_of
from addressing.materials.own_face import FaceFacts, face_facts
from addressing.materials.reading import Entry, Problem, Source, checked, read_toml, wrong
from addressing.records.shelf import Face
from addressing.where import Where

FONT_SUFFIXES = (".ttf", ".otf")

DEFAULT_FEATURES = {"kern": 1, "liga": 1, "calt": 1, "lnum": 1}
"""Lining figures stand level in house numbers and ZIP codes; several faces have old-style ones by
default. A face without such a feature isn't touched by it."""

Tag = Annotated[str, Field(pattern=r"^[ -~]{4}$")]


class FaceFile(Entry):
    """A face of the catalogue. `package` carries the file; without it the file lies beside."""

    family: str = Field(min_length=1)
    package: str | None = Field(default=None, pattern=r"^[a-z][a-z0-9_]*$")
    file: str = Field(min_length=1)
    axes: dict[Tag, float] = Field(default_factory=dict)
    features: dict[Tag, Annotated[int, Field(ge=0, le=99)]] = Field(
        default_factory=lambda: dict(DEFAULT_FEATURES)
    )
    licence: str = ""


def slug(stem: str) -> str:
    """A file's name as a key.

    >>> slug("Penhew Script_Regular[wght]")
    'penhew-script-regular-wght'
    """
    return re.sub(r"[^a-z0-9]+", "-", stem.casefold()).strip("-") or "face"


def face_sources(folder: Path) -> dict[str, Path]:
    """What a folder of faces offers: key to TOML file, or to a font file that no TOML names.

    A TOML file comes before a font file of the same key.
    """
    if not folder.is_dir():
        return {}
    entries = sorted(path for path in folder.iterdir() if path.is_file())
    fonts = {slug(p.stem): p for p in reversed(entries) if p.suffix.casefold() in FONT_SUFFIXES}
    return fonts | {p.stem: p for p in entries if p.suffix == ".toml"}


def read_face(key: str, path: Path) -> Face:
    """The face in a TOML file of the catalogue, or in a font file by itself.

    Raises:
        Fault: exit 3; `face-missing`, `-damaged`, `-too-large`, `-restricted`, or what is wrong
            with the TOML file (`-unreadable`, `-syntax`, `-wrong`).
    """
    if path.suffix.casefold() in FONT_SUFFIXES:
        facts = face_facts(path)
        return _face(key, path, facts, FaceFile(family=facts.family or path.stem, file=path.name))
    source = read_toml("face", path)
    entry = checked(FaceFile, source)
    font = _font_path(entry, source)
    facts = face_facts(font)
    problems = _problems(entry, facts)
    if problems:
        raise wrong(source, problems)
    return _face(key, font, facts, entry)


def _problems(entry: FaceFile, facts: FaceFacts) -> list[Problem]:
    """Axes and features that the font doesn't have; the usual features may be absent."""
    problems = [
        Problem(("axes", tag), f"{entry.family} has no such place.", _axis_mend(facts))
        for tag, at in entry.axes.items()
        if not any(tag == axis and low <= at <= high for axis, low, high in facts.axes)
    ]
    problems.extend(
        Problem(("features", tag), f"{entry.family} has no such feature.", "leave it out.")
        for tag in entry.features
        if tag not in facts.features and tag not in DEFAULT_FEATURES
    )
    return problems


def _axis_mend(facts: FaceFacts) -> str:
    if not facts.axes:
        return "this face isn't variable: leave axes out."
    return f"it has {', '.join(f'{tag} {low:g} to {high:g}' for tag, low, high in facts.axes)}."


def _font_path(entry: FaceFile, source: Source) -> Path:
    """Where the face's file lies: inside its package, or beside the TOML file.

    Raises:
        Fault: exit 3; `face-missing` when the package isn't installed, `face-wrong` when the file
            would lie elsewhere.
    """
    folder = source.path.parent
    if entry.package is not None:
        spec = find_spec(entry.package)
        if spec is None or spec.origin is None:
            raise Fault(
                Exit.INPUT,
                "face-missing",
                f"{entry.family} is in the package {entry.package}, which isn't installed.",
                "Install the program's packages again, or choose another face.",
                Where(str(source.path)),
            )
        folder = Path(spec.origin).parent
    path = folder / entry.file
    if not path.resolve().is_relative_to(folder.resolve()):
        mend = "put the font file beside this one and give its name."
        raise wrong(source, [Problem(("file",), "it lies in another folder.", mend)])
    return path


def _face(key: str, path: Path, facts: FaceFacts, entry: FaceFile) -> Face:
    if facts.embedding == "restricted":
        raise Fault(
            Exit.INPUT,
            "face-restricted",
            f"{path.name} says of itself that it may not be embedded in a document.",
            "Ask the foundry for a licence that allows embedding and for the file that goes with "
            "it, or choose another face.",
            Where(str(path)),
        )
    return Face(
        key=key,
        family=entry.family,
        path=path,
        sha256=sha256_of(path),
        axes=tuple(entry.axes.items()),
        features=tuple(entry.features.items()),
        embedding=facts.embedding,
        licence=entry.licence,
    )
