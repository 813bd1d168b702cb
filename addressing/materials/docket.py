"""The docket: a job's choices, as a person wrote them in TOML."""

import datetime as dt
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, field_validator

from addressing.files import sha256_of
from addressing.materials.fallbacks import Fallbacks, fallback_choices
from addressing.materials.layouts import Align
from addressing.materials.reading import Entry, Problem, checked, read_toml, wrong
from addressing.materials.sheeting import SheetEntry, sheet_choices, sheet_problems
from addressing.records.docket import (
    AddressChoice,
    Docket,
    FeedChoice,
    Hosts,
    Overs,
    OwnWords,
    PieceChoice,
    Post,
    PrintChoice,
    Wedding,
    WordingChoices,
    default_pieces,
)
from addressing.records.postage import SuitePiece

PieceKind = Literal[
    "outer", "inner", "return", "reply", "place-card", "escort-card", "reply-number"
]
Name = Annotated[str, Field(min_length=1)]
Points = Annotated[float, Field(gt=0, le=1000)]
FEATURE = re.compile(r"[!-<>-~]{4}(=[0-9]{1,2})?")


def _day(value: object) -> object:
    """A day, written with or without quotes, in the order of ISO 8601."""
    if type(value) is dt.date:
        return value.isoformat()
    try:
        day = dt.date.fromisoformat(value) if isinstance(value, str) else None
    except ValueError:
        day = None
    if day is None or day.isoformat() != value:
        raise ValueError('write it as year, month, day: "2026-05-30".')
    return value


Day = Annotated[str, BeforeValidator(_day)]


class JobEntry(Entry):
    """The job itself."""

    date: Day | None = None
    posting: Day | None = None


class HostsEntry(Entry):
    """To whom replies go."""

    name: str | None = None
    street: str | None = None
    unit: str | None = None
    city: str | None = None
    region: str | None = None
    postcode: str | None = None
    country: str = "US"

    @field_validator("country")
    @classmethod
    def _code(cls, value: str) -> str:
        if len(value) != len("US") or not (value.isascii() and value.isalpha() and value.isupper()):
            raise ValueError('give the two letters of ISO 3166-1, such as "US" or "CA".')
        return value


class WordingEntry(Entry):
    """How envelopes are worded."""

    style: Name = "formal"
    couple: Literal["traditional", "both-names"] = "traditional"
    outer: Name | None = None
    inner: Name | None = None
    cards: Name | None = None
    order: Literal["rank", "list"] = "rank"
    apart: Literal["two-lines", "one-line"] = "two-lines"
    junior: Literal["comma", "plain", "spelled"] = "comma"


class PiecesEntry(Entry):
    """Which pieces are made."""

    make: list[PieceKind] = Field(default=["outer", "inner", "return", "reply"], min_length=1)
    wave: list[Name] = Field(default_factory=list)


Capitals = Literal["as-written", "small", "small-as-written", "all"]
Tracking = Annotated[int, Field(ge=-50, le=500)]


class HandEntry(Entry):
    """How lines are lettered."""

    face: Name | None = None
    features: list[str] | None = None
    tracking: Tracking | None = None
    capitals: Capitals | None = None
    fallback: Fallbacks | None = None

    @field_validator("features")
    @classmethod
    def _tags(cls, value: list[str] | None) -> list[str] | None:
        if any(FEATURE.fullmatch(each) is None for each in value or ()):
            raise ValueError('write tags of four letters, with a value if not 1: "onum=0".')
        tags = [each[:4] for each in value or ()]
        if twice := [tag for tag, times in Counter(tags).items() if times > 1]:
            raise ValueError(f'name each feature once: "{twice[0]}" is there twice.')
        return value


class AddressEntry(HandEntry):
    """The hand of all lines but the names; `size` is a part of the names'."""

    size: Annotated[float, Field(ge=0.2, le=2)] | None = None
    ink: Name | None = None


class PieceEntry(HandEntry):
    """How one kind of piece is set; what is left out is as the kind's default."""

    kind: PieceKind
    layout: Name | None = None
    ink: Name | None = None
    stock: Name | None = None
    size: Points | None = None
    largest: Points | None = None
    smallest: Points | None = None
    align: Align | None = None
    method: Name | None = None
    tighten: Annotated[int, Field(ge=0, le=30)] | None = None
    address: AddressEntry | None = None


class NamedEntry(Entry):
    """A shop, by its name on the shelf."""

    name: Name


class DeviceEntry(NamedEntry):
    """A device by its name, and how envelopes go through it where that isn't as its record says."""

    way: Literal["envelope", "turned", "sheet", "carrier"] | None = None
    sheet: Name | None = None
    tray: Name = "main"


class PrintEntry(Entry):
    """The order of print."""

    order: Literal["list", "key", "zip"] = "list"
    batch: int | None = Field(default=None, ge=0, le=1000)


class OversEntry(Entry):
    """Extras."""

    percent: float = Field(default=15.0, ge=0, le=1000)
    minimum: int = Field(default=10, ge=0, le=1_000_000)
    pack: int = Field(default=25, ge=1, le=1_000_000)
    keepsakes: int = Field(default=0, ge=0, le=1_000)
    method: dict[Name, Annotated[float, Field(ge=0, le=1000)]] = Field(default_factory=dict)

    def overs(self) -> Overs:
        """The record."""
        own = tuple(self.method.items())
        return Overs(self.percent, self.minimum, self.pack, self.keepsakes, own)


class PostEntry(Entry):
    """How posted pieces go."""

    stamps: int = Field(default=1, ge=0, le=12)
    machine_readable: bool = False
    envelope_paper: Name | None = None


class WeddingEntry(Entry):
    """What the calendar is counted from."""

    date: Day | None = None
    minutes_per_suite: int = Field(default=6, ge=0, le=600)


class SuiteEntry(Entry):
    """One thing in the envelope."""

    name: Name
    width_mm: float = Field(default=0.0, ge=0, le=1000)
    height_mm: float = Field(default=0.0, ge=0, le=1000)
    paper: str = ""
    caliper_pt: float = Field(default=0.0, ge=0, le=500)
    count: int = Field(default=1, ge=1, le=100)
    grams: float | None = Field(default=None, ge=0, le=5000)
    stiff: bool = False
    uneven: bool = False

    def piece(self) -> SuitePiece:
        """The record."""
        return SuitePiece(
            name=self.name,
            width=self.width_mm,
            height=self.height_mm,
            paper=self.paper,
            caliper=self.caliper_pt,
            count=self.count,
            grams=self.grams,
            stiff=self.stiff,
            uneven=self.uneven,
        )


class WordsEntry(Entry):
    """Words of the designer's own for one household."""

    household: Name
    outer: list[Name] = Field(default_factory=list)
    inner: list[Name] = Field(default_factory=list)
    sure: bool = False


class DocketFile(Entry):
    """A whole docket."""

    job: JobEntry = Field(default_factory=JobEntry)
    hosts: HostsEntry | None = None
    wording: WordingEntry = Field(default_factory=WordingEntry)
    pieces: PiecesEntry = Field(default_factory=PiecesEntry)
    piece: list[PieceEntry] = Field(default_factory=list)
    device: DeviceEntry | None = None
    shop: NamedEntry | None = None
    print: PrintEntry = Field(default_factory=PrintEntry)
    overs: OversEntry = Field(default_factory=OversEntry)
    post: PostEntry = Field(default_factory=PostEntry)
    columns: dict[str, Name] = Field(default_factory=dict)
    wedding: WeddingEntry = Field(default_factory=WeddingEntry)
    suite: list[SuiteEntry] = Field(default_factory=list)
    sheet: list[SheetEntry] = Field(default_factory=list)
    words: list[WordsEntry] = Field(default_factory=list)
    fallback: Fallbacks = Field(default_factory=dict)


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
    problems = _problems(entry, pieces)
    if problems:
        raise wrong(source, problems)
    return Docket(
        date=entry.job.date,
        posting=entry.job.posting,
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
        post=Post(**entry.post.model_dump()),
        wedding=Wedding(**entry.wedding.model_dump()),
        suite=tuple(each.piece() for each in entry.suite),
        sheets=sheet_choices(entry.sheet),
        columns=tuple(entry.columns.items()),
        words=tuple(
            OwnWords(each.household, tuple(each.outer), tuple(each.inner), each.sure)
            for each in entry.words
        ),
        fallback=fallback_choices(entry.fallback),
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


def _problems(entry: DocketFile, pieces: tuple[PieceChoice, ...]) -> list[Problem]:
    """What can't be although each choice by itself may be."""
    problems = []
    if entry.device is not None and entry.shop is not None:
        mend = "leave one out: a job is printed on a device or at a shop."
        problems.append(Problem(("shop",), "there is a [device] too.", mend))
    for kind, times in Counter(entry.pieces.make).items():
        if times > 1:
            mend = "name each piece once."
            problems.append(Problem(("pieces", "make"), f'"{kind}" is there twice.', mend))
    problems += sheet_problems(entry.sheet, [choice.kind for choice in pieces])
    kinds = [each.kind for each in entry.piece]
    for at, kind in enumerate(kinds):
        if kind in kinds[:at]:
            mend = "put both into one [[piece]]."
            problems.append(Problem(("piece", at, "kind"), f'"{kind}" is there twice.', mend))
    for choice in pieces:
        if choice.smallest > choice.largest and choice.kind in kinds:
            key = ("piece", kinds.index(choice.kind))
            text = f"smallest ({choice.smallest:g}) is more than largest ({choice.largest:g})."
            problems.append(Problem(key, text, "change one of them."))
    return problems
