"""One decision taken back: its question is open again, and the list says what it said before."""

from collections.abc import Collection, Iterable, Mapping, Sequence

from addressing.questions.corrections import Named, is_correction, not_one
from addressing.questions.decided import of_whom
from addressing.questions.halves import whole_of
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Decision, Question

Taken = tuple[Question, Decision]


def undone(
    decisions: Sequence[Decision],
    taken: Iterable[Taken],
    named: Named,
    said: Iterable[str],
    halves: Collection[str],
) -> tuple[tuple[Decision, ...], tuple[str, ...]]:
    """The decisions that a designer takes back, and what can't be told.

    Each is named by its question's ref, its place ("--set!2"), or by a household (key, cell or
    name) and, behind a colon, what is taken back ("B14:names", "Tobias Wexcombe:title"); without
    it all of the household's.
    `named` gives the households that a designer may mean. Of one half of a household (`halves` are
    the keys of all) only its own are taken back, where it has any: else the household's, that which
    parts it among them.
    """
    asked = {decision: question for question, decision in taken}
    back: dict[Decision, None] = {}
    unknown: list[str] = []
    for name in said:
        exact = [each for each in decisions if name in (each.ref, str(each.where))]
        found, why = (exact, "") if exact else _of_household(decisions, asked, named, name, halves)
        back |= dict.fromkeys((*found, *_closed_with(found, decisions)))
        if not found:
            unknown.append(why or name)
    return tuple(back), tuple(unknown)


def _closed_with(back: Iterable[Decision], decisions: Iterable[Decision]) -> Iterable[Decision]:
    """What corrections that are taken back had closed: it is kept at their places."""
    places = {each.where for each in back if is_correction(each.ref)}
    return (each for each in decisions if each.where in places)


def _of_household(
    decisions: Sequence[Decision],
    asked: dict[Decision, Question],
    named: Named,
    name: str,
    halves: Collection[str],
) -> tuple[list[Decision], str]:
    meant, what = named(name), ""
    if not meant and ":" in name:
        before, _, what = name.rpartition(":")
        meant = named(before)
    keys = {home.key for home in meant}
    wholes = {whole_of(key) if key in halves else key for key in keys}
    if len(wholes) != 1:
        return [], not_one(name, meant)
    for key in (*keys, *wholes) if len(keys) == 1 else wholes:  # a half's own, else the whole's
        found = [
            decision
            for decision in decisions
            if _is_of(decision, asked.get(decision), key)
            and (not what or _is_about(decision, asked.get(decision), what.strip()))
        ]
        if found:
            return found, ""
    return [], ""


def _is_of(decision: Decision, question: Question | None, key: str) -> bool:
    of_several = question is not None and key in question.households
    return of_several or decision.ref.partition(":")[0] == key


def _is_about(decision: Decision, question: Question | None, what: str) -> bool:
    """By the question's kind (title, names, address), its code, or what was corrected."""
    told = set(decision.ref.split(":")[1:])
    return what in told or (question is not None and what == question.kind)


def told_back(
    decision: Decision,
    question: Question | None,
    names: Mapping[str, str],
    again: Decision | None = None,
) -> Finding:
    """What a designer is told of a decision that was taken back; `names` are households' by key.

    `again` is the answer before it, which holds once more.
    """
    what = of_whom(decision, question, names)
    asked = question is not None and bool(question.text)
    now = "It is asked again." if asked else "What the list says holds again."
    if again is not None:
        now = f"What {again.where.file} says holds again: “{again.answer}”."
    text = f"The {what}: “{decision.answer}” is taken back. {now}"
    key = decision.ref.partition(":")[0]
    return Finding(Severity.NOTE, "answer-replaced", decision.where, text, "Nothing to do.", key)
