"""How many of each kind a job needs: households for their pieces, static pieces one each outer."""

from addressing.estimating import count_pieces
from addressing.job.reading import Reading
from addressing.records.counts import PieceCount
from addressing.wording.word import STATIC


def count_job(reading: Reading) -> tuple[PieceCount, ...]:
    """The counts of every kind that is made, held households counted too."""
    wanted, held = wanted_pieces(reading)
    return count_pieces(wanted, held, reading.docket.overs)


def wanted_pieces(reading: Reading) -> tuple[dict[str, int], dict[str, int]]:
    """(kind → wanted, kind → held of them)."""
    households = len(reading.guest_list.households)
    made = {piece.kind for piece in reading.pieces}
    kinds = [kind for kind in reading.docket.make if kind in made]
    wanted = dict.fromkeys(kinds, households)
    of_hosts = households if reading.hosts_wait else 0
    held = {kind: of_hosts if kind in STATIC else len(reading.held) for kind in kinds}
    return wanted, held
