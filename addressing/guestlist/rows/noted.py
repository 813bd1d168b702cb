"""A note that changes an envelope: who comes along, where to send it, how to address them.

The words are the rows of note_words.tsv. All other notes stay remarks: nothing waits on them.
"""

import re
from collections.abc import Sequence
from functools import cache

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.records.findings import Finding
from addressing.records.guests import Person
from addressing.tables import table

_NAME = r"(?P<name>[^\W\d_a-z][\w'’-]+(?:\s+[^\W\d_a-z][\w'’.-]*)*)(?![\w'’-]|\s*\d)"
_JOINT = r"(?:\s+(?:is|will\s+be|named|called)\s+|\s*[:=]\s*|\s+[-–—]\s+)"


def asked_of(found: Finding, people: Sequence[Person]) -> Finding:
    """The question that a remark asks of its household, or the remark itself.

    `people` are the household's: a companion who is one of them is no question.
    """
    note = found.quoted or ""
    if found.code != "remark" or not note:
        return found
    said = f"The list says: “{note}”."
    if _words("elsewhere").search(note):
        mend = "Is the address in the list the right one?"
        return finding("address-doubtful", found.where, said, mend, note)
    if _companion(note, people) or _words("address-as").search(note) or _titled(note, people):
        mend = "How should the names stand on the envelope?"
        return finding("name-noted", found.where, said, mend, note)
    return found


def _companion(note: str, people: Sequence[Person]) -> bool:
    """True where the note names somebody whom the household lacks."""
    known = {word for p in people for word in fold(f"{p.given or ''} {p.family or ''}").split()}
    for found in _companions().finditer(note):
        words = fold(found["name"] or found["next"]).split()
        if words and words[0] not in _no_names() and not known.issuperset(words):
            return True
    return False


def _titled(note: str, people: Sequence[Person]) -> bool:
    """True before a title ("prefers Mrs. Carl Penhew"), unless they are listed so already."""
    listed = {word for p in people for part in (p.title, p.given, p.family) if part
              for word in fold(part).split()}  # fmt: skip
    for found in _words("titled").finditer(note):
        behind = re.split(r"[,;!?()]", note[found.end() :])[0].split()
        title = known_title(behind[0]) if behind else None
        if title is None or title.also_a_name or not behind[0][:1].isupper():
            continue
        wanted = {fold(word) for word in behind if word[:1].isupper()}
        if not listed.issuperset(wanted):
            return True
    return False


def _ways(kind: str, after: str | None = None) -> str:
    rows = (row for row in table("note_words") if row["kind"] == kind)
    known = (row["words"] for row in rows if after is None or row["after"] == after)
    ways = sorted(known, key=len, reverse=True)
    loose = (re.escape(way).replace(r"\ ", r"\s+").replace("'", "['’]") for way in ways)
    return f"(?<![\\w'’])(?i:{'|'.join(loose)})(?![\\w'’])"


@cache
def _words(kind: str) -> re.Pattern[str]:
    return re.compile(_ways(kind))


@cache
def _companions() -> re.Pattern[str]:
    behind = _NAME.replace("<name>", "<next>")
    return re.compile(
        rf"{_ways('companion')}{_JOINT}{_NAME}|{_ways('companion', 'at once')}\s+{behind}"
    )


@cache
def _no_names() -> frozenset[str]:
    return frozenset(row["words"] for row in table("note_words") if row["kind"] == "no-name")
