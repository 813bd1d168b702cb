"""A manifest held against the orders beside it: nothing that follows from them is believed."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict
from pathlib import PurePosixPath
from typing import Any

from addressing.job.entries import entries_of
from addressing.job.hinting import listed
from addressing.records.kept import KeptJob, Origin
from addressing.records.plates import PlateFile

Entry = Mapping[str, Any]
"""What a manifest says of a file; any of it may be wrong."""

_WORDS = {
    "sha256": "fingerprint",
    "kind": "kind of piece",
    "ink": "ink",
    "pages": "number of pages",
    "copies": "number of copies",
    "width_mm": "width in mm",
    "height_mm": "height in mm",
    "way": "way of lying on the page",
    "calibration": "calibration",
    "first": "number of its first piece",
    "reverse": "last page first",
    "up": "pieces on a page",
    "press": "device or shop",
    "stock": "paper",
    "layout": "layout",
    "hits": "passes of its inks",
    "type": "kind of type",
}
"""What people call the fields of a plate; one that isn't here goes by its own name."""
_ROWS = {
    "households": "households",
    "names": "names of households",
    "prints": "fingerprints of pieces",
}
"""The fields that have something for each piece."""
_UNKEPT = ("press", "stock")
"""What an older version's orders kept nothing of."""
_WHOLE = {
    "list": "the list's name",
    "list_sha256": "the list's fingerprint",
    "docket_sha256": "the docket's fingerprint",
    "decisions_sha256": "the fingerprint of the client's answers",
}
_WAITING = {
    "held": "Other households are said to wait than did when the plates were made",
    "later": "Other households are said to come in a later wave than did",
}


def manifest_faults(
    content: Mapping[str, Any], kept: KeptJob, only: str | None = None
) -> tuple[str, ...]:
    """What a manifest says of plates that doesn't follow from their orders, in sentences.

    `only` is the path of the one plate that is looked at; else the job's origin is held too.
    """
    origin = kept.origin
    ordered = entries_of(kept.orders, dict(origin.plates) if origin is not None else {})
    there = [entry for entry in content["files"] if entry.get("ink") is not None]
    if only is not None:
        ordered = tuple(each for each in ordered if each.path == only)
        there = [entry for entry in there if entry["path"] == only]
    faults = list(_plate_faults(ordered, there))
    if only is None and origin is not None:
        faults += _origin_faults(content, origin, _names(ordered))
        named = {entry["path"] for entry in content["files"]}
        made = (*(path for path, _ in origin.files), *origin.sealed)
        faults += [f"The manifest doesn't name {path}." for path in made if path not in named]
    return tuple(dict.fromkeys(faults))


def _plate_faults(ordered: Sequence[PlateFile], there: Sequence[Entry]) -> Iterator[str]:
    """Each plate's entry against the one that follows from its order."""
    left = list(there)
    found: list[PlateFile] = []
    for wanted in ordered:
        entry = _taken(left, wanted, ordered)
        if entry is None:
            stem = PurePosixPath(wanted.path).stem
            yield f"The manifest doesn't name the plate {stem} for the {wanted.kind}."
            continue
        found.append(wanted)
        yield from _entry_faults(entry, wanted)
    for entry in left:
        yield f"The manifest names {entry['path']} as a plate, and it was never ordered."
    if not left and len(found) == len(ordered) and _places(there) != _places(map(asdict, ordered)):
        yield "The manifest has the plates in another order than they are printed in."


def _taken(left: list[Entry], wanted: PlateFile, ordered: Sequence[PlateFile]) -> Entry | None:
    """Take out the entry of a plate: of its path and kind, else of its path, whatever its kind."""
    mine = [entry for entry in left if entry["path"] == wanted.path]
    kinds = {each.kind for each in ordered if each.path == wanted.path} - {wanted.kind}
    exact = [entry for entry in mine if entry.get("kind") == wanted.kind]
    other = [entry for entry in mine if entry.get("kind") not in kinds]
    for entry in exact or other:
        left.remove(entry)
        return entry
    return None


def _places(entries: Iterable[Entry]) -> list[str]:
    return [entry["path"] for entry in entries]


def _entry_faults(entry: Entry, wanted: PlateFile) -> Iterator[str]:
    """The fields of an entry; one that an older version hadn't is as it is where nobody says."""
    where = wanted.path
    for field, value in asdict(wanted).items():
        said = entry.get(field, _UNSAID.get(field))
        if field in _ROWS:
            yield from _row_faults(where, _ROWS[field], said, wanted, value)
        elif said != value and not _unknown(field, value):
            word = _WORDS.get(field, field)
            yield f"{where} is written down with another {word}: {_said(said)}, not {_said(value)}."


_UNSAID = {name: field.default for name, field in PlateFile.__dataclass_fields__.items()}


def _unknown(field: str, value: object) -> bool:
    """Whether orders of an older version can't say what a field should be."""
    return (field in _UNKEPT and value is None) or (field == "sha256" and not value)


def _said(value: object) -> str:
    """A field's value for people."""
    if value is None or isinstance(value, bool):
        return "none" if value is None else "yes" if value else "no"
    return str(value) if isinstance(value, str | int | float) else "a list"


def _row_faults(
    where: str, word: str, said: object, wanted: PlateFile, values: tuple[str, ...]
) -> Iterator[str]:
    """A field that has something for each piece: which of them differ, and whose they are."""
    if not isinstance(said, list | tuple) or len(said) != len(values):
        yield f"{where} is written down with another number of {word}."
        return
    other = [n for n, (one, two) in enumerate(zip(said, values, strict=True), 1) if one != two]
    if other:
        unit = "page" if wanted.up == 1 else "piece"
        which = listed([str(n) for n in other])
        whose = listed([name for n in other for name in wanted.names[n - 1 : n]])
        pages = f"{unit}{'s' if len(other) > 1 else ''} {which}"
        yield f"{where} is written down with other {word} on {pages}; made was {whose}."


def _names(ordered: Iterable[PlateFile]) -> dict[str, str]:
    return {
        key: name
        for each in ordered
        for key, name in zip(each.households, each.names, strict=False)
    }


def _origin_faults(
    content: Mapping[str, Any], origin: Origin, names: Mapping[str, str]
) -> Iterator[str]:
    """The list, docket and answers that it says the plates are of, and who it says waited."""
    for field, word in _WHOLE.items():
        if content.get(field) != getattr(origin, field):
            yield f"The manifest has {word} otherwise than when the plates were made."
    for field, words in _WAITING.items():
        said, were = content.get(field), list(getattr(origin, field))
        if said != were:
            keys = said if isinstance(said, list) else []
            strange = [str(key) for key in (*keys, *were) if (key in keys) != (key in were)]
            whose = listed([names.get(key, key) for key in strange])
            yield f"{words}{f': {whose}' if whose else ''}."
