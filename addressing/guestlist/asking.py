"""Findings made by their code: severity and whether the household waits come from the table."""

from dataclasses import replace
from functools import cache

from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.written import Trouble
from addressing.records.findings import Finding, Severity
from addressing.tables import table
from addressing.where import Where


@cache
def _kinds() -> dict[str, dict[str, str]]:
    return {row["code"]: row for row in table("findings")}


def finding(code: str, where: Where, text: str, mend: str, quoted: str = "") -> Finding:
    """A finding of a known code, not yet given to a household; `quoted` are the list's own words.

    >>> finding("zip-missing", Where("list.csv"), "No ZIP.", "What is it?").holds
    True
    """
    kind = _kinds()[code]
    return Finding(
        Severity(kind["severity"]), code, where, text, mend,
        holds=kind["holds"] == "yes", quoted=quoted,
    )  # fmt: skip


def from_trouble(trouble: Trouble, where: Where) -> Finding:
    """The finding for what is wrong with an address; `where` is the row's own cell."""
    place = trouble.cited.cells[0] if trouble.cited and trouble.cited.cells else where
    found = finding(trouble.code, place, trouble.text, trouble.mend, trouble.quoted)
    return replace(found, likely=trouble.likely)


_MENDS = {
    "name-order-doubtful": "Which word is the family name?",
    "name-doubtful": "How should the name stand on the envelope?",
    "formal-differs": "Who is invited, and how should the names stand?",
    "children-unsaid": "Which of them are children? Without an answer all are set as adults.",
    "family-name-doubtful": "How should the name read, with its family name?",
    "lone-name-doubtful": "How should the names stand on the envelope?",
    "family-words-doubtful": "Is the family name the last word, or the last two?",
    "suffix-doubtful": "Whose is what stands behind the family name?",
    "surname-missing": "What is the family name?",
    "guest-noted": "May somebody come along?",
    "partner-unnamed": "What is the name?",
    "partner-in-brackets": "Nothing to do if it is so.",
    "partner-family-assumed": "Is it the same family name?",
    "children-noted": "Who is invited by name?",
    "children-assumed": "Are they children? Else give them a title or a row of their own.",
}
_TEXTS = {
    "name-order-doubtful": "“{}”: does the family name stand first?",
    "name-doubtful": "“{}” can't be read as a name.",
    "formal-differs": "“{}”: the names for the envelope and the others are not the same people.",
    "children-unsaid": "{}: which are adults isn't said.",
    "family-name-doubtful": "“{}”: two given names, or a given and a family name?",
    "lone-name-doubtful": "“{}”: a given name before a family name for both, or a family name?",
    "family-words-doubtful": "“{}”: one family name or two?",
    "suffix-doubtful": "“{}”: whose the suffix is isn't said.",
    "partner-family-assumed": "{}: the partner's family name is empty and taken to be the same.",
    "partner-in-brackets": "{}: the name in brackets is taken to be hers or his.",
    "partner-unnamed": "“{}”: a wife or husband is invited without a name.",
    "guest-noted": "Where a companion is asked for, the list says: “{}”.",
    "surname-missing": "{} stands without a family name and is set as listed.",
    "children-noted": "Of children the list says: “{}”.",
    "children-assumed": "{}: read as the children of the couple.",
}


def from_doubt(doubt: Doubt, where: Where) -> Finding:
    """The finding for a doubt about a cell of names."""
    text = _TEXTS[doubt.code].format(doubt.text)
    return finding(doubt.code, where, text, _MENDS[doubt.code], doubt.text)


def given_to(findings: tuple[Finding, ...], household: str) -> tuple[Finding, ...]:
    """The same findings with the household's key."""
    return tuple(replace(found, household=household) for found in findings)
