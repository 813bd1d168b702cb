"""What a decision is about, in the words of the trade: rows of `data/decided.tsv`."""

from collections.abc import Mapping
from functools import cache

from addressing.questions.corrections import is_correction
from addressing.records.questions import Decision, Question
from addressing.tables import lookup, table


def kind_of(decision: Decision, question: Question | None = None) -> str:
    """The kind of what was decided; "" where its question isn't known.

    >>> from addressing.where import Where
    >>> kind_of(Decision("h-abcdefgh:correct:street", "9 Elm Street", Where("--set")))
    'street'
    """
    if question is not None:
        return question.kind
    return decision.ref.rpartition(":")[2] if is_correction(decision.ref) else ""


def told(kind: str) -> str:
    """What to call it.

    >>> told("postcode"), told("of no kind")
    ('ZIP or postcode', 'answer')
    """
    return lookup("decided", "kind", "told").get(kind, "answer")


def matter_of(kind: str) -> str:
    """The matter of a kind: "who", "where", "invited", or "" for one that gainsays nothing.

    >>> matter_of("title"), matter_of("postcode")
    ('who', 'where')
    """
    return lookup("decided", "kind", "matter").get(kind, "")


@cache
def _whole() -> frozenset[str]:
    return frozenset(row["kind"] for row in table("decided") if row["whole"] == "yes")


def is_whole(kind: str) -> bool:
    """True where a correction of the kind says all there is to say of its matter."""
    return kind in _whole()


def of_whom(decision: Decision, question: Question | None, names: Mapping[str, str]) -> str:
    """What was decided and of whom: "street of Odile Farrenby"; `names` are households' by key."""
    what = told(kind_of(decision, question))
    who = names.get(decision.ref.partition(":")[0])
    return f"{what} of {who}" if who else what
