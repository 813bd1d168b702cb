"""How many: pieces needed, overs, packs to order.

In: the pieces of the job, held ones too, and the docket's overs. Out: counts, and their table.
"""

from addressing.estimating.counts import count_pieces, counts_tsv

__all__ = ["count_pieces", "counts_tsv"]
