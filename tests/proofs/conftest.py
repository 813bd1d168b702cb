"""A small job, set by the typesetting room, as the proofs get it."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest

from addressing.records.counts import PieceCount
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding, Severity
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.proofs import ProofHousehold, ProofJob, ProofSet
from addressing.records.shelf import Face, Ink, Layout, Stock
from addressing.typesetting import fit, stream
from addressing.where import Where

NAMES = (
    "Tobias Penhew",
    "José Ángel Villafuerte",
    "Søren Kjeldgaard",
    "Łucja Wierzbowska",
    "Cormac Ó Dálaighin",
    "Bartholomew Nightjar",
)
HELD = frozenset({"Cormac Ó Dálaighin", "Bartholomew Nightjar"})
WITHOUT_ADDRESS = frozenset({"Bartholomew Nightjar"})

SetMaker = Callable[[str, Sequence[Piece]], ProofSet]


def key_of(name: str) -> str:
    return f"h-{NAMES.index(name):08d}"


def piece(kind: str, name: str, *lines: str) -> Piece:
    """A piece of one wording."""
    words = tuple(Line(text, Role.NAME) for text in (name, *lines))
    return Piece(kind, key_of(name), name, (Wording(words),))


def found(severity: Severity, code: str, cell: str, household: str | None) -> Finding:
    """A finding whose sentence and mend tell its code."""
    return Finding(
        severity,
        code,
        Where("guests.xlsx", "Guests", cell),
        f"Sentence of {code} in {cell}.",
        f"Mend of {code} in {cell}.",
        household,
        holds=severity is not Severity.NOTE and household is not None,
    )


@pytest.fixture(scope="session")
def green() -> Stock:
    """A deep green paper."""
    return Stock("deep-green", "Deep green", (0.12, 0.23, 0.18))


@pytest.fixture(scope="session")
def make_set(script: Face, envelope: Layout, white: Ink, green: Stock) -> SetMaker:
    """Sets pieces of a kind on the trial envelope."""

    def make(kind: str, pieces: Sequence[Piece]) -> ProofSet:
        choice = PieceChoice("outer", "trial", script.key, white.key, green.key)
        setting, findings = fit(pieces, choice, envelope, script, white, 0.0)
        assert not findings
        assert setting.kind == "outer"
        pages, outlines = stream(setting)
        shown = ProofSet(setting, tuple(pages), outlines, green)
        return shown if kind == "outer" else _renamed(shown, kind)

    return make


def _renamed(shown: ProofSet, kind: str) -> ProofSet:
    """The same set as another kind: the trial envelope has few zones."""
    return replace(shown, setting=replace(shown.setting, kind=kind))


@pytest.fixture(scope="session")
def sets(make_set: SetMaker) -> tuple[ProofSet, ...]:
    """Outers and inners of all who have an address, and a static reply."""
    placed = [name for name in NAMES if name not in WITHOUT_ADDRESS]
    outers = [piece("outer", name, "14 Larkmoor Lane", "Litchfield") for name in placed]
    inners = [piece("inner", name) for name in placed]
    words = Wording((Line("Wexcombe Grange", Role.NAME),))
    reply = Piece("reply", None, "the hosts", (words,))
    return (make_set("outer", outers), make_set("inner", inners), make_set("reply", [reply]))


@pytest.fixture(scope="session")
def job() -> ProofJob:
    """Six households, two of them held; findings of each severity, one of the whole list."""
    households = tuple(
        ProofHousehold(
            key_of(name), name, name in HELD, at, (name,) if name in WITHOUT_ADDRESS else ()
        )
        for at, name in enumerate(NAMES, start=1)
    )
    findings = (
        found(Severity.NOTE, "spaces-mended", "B5", key_of("Tobias Penhew")),
        found(Severity.ASK, "zip-not-in-state", "H9", key_of("Cormac Ó Dálaighin")),
        found(Severity.STOP, "address-missing", "D10", key_of("Bartholomew Nightjar")),
        found(Severity.ASK, "title-missing", "B6", None),
        found(Severity.NOTE, "row-hidden", "B12", "h-unknown"),
    )
    counts = tuple(PieceCount(kind, 6, 2, 10, 25, 1, 25) for kind in ("outer", "inner", "reply"))
    return ProofJob(
        title="Mr. and Mrs. Gideon Wexcombe",
        date="2025-03-10",
        list_name="guests.xlsx",
        list_sha256="a" * 64,
        docket_sha256="b" * 64,
        version="0.1.0",
        households=households,
        findings=findings,
        counts=counts,
    )
