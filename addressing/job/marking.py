"""What became of prints, named by a number or by the household that they are for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.job.ledger_kept import noting, refuse_lost
from addressing.job.printing import balance_of, households_in, refuse_other_ledger
from addressing.job.reading import Reading
from addressing.job.remembering import known_households
from addressing.job.which_prints import PROOF, Numbers, Paper, names_of, of_name, of_number
from addressing.ledger import LEDGER, Ledger, open_ledger
from addressing.records.pieces import household_of
from addressing.records.prints import ON_PAPER, Print

FILE = ".pdf"
"""How the name of a plate's file ends."""


@dataclass(frozen=True, slots=True)
class Named:
    """Prints of a kind as a person names them.

    `numbers` are of `run`, None being the kind's last printing, save a page of a file, which is of
    the file's own kind; `names` are households' keys or names.
    """

    kind: str
    run: int | None
    numbers: Sequence[Numbers] = ()
    names: Sequence[str] = ()


def mark(folder: Path, named: Named, state: str) -> tuple[Print, ...]:
    """Say what became of prints of a job; gives them as they are then. All are marked, or none.

    A household's print is the one that is on paper still; with several, the run must be said.

    Raises:
        Fault: the ledger is another job's, or has lost prints (exit 3); nothing of that kind was
            printed, a number or a household isn't there, or it isn't plain which is meant (exit 2).
    """
    if not (folder / LEDGER).exists():
        refuse_lost(folder)
        raise _not_printed(named.kind)
    with open_ledger(folder) as ledger:
        prints = ledger.prints()
        if ours := households_in(folder):
            refuse_other_ledger(folder, ours, prints)
        refuse_lost(folder)
        chosen: dict[int, set[int]] = {}
        for one in _meant(ledger, folder, named, state):
            chosen.setdefault(one.run, set()).add(one.page)
        for one in _on_the_same(prints, chosen):
            chosen.setdefault(one.run, set()).add(one.page)
        with noting(folder, ledger):
            marked = [ledger.mark(run, pages, state) for run, pages in sorted(chosen.items())]
    return tuple(one for run in marked for one in run)


def destroy_wrong(reading: Reading, folder: Path) -> tuple[tuple[Print, ...], int]:
    """Say that all prints that are wrong by now were destroyed: (they, how many are set aside).

    Those of households that wait are only set aside: an answer may make them right again.

    Raises:
        Fault: as `balance_of`.
    """
    wrong = [one for one, _ in balance_of(reading, folder).wrong]
    gone = [one for one in wrong if household_of(one.wanted.household) not in reading.held]
    pages: dict[int, set[int]] = {}
    for one in gone:
        pages.setdefault(one.run, set()).add(one.page)
    with open_ledger(folder) as ledger, noting(folder, ledger):
        marked = [ledger.mark(run, its, "destroyed") for run, its in sorted(pages.items())]
    return tuple(one for run in marked for one in run), len(wrong) - len(gone)


def _meant(ledger: Ledger, folder: Path, named: Named, state: str) -> Iterator[Print]:
    """The prints that are named."""
    prints, files = ledger.prints(), ledger.files()
    known = known_households(folder)
    own = {home.key: home.number for home in known}
    people = {home.key: names_of(home) for home in known}
    pool = [one for one in prints if _may_be(one, named)]
    whole = [one for one in prints if named.run is None or one.run == named.run]
    of_kind, of_files = (Paper(its, files, own, people, state) for its in (pool, whole))
    missing: list[int] = []
    for said in named.numbers:
        paper = of_files if said.read_in.endswith(FILE) else of_kind
        _refuse_nothing(prints, paper, named)
        for number in said.numbers:
            found = of_number(paper, number, said.read_in)
            missing += () if found else (number,)
            yield from found
    if missing:
        raise _not_there(prints, of_kind, missing)
    for name in named.names:
        _refuse_nothing(prints, of_kind, named)
        yield from of_name(of_kind, name)


def _refuse_nothing(prints: Sequence[Print], paper: Paper, named: Named) -> None:
    if not paper.pool:
        raise _not_printed(named.kind) if named.run is None else _no_run(prints, named)


def _may_be(one: Print, named: Named) -> bool:
    return one.wanted.kind == named.kind if named.run is None else one.run == named.run


def _not_printed(kind: str) -> Fault:
    return Fault(
        Exit.OPTIONS,
        "not-printed",
        f"The ledger knows of no {kind} that was printed.",
        "Say what was printed first, with `addressing printed`; --kind names another kind.",
    )


def _no_run(prints: Sequence[Print], named: Named) -> Fault:
    runs = {one.run: one.wanted.kind for one in prints}
    told = ", ".join(f"{run} ({kind})" for run, kind in runs.items()) or "none"
    return Fault(
        Exit.OPTIONS,
        "run-unknown",
        f"There is no run {named.run}.",
        f"The runs are {told}.",
    )


def _not_there(prints: Sequence[Print], paper: Paper, missing: Sequence[int]) -> Fault:
    """Places that the order of print doesn't have; in which run they are, or that none has them."""
    run, kind = max(one.run for one in paper.last.values()), paper.pool[0].wanted.kind
    many = len(paper.last)
    elsewhere: dict[int, set[int]] = {}
    for one in prints:
        if one.wanted.kind == kind:
            elsewhere.setdefault(one.run, set()).add(one.page)
    told = f"print {missing[0]}" if len(missing) == 1 else f"prints {_spanned(missing)}"
    has = "1 print" if many == 1 else f"{many} prints"
    verb = "is" if len(missing) == 1 else "are"
    others = [other for other, its in elsewhere.items() if set(missing) <= its]
    if others:
        runs = f"run {_listed(others)}" if len(others) == 1 else f"runs {_listed(others)}"
        text = f"Run {run} has {has}; {told} {verb} in {runs}."
        mend = f"Add --run {others[-1]}, or name the household instead."
    else:
        text = f"Run {run} ({kind}) has {has}; {told} {verb} in no {kind} run."
        mend = "Count from 1 in the order of print, or name the household instead."
    if set(paper.own.values()) & set(missing):
        mend += f" A number of the proof is given as {PROOF}:{missing[0]}."
    return Fault(Exit.OPTIONS, "page-unknown", text, mend)


def _spanned(numbers: Sequence[int]) -> str:
    """Rising numbers in words, those that follow one another as a span: 1-10, 21 and 30-31."""
    spans: list[list[int]] = []
    for number in numbers:
        if spans and number == spans[-1][1] + 1:
            spans[-1][1] = number
        else:
            spans.append([number, number])
    return _listed([str(a) if a == b else f"{a}-{b}" for a, b in spans])


def _listed(numbers: Sequence[int | str]) -> str:
    """Numbers in words: 1, 2 and 5."""
    *first, last = (str(number) for number in numbers)
    return f"{', '.join(first)} and {last}" if first else last


def _on_the_same(prints: Sequence[Print], chosen: dict[int, set[int]]) -> tuple[Print, ...]:
    """The prints in other inks on the envelopes of chosen ones, where it is plain which they are.

    An envelope that is spoiled in one ink is spoiled in all.
    """
    marked = [one for one in prints if one.page in chosen.get(one.run, ())]
    found: list[Print] = []
    for one in marked:
        others: dict[str, list[Print]] = {}
        for other in prints:
            if _place(other) == _place(one) and other.wanted.ink != one.wanted.ink:
                others.setdefault(other.wanted.ink, []).append(other)
        for inked in others.values():
            live = [other for other in inked if other.state in ON_PAPER]
            found += live if len(live) == 1 else []
    return tuple(found)


def _place(one: Print) -> tuple[str, str]:
    return one.wanted.kind, one.wanted.household
