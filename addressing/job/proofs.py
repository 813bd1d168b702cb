"""What the proof sheets need, put together from a reading."""

import hashlib
import re
from collections.abc import Sequence
from dataclasses import replace

from addressing.job.counting import count_job, count_suite
from addressing.job.reading import Reading
from addressing.records.counts import PieceCount
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household
from addressing.records.pieces import household_of
from addressing.records.proofs import ProofHousehold, ProofJob, ProofSet
from addressing.tables import lookup
from addressing.typesetting import stream
from addressing.version import VERSION
from addressing.where import Where, is_listed
from addressing.wording import cased, cased_firm

_QUOTING = frozenset(("remark", "cell-note"))
"""Notes that quote what the client's families wrote of guests: on no sheet that is handed round."""

_UNQUOTED = frozenset(("marker-in-list", "name-noted", "note-open", "by-hand-noted", "guest-out"))
"""Questions that quote such words: the sheets ask them without."""


_SENTENCES = re.compile(r"(?<=[.!?]) ")
_COMMANDS = re.compile(r"--\w|`addressing|\bdocket\b")
_PLACE_OF_A_COMMAND = re.compile(r" \(--[^)]*\)")


def job_of(reading: Reading, counts: tuple[PieceCount, ...]) -> ProofJob:
    """The job as client and operator see it: every household, every finding."""
    docket, guests = reading.docket, reading.guest_list
    hosts = docket.hosts
    return ProofJob(
        title=hosts.name if hosts else None,
        date=docket.date,
        list_name=guests.file,
        list_sha256=guests.sha256,
        docket_sha256=_choices(reading),
        version=VERSION,
        households=tuple(
            ProofHousehold(
                home.key,
                called(home),
                home.key in reading.held,
                home.number,
                _lines(reading, home.key),
            )
            for home in guests.households
        ),
        findings=tuple(
            _unquoted(found) for found in reading.findings if found.code not in _QUOTING
        ),
        counts=counts,
        country=hosts.country if hosts else "US",
        suite=count_suite(reading) if counts == count_job(reading) else (),
    )


def for_client(job: ProofJob) -> ProofJob:
    """The job as the client sees it: no note for the designer, no word on how to mend by docket.

    A household that waits for the designer still says why.
    """
    shown = (each for each in job.findings if not _is_designers_note(each))
    return replace(job, findings=tuple(map(_by_cells_alone, shown)))


def of_reprint(job: ProofJob, sets: Sequence[ProofSet]) -> ProofJob:
    """The job of a reprint's proof: whose pieces are printed again, and how many others there are.

    What concerns those, or the list as a whole, stood on the first proof.
    """
    pages = (page.household for each in sets for page in each.pages)
    shown = {household_of(key) for key in pages if key is not None}
    return replace(
        job,
        households=tuple(home for home in job.households if home.key in shown),
        findings=tuple(found for found in job.findings if found.household in shown),
        others=sum(home.key not in shown for home in job.households),
    )


def _is_designers_note(found: Finding) -> bool:
    return found.severity is Severity.NOTE and _whose(found) == "designer"


def _whose(found: Finding) -> str:
    return lookup("findings", "code", "for").get(found.code, "")


def _by_cells_alone(found: Finding) -> Finding:
    """Without what the client has no use for: the designer's mending, commands, docket keys."""
    mend = "" if _whose(found) == "designer" else _in_the_client_s_words(found)
    also = tuple(place for place in found.also if is_listed(place))
    where = found.where if is_listed(found.where) else Where(found.where.file)
    text = _PLACE_OF_A_COMMAND.sub("", found.text)
    return replace(found, text=text, mend=mend, where=where, also=also)


def _in_the_client_s_words(found: Finding) -> str:
    """How to mend it, without the sentences that speak to whoever works with the commands."""
    said = [each for each in _SENTENCES.split(found.mend) if not _COMMANDS.search(each)]
    if not said and found.mend and found.severity is Severity.NOTE:
        return "If that isn't right, please say so."
    return " ".join(said)


def called(home: Household) -> str:
    """A household's name with capitals as names have them, whatever the list has."""
    if home.label is not None:
        return cased_firm(home.label.text)
    return cased(home.name) or home.name


def _unquoted(found: Finding) -> Finding:
    """The finding as the sheets say it: the words that a family wrote stay in the list."""
    if found.code not in _UNQUOTED:
        return found
    return replace(found, text=lookup("findings", "code", "title")[found.code])


def _choices(reading: Reading) -> str | None:
    """The docket's fingerprint, with the answers' where there are any: either changes the proof."""
    docket, answers = reading.docket.sha256, reading.decisions_sha256
    if answers is None:
        return docket
    return hashlib.sha256(f"{docket} {answers}".encode()).hexdigest()


def _lines(reading: Reading, key: str) -> tuple[str, ...]:
    """The worded lines of a held household's first piece, for where no page shows it.

    None where the docket makes nothing with names on it.
    """
    if key not in reading.held:
        return ()
    its = (piece for piece in reading.pieces if household_of(piece.household or "") == key)
    piece = next(its, None)
    return tuple(line.text for line in piece.wordings[0].lines) if piece is not None else ()


def proof_sets(reading: Reading) -> tuple[ProofSet, ...]:
    """Every kind with its pages, those that wait too."""
    sets: list[ProofSet] = []
    for kind in reading.kinds:
        pages, outlines = stream(kind.setting)
        sets.append(ProofSet(kind.setting, tuple(pages), outlines, kind.stock))
    return tuple(sets)
