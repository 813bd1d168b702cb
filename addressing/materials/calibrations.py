"""The file beside the docket that keeps where devices truly print, read and written."""

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from pydantic import Field

from addressing.files import write_text
from addressing.materials.reading import Entry, Problem, checked, read_toml, wrong
from addressing.records.lays import Calibration
from addressing.units import mm_to_pt, pt_to_mm

CALIBRATION = "calibration.toml"
"""The file's name."""

HEAD = """\
# Where devices truly print, as `addressing calibrate` found it; better measure anew than change it:
# plates made by one that was changed say so.
# What is asked for at (x, y), mm from the lower left corner, lands at x[0]·x + x[1]·y + x[2], …
"""
_NEARLY = 0.1
"""No device stretches or slants by more."""


@dataclass(frozen=True, slots=True)
class Place:
    """What a calibration is for: a device, one of its trays, a layout, a way to lay it."""

    device: str
    tray: str
    layout: str
    way: str

    def __str__(self) -> str:
        """As the manifest names it."""
        return f"{self.device}, {self.tray}, {self.layout}, {self.way}"


class CalibrationEntry(Entry):
    """One place with its sums."""

    device: str = Field(min_length=1)
    tray: str = Field(min_length=1)
    layout: str = Field(min_length=1)
    way: str = Field(min_length=1)
    name: str = Field(min_length=1)
    x: list[float] = Field(min_length=3, max_length=3)
    y: list[float] = Field(min_length=3, max_length=3)
    left_over_mm: float = Field(ge=0, le=50)
    marks: int = Field(ge=2)
    sum: str = ""
    """What the rest of it comes to as it was written; "" in older files."""

    @property
    def place(self) -> Place:
        """What it is for."""
        return Place(self.device, self.tray, self.layout, self.way)


class CalibrationFile(Entry):
    """The whole file."""

    calibration: list[CalibrationEntry] = Field(default_factory=list)


def read_calibrations(folder: Path) -> dict[Place, Calibration]:
    """What was measured so far, from the file in a folder; nothing where there is none.

    Raises:
        Fault: exit 3, `calibration-…`: the file can't be read or says what can't be.
    """
    path = folder / CALIBRATION
    if not path.exists():
        return {}
    source = read_toml("calibration", path)
    entries = checked(CalibrationFile, source).calibration
    problems = [
        Problem(("calibration", place, key), "no device does that.", "measure again.")
        for place, entry in enumerate(entries)
        for key, sums, own in (("x", entry.x, 0), ("y", entry.y, 1))
        if not _can_be(sums, own)
    ]
    problems += [
        Problem(
            ("calibration", place, "device"),
            f"it was measured for {entry.name.rpartition(', ')[0] or entry.name}, not for this.",
            "measure again.",
        )
        for place, entry in enumerate(entries)
        if entry.sum != _sum(entry) and not entry.name.startswith(f"{entry.place}, ")
    ]
    if problems:
        raise wrong(source, problems)
    return {entry.place: _calibration(entry) for entry in entries}


def _can_be(sums: list[float], own: int) -> bool:
    return abs(sums[own] - 1) <= _NEARLY and abs(sums[1 - own]) <= _NEARLY


def _calibration(entry: CalibrationEntry) -> Calibration:
    x, y = ((u, v, mm_to_pt(shift)) for u, v, shift in (entry.x, entry.y))
    name, comes_to = entry.name, _sum(entry)
    if entry.sum and entry.sum != comes_to:
        name += f", edited by hand ({comes_to[:8]})"
    return Calibration(name, x, y, mm_to_pt(entry.left_over_mm), entry.marks)


def _sum(entry: CalibrationEntry) -> str:
    """What an entry comes to: of its place, its name and its numbers."""
    told = json.dumps(entry.model_dump(exclude={"sum"}))
    return hashlib.sha256(told.encode()).hexdigest()[:16]


def keep_calibration(folder: Path, place: Place, calibration: Calibration) -> Path:
    """Keep what was measured for a place, in the stead of what was there; the file's path.

    Raises:
        Fault: exit 3: the file that is there can't be read; exit 4: it can't be written.
    """
    known = read_calibrations(folder)
    known[place] = calibration
    path = folder / CALIBRATION
    write_text(path, HEAD + "".join(_written(known.items())))
    return path


def _written(known: Iterable[tuple[Place, Calibration]]) -> Iterable[str]:
    for place, each in sorted(known, key=lambda pair: str(pair[0])):
        rows: dict[str, object] = {
            "device": place.device,
            "tray": place.tray,
            "layout": place.layout,
            "way": place.way,
            "name": each.name,
            "x": _sums(each.x),
            "y": _sums(each.y),
            "left_over_mm": round(pt_to_mm(each.left_over), 3),
            "marks": each.marks,
        }
        rows["sum"] = _sum(CalibrationEntry.model_validate(rows))
        yield "\n[[calibration]]\n" + "".join(
            f"{key} = {_value(value)}\n" for key, value in rows.items()
        )


def _sums(sums: tuple[float, float, float]) -> list[float]:
    return [sums[0], sums[1], round(pt_to_mm(sums[2]), 5)]


def _value(value: object) -> str:
    """A value as TOML; JSON's are TOML's, but for DEL, which TOML wants escaped."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007F")
