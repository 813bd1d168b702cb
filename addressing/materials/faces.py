"""Faces: the catalogue's TOML, and a user's own font files, opened only when somebody asks."""

import io
import re
from collections.abc import Sequence
from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path
from typing import Annotated

from pydantic import AfterValidator, Field

from addressing.faults import Exit, Fault
from addressing.files import sha256_of
from addressing.materials.fallbacks import FallbackEntry, script_code
from addressing.materials.font_trial import try_font
from addressing.materials.own_face import FaceFacts, damaged, face_facts
from addressing.materials.reading import Entry, Problem, Source, checked, read_toml, wrong
from addressing.records.shelf import Face
from addressing.where import Where

FONT_SUFFIXES = (".ttf", ".otf", ".ttc", ".otc", ".woff", ".woff2", ".pfb", ".pfa")
"""Files that are shown as faces. The last four can't be used, and say why when asked for."""

DEFAULT_FEATURES = {"kern": 1, "liga": 1, "calt": 1, "lnum": 1}
"""Lining figures stand level in house numbers and ZIP codes; several faces have old-style ones by
default. A face without such a feature isn't touched by it."""

Tag = Annotated[str, Field(pattern=r"^[ -~]{4}$")]


Larger = Annotated[float, Field(ge=0.5, le=2)]


class FaceFile(Entry):
    """A face of the catalogue. `package` carries the file; without it the file lies beside."""

    family: str = Field(min_length=1)
    package: str | None = Field(default=None, pattern=r"^[a-z][a-z0-9_]*$")
    file: str = Field(min_length=1)
    index: int = Field(default=0, ge=0, le=999)
    axes: dict[Tag, float] = Field(default_factory=dict)
    features: dict[Tag, Annotated[int, Field(ge=0, le=99)]] = Field(
        default_factory=lambda: dict(DEFAULT_FEATURES)
    )
    word_space: int = Field(default=0, ge=-100, le=500)
    beside: dict[Annotated[str, AfterValidator(script_code)], Larger] = Field(default_factory=dict)
    capital_words: FallbackEntry | None = None
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


def read_face(key: str, path: Path, *, own: bool = False) -> Face:
    """The face in a TOML file of the catalogue, or in a font file by itself.

    A user's `own` is tried in a process of its own before it is read here.

    Raises:
        Fault: exit 3; `face-missing`, `-damaged`, `-too-large`, `-restricted`, or what is wrong
            with the TOML file (`-unreadable`, `-syntax`, `-wrong`).
    """
    if path.suffix.casefold() in FONT_SUFFIXES:
        if own:
            try_font(path)
        facts = face_facts(path)
        return _face(key, path, facts, FaceFile(family=facts.family or path.stem, file=path.name))
    source = read_toml("face", path)
    entry = checked(FaceFile, source)
    font = _font_path(entry, source)
    if own:
        try_font(font, entry.index)
    facts = face_facts(font, entry.index)
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
        index=entry.index,
        axes=tuple(entry.axes.items()),
        features=tuple(entry.features.items()),
        word_space=entry.word_space,
        beside=tuple(entry.beside.items()),
        embedding=facts.embedding,
        licence=entry.licence,
        offers=tuple(sorted(facts.features)),
        companion=(entry.capital_words.face, entry.capital_words.size)
        if entry.capital_words
        else None,
    )


def with_features(face: Face, chosen: Sequence[tuple[str, int]], where: Where) -> Face:
    """The face with features of a docket laid over its own; a value of 0 switches one off.

    Old-style figures switch the lining ones off, and so on: both at once are neither.

    Raises:
        Fault: exit 3, `feature-unknown`: the font doesn't have one of them.
    """
    if lacking := [tag for tag, _ in chosen if tag not in face.offers]:
        raise Fault(
            Exit.INPUT,
            "feature-unknown",
            f'{face.family} has no feature "{lacking[0]}".',
            f"It has: {', '.join(face.offers)}." if face.offers else "It has none: leave it out.",
            where,
        )
    off = {EITHER[tag]: 0 for tag, value in chosen if value and tag in EITHER}
    return replace(face, features=tuple((dict(face.features) | off | dict(chosen)).items()))


def with_small_capitals(face: Face, where: Where) -> Face:
    """The face with its small letters set as small capitals.

    Raises:
        Fault: exit 3, `feature-unknown`: the font has none; they are never made by shrinking.
    """
    if "smcp" not in face.offers:
        raise Fault(
            Exit.INPUT,
            "feature-unknown",
            f"{face.family} has no small capitals.",
            'Choose a face that has them, such as "eb-garamond", or capitals = "all".',
            where,
        )
    return replace(face, features=tuple((dict(face.features) | small_capitals(face)).items()))


def small_capitals(face: Face) -> dict[str, int]:
    """The features that set small capitals, with figures of capitals' height beside them.

    Small capitals of some fonts bring figures of their own, whose 1 is a Roman I: in a ZIP nobody
    could tell. Proportional lining figures take their place (registered tag pnum, OpenType 1.9,
    from memory), unless figures of one width are wanted.
    """
    lining = "pnum" in face.offers and not dict(face.features).get("tnum")
    return {"smcp": 1, "pnum": 1} if lining else {"smcp": 1}


EITHER = {"onum": "lnum", "lnum": "onum", "pnum": "tnum", "tnum": "pnum"}
"""Features that are each other's contrary (OpenType registered features, "interaction")."""


def figures_of(face: Face) -> tuple[str, ...]:
    """The figures that a face can set: "lining", "old-style", "tabular", those as drawn first.

    Figures are old-style as drawn when a 3 goes below the baseline and a 1 is lower than an H.

    Raises:
        Fault: exit 3; the font file can't be read.
    """
    low, short, tall = _reaches(face)
    drawn = "old-style" if low < -DIPS * tall and short < tall * (1 - DIPS) else "lining"
    other = {"lining": "lnum", "old-style": "onum", "tabular": "tnum"}
    return (
        drawn,
        *(name for name, tag in other.items() if name != drawn and tag in face.offers),
    )


DIPS = 0.08
"""Of the capitals' height: what is less is the overshoot of round letters (judgement)."""


def _reaches(face: Face) -> tuple[float, float, float]:
    """How far a 3 goes down, and how high a 1 and an H are, in font units."""
    from fontTools.pens.boundsPen import BoundsPen  # noqa: PLC0415 - as in own_face
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    try:
        with TTFont(io.BytesIO(face.path.read_bytes()), fontNumber=face.index, lazy=True) as font:
            glyphs = font.getGlyphSet(location=dict(face.axes) or None)
            cmap = font.getBestCmap()
            bounds = []
            for character in "31H":
                pen = BoundsPen(glyphs)
                glyphs[cmap[ord(character)]].draw(pen)
                bounds.append(pen.bounds or (0.0, 0.0, 0.0, 0.0))
    except KeyError:
        return 0.0, 1.0, 1.0
    except Exception as error:  # a damaged font breaks fontTools in many ways
        raise damaged(face.path, "its letters can't be read") from error
    return bounds[0][1], bounds[1][3], bounds[2][3]
