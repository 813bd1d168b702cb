"""Whose given name is worth a question where envelopes go by given names alone."""

from itertools import pairwise

from addressing.records.findings import Finding, Severity
from addressing.records.guests import GuestList, Household, Kind, Person
from addressing.wording.couples import husband_and_wife
from addressing.wording.persons import family, is_named_by_husband


def ask_first_names(guest_list: GuestList) -> tuple[Finding, ...]:
    """One question for each household with a wife who goes by her husband's given name.

    Formal style names her so (Mr. and Mrs. Tobias Wexcombe, Mrs. Tobias Wexcombe); a style of
    given names alone has none for her.
    """
    return tuple(
        _asked(home, wife) for home in guest_list.households if (wife := _by_his_name(home))
    )


def _by_his_name(home: Household) -> Person | None:
    named = [person for person in home.people if person.kind is Kind.NAMED]
    couples = [husband_and_wife(one, other) for one, other in pairwise(named)]
    wives = [wife for man, wife in couples if man and man.given and wife and not wife.given]
    alone = [person for person in named if is_named_by_husband(person)]
    return next(iter((*wives, *alone)), None)


def _asked(home: Household, wife: Person) -> Finding:
    name = " ".join(part for part in (wife.title, wife.given, family(wife)) if part)
    return Finding(
        Severity.ASK,
        "given-missing",
        wife.cells[0] if wife.cells else home.rows[0],
        f"{name}: no first name of her own.",
        "What is it? Without an answer she is named by title and family name.",
        home.key,
        quoted=name,
    )
