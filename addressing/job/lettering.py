"""The faces of a kind of piece as the docket wants them lettered."""

import re
from collections.abc import Sequence
from dataclasses import replace
from string import ascii_uppercase

from addressing.faults import Exit, Fault
from addressing.materials.faces import small_capitals, with_features, with_small_capitals
from addressing.materials.font_trial import try_face
from addressing.materials.presses import ink_for, passes_of
from addressing.materials.shelf import Shelf
from addressing.records.docket import AddressChoice, Docket, FallbackChoice, PieceChoice
from addressing.records.pages import Underbase, Varnish
from addressing.records.shelf import CAPITALS, CROWDED, Device, Face, Fallback, Ink, Press
from addressing.tables import lookup
from addressing.typesetting import swinging
from addressing.units import mm_to_pt
from addressing.where import Where

OPTIONAL_LIGATURES = ("liga", "clig", "dlig", "hlig")
"""Off where letters are spaced, since a ligature would stand in them like a blot (common practice;
CSS Text 3, "letter-spacing", asks the same)."""


SMALL = ("small", "small-as-written")
"""Capitals of a docket that ask for small capitals."""


def faces_for(choice: PieceChoice, shelf: Shelf, docket: Docket) -> Face | tuple[Face, Face]:
    """The face of a kind of piece, or those of the names and of the address, as they are lettered.

    Raises:
        Fault: exit 3; a face is unknown or can't be used, or lacks a feature or small capitals.
    """
    path = docket.path or "docket"
    cell = f"docket:piece.{choice.kind}"
    names = _lettered(shelf.face(choice.face), choice, Where(path, None, cell))
    names = _with_fallbacks(names, choice, shelf, docket)
    if choice.address is None:
        return names
    key = choice.address.face or choice.face
    here = Where(path, None, f"{cell}.address")
    address = _lettered(shelf.face(key), choice.address, here)
    return names, _with_fallbacks(address, choice.address, shelf, docket)


def asks_live(docket: Docket, press: Press | None) -> bool:
    """True where the docket asks for live type, or else the shop's or device's record does."""
    return (docket.type or (press.type if press is not None else "outlines")) == "live"


def inks_for(choice: PieceChoice, shelf: Shelf, press: Press | None) -> tuple[Ink, Ink]:
    """The ink of the names and of the address, as the press has them; often they are one.

    Raises:
        Fault: exit 3; an ink is unknown, or the press doesn't have it.
    """
    names = ink_for(press, shelf.ink(choice.ink))
    own = choice.address.ink if choice.address is not None else None
    both = names, names if own is None else ink_for(press, shelf.ink(own))
    clear = next((ink for ink in both if ink.coat), None)
    if clear is not None:
        raise Fault(
            Exit.INPUT,
            "ink-is-clear",
            f"{clear.key} is clear: no word of the {choice.kind} piece could be read by it.",
            f'Give the lines another ink, and add varnish = "names" and varnish_ink = "{clear.key}"'
            " for a varnish over them.",
            Where("docket", None, f"docket:piece.{choice.kind}.ink"),
        )
    return both


def varnish_for(choice: PieceChoice, shelf: Shelf, press: Press | None) -> Varnish | None:
    """The varnish over some lines of a kind of piece, as the press has it.

    Raises:
        Fault: exit 3; the ink is unknown or isn't clear, the press doesn't have it, or it melts
            what is varnished (toner; common practice, no source).
    """
    if choice.varnish is None:
        return None
    where = Where("docket", None, f"docket:piece.{choice.kind}.varnish")
    if isinstance(press, Device) and press.method == "toner":
        raise Fault(
            Exit.INPUT,
            "varnish-in-fuser",
            f"{press.title} fuses toner by heat: varnish may melt, stick and spoil it.",
            "Leave varnish out, or have the piece printed by a shop.",
            where,
        )
    coat = shelf.ink(choice.varnish_ink)
    if not coat.coat:
        raise Fault(
            Exit.INPUT,
            "varnish-not-clear",
            f"{choice.varnish_ink} isn't a varnish: it would hide the {choice.kind} piece's lines.",
            "Name a clear coat in varnish_ink (coat = true in its record), such as Spot Varnish.",
            where,
        )
    return Varnish(ink_for(press, coat), choice.varnish)


def underbase_for(choice: PieceChoice, shelf: Shelf, press: Press | None) -> Underbase | None:
    """The ink that lies under the others, as the press has it.

    Raises:
        Fault: exit 3; the ink is unknown, the press doesn't have it, or it is the ink on top.
    """
    if choice.underbase is None:
        return None
    base = ink_for(press, shelf.ink(choice.underbase))
    if base in inks_for(choice, shelf, press):
        raise Fault(
            Exit.INPUT,
            "underbase-same-ink",
            f"{choice.underbase} is to lie under {choice.underbase} on the {choice.kind} piece.",
            "Leave underbase out, or give the lines another ink.",
            Where("docket", None, f"docket:piece.{choice.kind}.underbase"),
        )
    return Underbase(base, mm_to_pt(choice.choke))


def hits_for(choice: PieceChoice, press: Press | None) -> tuple[tuple[str, int], ...]:
    """The inks of a kind of piece that are laid down more than once, and how often.

    As the docket says; of an ink that it doesn't name as the press's record does for the paper.

    Raises:
        Fault: exit 3; an ink is named that the piece hasn't got.
    """
    address = choice.address.ink if choice.address is not None else None
    coat = choice.varnish_ink if choice.varnish is not None else None
    laid = (choice.underbase, choice.ink, address, coat)
    there = dict.fromkeys(key for key in laid if key is not None)
    for key, _ in choice.hits:
        if key not in there:
            raise Fault(
                Exit.INPUT,
                "hits-ink-unknown",
                f"{key} is to be laid down several times, and the {choice.kind} piece has none.",
                f"Its inks are {' and '.join(there)}.",
                Where("docket", None, f"docket:piece.{choice.kind}.hits"),
            )
    own = dict(choice.hits)
    passes = ((key, own.get(key) or passes_of(press, key, choice.stock)) for key in there)
    return tuple((key, times) for key, times in passes if times > 1)


def _with_fallbacks(
    face: Face, hand: PieceChoice | AddressChoice, shelf: Shelf, docket: Docket
) -> Face:
    """The face with those that step in for it: the docket's, and a hand's own over them.

    They are lettered as it is: spaced alike, in capitals, in small capitals where they have them.
    """
    where = Where(docket.path or "docket", None, "docket:fallback")
    chosen = {each.script: each for each in (*docket.fallback, *hand.fallback)}
    if face.companion is not None:
        chosen.setdefault(CAPITALS, FallbackChoice(CAPITALS, *face.companion))
    swash = [each for each in (CAPITALS, CROWDED) if each not in chosen]
    plain = _without_swashes(face, shelf, swash) if swash else ()
    if chosen.get(CROWDED, _OFF).face == _OFF.face:
        chosen.pop(CROWDED, None)
    if hand.capitals != "as-written" or chosen.get(CAPITALS, _OFF).face == _OFF.face:
        chosen.pop(CAPITALS, None)
    others = (
        Fallback(script, _alike(shelf.face(each.face, where), each, hand), each.size)
        for script, each in chosen.items()
    )
    return replace(face, fallbacks=(*others, *(plain if hand.capitals == "as-written" else ())))


def _without_swashes(face: Face, shelf: Shelf, places: Sequence[str]) -> tuple[Fallback, ...]:
    """The same face with its swashes off, for words in some `places`; none where none are on.

    Swash capitals are made to begin words: III and LLP can't be read in a row of them (common
    practice, no source); one that takes the blank before its word joins two words. Alternates that
    swing a capital out are swashes by another name. A font of the user's own is tried with them
    first, in a process of its own.
    """
    choices = lookup("features", "tag", "choice")
    features = [tag for tag, value in face.features if value]
    swashes = [tag for tag in features if choices.get(tag) == "swashes"]
    alternates = [tag for tag in features if _ALTERNATES.fullmatch(tag)]
    if alternates:
        if face.key in shelf.own_faces():
            try_face(face, tuple(ascii_uppercase))
        swashes += swinging(face, alternates)
    if not swashes:
        return ()
    off = dict(face.features) | dict.fromkeys(swashes, 0)
    bare = replace(face, features=tuple(off.items()))
    return tuple(Fallback(place, bare, 1.0) for place in places)


_ALTERNATES = re.compile("(ss|cv)[0-9]{2}|salt")
"""Features whose name doesn't tell what they change (OpenType 1.9, registered features)."""

_OFF = FallbackChoice(CAPITALS, "as-written")


def _alike(other: Face, choice: FallbackChoice, hand: PieceChoice | AddressChoice) -> Face:
    """A face that steps in, lettered as the hand that it helps."""
    small = hand.capitals in SMALL and "smcp" in other.offers
    tracking = hand.tracking if choice.tracking is None else choice.tracking
    features = dict(other.features) | (small_capitals(other) if small else {})
    if tracking > 0:
        features |= dict.fromkeys(OPTIONAL_LIGATURES, 0)
    return replace(
        other,
        features=tuple(features.items()),
        tracking=tracking,
        in_capitals=hand.capitals == "all",
        small_words=small and hand.capitals == "small",
    )


def _lettered(face: Face, hand: PieceChoice | AddressChoice, where: Where) -> Face:
    """The face with a hand's features, capitals and tracking."""
    cell = where.at(f"{where.cell}.features")
    face = with_features(face, hand.features, cell)
    if hand.capitals in SMALL:
        face = with_small_capitals(face, where.at(f"{where.cell}.capitals"))
    features = dict(face.features)
    if hand.tracking > 0:
        features |= dict.fromkeys(OPTIONAL_LIGATURES, 0)
    return replace(
        face,
        features=tuple(features.items()),
        tracking=hand.tracking,
        word_space=face.word_space if hand.word_space is None else hand.word_space,
        in_capitals=hand.capitals == "all",
        small_words=hand.capitals == "small",
    )
