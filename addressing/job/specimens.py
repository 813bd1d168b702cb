"""The faces on the shelf as a designer wants to see them: set lines, coverage of a list, rights."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from addressing.faults import Fault
from addressing.files import Together
from addressing.job.own_fonts import refused_letters
from addressing.job.reading import Reading
from addressing.job.written import note_written
from addressing.materials.coverage import characters_of, lacking
from addressing.materials.faces import figures_of
from addressing.materials.shelf import Shelf
from addressing.proofs import draw_specimen_pictures, draw_specimens
from addressing.records.pages import Outlines
from addressing.records.shelf import Face
from addressing.records.specimens import Coverage, Feature, Sample, Specimen, Unset
from addressing.tables import table
from addressing.typesetting import outlines_for, shape_line
from addressing.where import Where

NAMES, ADDRESS, FIGURES = (
    "Mr. and Mrs. Tobias Wexcombe",
    "14 Larkmoor Lane, Farrenby, Vermont 05201",
    "1234567890",
)
"""Set where no list is given, or where a face can't set a line of it."""
LARGE, SMALL = 30.0, 15.0
"""Sizes of the set lines, points."""
LETTERS = 26
"""So many of its own letters are shown of a face that has none of ours."""


@dataclass(frozen=True, slots=True)
class _Listed:
    """The lines of a list, each once with the cells that it came from, by household."""

    homes: Mapping[str, tuple[str, ...]]
    cells: Mapping[str, tuple[Where, ...]]
    samples: tuple[tuple[str, str], ...]
    """Names and address of outer envelopes, in the list's order."""

    @property
    def letters(self) -> str:
        """The characters of all lines, each once."""
        return "".join(dict.fromkeys("".join(self.cells)))


def specimens(shelf: Shelf, reading: Reading | None = None) -> tuple[Specimen, ...]:
    """Every face on the shelf; with a reading, how much of its list each can set.

    A face that can't be used is told as such and spoils no other.
    """
    listed = _listed(reading) if reading is not None else None
    return tuple(_specimen(shelf, key, listed) for key in shelf.faces())


def draw(
    to: Path, shown: tuple[Specimen, ...], kept: tuple[Path, ...], folder: Path | None = None
) -> tuple[Path, ...]:
    """The sheet of faces as PDF, or as pictures where `to` ends in .png: the files written.

    Several sheets make several pictures, faces-1.png and so on. `kept` are never overwritten. With
    a list's names on them they are noted in its job's `folder`.

    Raises:
        Fault: it can't be written (exit 4).
    """
    with Together(kept) as together:
        if to.suffix.casefold() != ".png":
            draw_specimens(together.working(to), shown)
            return _noted(together, folder, (to,))
        pictures = draw_specimen_pictures(shown)
        several = len(pictures) > 1
        names = [
            to.with_stem(f"{to.stem}-{number}") if several else to
            for number in range(1, len(pictures) + 1)
        ]
        for name, picture in zip(names, pictures, strict=True):
            together.working(name).write_bytes(picture)
        return _noted(together, folder, tuple(names))


def _noted(together: Together, folder: Path | None, names: tuple[Path, ...]) -> tuple[Path, ...]:
    if folder is not None:
        note_written(together, folder, names)
    return names


def _listed(reading: Reading) -> _Listed:
    homes: dict[str, list[str]] = {}
    cells: dict[str, dict[Where, None]] = {}
    samples = []
    for piece in reading.pieces:
        if piece.household is None:
            continue
        lines = piece.wordings[0].lines
        for line in lines:
            homes.setdefault(piece.household, []).append(line.text)
            cells.setdefault(line.text, {}).update(dict.fromkeys(line.cells))
        if piece.kind == "outer" and lines and piece.household not in reading.held:
            names, *rest = (line.text for line in lines)
            samples.append((names, ", ".join(rest)))
    return _Listed(
        {key: tuple(lines) for key, lines in homes.items()},
        {text: tuple(where) for text, where in cells.items()},
        tuple(samples),
    )


def _specimen(shelf: Shelf, key: str, listed: _Listed | None) -> Specimen:
    try:
        face = shelf.face(key)
        offered = tuple(_features(face))
        return Specimen(
            key=face.key,
            family=face.family,
            licence=face.licence,
            embedding=face.embedding,
            figures=figures_of(face),
            features=offered,
            choices=tuple(_choices(offered)),
            samples=tuple(_samples(face, listed)),
            coverage=_coverage(face, listed) if listed is not None else None,
        )
    except Fault as fault:
        lost = refused_letters(fault, listed.letters) if listed is not None else ()
        coverage = _unset(set(lost), listed) if listed is not None and lost else None
        return Specimen(key, fault=fault.text, mend=fault.mend, coverage=coverage)


def _coverage(face: Face, listed: _Listed) -> Coverage:
    """Which lines a face can't set; the letters are asked for once each."""
    return _unset(set(lacking(face, listed.letters)), listed)


def _unset(lost: set[str], listed: _Listed) -> Coverage:
    """Which lines of a list can't be set without some letters."""
    wrong = [text for text in listed.cells if not lost.isdisjoint(text)]
    by_cells: dict[object, Unset] = {}
    for text in wrong:  # the inner envelope's words come from the cells of the outer's
        cells = listed.cells[text]
        letters = tuple(dict.fromkeys(each for each in text if each in lost))
        by_cells.setdefault(cells or text, Unset(text, letters, cells))
    able = sum(set(wrong).isdisjoint(lines) for lines in listed.homes.values())
    return Coverage(len(listed.homes), able, tuple(by_cells.values()))


def _samples(face: Face, listed: _Listed | None) -> Iterator[Sample]:
    """Names large and an address small, and what the features make of them."""
    lines = (*(listed.samples if listed is not None else ()), (NAMES, ADDRESS))
    able = (line for line in lines if not lacking(face, "".join(line)))
    names, address = next(able, ("", ""))
    if not names:
        own = "".join(characters_of(face)[:LETTERS])
        yield _set(face, own, LARGE)
        return
    yield _set(face, names, LARGE)
    yield _set(face, address, SMALL)
    for tags, label, text in (
        (("smcp",), "small capitals", names),
        (("swsh",), "swashes", names),
        (("onum",), "old-style figures", FIGURES),
    ):
        if not set(tags) <= set(face.offers):
            continue
        made = _set(face, text, SMALL, label, tags)
        if made.words.glyphs != shape_line(face, text).glyphs:  # a swash Q is none for these names
            yield made


def _set(face: Face, text: str, size: float, label: str = "", tags: tuple[str, ...] = ()) -> Sample:
    off = {"lnum": 0} if "onum" in tags else {}
    features = dict(face.features) | off | dict.fromkeys(tags, 1)
    lettered = replace(face, features=tuple(features.items()))
    return Sample(label, shape_line(lettered, text), Outlines(outlines_for(lettered)), size)


def _features(face: Face) -> Iterator[Feature]:
    """All features of a face, in words."""
    known = {tag: row["what"] for tag, row in _rows().items()}
    on = dict(face.features)
    for tag in face.offers:
        yield Feature(tag, known.get(tag) or known.get(f"{tag[:2]}##"), bool(on.get(tag)))


def _choices(offered: tuple[Feature, ...]) -> Iterator[str]:
    """What a designer may choose: each kind of feature once, sets and variants counted."""
    counted: dict[str, int] = {}
    for feature in offered:
        row = _rows().get(feature.tag) or _rows().get(f"{feature.tag[:2]}##", {})
        if row.get("choice"):
            counted[row["choice"]] = counted.get(row["choice"], 0) + 1
    for choice, number in counted.items():
        yield f"{number} {choice}" if choice.endswith("sets") and number > 1 else choice


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {row["tag"]: row for row in table("features")}
