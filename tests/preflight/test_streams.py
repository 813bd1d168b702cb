"""A stream may be no larger than what it holds needs: empty blocks can hide a guest list."""

import zlib

import pytest

from addressing.preflight.container import inflate
from addressing.preflight.values import Objection

PLAIN = b"/Ink cs 1 scn\n" + b"1 0 0 1 480 0 cm /g12 Do\n" * 40


@pytest.mark.parametrize("level", range(1, 10))
def test_a_stream_deflated_at_any_level_is_taken(level: int) -> None:
    assert inflate(zlib.compress(PLAIN, level), 4) == PLAIN


def test_empty_blocks_between_are_refused() -> None:
    packer = zlib.compressobj(6)
    parts = [packer.compress(PLAIN)]
    parts += [packer.flush(zlib.Z_FULL_FLUSH) for _ in range(3)]
    parts += [packer.compress(b"") + packer.flush(zlib.Z_SYNC_FLUSH) for _ in range(200)]
    packed = b"".join([*parts, packer.flush()])
    with_blocks = packed[:-4][:-2] + b"\x00\x00\x00\xff\xff" * 60 + packed[-6:]
    with pytest.raises(Objection, match=r"larger than what it holds needs|damaged|cut short"):
        inflate(with_blocks, 4)


def test_stored_content_is_refused() -> None:
    with pytest.raises(Objection, match="larger than what it holds needs"):
        inflate(zlib.compress(PLAIN, 0), 4)
