"""Rounds of invitations: which households are printed now, and which are only counted."""

from collections import Counter

from addressing.faults import Exit, Fault
from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.records.docket import Docket
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.where import Where


def later_waves(
    guest_list: GuestList, docket: Docket
) -> tuple[frozenset[str], tuple[Finding, ...]]:
    """(keys of the households that aren't printed now, what is said or asked of the rounds).

    A household that the list gives no round is always printed. Without a choice all are.

    Raises:
        Fault: the docket chooses a round that the list doesn't have (exit 3).
    """
    rounds = Counter(home.wave.text for home in guest_list.households if home.wave is not None)
    names = {fold(name) for name in rounds}
    for chosen in docket.waves:
        if fold(chosen) not in names:
            raise _unknown(chosen, rounds, docket)
    if len(names) < 2:  # noqa: PLR2004 - one round is no choice
        return frozenset(), ()
    now = {fold(name) for name in docket.waves} or names
    later = frozenset(
        home.key
        for home in guest_list.households
        if home.wave is not None and fold(home.wave.text) not in now
    )
    first = next(home.wave for home in guest_list.households if home.wave is not None)
    counted = ", ".join(f"{name} ({many})" for name, many in sorted(rounds.items()))
    text = f"The list has rounds of invitations: {counted}; "
    if not docket.waves:
        mend = "Which are to go out now? The docket chooses with [pieces] wave."
        return later, (finding("wave-unsaid", first.cells[0], f"{text}all are printed now.", mend),)
    text += f"{len(later)} households wait for a later one." if later else "all are printed now."
    mend = "The docket chooses with [pieces] wave; every round is counted and proofed."
    return later, (finding("wave-later", first.cells[0], text, mend),)


def _unknown(chosen: str, rounds: Counter[str], docket: Docket) -> Fault:
    has = ", ".join(sorted(rounds)) or "none"
    return Fault(
        Exit.INPUT,
        "wave-unknown",
        f'The docket prints the wave "{chosen}"; the list has {has}.',
        "Write the wave as the list's column has it, or leave it out: then all are printed.",
        Where(docket.path or "docket", None, "docket:pieces.wave"),
    )
