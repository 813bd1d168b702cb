"""What became of prints: named by page and run, or by the household that they are for."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import titles
from addressing.job.ledger_kept import noting, refuse_lost
from addressing.job.printing import balance_of, households_in, refuse_other_ledger
from addressing.job.reading import Reading
from addressing.ledger import LEDGER, open_ledger
from addressing.records.pieces import household_of
from addressing.records.prints import ON_PAPER, Print

_SHOWN = 6
"""So many households are named where a name fits several."""


@dataclass(frozen=True, slots=True)
class Named:
    """Prints of a kind as a person names them.

    `pages` are of `run`, None being the kind's last one; `names` are households' keys or names.
    """

    kind: str
    run: int | None
    pages: Sequence[int] = ()
    names: Sequence[str] = ()


def mark(folder: Path, named: Named, state: str) -> tuple[Print, ...]:
    """Say what became of prints of a job; gives them as they are then. All are marked, or none.

    A household's print is the one that is on paper still; with several, the run must be said.

    Raises:
        Fault: the ledger is another job's, or has lost prints (exit 3); nothing of that kind was
            printed, a page or a
            household isn't there, or it isn't plain which is meant (exit 2).
    """
    if not (folder / LEDGER).exists():
        refuse_lost(folder)
        raise _not_printed(named.kind)
    with open_ledger(folder) as ledger:
        prints = ledger.prints()
        if ours := households_in(folder):
            refuse_other_ledger(folder, ours, prints)
        refuse_lost(folder)
        pool = [one for one in prints if _may_be(one, named)]
        if not pool:
            raise _not_printed(named.kind) if named.run is None else _no_run(prints, named)
        chosen = _by_pages(prints, pool, named)
        for name in named.names:
            for one in _prints_of(pool, name, state):
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


def _by_pages(prints: Sequence[Print], pool: Sequence[Print], named: Named) -> dict[int, set[int]]:
    """The pages that are named, by the run that printed them."""
    piles = _last_piles(pool)
    if not set(named.pages) <= piles.keys():
        _check_pages(prints, max(one.run for one in pool), named)
    chosen: dict[int, set[int]] = {}
    for page in named.pages:
        chosen.setdefault(piles[page], set()).add(page)
    return chosen


def _last_piles(pool: Sequence[Print]) -> dict[int, int]:
    """The run of each page of the last printing: one run, or one a batch, numbered on."""
    pages: dict[int, set[int]] = {}
    for one in pool:
        pages.setdefault(one.run, set()).add(one.page)
    inks = {one.run: one.wanted.ink for one in pool}
    runs = sorted(pages, reverse=True)
    chain = runs[:1]
    for run in runs[1:]:
        first, last = min(min(pages[run]) for run in chain), max(max(pages[run]) for run in chain)
        goes_on = max(pages[run]) < first or min(pages[run]) == last + 1
        if inks[run] != inks[chain[-1]] or not goes_on:
            break
        chain.append(run)
    return {page: run for run in chain for page in pages[run]}


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


def _check_pages(prints: Sequence[Print], run: int, named: Named) -> None:
    """Refuse pages that a run doesn't have, and say where they are."""
    kinds: dict[int, str] = {}
    pages: dict[int, set[int]] = {}
    for one in prints:
        kinds[one.run] = one.wanted.kind
        pages.setdefault(one.run, set()).add(one.page)
    missing = sorted(set(named.pages) - pages[run])
    if not missing:
        return
    told = f"page {missing[0]}" if len(missing) == 1 else f"pages {_spanned(missing)}"
    has = "1 page" if len(pages[run]) == 1 else f"{len(pages[run])} pages"
    elsewhere = [
        other
        for other, its in pages.items()
        if kinds[other] == kinds[run] and set(named.pages) <= its
    ]
    verb = "is" if len(missing) == 1 else "are"
    if elsewhere:
        runs = f"run {_listed(elsewhere)}" if len(elsewhere) == 1 else f"runs {_listed(elsewhere)}"
        text = f"Run {run} has {has}; {told} {verb} in {runs}."
        mend = f"Add --run {elsewhere[-1]}, or name the household instead."
    else:
        text = f"Run {run} ({kinds[run]}) has {has}; {told} {verb} in no {kinds[run]} run."
        mend = "Count from 1 in the order of the plate, or name the household instead."
    raise Fault(Exit.OPTIONS, "page-unknown", text, mend)


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


def _prints_of(pool: Sequence[Print], name: str, state: str) -> tuple[Print, ...]:
    """The print of the household that is meant, in each of its inks."""
    of_home = [one for one in pool if one.wanted.household == _household(pool, name)]
    live = [one for one in of_home if one.state in ON_PAPER and one.state != state] or of_home
    if len({one.wanted.ink for one in live}) == len(live):
        return tuple(live)
    places = "; ".join(f"run {one.run}, page {one.page}" for one in live)
    raise Fault(
        Exit.OPTIONS,
        "print-unclear",
        f"{live[0].wanted.name} is there more than once: {places}.",
        f"Say which is meant: --run {' or --run '.join(str(one.run) for one in live)}.",
    )


def _household(pool: Sequence[Print], name: str) -> str:
    """The key of the household with that key or name; failing that, with those words in its name.

    Titles don't count: the plate may have spelled one out.

    Raises:
        Fault: there is none, or there are several (exit 2).
    """
    homes = {one.wanted.household: one.wanted.name for one in pool}
    words = _untitled(name)
    found = [key for key in homes if key == name]
    if words:
        found = (
            found
            or [key for key, known in homes.items() if _untitled(known) == words]
            or [key for key, known in homes.items() if set(words) <= set(_untitled(known))]
        )
    if len(found) == 1:
        return found[0]
    if not found:
        raise Fault(
            Exit.OPTIONS,
            "household-unknown",
            f"No {pool[0].wanted.kind} of “{name}” was printed.",
            "Write the name as `addressing lines` shows it, or the household's key.",
        )
    told = ", ".join(f"{homes[key]} ({key})" for key in found[:_SHOWN])
    raise Fault(
        Exit.OPTIONS,
        "household-unclear",
        f"“{name}” may be {told}.",
        "Give the household's key.",
    )


def _untitled(name: str) -> tuple[str, ...]:
    """The folded words of a name but its titles."""
    return tuple(word for word in fold(name).split() if word not in titles())
