"""What a job keeps of its plates: written and read again, the judge is asked the very same."""

import zlib
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest

from addressing.faults import Fault
from addressing.job.orders import Kept, orders_bytes, read_orders
from addressing.materials.shelf import open_shelf
from addressing.records.runs import RunOrder, Standing


def kept_of(drafts: ModuleType, many: int) -> Kept:
    """A plate of so many households, each with a key of its own, in a face of the shelf."""
    job = drafts.job_of(5)
    setting = replace(job.setting, face=open_shelf(None).face("great-vibes"))
    keys = tuple(f"h-{number:08d}" for number in range(many))
    placed = tuple(replace(setting.pieces[n % 5], household=key) for n, key in enumerate(keys))
    pieces = tuple(replace(job.pieces[n % 5], household=key) for n, key in enumerate(keys))
    return replace(job.order, households=keys), replace(setting, pieces=placed), pieces


@pytest.mark.parametrize("many", [1, 1999, 2000, 2001, 4500])
def test_what_is_read_is_what_was_written(drafts: ModuleType, tmp_path: Path, many: int) -> None:
    kept = kept_of(drafts, many)
    path = tmp_path / "orders.json.z"
    run = RunOrder("zip", 100, False, 1, (Standing("h-00000000", False, "06759"),))  # noqa: FBT003
    path.write_bytes(orders_bytes([kept], run))
    kept_job = read_orders(path, [tmp_path])
    (read,) = kept_job.orders
    assert (read.order, read.setting, read.pieces) == kept
    assert kept_job.run == run


def test_a_wording_that_was_not_taken_is_not_kept(drafts: ModuleType, tmp_path: Path) -> None:
    order, setting, pieces = kept_of(drafts, 3)
    other = replace(pieces[1].wordings[0], why="names on two lines")
    ranked = replace(pieces[1], wordings=(other, pieces[1].wordings[0]))
    placed = replace(setting.pieces[1], wording=1)
    path = tmp_path / "orders.json.z"
    kept = (
        order,
        replace(setting, pieces=(setting.pieces[0], placed, setting.pieces[2])),
        (pieces[0], ranked, pieces[2]),
    )
    path.write_bytes(orders_bytes([kept]))
    kept_job = read_orders(path, [tmp_path])
    (read,) = kept_job.orders
    assert kept_job.run is None
    assert (read.setting, read.pieces) == (setting, pieces)


@pytest.mark.parametrize("data", [b"no zlib at all", zlib.compress(b"{}\n")])
def test_a_file_that_is_none_is_told(data: bytes, tmp_path: Path) -> None:
    path = tmp_path / "orders.json.z"
    path.write_bytes(data)
    with pytest.raises(Fault) as caught:
        read_orders(path, [tmp_path])
    assert caught.value.code == "orders-wrong"
