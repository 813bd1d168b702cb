"""What the client wrote and nothing could be made of: kept, told each time, until it is settled.

Words about a household hold it, for they may change its envelope; words about nobody on the list
are told every time.
"""

import shlex
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.questions.closing import REMARK
from addressing.questions.corrections import is_by_hand, is_correction
from addressing.questions.fitting import Correction, deal_with, matter_of_ref
from addressing.questions.folding import folded
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household
from addressing.records.questions import SETTLED, Applied, Decision, Question, Said

WROTE, ANSWERED, ADDS = "client-wrote", "client-answered", "client-adds"
GAINSAID = "correction-gainsaid"
"""The code of an answer that says otherwise than a correction of the designer's."""
OF_WORDS = frozenset((WROTE, ANSWERED, ADDS, GAINSAID))
"""The codes of words that are left open."""
_QUOTES = " “”\"'"


def told_words(
    said: Iterable[Said], homes: Mapping[str, Household], decided: Collection[str]
) -> tuple[Finding, ...]:
    """A finding for all words that are open; `decided` are the refs of what was decided."""
    left = [each for each in said if is_open(each, decided)]
    places: dict[object, set[str]] = {}
    for each in left:
        places.setdefault(each.where, set()).add(each.words)
    return tuple(_told(each, homes, decided, alone=len(places[each.where]) == 1) for each in left)


def is_open(said: Said, decided: Collection[str]) -> bool:
    """True while nothing has settled some words, or what did was taken back."""
    return not said.by or (said.by != SETTLED and said.by not in decided)


def _told(
    said: Said, homes: Mapping[str, Household], decided: Collection[str], *, alone: bool
) -> Finding:
    """What is told of some words; they are named by themselves where others stand in their line."""
    key = said.household if said.household in homes else None
    settle = f"answer --settled {_in_quotes(str(said.where) if alone else said.words)}"
    mend = f"Put it into the list, then: {settle}."
    if key is None:
        gone = ", about somebody who is no longer on the list" if said.household else ""
        text = f"The client wrote{gone}: “{said.words}”."
        return Finding(Severity.ASK, ADDS, said.where, text, mend, quoted=said.words)
    again = _is_answer(said) and said.ref not in decided
    code, wrote = (ANSWERED, "answered") if again else (WROTE, "wrote")
    text = f"The client {wrote}: “{said.words}”. Nothing could be made of it."
    if said.against:
        code = GAINSAID
        text = f"The client says “{said.words}”; set before: “{said.against}”, which stands."
    keep = "to keep yours" if said.against else "if nothing changes"
    mend = f"Correct it (answer --set), or, {keep}: {settle}."
    return Finding(
        Severity.ASK, code, said.where, text, mend, key, holds=True, quoted=said.words
    )  # fmt: skip


def _in_quotes(name: str) -> str:
    """A place, or words, as a shell reads them."""
    return f"'{name}'" if "'" not in name else shlex.quote(name)


def _is_answer(said: Said) -> bool:
    """True for words at a question, which is asked again as long as it is open."""
    return bool(said.ref) and not is_correction(said.ref)


def kept_together(before: Iterable[Said], new: Iterable[Said]) -> tuple[Said, ...]:
    """The words of before and those that are new; the same words of the same are kept once."""
    kept: dict[tuple[object, ...], Said] = {}
    for each in (*before, *new):
        kept.setdefault(_same(each), each)
    return tuple(kept.values())


def _same(said: Said) -> tuple[object, ...]:
    file = said.where.file if said.against else ""
    return (" ".join(folded(said.words).split()), said.household, said.ref, file)


def dealt_with(
    said: Sequence[Said], new: Collection[Said], given: Collection[Decision], applied: Applied
) -> tuple[Said, ...]:
    """The words with what settles them now: an answer at the same place, or a fitting correction.

    `given` are the decisions that came now, worked into `applied`. A correction of the designer's
    settles what was said of its household before, where it is about the same; one of the client's
    own only what stood in its place, and nothing of what is `new` beside it.
    """
    now = {decision.ref: question.ref for question, decision in applied.taken}
    said = tuple(replace(each, by=now.get(each.by, each.by)) for each in said)
    settling = [(q, d) for q, d in applied.taken if d in given]
    return tuple(
        replace(each, by=_settled_by(each, settling, applied.moot, new) or each.by) for each in said
    )


def _settled_by(
    said: Said,
    settling: Sequence[tuple[Question, Decision]],
    moot: Collection[str],
    new: Collection[Said],
) -> str:
    """The ref of the decision that settles some words now, "" for none."""
    if said.by == SETTLED:
        return ""
    at_place = (q.ref for q, d in settling if said.ref and said.ref in (d.ref, q.ref))
    own = [
        Correction(q, d)
        for q, d in settling
        if is_by_hand(d) and is_correction(d.ref) and said.household in q.households
    ]
    fits = bool(own) and (
        said.ref in moot or _is_covered(said, own)
        if _is_asked(said)
        else deal_with(said.words, own, matter_of_ref(said.ref))
    )
    by_hand = [each.question.ref for each in own[-1:]] if fits else []
    refs = by_hand if said in new else [*at_place, *by_hand]
    return refs[0] if refs else ""


def _is_asked(said: Said) -> bool:
    """True for words at a question about one thing; at a remark they may be about anything."""
    code = said.ref.split(":")[1:2]
    return _is_answer(said) and code not in ([REMARK], [WROTE])


def _is_covered(said: Said, corrections: Iterable[Correction]) -> bool:
    """True where corrections settle the question that words stand at."""
    code = said.ref.split(":")[1]
    return any(found.code == code for each in corrections for found in each.question.covers)


@dataclass(frozen=True, slots=True)
class Open:
    """Something that is open, or was: its place, its words, the households that it is about."""

    place: str
    words: str
    households: Collection[str | None]


def chosen_by(name: str, keys: Collection[str], things: Sequence[Open]) -> tuple[int, ...]:
    """Which things a name stands for: those at the place, else of the household, else by the words.

    `keys` are the households that the name may mean; such a name is no beginning of words. Words
    that only begin so count where there are no such words; they may be several.
    """
    place = name.strip(_QUOTES)
    at_place = [at for at, each in enumerate(things) if each.place == place]
    if at_place or keys:
        of_home = [at for at, each in enumerate(things) if set(keys) & set(each.households)]
        return tuple(at_place or of_home)
    said = [(at, _plain(each.words)) for at, each in enumerate(things)]
    bare = _plain(place)
    whole = [at for at, words in said if bare and words == bare]
    return tuple(whole or [at for at, words in said if _begins(words, bare)])


def _begins(words: str, bare: str) -> bool:
    """True where words begin so, and no word is cut."""
    return bool(bare) and words.startswith(bare) and not words[len(bare) :][:1].isalnum()


def _plain(words: str) -> str:
    return " ".join(folded(words.strip(_QUOTES)).split())
