"""What running text says beside a list, for the households that it names.

A sentence names a household by its family name, in one number or the other, or by a given name
that nobody else on the list has. It holds all whom it names until the client has said what follows.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding
from addressing.guestlist.files.by_number import links, names_children_of
from addressing.guestlist.files.mail_lines import SENTENCE, Line, opens_or_closes, why_no_guest
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.small_talk import says_nothing
from addressing.guestlist.files.spans import spans
from addressing.guestlist.folding import fold
from addressing.guestlist.households.corrected import is_done
from addressing.guestlist.households.harmless import is_harmless
from addressing.guestlist.households.named import Named
from addressing.guestlist.households.numbered import NOBODY, Numbered
from addressing.guestlist.households.proposed import proposals
from addressing.guestlist.people.note_words import denied
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Cited, Household, Kind

_LONGEST = 400
"""Letters that are quoted."""
_MOST, _ROWS_SHOWN = 60, 40
_OF_NOTES = frozenset(
    ("remark", "cell-note", "name-noted", "note-open", "apart-noted", "guest-noted")
) | {"marker-in-list", "children-noted", "address-doubtful", "unit-noted"}
"""What quotes the note of a row."""


def told_of_households(
    paragraphs: Iterable[Sequence[Cited]],
    households: Sequence[Household],
    asked: Iterable[Finding] = (),
    numbered: Numbered = NOBODY,
    *,
    aside: bool = False,
) -> tuple[tuple[Finding, ...], tuple[Cited, ...]]:
    """A holding question to each household that a sentence names, and the other sentences.

    A sentence names by the list's numbers too (`numbered`), and all that one number is of; `aside`
    is for remarks in cells by themselves, which open with a number oftener.

    What follows a sentence in its paragraph and names nobody is of the same household, and
    quoted with it. `asked` are the findings of the households: one that was read from a sentence
    isn't asked about it again, and that sentence names others by their family name only.
    """
    read = {found.household: found.quoted for found in asked if found.code == "sentence-read"}
    names = {home.key: _names(home) for home in households if home.key in read}
    reads = tuple((text, names.get(key or "", frozenset())) for key, text in read.items())
    paragraphs = tuple(paragraphs)
    named = Named.of(households if paragraphs else ())
    findings: list[Finding] = []
    others: list[Cited] = []
    for paragraph in paragraphs:
        parts = [part for said in paragraph for part in numbered.parts(said)]
        known = _Known(named, numbered, reads, aside)
        for places, said in _gathered(parts, known):
            for place in places:
                home = households[place]
                own = _not_its_own(said, home, read.get(home.key, ""))
                findings += _asked(home, own, alone=len(places) == 1) if own else ()
            others += said if not places else ()
    return tuple(findings), tuple(others)


def told_of_others(
    overheard: Iterable[Cited], households: Sequence[Household], own: Iterable[Finding]
) -> Iterator[Finding]:
    """What is asked of headings, and of one household's remarks, that name another one.

    Whoever is asked about such a line anyway isn't asked again.
    """
    lines = tuple(overheard)
    named = Named.of(households if lines else ())
    asked = {(found.household, found.where) for found in own}
    for said in lines:
        for place in (places := named.of_sentence(said.text)):
            home = households[place]
            known = any((home.key, cell) in asked for cell in said.cells)
            if not known and set(said.cells).isdisjoint(home.rows):
                yield from _asked(home, [said], alone=len(places) == 1)


def asked_by_number(
    own: Sequence[Finding], households: Sequence[Household], numbered: Numbered
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings of rows, and what their notes say of other rows by number ("see 5").

    Such a note holds its own household, and where it is about both ("one envelope with 5") the
    other one too; as a mere remark it is no longer told.
    """
    places = {home.key: place for place, home in enumerate(households)} if numbered.homes else {}
    left: list[Finding] = []
    asked: list[Finding] = []
    for found in own:
        mine = places.get(found.household or "", -1) if found.code in _OF_NOTES else -1
        others = numbered.of_sentence(found.quoted) - {mine} if mine >= 0 else set()
        only_told = found.severity is Severity.NOTE and bool(others)
        left += () if only_told else (found,)
        whom = [*([mine] if only_told else ()), *(sorted(others) if links(found.quoted) else ())]
        said = (Cited(found.quoted, (found.where,)),)
        for place in whom:
            asked += _asked(households[place], said, alone=False)
    return tuple(left), tuple(dict.fromkeys(asked))


def lines_not_read(said: Iterable[Cited]) -> Iterator[Finding]:
    """One question for all lines of a mail that may speak of a guest who isn't on the list."""
    left = [each for each in said if not says_nothing(each.text)]
    if left:
        first = sorted(left, key=lambda each: not _may_name_guests(each.text))
        shown = "; ".join(f"“{_cut(each.text)}” ({each.cells[0].cell})" for each in first[:_MOST])
        text = f"No household could be read in {shown}{_more(left, _MOST)}; they aren't used."
        mend = "If guests stand there, write names first and the address below, a blank line apart."
        yield _of_all("lines-not-read", left, text, mend)


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST].rstrip()}…"


def _may_name_guests(sentence: str) -> bool:
    """True for a sentence that names somebody or has a number, to be shown before the others."""
    return any(each.sure for each in mentions(sentence)) or any(map(str.isdecimal, sentence))


def corrections_open(said: Iterable[Cited]) -> Iterator[Finding]:
    """One question for all lines of a sheet of corrections that name nobody on the list."""
    left = [each for each in said if not is_done(each.text) and not _is_of_the_letter(each.text)]
    if left:
        shown = "; ".join(f"“{each.text}” ({each.cells[0].cell})" for each in left[:_ROWS_SHOWN])
        text = f"Nobody on the list is named by {shown}{_more(left, _ROWS_SHOWN)}."
        mend = "Who is meant? A new guest needs a row with name and address."
        yield replace(_of_all("corrections-open", left, text, mend), quoted=_quoted(left))


def _is_of_the_letter(text: str) -> bool:
    """True for a greeting, a closing, a heading: what stands in a letter around what is meant."""
    why = why_no_guest(Line(0, text))
    return text.endswith(":") or opens_or_closes(text) or why not in (None, SENTENCE)


def rows_aside(said: Sequence[Cited]) -> Iterator[Finding]:
    """One question for all rows of remarks that name nobody."""
    if said:
        shown = _quoted(said)
        text = f"No guests in {shown}{_more(said, _ROWS_SHOWN)}: not used."
        mend = "If somebody is meant, give the name a row of its own."
        yield replace(_of_all("rows-not-guests", said, text, mend), quoted=shown)


def _quoted(said: Sequence[Cited]) -> str:
    """The words of all, as they are quoted to the client."""
    return ", ".join(f"“{each.text[:_LONGEST]}”" for each in said[:_ROWS_SHOWN])


def _more(said: Sequence[Cited], shown: int) -> str:
    return f" and {len(said) - shown} more" if len(said) > shown else ""


def _of_all(code: str, said: Sequence[Cited], text: str, mend: str) -> Finding:
    cells = tuple(dict.fromkeys(cell for each in said for cell in each.cells))
    return replace(finding(code, cells[0], text, mend), also=cells[1:])


def _not_its_own(said: Sequence[Cited], home: Household, read: str) -> list[Cited]:
    """Sentences without those that a household was read from, and what is told on the same line.

    Somebody else who is named there is asked about all the same.
    """
    line = said[0].cells if not set(said[0].cells).isdisjoint(home.rows) else ()
    others = (each for each in said if each.text not in read)
    return [each for each in others if each.cells != line or _names_another(each.text, home)]


def _names(home: Household) -> frozenset[str]:
    """The words of a household's names, folded."""
    said = (part or "" for person in home.people for part in (person.given, person.family))
    return frozenset(word for part in said for word in fold(part).split())


def _names_another(sentence: str, home: Household) -> bool:
    """True for "His brother Ned Penhew lives there too" of Tobias Penhew."""
    own = {fold(word) for person in home.people for word in (person.given or "").split()}
    for span in reversed(list(spans(sentence))):  # "6 Ivy Ct." is nobody
        sentence = f"{sentence[: span.start]} 0 {sentence[span.end :]}"
    sure = (each for each in mentions(sentence) if each.sure)
    return any(own.isdisjoint(map(fold, each.text.split())) for each in sure)


@dataclass(frozen=True, slots=True)
class _Known:
    """Who can be named, by name and by number, and what was read as a household already."""

    named: Named
    numbered: Numbered
    reads: tuple[tuple[str, frozenset[str]], ...]
    """The sentences of a household that was read, each with its names."""
    aside: bool

    def of(self, sentence: str) -> list[int]:
        """The households that a sentence names."""
        read = (own for text, own in self.reads if sentence in text)
        by_name = self.named.of_sentence(sentence, frozenset(name for own in read for name in own))
        aside = self.aside or names_children_of(sentence)
        by_number = self.numbered.of_sentence(sentence, aside=aside)
        return sorted({*by_name, *by_number})

    def names_nobody(self, sentence: str) -> bool:
        """True where a sentence names a number that no row has."""
        return self.numbered.names_nobody(sentence, aside=self.aside)


def _gathered(paragraph: Sequence[Cited], known: _Known) -> Iterator[tuple[list[int], list[Cited]]]:
    """The sentences of a paragraph with the households that they speak of."""
    homes: list[int] = []
    held: list[Cited] = []
    for said in paragraph:
        found, nobody = known.of(said.text), known.names_nobody(said.text)
        if held and (found or nobody):
            yield homes, held
            held = []
        homes = found or (homes if not nobody else [])
        held.append(said)
    if held:
        yield homes, held


def _asked(home: Household, said: Sequence[Cited], *, alone: bool) -> Iterator[Finding]:
    quoted = " ".join(each.text for each in said).removesuffix(".")
    quoted = _cut(quoted)
    cells = tuple(dict.fromkeys(cell for each in said for cell in each.cells))
    text = f"Beside the list it says: “{quoted}”."
    if all(is_harmless(each.text, home) for each in said):
        mend = "Worth reading before the proof is signed."
        made = finding("remark", cells[0], text, mend, quoted)
        yield replace(made, household=home.key, also=cells[1:])
        return
    if denied("apart", quoted) is False and _several(home):
        made = finding("apart-noted", cells[0], text, "One envelope, or one each?", quoted)
        yield replace(made, household=home.key, also=cells[1:])
        return
    if is_done(quoted):
        made = finding(
            "remark", cells[0], text, "Worth reading before the proof is signed.", quoted
        )
        yield replace(made, household=home.key, also=cells[1:])
        return
    made = finding("said-elsewhere", cells[0], text, "Does it change this envelope?", quoted)
    likely = proposals(quoted, home) if alone else ()
    yield replace(made, household=home.key, also=cells[1:], likely=likely)


def _several(home: Household) -> bool:
    return sum(person.kind is Kind.NAMED for person in home.people) > 1
