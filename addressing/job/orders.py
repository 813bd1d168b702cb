"""The orders of a job's plates, kept beside them: what each must be, so that it is judged again.

They hold the words of every piece (the judge shapes them again), so only their owner may read
them; `clear` takes them away with the rest.
"""

import json
import re
import zlib
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from addressing.faults import Exit, Fault
from addressing.materials.shelf import open_shelf
from addressing.records.kept import KeptOrder
from addressing.records.pages import SetPiece, Setting
from addressing.records.pieces import Piece
from addressing.records.plates import PlateOrder
from addressing.where import Where

ORDERS = "orders.json.z"
"""The file in the job's folder: JSON, deflated (RFC 1950)."""
_LEVEL = 1
_MOST = 1 << 30
"""Bytes of the file once inflated; more is no list of orders."""

_KEPT = TypeAdapter(tuple[KeptOrder, ...])
_FACE = re.compile(
    rb'"key":("(?:[^"\\]|\\.)*"),"family":("(?:[^"\\]|\\.)*"),"path":"((?:[^"\\]|\\.)*)",'
    rb'"sha256":"([0-9a-f]*)"'
)
"""How a face begins in the file. Its path is left out: a job gives the same bytes anywhere."""


def kept_order(order: PlateOrder, setting: Setting, pieces: Sequence[Piece]) -> KeptOrder:
    """What is kept of a plate: its order, its setting, and of the words those that were taken."""
    own = {piece.household: piece for piece in pieces if piece.kind == order.kind}
    taken = tuple(_taken(own[placed.household], placed) for placed in setting.pieces)
    placed = tuple(replace(each, wording=0) for each in setting.pieces)
    return KeptOrder(_placeless(order), replace(setting, pieces=placed), taken)


def _placeless(order: PlateOrder) -> PlateOrder:
    """The order without the place of its profile: the judge knows that by its digest."""
    exchange = order.exchange
    if exchange is None:
        return order
    intent = replace(exchange.intent, profile=Path(exchange.intent.profile.name))
    return replace(order, exchange=replace(exchange, intent=intent))


def _taken(piece: Piece, placed: SetPiece) -> Piece:
    wording = piece.wordings[placed.wording]
    lines = tuple(replace(line, cells=()) for line in wording.lines)
    return replace(piece, wordings=(replace(wording, lines=lines),))


def orders_bytes(kept: Iterable[KeptOrder]) -> bytes:
    """The file's bytes; faces are named by key and digest, not by where they lie."""
    told = _FACE.sub(rb'"key":\1,"family":\2,"path":"","sha256":"\4"', _KEPT.dump_json((*kept,)))
    return zlib.compress(told, _LEVEL)


def read_orders(path: Path, beside: Sequence[Path]) -> tuple[KeptOrder, ...]:
    """The orders of a job; its faces are looked for on the shelves of the folders `beside`.

    Raises:
        Fault: the file isn't there or is no list of orders, or a face is on none of the shelves
            as it was (exit 3).
    """
    try:
        unpacker = zlib.decompressobj()
        told = unpacker.decompress(path.read_bytes(), _MOST)
        return _KEPT.validate_json(_FACE.sub(lambda face: _found(face, beside, path), told))
    except OSError as error:
        raise _wrong(path, f"{path} isn't there: nobody knows what the plates should be") from error
    except (zlib.error, ValidationError) as error:
        raise _wrong(path, f"{path} isn't as this program wrote it") from error


def _found(face: re.Match[bytes], beside: Sequence[Path], path: Path) -> bytes:
    """A face with the path of its file on the first shelf that has it unchanged."""
    key, digest = str(json.loads(face[1])), face[4].decode("ascii")
    where = next((found for place in beside if (found := _on_shelf(place, key, digest))), None)
    if where is None:
        raise Fault(
            Exit.INPUT,
            "face-missing",
            f"The plates are set in the face {key}, which isn't on the shelf as it was then.",
            "Put the font that was used back into the folder fonts/ beside the docket.",
            Where(str(path)),
        )
    written = json.dumps(str(where)).encode()
    return b'"key":%b,"family":%b,"path":%b,"sha256":"%b"' % (face[1], face[2], written, face[4])


def _on_shelf(place: Path, key: str, digest: str) -> Path | None:
    try:
        face = open_shelf(place).face(key)
    except Fault:
        return None
    return face.path if face.sha256 == digest else None


def _wrong(path: Path, text: str) -> Fault:
    return Fault(
        Exit.INPUT,
        "orders-wrong",
        f"{text}.",
        "Make the plates again with `addressing plates`.",
        Where(str(path)),
    )
