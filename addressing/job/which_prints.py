"""Which prints are meant: by a name, or by a number and where it was read.

A number stands in several places: the order of print (slips, job sheet, stuffing list), the proof
and the reply card (the household's own), the pages of a file, which may go from the last to the
first. One that says where it was read means that; a bare one counts only where all agree.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import PurePosixPath, PureWindowsPath

from addressing.faults import Exit, Fault
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import titles
from addressing.records.guests import KnownHousehold
from addressing.records.pieces import household_of
from addressing.records.prints import ON_PAPER, Print, Printing

PRINT, PROOF = "print", "proof"
"""Where a number may be read: the order of print, or the proof."""

_BESIDE = frozenset(("and", "the", "guest", "of"))
"""What stands between names on a print and is none."""
_SHOWN = 6
"""So many households are named where a name fits several."""
_READINGS = 2
"""So many meanings of a number are told beside the first."""


@dataclass(frozen=True, slots=True)
class Numbers:
    """Numbers as a person gives them, and where they were read.

    `read_in` is PRINT, PROOF, the name of a plate's file, or "" where nothing was said.
    """

    read_in: str
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Paper:
    """What is on paper, as it may be named.

    `pool` are the prints that may be meant, `files` what was printed in each run, `own` the number
    and `people` the names of each household by its key, `state` what is being said of them.
    """

    pool: Sequence[Print]
    files: Mapping[int, Printing]
    own: Mapping[str, int]
    people: Mapping[str, frozenset[str]]
    state: str

    @property
    def last(self) -> dict[int, Print]:
        """The prints of the last printing by their place: of one run, or one a batch."""
        chain = _last_runs(self.pool)
        return {one.page: one for run in chain for one in self.pool if one.run == run}


def of_number(paper: Paper, number: int, read_in: str) -> tuple[Print, ...]:
    """The prints that a number means; none where the order of print has no such place.

    Raises:
        Fault: it isn't plain which, or there is none (exit 2).
    """
    if read_in == PROOF:
        return _of_household_s_number(paper, number)
    if read_in not in ("", PRINT):
        return (_on_page(paper, number, read_in),)
    meant = paper.last.get(number)
    if meant is None:
        return ()
    if not read_in and (others := list(_other_readings(paper, number, meant))):
        raise _unclear_number(number, meant, others)
    return (meant,)


def of_name(paper: Paper, name: str) -> tuple[Print, ...]:
    """The print of the household that is meant, in each of its inks.

    Raises:
        Fault: no household or several have that name, or it is there more than once (exit 2).
    """
    key = _household(paper, name)
    return _one_each(paper, [one for one in paper.pool if one.wanted.household == key])


def _one_each(paper: Paper, of_home: Sequence[Print]) -> tuple[Print, ...]:
    """A household's prints, one an ink: those that are on paper still."""
    live = [one for one in of_home if one.state in ON_PAPER and one.state != paper.state] or of_home
    if len({one.wanted.ink for one in live}) == len(live):
        return tuple(live)
    if len({one.wanted.household for one in live}) > 1:
        told = "; ".join(f"{one.wanted.name}, print:{one.page}" for one in live)
        raise Fault(
            Exit.OPTIONS,
            "print-unclear",
            f"That household has several {live[0].wanted.kind}s: {told}.",
            "Say which is meant.",
        )
    places = "; ".join(f"run {one.run}, print {one.page}" for one in live)
    runs = dict.fromkeys(str(one.run) for one in live)
    raise Fault(
        Exit.OPTIONS,
        "print-unclear",
        f"{live[0].wanted.name} is there more than once: {places}.",
        f"Say which is meant: --run {' or --run '.join(runs)}.",
    )


def _of_household_s_number(paper: Paper, number: int) -> tuple[Print, ...]:
    found = [one for one in paper.pool if _own(paper, one) == number]
    if found:
        return _one_each(paper, found)
    raise Fault(
        Exit.OPTIONS,
        "number-unknown",
        f"No {_kind(paper)} of the household with number {number} on the proof was printed.",
        "Say which by the name on it.",
    )


def _on_page(paper: Paper, number: int, name: str) -> Print:
    """What is on a page of a file."""
    runs = [run for run, file in paper.files.items() if _named_so(file, name)]
    pool = [one for one in paper.pool if one.run in runs]
    if not pool:
        known = dict.fromkeys(_file_name(paper.files[one.run]) for one in paper.pool)
        raise Fault(
            Exit.OPTIONS,
            "file-unknown",
            f"No file {name} is in the ledger as printed.",
            f"It has: {', '.join(known)}.",
        )
    digests = {paper.files[one.run].sha256 for one in pool}
    if len(digests) > 1:
        told = " or ".join(f"--run {run}" for run in dict.fromkeys(one.run for one in pool))
        text = f"Several plates of the name {name} were printed."
        raise Fault(Exit.OPTIONS, "file-unclear", text, f"Say which is meant: {told}.")
    run = max(one.run for one in pool)
    place = _place_of(paper.files[run], number)
    found = next((one for one in pool if one.run == run and one.page == place), None)
    if found is not None:
        return found
    if paper.files[run].opens is None:
        mend = "Say which by the names, or by the numbers at its foot: print:12."
        text = f"A page of {name} bears several, or an older version noted it."
        raise Fault(Exit.OPTIONS, "page-unclear", text, mend)
    text = f"{name} has no page {number} with a name on it."
    raise Fault(Exit.OPTIONS, "page-unknown", text, "Count its pages from 1, as a viewer does.")


def _place_of(file: Printing, page: int) -> int | None:
    """The place in the order of print of what is on a page of a file."""
    if file.opens is None or file.closes is None:
        return None
    step = 1 if file.closes >= file.opens else -1
    place = file.opens + step * (page - 1)
    low, high = sorted((file.opens, file.closes))
    return place if low <= place <= high else None


def _other_readings(paper: Paper, number: int, meant: Print) -> Iterator[tuple[str, Print]]:
    """What else a bare number may mean, and where it would have been read."""
    proof = [one for one in paper.pool if _own(paper, one) == number]
    if {one.wanted.household for one in proof} - {meant.wanted.household}:
        yield "on the proof", proof[0]
    last = paper.last
    for run in sorted({one.run for one in last.values()}):
        place = _place_of(paper.files[run], number)
        other = last.get(place or 0)
        if other is not None and other.wanted.household != meant.wanted.household:
            yield f"on page {number} of {_file_name(paper.files[run])}", other


def _unclear_number(number: int, meant: Print, others: Sequence[tuple[str, Print]]) -> Fault:
    told = [f"{number} is {_of(meant)} in the order of print"]
    told += [f"{_of(one)} {where}" for where, one in others[:_READINGS]]
    if len(others) > _READINGS:
        told.append("others on that page of other files")
    files = [where.rpartition(" ")[2] for where, _ in others if where.startswith("on page")]
    page = f", {files[0]}:{number} (a page of that file)" if files else ""
    proof = f", proof:{number}" if others[0][0] == "on the proof" else ""
    return Fault(
        Exit.OPTIONS,
        "number-unclear",
        f"{', '.join(told)}. Nothing was marked.",
        f"Say which by the name on it, or where the number stands: print:{number} (slips, job sheet"
        f" and stuffing list go by the order of print){proof}{page}.",
    )


def _of(one: Print) -> str:
    return one.wanted.name


def _own(paper: Paper, one: Print) -> int | None:
    """The household's own number, as proof and reply card have it."""
    return paper.own.get(household_of(one.wanted.household)) or None


def _kind(paper: Paper) -> str:
    return paper.pool[0].wanted.kind


def _named_so(file: Printing, name: str) -> bool:
    return _file_name(file).casefold() == PureWindowsPath(name).name.casefold()


def _file_name(file: Printing) -> str:
    return PurePosixPath(file.plate).name


def _last_runs(pool: Iterable[Print]) -> list[int]:
    """The runs of the last printing: one, or one a batch, numbered on."""
    pages: dict[int, set[int]] = {}
    inks: dict[int, str] = {}
    for one in pool:
        pages.setdefault(one.run, set()).add(one.page)
        inks[one.run] = one.wanted.ink
    runs = sorted(pages, reverse=True)
    chain = runs[:1]
    for run in runs[1:]:
        first, last = min(min(pages[run]) for run in chain), max(max(pages[run]) for run in chain)
        goes_on = max(pages[run]) < first or min(pages[run]) == last + 1
        if inks[run] != inks[chain[-1]] or not goes_on:
            break
        chain.append(run)
    return chain


def _household(paper: Paper, name: str) -> str:
    """The key of the household with that key or name; failing that, with those words in its names.

    Those of all its people count, as the print has them, titles don't: the plate may have spelled
    one out.

    Raises:
        Fault: there is none, or there are several (exit 2).
    """
    pool = paper.pool
    homes = {one.wanted.household: one.wanted.name for one in pool}
    words = _untitled(name)
    found = [key for key in homes if key == name]
    if words:
        found = (
            found
            or [key for key, known in homes.items() if _untitled(known) == words]
            or [key for key, known in homes.items() if _bears(paper, key, known, words)]
        )
    if len(found) == 1:
        return found[0]
    if not found:
        raise Fault(
            Exit.OPTIONS,
            "household-unknown",
            f"No {pool[0].wanted.kind} of “{name}” was printed.",
            "Write the name as the print has it, or the household's key.",
        )
    told = ", ".join(f"{homes[key]} ({key})" for key in found[:_SHOWN])
    raise Fault(
        Exit.OPTIONS,
        "household-unclear",
        f"“{name}” may be {told}.",
        "Give the household's key.",
    )


def _bears(paper: Paper, key: str, name: str, words: Sequence[str]) -> bool:
    """Whether a print can bear those words: names of its household's people."""
    people = paper.people.get(household_of(key), frozenset())
    told = set(words) - _BESIDE
    return bool(told) and told <= {*people, *_untitled(name)}


def names_of(home: KnownHousehold) -> frozenset[str]:
    """The folded words of the names of a household's people."""
    said = (word for one in home.people for word in (one.given, one.family, one.suffix))
    return frozenset(word for each in said for word in each.split())


def _untitled(name: str) -> tuple[str, ...]:
    """The folded words of a name but its titles."""
    return tuple(word for word in fold(name).split() if word not in titles())
