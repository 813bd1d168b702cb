"""The docket: a job's choices, as a person wrote them in TOML."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from addressing.files import sha256_of
from addressing.materials.docket_checks import docket_problems
from addressing.materials.docket_entries import DeviceEntry, DocketFile, HandEntry, PieceEntry
from addressing.materials.fallbacks import fallback_choices
from addressing.materials.reading import checked, read_toml, wrong
from addressing.materials.sheeting import sheet_choices
from addressing.records.docket import (
    AddressChoice,
    Docket,
    FeedChoice,
    Hosts,
    OwnWords,
    PieceChoice,
    PrintChoice,
    WordingChoices,
    default_pieces,
)


def read_docket(path: Path) -> Docket:
    """The docket in a TOML file, with the file's path and SHA-256.

    Every kind of piece has its choice afterwards, in the order of `default_pieces`. Whether the
    layouts, faces and so on are on the shelf is for the shelf to say, and what a column may mean
    for the reader of lists.

    Raises:
        Fault: exit 3; `docket-missing`, `-unreadable`, `-syntax`, or `docket-wrong` with all that
            is wrong, each under its line.
    """
    source = read_toml("docket", path)
    entry = checked(DocketFile, source)
    pieces = _pieces(entry)
    problems = docket_problems(entry, pieces)
    if problems:
        raise wrong(source, problems)
    return Docket(
        date=entry.job.date,
        posting=entry.job.posting,
        answers=entry.job.answers,
        waves=tuple(entry.pieces.wave),
        hosts=None if entry.hosts is None else Hosts(**entry.hosts.model_dump()),
        wording=WordingChoices(**entry.wording.model_dump()),
        make=tuple(entry.pieces.make),
        pieces=pieces,
        device=None if entry.device is None else entry.device.name,
        shop=None if entry.shop is None else entry.shop.name,
        feed=_feed(entry.device),
        run=PrintChoice(entry.print.order, entry.print.batch),
        overs=entry.overs.overs(),
        post=entry.post.post(),
        wedding=entry.wedding.wedding(),
        suite=tuple(each.piece() for each in entry.suite),
        sheets=sheet_choices(entry.sheet),
        columns=tuple(entry.columns.items()),
        words=tuple(
            OwnWords(each.household, tuple(each.outer), tuple(each.inner), each.sure)
            for each in entry.words
        ),
        fallback=fallback_choices(entry.fallback),
        type=entry.files.type,
        path=str(path),
        sha256=sha256_of(path),
    )


def _feed(entry: DeviceEntry | None) -> FeedChoice:
    return FeedChoice() if entry is None else FeedChoice(entry.way, entry.sheet, entry.tray)


def _pieces(entry: DocketFile) -> tuple[PieceChoice, ...]:
    """Each kind's default, with what the docket says put in."""
    said: dict[str, dict[str, Any]] = {each.kind: _said(each) for each in entry.piece}
    return tuple(replace(choice, **said.get(choice.kind, {})) for choice in default_pieces())


def _said(entry: HandEntry) -> dict[str, Any]:
    """What an entry chooses, as fields of the record."""
    said = entry.model_dump(exclude_none=True)
    if entry.features is not None:
        said["features"] = tuple(map(feature, entry.features))
    if entry.fallback is not None:
        said["fallback"] = fallback_choices(entry.fallback)
    if (choke := said.pop("choke_mm", None)) is not None:
        said["choke"] = choke
    if isinstance(entry, PieceEntry) and entry.hits is not None:
        said["hits"] = tuple(entry.hits.items())
    if isinstance(entry, PieceEntry) and entry.address is not None:
        said["address"] = AddressChoice(**_said(entry.address))
    return said


def feature(written: str) -> tuple[str, int]:
    """A feature's tag and value; without one it is on.

    >>> feature("swsh"), feature("onum=0")
    (('swsh', 1), ('onum', 0))
    """
    tag, _, value = written.partition("=")
    return tag, int(value or 1)
