"""What a face looks like and can do: one entry of the sheet of faces."""

from dataclasses import dataclass

from addressing.records.pages import Outlines, ShapedLine
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Sample:
    """Words set in a face, at a size in points; `label` says which feature is on, "" for none."""

    label: str
    words: ShapedLine
    outlines: Outlines
    size: float


@dataclass(frozen=True, slots=True)
class Unset:
    """A line of the list that a face can't set: its words, where from, the letters it lacks."""

    text: str
    letters: tuple[str, ...]
    cells: tuple[Where, ...]


@dataclass(frozen=True, slots=True)
class Coverage:
    """How much of a list a face can set: households of it in all, and those it can set whole."""

    households: int
    able: int
    unset: tuple[Unset, ...]


@dataclass(frozen=True, slots=True)
class Feature:
    """A feature that a font offers: its OpenType tag, in plain words, and whether it is on."""

    tag: str
    what: str | None
    on: bool


@dataclass(frozen=True, slots=True)
class Specimen:
    """A face on the sheet; one that can't be used has only its key and a `fault` with its mend.

    `embedding` is as in records/shelf.py. `figures` are "lining", "old-style", "tabular", those as
    drawn first. `choices` are the features that a designer chooses between, gathered in words.
    """

    key: str
    family: str = ""
    licence: str = ""
    embedding: str = ""
    figures: tuple[str, ...] = ()
    features: tuple[Feature, ...] = ()
    choices: tuple[str, ...] = ()
    samples: tuple[Sample, ...] = ()
    coverage: Coverage | None = None
    fault: str = ""
    mend: str = ""
