"""Print shops as a person wrote their rules down: read and checked."""

import hashlib
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from addressing.faults import Exit, Fault
from addressing.materials.inks import SpotName
from addressing.materials.key_places import Loc
from addressing.materials.nearest import any_of, did_you_mean
from addressing.materials.presses import HitsEntry, hits_of
from addressing.materials.reading import (
    Entry,
    Problem,
    Source,
    checked,
    checked_tables,
    read_toml,
    wrong,
)
from addressing.records.pieces import CARDS, ENVELOPES
from addressing.records.shelf import Press, Shop
from addressing.records.shops import Dies, FileRules, Intent, Order, Prints, SentIn
from addressing.units import mm_to_pt

Words = Annotated[str, Field(min_length=1)]
PIECES = (*ENVELOPES, *CARDS)
HOLDERS = ("number", "piece", "ink", "part", "parts")
"""What may stand in braces in the pattern of a plate's name."""
REGISTRIES = {"ICC": "http://www.color.org"}
"""Where printing conditions are registered; a word of ours for each address."""
LONGEST = 60
"""Characters of a pattern: the name must be safe in any file system."""

_HOLDER = re.compile(r"\{([^{}]*)\}")
_PLAIN = re.compile(r"[A-Za-z0-9._-]*")
_HEADER = 128
"""Bytes of an ICC profile's header (ICC.1:2010, 7.2)."""


def _pattern(value: str) -> str:
    """A pattern that always gives a safe name, another for each plate."""
    for holder in _HOLDER.findall(value):
        if holder not in HOLDERS:
            raise ValueError(did_you_mean(holder, HOLDERS))
    if not _PLAIN.fullmatch(_HOLDER.sub("", value)) or not re.match(r"[A-Za-z0-9{]", value):
        raise ValueError("use letters A to Z, digits, dots, hyphens, and words in { }.")
    if len(value) > LONGEST or ".." in value:
        raise ValueError(f"give one of {LONGEST} characters at most, without two dots in a row.")
    if "{piece}" not in value and "{number}" not in value:
        raise ValueError("it needs {piece} or {number}: each plate must have a name of its own.")
    return value


Percent = Annotated[float, Field(ge=0, le=100)]
Pattern = Annotated[str, AfterValidator(_pattern)]


class PrintsEntry(Entry):
    """One rule of what is printed on what; a key that is left out means any."""

    inks: list[Words] = Field(default_factory=list)
    stocks: list[Words] = Field(default_factory=list)
    pieces: list[Words] = Field(default_factory=list)


class FilesEntry(Entry):
    """How the shop wants its files."""

    standard: Literal["plain", "pdf/x-4"] = "plain"
    plates: Literal["apart", "composite"] = "apart"
    type: Literal["outlines", "live"] = "outlines"
    name: Pattern = FileRules().name
    most_pages: int | None = Field(default=None, ge=1, le=100_000)
    bleed_mm: float = Field(default=0.0, ge=0, le=20)
    condition: Words | None = None
    condition_in_words: Words | None = None
    registry: Literal["ICC", "none"] = "ICC"
    profile: Words | None = None


class DiesEntry(Entry):
    """Plates or dies for one method."""

    method: Literal["letterpress", "hot-foil", "engraving", "blind-emboss"]
    least_cm2: float = Field(default=0.0, ge=0)
    ganged: bool = True
    kept_months: int = Field(default=0, ge=0, le=600)


class SentInEntry(Entry):
    """Terms for envelopes that are sent in."""

    spare_percent: Percent = 0.0
    spoilage_percent: Percent = 0.0
    leftovers: Literal["back", "kept"] = "back"


class OrderEntry(Entry):
    """What the shop takes an order for."""

    minimum: int = Field(default=1, ge=1)
    pack: int = Field(default=1, ge=1)
    days: int | None = Field(default=None, ge=0, le=365)
    under_percent: float = Field(default=0.0, ge=0, lt=100)


class ShopFile(Entry):
    """A print shop; `inks` gives the shop's own name for each ink that it has."""

    title: Words
    margin_mm: float = Field(ge=0, le=50)
    inks: dict[str, SpotName] = Field(min_length=1)
    method: Literal["digital", "offset", "screen"] | None = None
    prints: list[PrintsEntry] = Field(default_factory=list)
    files: FilesEntry = FilesEntry()
    order: OrderEntry = OrderEntry()
    dies: list[DiesEntry] = Field(default_factory=list)
    sent_in: SentInEntry = SentInEntry()
    hits: list[HitsEntry] = Field(default_factory=list)
    notes: list[Words] = Field(default_factory=list)


def read_shop(path: Path) -> Shop:
    """The shop in a TOML file of its own; its key is the file's name without the suffix.

    Raises:
        Fault: exit 3, `shop-…`: the file can't be read or says what can't be.
    """
    source = read_toml("shop", path)
    return _shops({path.stem: checked(ShopFile, source)}, source, own_file=True)[0]


def read_shops(path: Path) -> tuple[Shop, ...]:
    """The shops in a TOML file with one table each, in its order.

    Raises:
        Fault: exit 3, `shop-…`: the file can't be read or says what can't be.
    """
    source = read_toml("shop", path)
    return _shops(checked_tables(ShopFile, source), source, own_file=False)


def _shops(entries: Mapping[str, ShopFile], source: Source, *, own_file: bool) -> tuple[Shop, ...]:
    problems = [
        problem
        for key, entry in entries.items()
        for problem in _problems(entry, () if own_file else (key,), source.path.parent)
    ]
    if problems:
        raise wrong(source, problems)
    return tuple(_shop(key, entry, source.path.parent) for key, entry in entries.items())


def _problems(entry: ShopFile, loc: Loc, folder: Path) -> Iterator[Problem]:
    """What no single key shows: rules for inks that aren't there, PDF/X-4 without its profile."""
    for number, rule in enumerate(entry.prints):
        for at, ink in enumerate(rule.inks):
            if ink not in entry.inks:
                mend = did_you_mean(ink, tuple(entry.inks))
                text = f'the shop has no ink "{ink}".'
                yield Problem((*loc, "prints", number, "inks", at), text, mend)
        for at, piece in enumerate(rule.pieces):
            if piece not in PIECES:
                mend = did_you_mean(piece, PIECES)
                text = f'"{piece}" is no piece.'
                yield Problem((*loc, "prints", number, "pieces", at), text, mend)
    files = entry.files
    if files.standard == "pdf/x-4":
        yield from _intent_problems(files, (*loc, "files"), folder)
    elif files.profile is not None or files.condition is not None:
        mend = 'add standard = "pdf/x-4", or take condition and profile out.'
        yield Problem((*loc, "files"), "a printing condition belongs to PDF/X-4.", mend)


def _intent_problems(files: FilesEntry, loc: Loc, folder: Path) -> Iterator[Problem]:
    """PDF/X-4 names its printing condition and carries its ICC profile (ISO 15930-7, 6.2)."""
    if files.condition is None:
        mend = 'ask the shop for its printing condition, such as "CGATS21_CRPC6" or "FOGRA51".'
        yield Problem((*loc, "condition"), "PDF/X-4 needs it, and it is missing.", mend)
    if files.profile is None:
        mend = "ask the shop for its ICC profile and put the file beside this one."
        yield Problem((*loc, "profile"), "PDF/X-4 carries a profile, and none is named.", mend)
        return
    why = profile_fault(folder / files.profile)
    if why is not None:
        mend = "ask the shop for its output profile (CMYK) and put the file beside this one."
        yield Problem((*loc, "profile"), why, mend)


def profile_fault(path: Path) -> str | None:
    """Why a file can't be the profile of a CMYK printing condition; None when it can.

    By its header (ICC.1:2010, 7.2): its own size, an output device, CMYK, the signature, and a
    version that PDF 1.6 allows (ISO 32000-1, 8.6.5.5: up to 4).
    """
    try:
        data = path.read_bytes()
    except OSError:
        return f"{path.name} isn't there, or can't be read."
    if len(data) <= _HEADER or data[36:40] != b"acsp":
        return f"{path.name} is no ICC profile."
    if int.from_bytes(data[:4], "big") != len(data):
        return f"{path.name} isn't whole: its size isn't what it states."
    if data[12:16] != b"prtr" or data[16:20] != b"CMYK":
        return f"{path.name} isn't the profile of a press that prints in CMYK."
    if not 2 <= data[8] <= 4:  # noqa: PLR2004 - versions of ICC.1
        return f"{path.name} is of a version that PDF doesn't know."
    return None


def _shop(key: str, entry: ShopFile, folder: Path) -> Shop:
    return Shop(
        key=key,
        title=entry.title,
        margin=mm_to_pt(entry.margin_mm),
        inks=tuple(entry.inks.items()),
        notes=tuple(entry.notes),
        prints=tuple(
            Prints(tuple(rule.inks), tuple(rule.stocks), tuple(rule.pieces))
            for rule in entry.prints
        ),
        method=entry.method,
        files=_rules(entry.files, folder),
        order=Order(
            entry.order.minimum, entry.order.pack, entry.order.days, entry.order.under_percent
        ),
        dies=tuple(
            Dies(each.method, each.least_cm2, each.ganged, each.kept_months) for each in entry.dies
        ),
        sent_in=SentIn(
            entry.sent_in.spare_percent, entry.sent_in.spoilage_percent, entry.sent_in.leftovers
        ),
        hits=hits_of(entry.hits),
    )


def _rules(files: FilesEntry, folder: Path) -> FileRules:
    intent = None
    if files.condition is not None and files.profile is not None:
        profile = folder / files.profile
        intent = Intent(
            identifier=files.condition,
            registry=REGISTRIES.get(files.registry, ""),
            info=files.condition_in_words or files.condition,
            profile=profile,
            sha256=hashlib.sha256(profile.read_bytes()).hexdigest(),
        )
    return FileRules(
        standard=files.standard,
        plates=files.plates,
        type=files.type,
        name=files.name,
        most_pages=files.most_pages,
        bleed=mm_to_pt(files.bleed_mm),
        intent=intent,
    )


def check_prints(press: Press | None, ink: str, stock: str, piece: str) -> None:
    """Say nothing when a shop prints that ink on that paper and piece (all by their keys).

    Raises:
        Fault: exit 3, `shop-not-on-this`: it doesn't; the mend names what it does print there.
    """
    if not isinstance(press, Shop) or not press.prints:
        return
    if any(rule.holds(ink, stock, piece) for rule in press.prints):
        return
    inks = [key for key, _ in press.inks]
    there = [each for each in inks if any(rule.holds(each, stock, piece) for rule in press.prints)]
    mend = f"On that it prints {any_of(there)}." if there else "It prints nothing on that."
    raise Fault(
        Exit.INPUT,
        "shop-not-on-this",
        f"{press.title} doesn't print {ink} on {stock} ({piece}).",
        f"{mend} Or choose another shop or a device.",
    )
