"""A stream may be no larger than what it holds needs: empty blocks can hide a guest list."""

import random
import zlib

import pytest

from addressing.preflight.container import inflate
from addressing.preflight.values import Objection
from addressing.preflight.weighing import AT_FIRST, EVERY, Scales

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


def page(number: int) -> bytes:
    """What a page might hold: alike, but no two the same."""
    dice = random.Random(number)  # noqa: S311 - pages, not a secret
    steps = (b"1 0 0 1 %d 0 cm /g%d Do\n" % _step(dice) for _ in range(60))
    return b"/Ink cs 1 scn\n" + b"".join(steps)


def _step(dice: random.Random) -> tuple[int, int]:
    letter = dice.randrange(30)
    return 300 + letter * 7, letter


@pytest.fixture
def used() -> Scales:
    """Scales that have weighed as many pages as they do at first; the next is seen by the way."""
    scales = Scales()
    for number in range(AT_FIRST):
        plain = page(number)
        assert scales.unpacked(zlib.compress(plain, 4), number, len(plain)) == plain
    assert (AT_FIRST + 1) % EVERY
    return scales


def test_most_pages_are_not_packed_again(used: Scales, monkeypatch: pytest.MonkeyPatch) -> None:
    pages = [page(number) for number in range(500, 500 + EVERY - 2)]
    streams = [zlib.compress(plain, 4) for plain in pages]
    weighed: list[bytes] = []
    packed = zlib.compress

    def weighs(plain: bytes, level: int) -> bytes:
        weighed.append(plain)
        return packed(plain, level)

    monkeypatch.setattr(zlib, "compress", weighs)
    for number, plain in enumerate(pages):
        assert used.unpacked(streams[number], number, len(plain)) == plain
    assert len(weighed) < EVERY / 4


@pytest.mark.parametrize("hidden", [1, 60])
def test_a_page_of_several_blocks_is_weighed_always(used: Scales, hidden: int) -> None:
    packer = zlib.compressobj(9)
    packed = packer.compress(page(700)) + packer.flush(zlib.Z_FULL_FLUSH)
    packed += b"\x00\x00\x00\xff\xff" * hidden + packer.flush()
    plain = page(700)
    if hidden == 1:  # within what any stream may weigh, by whatever packer
        assert used.unpacked(packed, 7, len(plain)) == plain
        return
    with pytest.raises(Objection, match="larger than what it holds needs"):
        used.unpacked(packed, 7, len(plain))


def test_a_page_packed_badly_is_refused_among_others(used: Scales) -> None:
    plain = page(701)
    packer = zlib.compressobj(9, zlib.DEFLATED, 15, 9, zlib.Z_HUFFMAN_ONLY)
    for packed in (packer.compress(plain) + packer.flush(), zlib.compress(plain, 0)):
        with pytest.raises(Objection, match="larger than what it holds needs"):
            used.unpacked(packed, 7, len(plain))


def test_a_page_that_goes_on_or_ends_early_is_never_the_one_that_was_foretold(
    used: Scales,
) -> None:
    plain = page(702)
    for packed in (zlib.compress(plain, 4)[:-1], zlib.compress(plain, 4) + b"\n"):
        with pytest.raises(Objection):
            used.unpacked(packed, 7, len(plain))
    with pytest.raises(Objection, match="far too large"):
        used.unpacked(zlib.compress(plain * 2, 4), 7, len(plain))
    short = zlib.compress(plain[:-9], 4)
    assert used.unpacked(short, 7, len(plain)) != plain
