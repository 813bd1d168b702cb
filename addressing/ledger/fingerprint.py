"""The fingerprint of a piece: what a person would see on the paper, and nothing else."""

import hashlib
from collections.abc import Iterable, Iterator

from addressing.records.pages import Setting
from addressing.records.set_lines import SetPiece
from addressing.records.shelf import Face

_LENGTH = 16
"""Hexadecimal digits a part: 64 bits, so that no two of a lifetime's envelopes meet by chance."""


def fingerprint(setting: Setting, piece: SetPiece, *, live: bool = False) -> str:
    """Its parts are those of records/prints.py, so that a difference can be said.

    Neither the household's key nor its page is in it: the same words in the same place are the
    same print, wherever the household stands in the list. It is of the whole piece, whatever
    number of inks it has: an envelope whose address is wrong is wrong in the names' ink too.
    """
    layout = setting.layout
    inks = [each for ink in setting.inks_of((piece,)) for each in (ink.spot, ink.channel)]
    base = setting.underbase
    under = () if base is None else ("under", base.ink.spot, base.ink.channel, base.choke)
    parts: tuple[Iterable[object], ...] = (
        (line.text for line in piece.lines),
        _lettered(setting, piece),
        (*((line.x, line.y, line.size) for line in piece.lines), *_bent(setting)),
        (*inks, *under, *_coat(setting), *_hits(setting, piece), layout.width, layout.height),
    )
    return ".".join([*(_digest(part) for part in parts), *(("live",) if live else ())])


def _bent(setting: Setting) -> Iterator[object]:
    """How lines are bent or turned about their room; nothing for level ones, as in old prints."""
    zone, room = setting.zone, setting.room
    if zone.turn or zone.align in ("arch", "bowl"):
        yield from (zone.align, zone.radius, zone.turn, room)


def _coat(setting: Setting) -> Iterator[object]:
    """The varnish and what it lies over; nothing without one, so that old prints stay."""
    if setting.varnish is not None:
        yield from ("varnish", setting.varnish.ink.spot, setting.varnish.over)


def _hits(setting: Setting, piece: SetPiece) -> Iterator[object]:
    """The inks that are laid down more than once; nothing as a rule, so that old prints stay."""
    base = (setting.underbase.ink,) if setting.underbase is not None else ()
    for ink in (*base, *setting.inks_of((piece,)), *setting.coats):
        if setting.hits_of(ink) > 1:
            yield from (ink.spot, setting.hits_of(ink))


def _lettered(setting: Setting, piece: SetPiece) -> Iterator[object]:
    """How each hand letters; what is as usual isn't said, so that old prints stay the same.

    Of the faces that may step in only those are said that do so on this piece.
    """
    hands = setting.hands
    capitals = any(_has_capitals(line.text) for line in piece.lines)
    for face in hands:
        yield from _face(face)
        if face.small_words and capitals:
            yield "small"
    for hand, script in piece.fallbacks:
        for other in hands[hand].fallbacks:
            if other.script == script:
                size = other.size or dict(other.face.beside).get(script)
                yield from (script, size, *_face(other.face))


def _has_capitals(text: str) -> bool:
    """True where a word may be one that is set in small capitals."""
    return any(len(word) > 1 and word.isupper() for word in text.split())


def _face(face: Face) -> Iterator[object]:
    yield from (face.sha256, face.index, face.axes, face.features)
    if face.tracking or face.in_capitals:
        yield face.tracking, face.in_capitals
    if face.word_space:
        yield "words apart", face.word_space


def _digest(part: Iterable[object]) -> str:
    said = "\x1f".join(str(each) for each in part)
    return hashlib.sha256(said.encode("utf-8", "surrogatepass")).hexdigest()[:_LENGTH]
