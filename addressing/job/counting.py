"""How many of each kind a job needs: those of the households, static pieces one each outer."""

from collections import Counter

from addressing.estimating import count_pieces
from addressing.job.reading import Reading
from addressing.records.counts import PieceCount
from addressing.records.pieces import STATIC, household_of


def count_job(reading: Reading) -> tuple[PieceCount, ...]:
    """The counts of every kind that is made, held households counted too."""
    wanted, held = wanted_pieces(reading)
    return count_pieces(wanted, held, reading.docket.overs)


def wanted_pieces(reading: Reading) -> tuple[dict[str, int], dict[str, int]]:
    """(kind → wanted, kind → held of them)."""
    households = len(reading.guest_list.households)
    made = Counter(piece.kind for piece in reading.pieces)
    keys = reading.held
    waiting = Counter(p.kind for p in reading.pieces if household_of(p.household or "") in keys)
    kinds = [kind for kind in reading.docket.make if made[kind]]
    wanted = {kind: households if kind in STATIC else made[kind] for kind in kinds}
    of_hosts = households if reading.hosts_wait else 0
    held = {kind: of_hosts if kind in STATIC else waiting[kind] for kind in kinds}
    return wanted, held
