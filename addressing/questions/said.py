"""What the client wrote and nothing could be made of: kept, told each time, until it is settled.

Words about a household hold it, for they may change its envelope; words about nobody on the list
are told every time.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from addressing.questions.corrections import BY_HAND, CORRECT
from addressing.questions.folding import folded
from addressing.questions.kinds import NAMES, PLACES
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household
from addressing.records.questions import SETTLED, Decision, Question, Said

WROTE, ANSWERED, ADDS = "client-wrote", "client-answered", "client-adds"
OF_WORDS = frozenset((WROTE, ANSWERED, ADDS))
"""The codes of words that are left open."""
_QUOTES = " “”\"'"


def told_words(
    said: Iterable[Said], homes: Mapping[str, Household], decided: Collection[str]
) -> tuple[Finding, ...]:
    """A finding for all words that are open; `decided` are the refs of what was decided."""
    return tuple(_told(each, homes) for each in said if is_open(each, decided))


def is_open(said: Said, decided: Collection[str]) -> bool:
    """True while nothing has settled some words, or what did was taken back."""
    return not said.by or (said.by != SETTLED and said.by not in decided)


def _told(said: Said, homes: Mapping[str, Household]) -> Finding:
    key = said.household if said.household in homes else None
    mend = f"Put it into the list, then: answer --settled '{said.where}'."
    if key is None:
        gone = ", about somebody who is no longer on the list" if said.household else ""
        text = f"The client wrote{gone}: “{said.words}”."
        return Finding(Severity.ASK, ADDS, said.where, text, mend, quoted=said.words)
    code, wrote = (ANSWERED, "answered") if _is_answer(said) else (WROTE, "wrote")
    text = f"The client {wrote}: “{said.words}”. Nothing could be made of it."
    mend = f"Correct it (answer --set), or, if nothing changes: answer --settled '{said.where}'."
    return Finding(
        Severity.ASK, code, said.where, text, mend, key, holds=True, quoted=said.words
    )  # fmt: skip


def _is_answer(said: Said) -> bool:
    """True for words at a question, which is asked again as long as it is open."""
    return bool(said.ref) and f":{CORRECT}:" not in said.ref


def kept_together(before: Iterable[Said], new: Iterable[Said]) -> tuple[Said, ...]:
    """The words of before and those that are new; the same words of the same are kept once."""
    kept: dict[tuple[object, ...], Said] = {}
    for each in (*before, *new):
        kept.setdefault(_same(each), each)
    return tuple(kept.values())


def _same(said: Said) -> tuple[object, ...]:
    return (" ".join(folded(said.words).split()), said.household, said.ref)


def dealt_with(
    said: Sequence[Said],
    new: Collection[Said],
    given: Collection[Decision],
    taken: Iterable[tuple[Question, Decision]],
) -> tuple[Said, ...]:
    """The words with what settles them now: an answer at the same place, or a correction.

    `given` are the decisions that came now. A correction of the designer's settles what was said
    of its household before, in whatever words; one of the client's own only what stood in its
    place, and nothing of what is `new` beside it.
    """
    taken = tuple(taken)
    now = {decision.ref: question.ref for question, decision in taken}
    said = tuple(replace(each, by=now.get(each.by, each.by)) for each in said)
    settling = [(q, d) for q, d in taken if d in given]
    return tuple(
        next((replace(each, by=q.ref) for q, d in settling if _settles(each, d, q, new)), each)
        for each in said
    )


def _settles(said: Said, decision: Decision, question: Question, new: Collection[Said]) -> bool:
    if said.by == SETTLED:
        return False
    by_hand = decision.where.file == BY_HAND
    if said in new and not by_hand:
        return False
    if said.ref and said.ref in (decision.ref, question.ref):
        return True
    kind = said.ref.rpartition(":")[2] if f":{CORRECT}:" in said.ref else ""
    fits = {"names": NAMES | {"invited"}, "address": PLACES}.get(kind)
    own = by_hand and said.household in question.households
    return own and (fits is None or question.kind in fits)


def declared(
    said: Sequence[Said], names: Iterable[str], keys: Mapping[str, Collection[str]], by: str
) -> tuple[tuple[Said, ...], tuple[str, ...]]:
    """The words with those settled (`by`) or opened anew ("") that are named, and unknown names.

    Words are named by their place, by themselves or how they begin, or by their household:
    `keys` has the keys that each name may mean.
    """
    changed, unknown = list(said), []
    for name in names:
        meant = [at for at, each in enumerate(said) if _is_named(each, name, keys.get(name, ()))]
        for at in meant:
            changed[at] = replace(changed[at], by=by)
        if not meant:
            unknown.append(name)
    return tuple(changed), tuple(unknown)


def _is_named(said: Said, name: str, keys: Collection[str]) -> bool:
    bare = " ".join(folded(name.strip(_QUOTES)).split())
    words = " ".join(folded(said.words).split())
    begun = bool(bare) and words.startswith(bare)
    return said.household in keys or str(said.where) == name.strip(_QUOTES) or begun
