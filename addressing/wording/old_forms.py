"""The old form for junior officers and soldiers: the name, and rank and service on a line below."""

from functools import cache

from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.persons import spelled, title_of


def rank_below(person: Person) -> str | None:
    """The line below a junior's name, "Lieutenant, United States Army"; None for all others.

    Without letters that tell the service the rank stands there alone.
    """
    if title_of(person) not in _of("rank"):
        return None
    letters = (each.replace(".", "").casefold() for each in person.credentials)
    service = next((_of("service")[each] for each in letters if each in _of("service")), None)
    return ", ".join(part for part in (spelled(person), service) if part)


@cache
def _of(kind: str) -> dict[str, str]:
    return {row["word"]: row["means"] for row in table("junior_ranks") if row["kind"] == kind}
