"""The client's words that are no answers: whom they name, and what comes of them.

Thanks and greetings are nobody's matter. Everything else is kept: for each household that it names
(or in whose row it stands), else for the list.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.files.mail_lines import (
    Line,
    closes,
    has_verb,
    is_courtesy,
    opens_or_closes,
    why_no_guest,
)
from addressing.guestlist.files.running import sentences
from addressing.guestlist.households.named import Named
from addressing.job.kin_words import Kin
from addressing.questions.choosing import says_nothing_yet
from addressing.questions.corrections import CORRECT
from addressing.questions.matters import matter_ref
from addressing.questions.spreading import is_for_all
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.records.questions import Decision, Question, Said
from addressing.where import Where

_OF_MAILS = frozenset(("a ruled line", "the head of a mail", "the opening of a quoted mail",
                       "the foot of a mail", "a heading"))  # fmt: skip
_LINE = re.compile(r"line (\d+)")
_THEM = re.compile(r"\b(?:he|she|they|it|him|her|hers|them|his|their|theirs)\b", re.IGNORECASE)
_I = frozenset(("I", "I'm", "I’m", "I'd", "I’d", "I'll", "I’ll", "I've", "I’ve"))
_WIDE = 55
"""Letters; a line of a mail that is shorter ends where its writer ended it."""
_SPOKEN = 25
"""Words of the longest courtesy."""
_SIGNED = 4
"""Lines of a signature at most."""


def heard(
    said: Iterable[Said],
    refused: Iterable[Decision],
    homes: Sequence[Household],
    date: str | None,
    asked: Sequence[Question] = (),
    findings: Iterable[Finding] = (),
) -> tuple[Said, ...]:
    """What has to be kept of the words beside answers, and of answers that can't be taken.

    "Not sure" at a question leaves that question open and is nothing more. `asked` are all the
    questions of the list, `findings` what was read: a note may say who is “Grandma”.
    """
    named, kin = Named.of(homes), Kin.of(homes, findings)
    answers = (
        Said(each.answer, each.where, each.ref, _key(each.ref))
        for each in refused
        if f":{CORRECT}:" in each.ref or not says_nothing_yet(each.answer)
    )
    parts = (part for each in (*said, *answers) for part in _parts(each, named, homes, asked))
    made = (whose for part in parts for whose in _by_kin(part, kin))
    return tuple(replace(part, date=date) for part in made)


def _by_kin(said: Said, kin: Kin) -> Iterator[Said]:
    """Words that name nobody, for each household that they mean by a word of kinship."""
    keys = () if said.household or said.ref else kin.named(said.words)
    for key in keys:
        yield replace(said, household=key)
    if not keys:
        yield said


def _of_table(said: Said, homes: Sequence[Household], asked: Sequence[Question]) -> Iterator[Said]:
    """Words at a table's question, each time at the row of somebody whom they name.

    Whoever stands in the table comes before others of the same name. Words that name nobody are
    kept for the list.
    """
    rows = [each for each in asked if matter_ref(each) == said.ref]
    there = {each.household for each in rows}
    inside = [home for home in homes if home.key in there]
    keys = _named(said.words, Named.of(inside), inside) or _named(
        said.words, Named.of(homes), homes
    )
    for key in keys:
        own = [each.ref for each in rows if each.household == key]
        yield replace(said, household=key, ref=own[0] if len(own) == 1 else "")
    if not keys:
        yield said


def refused_in(decisions: Iterable[Decision], findings: Iterable[Finding]) -> Iterator[Decision]:
    """The decisions that findings say can't be taken, or not both."""
    codes = ("answer-not-understood", "answer-conflict")
    wrong = {(each.where, each.quoted) for each in findings if each.code in codes}
    return (each for each in decisions if (each.where, each.answer) in wrong)


def _key(ref: str) -> str | None:
    key = ref.partition(":")[0]
    return key if key.startswith("h-") else None


def _parts(
    said: Said, named: Named, homes: Sequence[Household], asked: Sequence[Question]
) -> Iterator[Said]:
    """Some words for each household that they are about; those of a mail by its sentences."""
    if is_for_all(said.ref):
        yield from _of_table(said, homes, asked)
        return
    if not said.ref and said.household is None and _LINE.fullmatch(said.where.cell or ""):
        yield from _of_mail(said, named, homes)
        return
    if not said.ref and is_courtesy(said.words):
        return
    if said.household or said.ref:
        yield said
    others = _named(said.words, named, homes)
    for key in others:
        if key != said.household:
            yield replace(said, household=key, ref="")
    if not (said.household or said.ref or others):
        yield said


def _of_mail(said: Said, named: Named, homes: Sequence[Household]) -> Iterator[Said]:
    keys: list[str] = []
    held: list[Line] = []
    for sentence in _sentences(said.words.split("\n")):
        found = _named(sentence.text, named, homes)
        goes_on = held and not found and (not keys or _is_of_them(sentence.text))
        if held and not goes_on:
            yield from _kept(said, held, keys)
            held = []
        keys = keys if goes_on else found
        held.append(sentence)
    if held:
        yield from _kept(said, held, keys)


def _is_of_them(sentence: str) -> bool:
    """True for "They live in Salem now", not for "Please add Greta and her husband"."""
    found = _THEM.search(sentence)
    return found is not None and (found.start() == 0 or not _has_names(sentence))


def _has_names(sentence: str) -> bool:
    return any(word[:1].isupper() and word not in _I for word in sentence.split()[1:])


def _kept(said: Said, held: Sequence[Line], keys: Sequence[str]) -> Iterator[Said]:
    """Sentences that belong together, at the line of the first of them."""
    words = " ".join(each.text for each in held)
    found = _LINE.fullmatch(said.where.cell or "")
    first = int(found[1]) if found else 0
    where = Where(said.where.file, said.where.sheet, f"line {first + held[0].number}")
    for key in keys or (None,):
        yield replace(said, words=words, where=where, household=key)


def _sentences(lines: Sequence[str]) -> Iterator[Line]:
    """What is said in the lines of a mail; thanks, signatures and the mail's own lines aside."""
    whole: list[Line] = []
    signed = 0
    for number, text in enumerate(lines):
        line = Line(number, text)
        signed = _SIGNED if closes(line) else max(signed - 1, 0)
        if signed and not (has_verb(text) or closes(line)):
            continue
        if why_no_guest(line) in _OF_MAILS:
            continue
        whole.append(line)
        if len(text) < _WIDE:
            yield from _said(whole)
            whole = []
    yield from _said(whole)


def _said(lines: Sequence[Line]) -> Iterator[Line]:
    if lines:
        told = sentences(lines)
        yield from (e for e in told if not _is_small_talk(e.text))


def _is_small_talk(text: str) -> bool:
    """True for a courtesy; a long stretch without a stop, as it is spoken, says more than one."""
    return (is_courtesy(text) or opens_or_closes(text)) and len(text.split()) <= _SPOKEN


def _named(words: str, named: Named, homes: Sequence[Household]) -> list[str]:
    """The keys of whom some words name; of words without any capital, as if they had them."""
    found = named.of_sentence(words)
    if not found and not _has_names(words):
        found = named.of_sentence(named.with_capitals(words))
    return [homes[place].key for place in found]
