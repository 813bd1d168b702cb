"""The orders of a job's plates, kept beside them: what each must be, so that it is judged again.

They hold the words of every piece (the judge shapes them again), so only their owner may read
them; `clear` takes them away with the rest.
"""

import json
import re
import zlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from addressing.faults import Exit, Fault
from addressing.files import sha256_of
from addressing.materials.shelf import open_shelf
from addressing.records.kept import KeptJob, KeptOrder, Origin
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Wording
from addressing.records.plates import PlateOrder
from addressing.records.runs import RunOrder
from addressing.records.set_lines import SetPiece
from addressing.records.set_pieces import SetPieces
from addressing.where import Where

ORDERS = "orders.json.z"
"""The file in the job's folder: JSON, a line a part, deflated (RFC 1950)."""
PART = 2000
"""Pieces in a part."""
_LEVEL = 1
_AT_ONCE = 1 << 16
"""Bytes of the file that are read at once."""
_MOST = 1 << 30
"""Bytes of the file once inflated; more is no list of orders."""

_SEAL = 12
"""Hexadecimal digits of the seal: 48 bits."""

_KEPT = TypeAdapter(KeptOrder)
_RUN = TypeAdapter(RunOrder)
_ORIGIN = TypeAdapter(Origin)
_RUN_LINE = b"run "
_ORIGIN_LINE = b"origin "
"""How the lines begin that keep the order of print, and of what the plates were made; all others
are parts of plates."""
_FACE = re.compile(
    rb'"key":("(?:[^"\\]|\\.)*"),"family":("(?:[^"\\]|\\.)*"),"path":"((?:[^"\\]|\\.)*)",'
    rb'"sha256":"([0-9a-f]*)"'
)
"""How a face begins in the file. Its path is left out: a job gives the same bytes anywhere."""


Kept = tuple[PlateOrder, Setting, Sequence[Piece]]
"""What the judge was given of a plate."""


def _parts(kept: Kept) -> Iterator[KeptOrder]:
    """A plate's order in parts of some pieces each; of the words only those that were taken."""
    order, setting, pieces = kept
    order = _placeless(order)
    own = {piece.household: piece for piece in pieces if piece.kind == order.kind}
    for start in range(0, max(len(setting.pieces), 1), PART):
        share = setting.pieces[start : start + PART]
        taken = tuple(_taken(own[placed.household], placed) for placed in share)
        placed = tuple(replace(each, wording=0) if each.wording else each for each in share)
        households = order.households[start : start + PART]
        yield KeptOrder(
            replace(order, households=households), replace(setting, pieces=placed), taken
        )


def _joined(parts: Sequence[KeptOrder]) -> KeptOrder:
    first = parts[0]
    households = tuple(key for part in parts for key in part.order.households)
    placed = SetPieces(each for part in parts for each in part.setting.pieces)
    pieces = tuple(piece for part in parts for piece in part.pieces)
    return KeptOrder(
        replace(first.order, households=households), replace(first.setting, pieces=placed), pieces
    )


def _placeless(order: PlateOrder) -> PlateOrder:
    """The order without the place of its profile: the judge knows that by its digest."""
    exchange = order.exchange
    if exchange is None:
        return order
    intent = replace(exchange.intent, profile=Path(exchange.intent.profile.name))
    return replace(order, exchange=replace(exchange, intent=intent))


def _taken(piece: Piece, placed: SetPiece) -> Piece:
    wording = piece.wordings[placed.wording]
    lines = tuple([Line(line.text, line.role, (), line.breaks) for line in wording.lines])
    taken = (Wording(lines, wording.why),)
    return Piece(piece.kind, piece.household, piece.name, taken)  # replace() takes thrice as long


def orders_bytes(
    kept: Iterable[Kept], run: RunOrder | None = None, origin: Origin | None = None
) -> bytes:
    """The file's bytes: a line for some pieces of a plate; faces by key and digest, not by place.

    The order of print and the plates' origin stand on lines of their own before them. Memory
    doesn't grow with the pieces but by what is packed already.
    """
    packer = zlib.compressobj(_LEVEL)
    packed = []
    if run is not None:
        packed.append(packer.compress(_RUN_LINE + _RUN.dump_json(run) + b"\n"))
    if origin is not None:
        packed.append(packer.compress(_ORIGIN_LINE + _ORIGIN.dump_json(origin) + b"\n"))
    for part in (part for each in kept for part in _parts(each)):
        told = _FACE.sub(rb'"key":\1,"family":\2,"path":"","sha256":"\4"', _KEPT.dump_json(part))
        packed.append(packer.compress(told + b"\n"))
    return b"".join([*packed, packer.flush()])


def seal_of(digest: str) -> str:
    """The seal of a job's plates, by the SHA-256 of their orders: in groups, as people read it out.

    >>> seal_of("3f2a11b09c4d5e6f")
    '3f2a 11b0 9c4d'
    """
    return " ".join(digest[start : start + 4] for start in range(0, _SEAL, 4))


def read_orders(path: Path, beside: Sequence[Path] | None) -> KeptJob:
    """The orders of a job, its order of print, and of what its plates were made.

    Its faces are looked for on the shelves of the folders `beside`; with None they have no files.

    Raises:
        Fault: the file isn't there or is no list of orders, or a face is on none of the shelves
            as it was (exit 3).
    """
    run = origin = None
    plates: dict[tuple[str, str], list[KeptOrder]] = {}
    try:
        for line in _lines(path):
            if line.startswith(_RUN_LINE):
                run = _RUN.validate_json(line[len(_RUN_LINE) :])
            elif line.startswith(_ORIGIN_LINE):
                origin = _ORIGIN.validate_json(line[len(_ORIGIN_LINE) :])
            else:
                part = _part(line, beside, path)
                plates.setdefault((part.order.name, part.order.kind), []).append(part)
    except OSError as error:
        raise _wrong(path, f"{path} isn't there: nobody knows what the plates should be") from error
    except (zlib.error, ValidationError) as error:
        raise _wrong(path, f"{path} isn't as this program wrote it") from error
    return KeptJob(tuple(map(_joined, plates.values())), run, origin, seal_of(sha256_of(path)))


def _lines(path: Path) -> Iterator[bytes]:
    """The file's lines as it is inflated; only one is held."""
    unpacker = zlib.decompressobj()
    line, inflated = b"", 0
    with path.open("rb") as stream:
        while inflated < _MOST and (packed := stream.read(_AT_ONCE)):
            told = unpacker.decompress(packed, _MOST - inflated)
            inflated += len(told)
            *whole, line = (line + told).split(b"\n")
            yield from whole
    if line:
        yield line


def _part(line: bytes, beside: Sequence[Path] | None, path: Path) -> KeptOrder:
    """A part of a plate's order, its pieces in columns."""
    if beside is not None:
        line = _FACE.sub(lambda face: _found(face, beside, path), line)
    part = _KEPT.validate_json(line)
    return replace(part, setting=replace(part.setting, pieces=SetPieces(part.setting.pieces)))


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
