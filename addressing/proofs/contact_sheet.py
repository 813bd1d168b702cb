"""The client's proof, sheet by sheet."""

from pathlib import Path

from addressing.proofs.approval import approval_blocks
from addressing.proofs.cover import cover_blocks
from addressing.proofs.flow import Imprint, sheet_for, write_sheets
from addressing.proofs.ready import ready_blocks
from addressing.proofs.waiting import waiting_blocks
from addressing.proofs.words import foot, mark
from addressing.records.pieces import household_of
from addressing.records.proofs import ProofJob, ProofSet


def contact_sheet(path: Path, job: ProofJob, sets: tuple[ProofSet, ...]) -> int:
    """Write the client's proof to `path` (a working name) and return its number of sheets.

    First what the job is and the static pieces, then the households that wait, then every other
    one with each of its pieces, then the sheet to sign. Every finding stands there once: with its
    household, or with the list's. The same arguments give the same bytes; the file's properties
    name nobody.

    Raises:
        OSError: the place can't be written.
        ValueError: a page belongs to a household that the job doesn't know.
    """
    strangers = _page_keys(sets) - {household.key for household in job.households}
    if strangers:
        message = f"pages of unknown households: {', '.join(sorted(strangers))}"
        raise ValueError(message)
    sheet = sheet_for(job.country)
    blocks = [
        *cover_blocks(job, sets, sheet),
        *waiting_blocks(job, sets, sheet),
        *ready_blocks(job, sets, sheet),
        *approval_blocks(job, sets, sheet),
    ]
    imprint = Imprint(
        title=f"Proof {mark(job)}",
        producer=f"addressing {job.version}",
        footer=foot(job),
        seal=job.seal,
    )
    return write_sheets(path, sheet, blocks, imprint)


def _page_keys(sets: tuple[ProofSet, ...]) -> set[str]:
    return {
        household_of(page.household)
        for shown in sets
        for page in shown.pages
        if page.household is not None
    }
