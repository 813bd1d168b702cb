"""Which household a designer means: by its key, cell or name, or a place that `check` tells."""

from collections.abc import Iterable, Mapping

from addressing.job.asking import Listed
from addressing.questions.corrections import Named, homes_named
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.records.questions import Applied


def named(listed: Listed, applied: Applied) -> Named:
    """Households by what the list calls them, by what they are called since, and by a place.

    A place is one that `check` tells: a remark about a household stands in no row of its own.
    """
    homes, now = listed.guest_list.households, applied.guest_list.households
    by_key = {home.key: home for home in homes}

    def meant(name: str) -> tuple[Household, ...]:
        return homes_named(homes, name, now) or told_at(listed.findings, by_key, name)

    return meant


def told_at(
    findings: Iterable[Finding], homes: Mapping[str, Household], place: str
) -> tuple[Household, ...]:
    """The households of which something is told at a place."""
    keys = dict.fromkeys(
        found.household for found in findings if found.household and str(found.where) == place
    )
    return tuple(homes[key] for key in keys if key in homes)


def names_of(listed: Listed, applied: Applied) -> Mapping[str, str]:
    """What each household is called by now, by its key; those who are left out as listed."""
    homes = (*listed.guest_list.households, *applied.guest_list.households)
    return {home.key: home.name for home in homes}
