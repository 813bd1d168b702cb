"""Cuts a mail without its tables into stretches, each read by its own reader, in their order.

A heading says what follows it; below "not coming" or "if there is room" each household has that
heading as a note.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.domestic.dwellings import Segment, kind_of
from addressing.guestlist.files.below import ends_address, is_bullet_below, is_plus_below
from addressing.guestlist.files.blocks import (
    CHILDREN,
    NAME,
    NOTES,
    STREETS,
    Slots,
    is_of_another,
    joins,
    parted,
    slots_of,
)
from addressing.guestlist.files.cards import without_cards
from addressing.guestlist.files.children_told import children_of
from addressing.guestlist.files.each_own import says_each
from addressing.guestlist.files.entries import Entry, bare_entry, entry_of, is_somebody, is_titled
from addressing.guestlist.files.line_ends import changes_above
from addressing.guestlist.files.listed_twice import without_remarks
from addressing.guestlist.files.mail_lines import (
    GREETING,
    SENTENCE,
    Line,
    closes,
    has_verb,
    is_name,
    is_place,
    is_postscript,
    is_town,
    labelled,
    opens_or_closes,
    why_no_guest,
    without_brackets,
)
from addressing.guestlist.files.mail_text import HEADING, OWN, SIGNATURE, Text
from addressing.guestlist.files.name_lines import without_lead, without_remark
from addressing.guestlist.files.place_headings import place_of
from addressing.guestlist.files.relative_places import with_others_places
from addressing.guestlist.files.running import is_prose, joined, sentences
from addressing.guestlist.files.signatures import (
    ends_home,
    is_lone_name,
    said_in_one,
    sender_of,
    signs,
    without_stamps,
)
from addressing.guestlist.files.title_headings import titling_after, titling_of
from addressing.guestlist.files.wanted import wants_for_another
from addressing.guestlist.people.news import is_marker, says_out
from addressing.guestlist.people.note_words import is_unsure
from addressing.guestlist.tables.headings import is_owned, says_side

_LONGEST_HEADING = 8
"""Words."""
_ENTRIES = 2
"""Entries below each other among which a lone name is one too."""
_NOBODY = (Line(0, ""),)
"""A closing without a name: only the head of the mail says whose it is."""


def heard(lines: Sequence[Line]) -> Text:
    """What was read of some lines."""
    found = Text(lines=sum(bool(line.text) for line in lines))
    cards, rest = without_cards(lines)
    sender = sender_of(rest)
    blocks = list(_blocks(without_stamps(rest, sender)))
    if len(blocks) > 1 and is_lone_name(blocks[-1], sender) and _is_mail(rest):
        found.leave(blocks.pop(), SIGNATURE)
    for block in _without_signature(found, blocks, sender):
        last = found.households[-1][1].get(NAME) if found.households else None
        if last and len(block) == 1 and changes_above(block[0].text):
            found.tell(block, last[0])
        elif is_prose(block) and slots_of(block) is None:
            found.tell(block)
        else:
            _read_block(found, joined(block))
    homes, said = without_remarks(sorted((*found.households, *cards), key=lambda home: home[0]))
    found.told += [(line,) for line in said]
    with_others_places(homes)
    found.households = homes
    return found


def _is_mail(lines: Sequence[Line]) -> bool:
    """True where a line greets or is of a mail's head."""
    return any(why_no_guest(line) in OWN for line in lines if line.text)


def _blocks(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """Lines that stand together; a bullet opens a block too, and so does a postscript."""
    block: list[Line] = []
    for line in lines:
        if block and is_plus_below(block, line):
            line = replace(line, text=line.raw.strip(), opens=False)  # noqa: PLW2901
        opens = line.opens and not _is_below(block, line)
        if block and (not line.text or opens or is_postscript(line.text)):
            yield block
            block = []
        if line.text:
            block.append(line)
    if block:
        yield block


def _is_below(block: Sequence[Line], line: Line) -> bool:
    """True for the bullet of an address below those of its names or street, or of a remark."""
    if block and is_bullet_below(block, line):
        return True
    unit = kind_of(line.text) in (Segment.UNIT, Segment.EXTRA)
    place = is_place(line.text) and not has_verb(line.text.rstrip("."))
    if not block or not (unit or place) or is_town(block[-1].text):
        return False
    return all(_entry(each) is None for each in (*block, line))


def _without_signature(
    found: Text, blocks: Iterable[list[Line]], sender: str
) -> Iterator[list[Line]]:
    """The blocks without the lines from a closing ("Best,") to the end of a signature.

    Behind a closing that is signed already, and below the list, a block that begins with the
    sender's name is the sender's own address; behind a postscript it is asked about.
    """
    signed: tuple[Line, ...] | None = None
    closed: tuple[Line, ...] | None = None
    for block in blocks:
        late = closed is not None and signs(block, closed or _NOBODY, sender) and ends_home(block)
        found.sender = block[0] if late else None
        end = next((at for at, line in enumerate(block) if closes(line)), None)
        own = is_lone_name(block) or not (block[0].opens or is_postscript(block[0].text))
        if own and signs(block, signed, sender):
            found.leave(block, SIGNATURE)
            if ends_home(block):
                found.told.append((said_in_one(block),))
            signed = tuple(block) if not signed else None
        elif end is None:
            signed = None
            yield block
        else:
            _close(found, block[end:])
            signed = closed = tuple(block[end + 1 :])
            if end:
                yield block[:end]


def _close(found: Text, lines: Sequence[Line]) -> None:
    """A signature; what it says beside its own words is told all the same."""
    found.leave(lines, SIGNATURE)
    found.reigns.append((lines[0].number, None))
    found.titling, found.place = None, None
    own = () if opens_or_closes(lines[0].text) else lines[:1]
    said = [*own, *(line for line in lines[1:] if has_verb(line.text.rstrip(".!?")))]
    if said:
        found.told.append(tuple(sentences(said)))


def _read_block(found: Text, block: Sequence[Line]) -> None:
    """Read a block from the top: its own lines and headings, entries, households, what is told."""
    entries = {line.number: entry for line in block if (entry := _entry(line)) is not None}
    rest: list[Line] = []
    above: Line | None = None
    for place, line in enumerate(block):
        why = _why_not(block, place, entries)
        entry = entries.get(line.number)
        among = len(entries) >= _ENTRIES or (line.opens and _follows(found, line))
        if entry is None and not why and not rest and among:
            entry = _lone(block, place)
        house = entry is not None and len(entries) == 1 and _is_house(rest, entry)
        if why or (entry is not None and not house):
            _read_rest(found, rest, above)
            rest, above = [], None
        if why:
            _set_aside(found, line, why)
        elif entry is not None and not rest:
            found.take(line.number, slots_of_entry(line, entry))
            above = line
            if len(entry.name.split()) == 1:  # "Penhews: 22 Larkmoor Lane, …" may be of another
                found.told.append((line,))
        else:
            rest.append(line)
    _read_rest(found, rest, above)


def _why_not(block: Sequence[Line], place: int, entries: dict[int, Entry]) -> str:
    """Why a line holds no guest, "" where it may; a sentence among others goes on with them."""
    why = why_no_guest(block[place])
    if why == HEADING and place and block[place - 1].number not in entries:
        said = block[place].text  # "Nick's parents", "and guest" below a name
        why = None if is_owned(said) or joins(said) or ends_address(block, place) else why
    if why == SENTENCE and len(block) > 1 and not block[place].text.endswith(":"):
        return ""
    return why or (HEADING if _heading(block, place, entries) else "")


def _entry(line: Line) -> Entry | None:
    return entry_of(line.text) if labelled(line) is None else None


def _follows(found: Text, line: Line) -> bool:
    """True for a bullet just below a household."""
    above = found.households[-1][0] if found.households else 0
    return line.number - _ENTRIES <= above < line.number


def _lone(block: Sequence[Line], place: int) -> Entry | None:
    """Names without an address among entries, save where the address stands below them."""
    below = block[place + 1].text if place + 1 < len(block) else ""
    another = is_of_another(below)
    return None if is_place(below) and not another else bare_entry(block[place].text)


def _is_house(rest: Sequence[Line], entry: Entry) -> bool:
    """True for "Larkmoor House, 14 Elm Lane, …" below a name: a line of that address."""
    return len(rest) == 1 and not is_place(rest[0].text) and not is_somebody(entry.name)


def _set_aside(found: Text, line: Line, why: str) -> None:
    """A line that holds no guest; a heading says whether those below it are out."""
    found.leave([line], why)
    if why == HEADING and not line.text.endswith(":"):  # "From Kit's telephone:"
        found.overheard.append(line)
    if why != GREETING:
        said = tuple(sentences([line])) if why == SENTENCE or titling_of(line) else ()
        found.titling = titling_after(found.titling, said) if said else None
        found.place = place_of(line)
    if why == HEADING or (why == SENTENCE and line.text.endswith(":")):
        found.reigns.append((line.number, line if _says_out(line.text) else None))
        if says_side(line.text):
            found.sides.append(replace(line, text=line.text.strip(" :-–—=*#~")))
        if says_each(line.text):  # "Wren and Kit share a flat, one EACH please:"
            found.told.append(tuple(sentences([line])))
            found.each = found.told[-1]
    elif titling_of(line) is None and (
        why == SENTENCE or (why == GREETING and not opens_or_closes(line.text))
    ):
        found.told.append(tuple(sentences([line])))


def _says_out(heading: str) -> bool:
    """True where those below a heading aren't invited, or perhaps not."""
    return says_out(heading) or is_marker(heading) or is_unsure(heading)


def _heading(block: Sequence[Line], place: int, entries: dict[int, Entry]) -> bool:
    """True for a line that says what follows: it ends in a colon, or stands in capitals."""
    line = block[place]
    text = without_brackets(line.text)
    plain = line.number in entries or labelled(line) is not None
    if plain or ends_address(block, place) or text.endswith(":"):
        return not plain and text.endswith(":")
    if any(mark.isdecimal() for mark in line.text) or len(text.split()) > _LONGEST_HEADING:
        return False
    following = block[place + 1] if place + 1 < len(block) else None
    lone = following is None or following.number in entries
    if lone and not text.isupper() and _says_out(text):
        named = any(word[:1].isupper() for word in text.split()[1:])
        return not named or is_marker(text.strip(" :-–—*").casefold())  # no guest who is out
    if text.isupper() and not is_titled(text):
        return (
            following is None or lone or (is_name(following.text) and not following.text.isupper())
        )
    first = place == 0 and following is not None and following.number in entries
    return first and not is_somebody(text) and bare_entry(line.text) is None


def _read_rest(found: Text, lines: Sequence[Line], above: Line | None) -> None:
    """Lines between entries: a household, several, or running text that goes on from `above`."""
    untold: list[Line] = []
    for block in parted(lines):
        spoken = next((at for at, line in enumerate(block) if not _speaks(line)), len(block))
        own = [line for line in block[spoken:] if not wants_for_another(line)]
        read = slots_of(own) if own else None
        untold += block[:spoken] if read else block
        if read:
            if untold:
                found.tell(untold, above)
            above = None
            found.take(own[0].number, read)
            untold = [line for line in block[spoken:] if line not in own]
    if untold:
        found.tell(untold, above)


def _speaks(line: Line) -> bool:
    """True for a line of a sentence, which begins no household; a remark behind names may speak."""
    names = without_remark(without_lead(line.text)[0])[0]
    return why_no_guest(line) == SENTENCE or (has_verb(names) and not is_name(names))


def slots_of_entry(line: Line, entry: Entry) -> Slots:
    """The cells of a household in one line."""
    slots: Slots = {NAME: [Line(line.number, entry.name, more=line.more)]}
    if entry.address:
        slots[STREETS[0]] = [Line(line.number, entry.address)]
    for note in entry.note.split("; ") if entry.note else ():
        names = children_of(note)
        slots.setdefault(CHILDREN if names else NOTES, []).append(Line(line.number, names or note))
    return slots
