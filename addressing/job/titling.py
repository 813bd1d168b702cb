"""A title that a designer sets alone: of one person; of a couple the names say whose it is."""

from collections.abc import Sequence
from dataclasses import replace

from addressing.faults import Exit, Fault
from addressing.job.asking import Listed
from addressing.job.rereading import READERS
from addressing.questions.choosing import is_known
from addressing.questions.corrections import CORRECT, TITLE, only_named
from addressing.questions.halves import as_halves, is_half
from addressing.questions.showing import household_shown, person_shown
from addressing.records.guests import Household, Kind
from addressing.records.questions import Applied, Decision


def refuse_titles(corrections: Sequence[Decision], listed: Listed, applied: Applied) -> None:
    """Refuse titles that can't be set alone, and say how the names are set instead.

    Raises:
        Fault: it is no title, or the household isn't one person by name (exit 2).
    """
    was = {home.key: home for home in (*listed.guest_list.households, *applied.halves)}
    now = {home.key: home for home in (*applied.guest_list.households, *as_halves(applied))}
    for each in corrections:
        key, _, what = each.ref.partition(":")
        if what != f"{CORRECT}:{TITLE}":
            continue
        title = None if is_known(each.answer) else READERS.title(each.answer)
        home = now.get(key, was[key])
        if title is None:
            raise _refused(f"“{each.answer}” is no title.", home, "")
        if only_named(was[key].people) is None or only_named(home.people) is None:
            who = household_shown(home)
            raise _refused(f"{who}: a title alone doesn't say whose it is.", home, title)


def _refused(text: str, home: Household, title: str) -> Fault:
    """`title` stands in the example before the only one who has none, "" where it is no title.

    Before anybody else it would be a guess that somebody copies.
    """
    grown = [person for person in home.people if person.kind is Kind.NAMED]
    without = [place for place, person in enumerate(grown) if not person.title]
    shown = [
        person_shown(replace(person, title=title) if title and without == [place] else person)
        for place, person in enumerate(grown)
    ]
    names = " and ".join(shown) if grown else f"{title or 'Dr.'} Tobias Penhew".strip()
    place = home.key if is_half(home.key) else home.rows[0]
    before = f" (“{title}” before whose it is)" if title and grown and len(without) != 1 else ""
    mend = (
        f"Set the names as they should stand, each with its title: --set {place} names"
        f" '{names}'{before}."
    )
    return Fault(Exit.OPTIONS, "title-alone", text, mend)
