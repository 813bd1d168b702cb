"""From the list to set pieces: read, worded, fitted. Nothing is written."""

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from addressing.faults import Fault
from addressing.feeding import check_stock, within_reach
from addressing.guestlist import check_hosts, read_list
from addressing.job.answers_kept import answers_folder
from addressing.job.contents import check_only, home_of
from addressing.job.deciding import decide
from addressing.job.elsewhere import named
from addressing.job.kept_size import KindFitted, prints_in, sized_as_printed
from addressing.job.laying import lay_of
from addressing.job.lettering import (
    asks_live,
    faces_for,
    hits_for,
    inks_for,
    underbase_for,
    varnish_for,
)
from addressing.job.near_words import words_near
from addressing.job.own_fonts import try_own_faces
from addressing.job.posting import POSTED, reading_by_machine
from addressing.job.remembering import remember
from addressing.job.set_kinds import SetKind
from addressing.job.sharing import on_sheets
from addressing.job.stamping import Fitted, fitted_beside, with_stamps
from addressing.job.stepping_in import with_help
from addressing.job.styling import ask_names, asks_places, asks_titles, styles_for
from addressing.job.waves import later_waves
from addressing.materials.docket import read_docket
from addressing.materials.methods import check_overs, method_for
from addressing.materials.shelf import Shelf, open_shelf
from addressing.materials.shops import check_prints
from addressing.questions.kinds import is_of_place
from addressing.questions.said import OF_WORDS
from addressing.records.docket import Docket, PieceChoice, Size
from addressing.records.findings import Finding, held_households
from addressing.records.guests import GuestList, KnownHousehold, Versions
from addressing.records.pieces import Piece
from addressing.records.prints import Print
from addressing.records.questions import Decision
from addressing.records.set_lines import SetPiece
from addressing.records.shelf import Device, Press, Shop
from addressing.typesetting import fit, within_leading
from addressing.where import Where
from addressing.wording import (
    ask_tables,
    check_inners,
    check_words,
    set_behind_sign,
    word_hosts,
    word_list,
)

_OF_FULL_NAMES = frozenset(("title-missing", "given-short"))
"""Questions of the styles that have titles and full names."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A list, read, worded and set by a docket; `held` are the keys that wait."""

    docket: Docket
    guest_list: GuestList
    pieces: tuple[Piece, ...]
    kinds: tuple[SetKind, ...]
    findings: tuple[Finding, ...]
    held: frozenset[str]
    press: Press | None
    sources: tuple[Path, ...] = ()
    """The list and the docket, which no result may ever overwrite."""
    decisions: tuple[Decision, ...] = ()
    """The client's answers that are worked into the list."""
    later: frozenset[str] = frozenset()
    """The keys of households of another wave: counted and proofed, on no plate of this run."""
    start: int = 1
    """The number, in order of print, from which on plates are made."""
    known: tuple[KnownHousehold, ...] = ()
    """The households as read, before any answer: what the job's folder keeps of them."""
    versions: Versions = field(default_factory=Versions)
    """The versions of the list that the job's folder knows, this one last."""
    printers: tuple[tuple[str, Shop], ...] = ()
    """(piece of the suite, the shop that the docket names for it)."""

    @property
    def decisions_sha256(self) -> str | None:
        """The fingerprint of the answers worked in; None without any."""
        return digest_of(self.decisions)

    def otherwise(self) -> dict[tuple[str, str | None], SetPiece]:
        """The pieces that don't stand as they are worded, by kind and key."""
        return {
            (kind.kind, placed.household): placed
            for kind in self.kinds
            for placed in kind.setting.pieces
            if placed.why
        }

    def whys(self) -> dict[tuple[str, str | None], str]:
        """Of each kind and key whose piece doesn't stand as it is worded what was done, and why."""
        return {key: placed.why for key, placed in self.otherwise().items()}

    @property
    def hosts_wait(self) -> bool:
        """True when the hosts' own address is in doubt: return and reply are kept back."""
        return any(
            found.holds and (found.where.cell or "").startswith("docket:hosts")
            for found in self.findings
        )

    @property
    def off_plates(self) -> frozenset[str]:
        """The keys of households that are on no plate: those that wait and those of later waves."""
        return self.held | self.later

    @property
    def waits(self) -> bool:
        """True when anything is held back."""
        return bool(self.held) or self.hosts_wait

    @property
    def words_open(self) -> int:
        """How many things the client wrote that are no answer and aren't dealt with."""
        found = (each for each in self.findings if each.code in OF_WORDS)
        return len({(each.where, each.quoted) for each in found})

    def findings_of(self, key: str | None) -> tuple[Finding, ...]:
        """The findings of a household, or with None those of the whole list."""
        return tuple(found for found in self.findings if found.household == key)


def digest_of(decisions: tuple[Decision, ...]) -> str | None:
    """The fingerprint of decisions; None of none."""
    return hashlib.sha256(repr(decisions).encode()).hexdigest() if decisions else None


def read_job(
    list_path: Path, docket_path: Path | None, date: str | None, folder: Path | None = None
) -> Reading:
    """Read a list by a docket (None: the defaults), word it and set it.

    Households that `folder`, the job's, knows keep their keys, and the decisions that lie there
    (or where the docket says) are worked in; None reads the cells alone.

    Raises:
        Fault: list, docket, what the folder keeps, layout, face, ink, device or shop (exit 3).
    """
    docket = read_docket(docket_path) if docket_path else Docket()
    docket = replace(docket, date=date) if date else docket
    shelf = open_shelf((docket_path or list_path).parent)
    guest_list, found = read_list(list_path, dict(docket.columns), home_of(docket), docket.posting)
    kept = answers_folder(docket, folder)
    remembered = remember(guest_list, found, kept)
    styles = styles_for(docket, shelf)
    decided = decide(remembered, kept, ask_names(remembered.guest_list, styles, docket))
    guest_list, found = decided.guest_list, decided.findings
    if not asks_titles(styles, docket):
        found = tuple(each for each in found if each.code not in _OF_FULL_NAMES)
    if not asks_places(docket):
        found = tuple(each for each in found if not is_of_place(each.code))
    pieces = word_list(guest_list, docket, styles)
    worded = tuple(
        each
        for each in ask_names(guest_list, styles, docket)
        if (each.household, each.code) not in decided.settled
    )
    worded = (*worded, *check_words(guest_list, docket), *check_inners(guest_list, docket))
    worded = (*worded, *ask_tables(guest_list, docket), *set_behind_sign(guest_list))
    hosts, hosts_found = word_hosts(docket, styles)
    if hosts and docket.hosts:
        hosts_found = (*hosts_found, *check_hosts(docket.hosts, Path(docket.path or "docket").name))
    press = shelf.press(docket.device, docket.shop)
    check_overs(docket.overs, shelf.methods())
    try_own_faces((*pieces, *hosts), docket, shelf)
    paper = prints_in(folder)
    kinds, setting_found = _set_all((*pieces, *hosts), docket, shelf, press, paper)
    posted = [(k.kind, k.setting, k.stock) for k in kinds if k.kind in POSTED]
    dark = reading_by_machine(posted, docket)
    later, waves = later_waves(guest_list, docket)
    check_only(guest_list, docket)
    findings = (*found, *worded, *hosts_found, *setting_found, *dark, *waves)
    return Reading(
        docket=docket,
        guest_list=guest_list,
        pieces=(*pieces, *hosts),
        kinds=kinds,
        findings=findings,
        held=held_households(findings),
        press=press,
        sources=tuple(path for path in (list_path, docket_path) if path is not None),
        decisions=tuple(decision for _, decision in decided.taken),
        known=remembered.kept.known,
        versions=remembered.versions,
        later=later,
        printers=tuple(_printers(docket, shelf)),
    )


def _printers(docket: Docket, shelf: Shelf) -> Iterator[tuple[str, Shop]]:
    """The shops that the docket names for pieces of the suite.

    Raises:
        Fault: a shop isn't on the shelf (exit 3).
    """
    for number, piece in enumerate(docket.suite, start=1):
        if piece.shop:
            where = Where(docket.path or "docket", None, f"docket:suite[{number}].shop")
            yield piece.name, shelf.shop(piece.shop, where)


def _set_all(
    pieces: Sequence[Piece],
    docket: Docket,
    shelf: Shelf,
    press: Press | None,
    paper: Sequence[Print],
) -> tuple[tuple[SetKind, ...], tuple[Finding, ...]]:
    """Every kind of piece that is made, in the size of what is on `paper` already."""
    live = asks_live(docket, press)
    kinds: list[SetKind] = []
    findings: list[Finding] = []
    for kind in docket.make:
        own = tuple(piece for piece in pieces if piece.kind == kind)
        choice = docket.piece(kind)
        if own and choice is not None:
            where = Where(docket.path or "docket", None, f"docket:piece.{kind}.size")

            def fitted(choice: PieceChoice, own: tuple[Piece, ...] = own) -> KindFitted:
                return _set(own, choice, docket, shelf, press)

            try:
                set_kind, found = sized_as_printed(fitted, choice, paper, where, live=live)
            except Fault as fault:
                raise named(fault, choice, docket, shelf) from fault
            kinds.append(set_kind)
            findings.extend(found)
    findings.extend(words_near(kinds, docket))
    return on_sheets(kinds, docket, press), with_help(findings, shelf)


def _set(
    pieces: tuple[Piece, ...],
    choice: PieceChoice,
    docket: Docket,
    shelf: Shelf,
    press: Press | None,
) -> KindFitted:
    stock = shelf.stock(choice.stock)
    layout = shelf.layout(choice.layout)
    faces = within_leading(faces_for(choice, shelf, docket))
    inks = inks_for(choice, shelf, press)
    method = method_for(choice, press, shelf.methods())
    for ink in inks:
        check_prints(press, ink.key, stock.key, choice.kind)
    lay, margin = None, press.margin if press else 0.0
    if docket.sheet(choice.kind) is not None:
        margin = 0.0  # the sheet has one, the card needs none
    elif isinstance(press, Device):
        check_stock(press, stock, lambda: map(shelf.device, shelf.devices()))
        lay = lay_of(press, layout, docket.feed, shelf)
        margin = 0.0

    def fitted(stamps: int, size: Size) -> Fitted:
        free = with_stamps(layout, stamps, size)
        on = within_reach(free, lay) if lay is not None else free
        return fit(pieces, choice, on, faces, inks, margin)

    setting, findings = fitted_beside(fitted, docket.post, choice.kind, layout)
    under, hits = underbase_for(choice, shelf, press), hits_for(choice, press)
    if choice.underbase is not None:
        check_prints(press, choice.underbase, stock.key, choice.kind)
    varnish = varnish_for(choice, shelf, press)
    if varnish is not None:
        check_prints(press, varnish.ink.key, stock.key, choice.kind)
    setting = replace(setting, underbase=under, hits=hits, varnish=varnish)
    return SetKind(choice.kind, pieces, setting, stock, lay, method), findings
