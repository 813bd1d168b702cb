"""The shop's proof: what the plates show and nothing else, in the order of their pages."""

from io import BytesIO

from addressing.proofs.cover import static_blocks, title_blocks
from addressing.proofs.flow import Imprint, sheet_for, write_sheets
from addressing.proofs.ready import ready_blocks
from addressing.proofs.words import foot, mark
from addressing.records.proofs import ProofJob, ProofSet


def shop_proof(into: BytesIO, job: ProofJob, sets: tuple[ProofSet, ...]) -> int:
    """Write it `into` memory and return its number of sheets.

    `job` and `sets` hold only what is printed: no household that waits, no finding.
    """
    sheet = sheet_for(job.country)
    blocks = [
        *title_blocks(job, "Proof of the plates", sheet),
        *static_blocks(job, sets, sheet),
        *ready_blocks(job, sets, sheet),
    ]
    imprint = Imprint(f"Proof {mark(job)}", f"addressing {job.version}", foot(job), job.seal)
    return write_sheets(into, sheet, blocks, imprint)
