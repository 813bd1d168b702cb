"""A no in any column of a list holds the household, whatever the column's header says."""

from collections.abc import Callable

import pytest

from addressing.guestlist.people.news import doubts_address, is_of_things, says_out
from addressing.guestlist.people.vocabulary import row_words
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Guests", "Address", "City", "State", "ZIP")
FIRST = ("Mr. Tobias Penhew", "12 Larkmoor Lane", "Penhew", "ME", "04496")
SECOND = ("Ms. Annika Vale", "3 Farrenby Road", "Penhew", "ME", "04496")


def told(read: Read, header: str, text: str, other: str = "") -> list[tuple[str, str | None]]:
    """Code and cell of what is asked or noted of the first row's sixth cell."""
    _, findings = read([(*HEADER, header), (*FIRST, text), (*SECOND, other)])
    return [(f.code, f.where.cell) for f in findings if f.where.cell in {"F2", "F3"}]


HELD = [("marker-in-list", "F2")]


# Headers and answers as a designer's clients write them; common practice, no source.
@pytest.mark.parametrize(
    "header",
    [
        "RSVP / notes", "RSVP/Notes", "Notes / RSVP", "RSVP / Comments", "Email / notes",
        "Anything we should know?", "Message", "Comments for the couple", "Reply", "Response",
        "Coming?", "Table", "Gift", "Phone", "E-mail", "Fireworks", "Zu", "",
    ],
)  # fmt: skip
@pytest.mark.parametrize(
    "text",
    [
        "declined", "deceased", "NOT INVITED",
        "So sorry, can't make it! Please don't send anything",
        "Odile has to work and won’t be able to travel", "We are so sorry to miss it",
        "sadly unable to come", "annika@wexcombe.example - declined",
    ],
)  # fmt: skip
def test_a_no_under_any_header_holds_the_household(read_rows: Read, header: str, text: str) -> None:
    assert told(read_rows, header, text) == HELD


@pytest.mark.parametrize("header", ["Brunch", "Rehearsal dinner", "Hotel", "Marital status"])
def test_a_no_to_another_occasion_is_no_no_to_the_wedding(read_rows: Read, header: str) -> None:
    assert told(read_rows, header, "declined") == []


@pytest.mark.parametrize("mark", ["x", "yes", "1", "declined", "3 May"])
def test_any_mark_in_a_column_of_declines_is_one(read_rows: Read, mark: str) -> None:
    assert told(read_rows, "Declined", mark, "no") == HELD


@pytest.mark.parametrize("mark", ["no", "0", "FALSE", "accepted", "coming", "-"])
def test_a_no_or_an_acceptance_in_a_column_of_declines_is_none(read_rows: Read, mark: str) -> None:
    assert told(read_rows, "Declined", mark, "x") == [("marker-in-list", "F3")]


def test_replies_with_notes_are_scanned_as_both(read_rows: Read) -> None:
    assert told(read_rows, "RSVP / notes", "no") == HELD
    assert told(read_rows, "RSVP / notes", "yes") == []
    assert told(read_rows, "RSVP / notes", "accepted") == []
    assert told(read_rows, "RSVP / notes", "needs a ramp") == [("remark", "F2")]
    assert told(read_rows, "RSVP / notes", "moved in May") == [("address-doubtful", "F2")]
    assert told(read_rows, "Email / notes", "vale@penhew.example") == []


def test_an_address_that_is_wrong_by_an_unused_column_is_asked(read_rows: Read) -> None:
    assert told(read_rows, "Fireworks", "moved") == [("address-doubtful", "F2")]


def test_sentences_in_an_unknown_column_are_notes(read_rows: Read) -> None:
    text = "brings the old gramophone along"
    assert told(read_rows, "Fireworks", text, "plays the fiddle well") == [
        ("remark", "F2"),
        ("remark", "F3"),
    ]
    found, _ = read_rows([(*HEADER, "Fireworks"), (*FIRST, text), (*SECOND, "")])
    assert [(c.header, c.meaning) for c in found.columns if c.how == "content"] == [
        ("Fireworks", "notes")
    ]


def test_single_words_in_an_unknown_column_are_no_notes(read_rows: Read) -> None:
    assert told(read_rows, "Fireworks", "red", "green") == []


NOES = [row for row in table("row_words") if row["kind"] == "said-no"]


@pytest.mark.parametrize("row", NOES, ids=lambda row: row["word"])
def test_a_reply_that_says_no_holds_the_household(read_rows: Read, row: dict[str, str]) -> None:
    assert told(read_rows, "RSVP", row["example"], row["counter_example"]) == HELD


@pytest.mark.parametrize("text", ["No - working that week", "bride - no", "No, sorry!", "No :("])
def test_a_clause_of_a_reply_that_says_no_holds_too(read_rows: Read, text: str) -> None:
    assert told(read_rows, "RSVP / notes", text) == HELD


@pytest.mark.parametrize("text", ["N/A", "no reply", "No response yet", "yes, no plus one"])
def test_a_reply_that_has_not_come_is_no_no(read_rows: Read, text: str) -> None:
    assert told(read_rows, "RSVP", text) == []


_SAID_OUT = {"not-of-guest", "not-yet", "relative"}
ROWS = [row for row in table("row_words") if row["kind"] in _SAID_OUT]
THINGS = [row for row in table("row_words") if row["kind"] in {"thing", "not-away"}]
OCCASIONS = [row for row in table("row_words") if row["kind"] == "occasion"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["example"])
def test_a_note_of_children_or_of_something_else_says_nobody_out(row: dict[str, str]) -> None:
    assert not says_out(row["example"])
    if row["counter_example"]:
        assert says_out(row["counter_example"])


@pytest.mark.parametrize("row", THINGS, ids=lambda row: row["example"])
def test_a_note_of_a_thing_says_nobody_out_and_nobody_moved(row: dict[str, str]) -> None:
    assert not says_out(row["example"])
    assert not doubts_address(row["example"])
    if row["counter_example"]:
        assert says_out(row["counter_example"]) or doubts_address(row["counter_example"])


@pytest.mark.parametrize("row", OCCASIONS, ids=lambda row: row["example"])
def test_a_header_of_another_occasion_is_not_of_the_day(row: dict[str, str]) -> None:
    assert is_of_things(row["example"])
    assert not row["counter_example"] or not is_of_things(row["counter_example"])


@pytest.mark.parametrize(
    "note",
    ["Gift: toaster (duplicate)", "Table: moved", "her dad passed away in May, be gentle",
     "Tobias's brother declined", "declined the hotel block, coming anyway"],
)  # fmt: skip
def test_news_of_others_and_of_things_is_no_news_of_the_guests(note: str) -> None:
    assert not says_out(note)
    assert not doubts_address(note)


@pytest.mark.parametrize(
    "note",
    ["her husband passed away", "declined; gift: toaster", "Dad passed away", "both declined"],
)
def test_news_of_the_guests_stays_news_beside_them(note: str) -> None:
    assert says_out(note)


@pytest.mark.parametrize("header", ["Meal", "Ceremony", "Reception"])
def test_a_bare_no_of_the_day_holds_the_household(read_rows: Read, header: str) -> None:
    assert told(read_rows, header, "Declined", "chicken") == HELD


@pytest.mark.parametrize(
    ("header", "text"), [("Gift", "toaster (duplicate)"), ("Table", "moved"), ("Gift", "removed")]
)
def test_a_word_of_things_under_their_header_holds_nobody(
    read_rows: Read, header: str, text: str
) -> None:
    assert told(read_rows, header, text) == []


FRONT = [row for row in table("row_words") if row["kind"] == "before-marker"]


@pytest.mark.parametrize("row", FRONT, ids=lambda row: row["example"])
def test_a_word_before_a_marker_keeps_it_at_the_front(row: dict[str, str]) -> None:
    assert says_out(row["example"])


def test_a_word_that_can_be_said_of_things_counts_at_the_front_only() -> None:
    assert says_out("please remove")
    assert says_out("VIP; remove")
    assert not says_out("guests remove shoes at the door")
    assert row_words("before-marker").isdisjoint(row_words("not-yet"))


def test_a_year_behind_d_tells_of_a_death_and_a_letter_alone_doesnt() -> None:
    for note in ("d. Jan 2025 - keep for the emails", "d. 2019", "d 2019", "d. 4/2021"):
        assert says_out(note), note
    assert says_out("We'll be away that week so sadly a no from us. Don't waste a stamp!")
    for note in ("b. 1985; d. Smith called", "b. 2024", "apt d. 12"):
        assert not says_out(note), note


# Common practice, no source: clients mark who is to be invited before they send the list.
@pytest.mark.parametrize(
    "header",
    ["Invite?", "Invite", "Inviting? Y/N", "Should we invite", "Send invite?", "Inv", "Invited?"],
)
@pytest.mark.parametrize("text", ["n", "No", "maybe"])
def test_a_no_or_a_maybe_in_a_column_of_who_is_invited_holds(
    read_rows: Read, header: str, text: str
) -> None:
    assert told(read_rows, header, text, "y") == HELD


@pytest.mark.parametrize("header", ["Invite sent", "Invited to brunch", "Invoice paid"])
def test_what_else_is_marked_with_yes_and_no_holds_nobody(read_rows: Read, header: str) -> None:
    assert told(read_rows, header, "n", "y") == []


def test_a_column_of_names_under_invite_stays_one(read_rows: Read) -> None:
    rows = [("Invite", "Address"), ("Mr. Tobias Penhew", "12 Larkmoor Lane, Penhew, ME 04496")]
    guests, _ = read_rows(rows)
    assert [home.name for home in guests.households] == ["Tobias Penhew"]
