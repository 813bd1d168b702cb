"""The ledger held against the job, told: what is right on paper, what is due, what is wrong."""

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeVar

from addressing.cli.speaking import heading, say
from addressing.job.hinting import all_of, command_line
from addressing.records.pieces import TELLS
from addressing.records.prints import Balance, Print

if TYPE_CHECKING:
    from addressing.cli.options import Job
    from addressing.job.reading import Reading

T = TypeVar("T")
TOLD = 12
"""Pieces of one kind and reason that are told one by one; `--json` has all."""


def say_balance(balance: Balance, job: "Job", reading: "Reading") -> None:
    """What is good by kind, what is due and what is wrong, each with its reason."""
    shown = _piece_names(balance)
    good = Counter(shown[each.wanted.kind, each.wanted.ink] for each in balance.good)
    told = ", ".join(f"{n} {piece}" for piece, n in good.items())
    say(f"On paper and right: {told or 'nothing'}")
    for found in filter(lambda each: each.code == "size-kept", reading.findings):
        say(f"note  {found.text} {found.mend}")
    if balance.others:
        number = ", ".join(f"{n} {kind}" for kind, n in balance.others)
        say(f"On paper too, and not made by this docket: {number}. Nothing is said of these.")
    _say_for_all(balance, job, reading)
    if balance.due:
        heading("To print")
        for row in _due(balance, shown):
            say(row)
    for kind, why in balance.for_all:
        say()
        say(f"{kind}: {why} since its plate was made. It's the same for all and not counted here:")
        say("  make it anew with `addressing plates`, and destroy what is printed of it.")
    for each in balance.copies:
        many = f"{each.spoiled} of {each.printed} copies spoiled, {each.left} are left"
        need = f"print {each.lacking} more" if each.lacking else "enough"
        say(f"{each.kind}: {many} and {each.needed} are needed: {need}.")
    _say_moved(balance)
    if balance.wrong:
        _say_wrong(balance, job)


def _say_for_all(balance: Balance, job: "Job", reading: "Reading") -> None:
    """The pieces that bear no name, which the ledger doesn't count; those told below are left."""
    told = {kind for kind, _ in balance.for_all} | {each.kind for each in balance.copies}
    kinds = [each.kind for each in reading.kinds if each.static and each.kind not in told]
    if kinds:
        words = ("--kind", kinds[0])
        then = command_line("spoiled", job.list_path, *words, docket=job.asked, folder=job.folder)
        say(f"The same for all, and not counted here: {all_of(kinds)}.")
        say(f"  Spoiled copies of it: {then} --copies N")


def _say_moved(balance: Balance) -> None:
    """Prints that only stand otherwise than they would now: the designer chooses."""
    if not balance.moved:
        return
    heading("Right words, set in another size or place than they would be now")
    for row in _told([(one, "") for one in balance.moved]):
        say(row)
    say("  These may go out as they are: then print no new ones of them. They are among what is to")
    say("  print, for a set that is all alike; once new ones are noted, these are wrong.")


def _say_wrong(balance: Balance, job: "Job") -> None:
    """What is to be destroyed, or why to look first."""
    tells = dict.fromkeys(TELLS.get(one.wanted.kind) for one, _ in balance.wrong)
    most = max((each for each in tells if each), key=len, default="")
    carry = f", they carry {most}" if most else ""
    if balance.is_strange:
        heading("Nothing in the ledger is what this job prints, by kind, ink and household")
        say("  Were the inks changed since? Then all of it is wrong by now. If not, the ledger is")
        say("  another job's: put this one's own back, and destroy nothing.")
    else:
        heading(f"Wrong by now: take out and destroy{carry}")
    for row in _told(balance.wrong):
        say(row)
    then = command_line("destroyed", job.list_path, "--wrong", docket=job.asked, folder=job.folder)
    say(f"  When that is done: {then}")


def _due(balance: Balance, shown: dict[tuple[str, str], str]) -> Iterator[str]:
    """A row for each that is due; one for many that are so for the same reason."""
    for alike in _by(balance.due, lambda due: (due.wanted.kind, due.wanted.ink, due.why)):
        first = alike[0]
        piece = f"  {shown[first.wanted.kind, first.wanted.ink]:<8}"
        if len(alike) > TOLD:
            yield f"{piece} {len(alike)} households: {first.why}"
        else:
            yield from (f"{piece} {due.wanted.name}: {due.why}" for due in alike)


def _told(prints: Iterable[tuple[Print, str]]) -> Iterator[str]:
    """A row for each print, or for many of a run and reason, with where they lie in it."""
    for alike in _by(prints, lambda each: (each[0].wanted.kind, each[0].run, each[1])):
        first, why = alike[0]
        piece, run = f"  {first.wanted.kind:<8}", f"run {first.run}"
        behind = f": {why}" if why else ""
        if len(alike) > TOLD:
            pages = _stretches([one.page for one, _ in alike])
            yield f"{piece} {len(alike)} households ({run}, prints {pages}){behind}"
        else:
            yield from (
                f"{piece} {o.wanted.name} ({run}, print {o.page}){behind}" for o, _ in alike
            )


def _by(rows: Iterable[T], key: Callable[[T], Hashable]) -> Iterable[Sequence[T]]:
    """The rows that have the same key together, in the order in which keys come."""
    found: dict[Hashable, list[T]] = {}
    for row in rows:
        found.setdefault(key(row), []).append(row)
    return found.values()


def _stretches(pages: Iterable[int]) -> str:
    """Pages as a person writes them.

    >>> _stretches([1, 2, 3, 7, 9, 10])
    '1-3, 7, 9-10'
    """
    told: list[list[int]] = []
    for page in sorted(set(pages)):
        if told and page == told[-1][-1] + 1:
            told[-1] = [told[-1][0], page]
        else:
            told.append([page])
    return ", ".join("-".join(map(str, each)) for each in told)


def _piece_names(balance: Balance) -> dict[tuple[str, str], str]:
    """What to call a kind in an ink; its ink is named where the kind has several."""
    wanted = [*(one.wanted for one in balance.good), *(one.wanted for one in balance.due)]
    inks = {(each.kind, each.ink) for each in wanted}
    several = Counter(kind for kind, _ in inks)
    return {(kind, ink): f"{kind} in {ink}" if several[kind] > 1 else kind for kind, ink in inks}
