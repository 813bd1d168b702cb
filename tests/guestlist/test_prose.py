"""Households in running text: whose an address is, what is read at once and what is asked."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.blocks import NAME, NOTES, STREETS
from addressing.guestlist.files.mail_lines import Line, cleaned
from addressing.guestlist.files.mentions import mentions
from addressing.guestlist.files.prose import homes_in
from addressing.guestlist.files.prose_homes import CHILDREN, SENTENCE_SLOT
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.files.running import is_prose, sentences
from addressing.guestlist.files.spans import spans
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.tables import table

ROWS = list(table("prose_words"))
ELM = "9 Elm St, Bath ME 04530"


def read(text: str) -> list[dict[str, str]]:
    """Who is read from a text: name, address, children, notes and, if asked, the sentence."""
    keys = {NAME: "name", STREETS[0]: "at", CHILDREN: "children", NOTES: "notes"}
    keys[SENTENCE_SLOT] = "asked"
    return [
        {keys[slot]: line.text for slot, (line, *_) in slots.items()}
        for _, slots in homes_in(tuple(sentences([Line(1, text)])))
    ]


def is_plain(text: str) -> bool:
    """True where one household is read, unasked."""
    found = read(text)
    return len(found) == 1 and "asked" not in found[0]


def rows_of(*kinds: str) -> list[dict[str, str]]:
    found = [row for row in ROWS if row["kind"] in kinds]
    assert found
    return found


def named(row: dict[str, str]) -> str:
    return f"{row['kind']}: {row['word']}"


@pytest.mark.parametrize("row", rows_of("lives", "of"), ids=named)
def test_words_between_people_and_address_leave_it_plain(row: dict[str, str]) -> None:
    assert is_plain(row["example"])
    assert not is_plain(row["counter"])


@pytest.mark.parametrize("row", rows_of("kin"), ids=named)
def test_kin_has_one_envelope(row: dict[str, str]) -> None:
    (home,) = read(f"{row['example']}, {ELM}")
    (other,) = read(f"{row['counter']}, {ELM}")
    assert " and " in home["name"]
    assert " and " not in other["name"]


@pytest.mark.parametrize("row", rows_of("all"), ids=named)
def test_an_address_of_all_is_of_everybody_named(row: dict[str, str]) -> None:
    assert read(row["example"])[0]["name"] == "Odile Penhew and Kit Orr"
    assert read(row["counter"])[0]["name"] == "Kit Orr"


@pytest.mark.parametrize("row", rows_of("wanted"), ids=named)
def test_somebody_without_an_address_is_read_where_the_text_wants_them(
    row: dict[str, str],
) -> None:
    (home,) = read(row["example"])
    assert "asked" in home
    assert "at" not in home
    assert read(row["counter"]) == []


@pytest.mark.parametrize("row", rows_of("wanted-behind"), ids=named)
def test_those_of_the_sentence_before_are_read_where_the_next_wants_one_for_them(
    row: dict[str, str],
) -> None:
    (home,) = read(f"Capt. Tobias Orr. {row['example']}.")
    assert home["name"] == "Capt. Tobias Orr"
    assert "asked" in home
    assert read(f"Capt. Tobias Orr. {row['counter']}.") == []


def test_a_name_alone_before_words_for_kin_is_one_of_the_couple() -> None:
    (home,) = read(f"My sister Wren and her husband Kit Orr, they are at {ELM}.")
    assert home["name"] == "Wren and Kit Orr"
    assert "asked" in home
    (other,) = read(f"My sister and her husband Kit Orr, they are at {ELM}.")
    assert other["name"] == "Kit Orr"


def test_a_family_and_those_of_it_are_proposed_together() -> None:
    (home,) = read(
        "Our neighbors the Penhews, Kit and Odile, are next door, same as ours otherwise."
    )
    assert home["name"] == "The Penhews (Kit and Odile)"
    assert "asked" in home
    assert read("The Penhews, Orrs and Lornes are next door, same as ours otherwise.") == []


@pytest.mark.parametrize("row", rows_of("house"), ids=named)
def test_a_house_before_its_number_is_of_the_address(row: dict[str, str]) -> None:
    ((one,), (other,)) = (read(row["example"]), read(row["counter"]))
    assert one["at"].startswith("Larkmoor")
    assert other["at"] == ELM


@pytest.mark.parametrize("row", rows_of("goes-on"), ids=named)
def test_small_words_inside_an_address_end_it_no_more_than_others_do(row: dict[str, str]) -> None:
    (one, other) = (next(iter(spans(row[each])), None) for each in ("example", "counter"))
    assert one is not None
    assert one.text.endswith("Bath")
    assert other is None or not other.text.endswith("Bath")


@pytest.mark.parametrize("row", rows_of("lone"), ids=named)
def test_a_sentence_without_names_goes_on_with_the_people_before(row: dict[str, str]) -> None:
    before = "Mother is Mrs. Odile Penhew."
    (home,) = read(f"{before} {row['example']}.")
    assert home["name"] == "Mrs. Odile Penhew"
    assert home["at"].startswith("9 Elm St")
    assert read(f"{before} {row['counter']}.") == []


@pytest.mark.parametrize("row", rows_of("denial"), ids=named)
def test_a_lead_that_denies_is_asked_about(row: dict[str, str]) -> None:
    assert is_plain(f"My aunt: Odile Penhew, {ELM}")
    lead = row["example"].partition(" Odile")[0].removeprefix("Kit Orr ")
    assert not is_plain(f"My aunt, {lead}: Odile Penhew, {ELM}")
    assert row["counter"].partition(" ")[0].casefold() not in prose_words("denial")


@pytest.mark.parametrize("row", rows_of("little"), ids=named)
def test_a_child_goes_with_the_names(row: dict[str, str]) -> None:
    assert mentions(row["example"])[0].text == row["example"]
    assert mentions(row["counter"])[0].text == "Odile Penhew"


@pytest.mark.parametrize("row", rows_of("no-name"), ids=named)
def test_no_unknown_name_begins_with_a_small_word(row: dict[str, str]) -> None:
    assert mentions(row["example"]) == []
    assert [each.text for each in mentions(row["counter"])] == [row["counter"]]


@pytest.mark.parametrize(
    ("text", "name", "at"),
    [
        (f"Mr. & Mrs. Tobias Penhew, {ELM}.", "Mr. & Mrs. Tobias Penhew", ELM),
        (f"Piano teacher: Miss Rosa Orr, ninety!, Room 6, the Larkmoor Home, {ELM}.",
         "Miss Rosa Orr", f"Room 6, the Larkmoor Home, {ELM}"),
        (f"Rosa Orr and Kit Penhew -- old friends -- {ELM} -- deaf, both.",
         "Rosa Orr and Kit Penhew", ELM),
        ("Sir Piers and Lady Orr, 2 Mill Row, Winchester SO23 9HA, England.",
         "Sir Piers and Lady Orr", "2 Mill Row, Winchester SO23 9HA, England"),
        ("Mme Rosa Orr, 11 rue des Tilleuls, 69002 Lyon, France.",
         "Mme Rosa Orr", "11 rue des Tilleuls, 69002 Lyon, France"),
    ],
)  # fmt: skip
def test_a_sentence_of_names_and_address_alone_is_read_unasked(
    text: str, name: str, at: str
) -> None:
    (home,) = read(text)
    assert (home["name"], home["at"]) == (name, at)
    assert "asked" not in home


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Kit Orr has only a box: Box 9, Bath ME 04530.", ["Kit Orr"]),
        (f"Kit Orr share a place at {ELM}.", ["Kit Orr"]),
        (f"Kit Orr lives at {ELM}. Children Amos 9, Ruth 7.", ["Kit Orr"]),
        (f"Kit Orr and Sam Hale share {ELM}. They are not a couple.", ["Kit Orr", "Sam Hale"]),
        (f"Kit Orr lives at {ELM}. Put “and guest”, he brings someone.", ["Kit Orr and Guest"]),
        ("Kit Orr was at 5 Oak St, Bath ME 04530 - now at 9 Elm St, Bath ME 04530.", ["Kit Orr"]),
        (f"Kit Orr lives at {ELM} and Sam Hale at 5 Oak St, Bath ME 04530.",
         ["Kit Orr", "Sam Hale"]),
    ],
)  # fmt: skip
def test_what_says_more_is_asked_about_with_the_sentence(text: str, names: list[str]) -> None:
    found = read(text)
    assert [home["name"] for home in found] == names
    assert all(home.get("asked", "") in text and "asked" in home for home in found)


def test_of_two_addresses_of_the_same_people_the_last_is_proposed() -> None:
    (home,) = read("Kit Orr was at 5 Oak St, Bath ME 04530 - now at 9 Elm St, Bath ME 04530.")
    assert home["at"] == "9 Elm St, Bath ME 04530"


def test_children_of_the_next_sentence_are_proposed_with_their_parents() -> None:
    (home,) = read(f"Mr. and Mrs. Kit Orr, {ELM}. Children Amos 19, Ruth 7. Amos is grown.")
    assert home["children"] == "Amos 19, Ruth 7"


@pytest.mark.parametrize(
    "text",
    [
        f"No invitation for Kit Orr, {ELM}, declined.",
        "Kit Orr plays the organ.",
        "The zip is 04843 or 04848.",
        "Kit told 19 people at 9.",
        f"Our shop is at {ELM}.",
    ],
)
def test_who_is_out_or_nobody_is_no_household(text: str) -> None:
    assert read(text) == []


LISTED = """Kit Orr - 9 Elm St, Bath ME 04530 (bringing someone, we are told so)
Sam Hale - 10 Elm St, Bath ME 04530 and we like him very much indeed
Rosa Hale, 11 Elm St, Bath ME 04530 (his sister, of whom you have heard)"""
BROKEN = """My old friend Kit Orr, who is the best man after all, lives at
9 Elm St, Bath ME 04530."""


@pytest.mark.parametrize(("text", "prose"), [(LISTED, False), (BROKEN, True)])
def test_a_paragraph_is_told_from_a_list_of_long_lines(text: str, *, prose: bool) -> None:
    lines = [cleaned(number, raw) for number, raw in enumerate(text.splitlines(), start=1)]
    assert is_prose(lines) is prose


def of_mail(folder: Path, said: str) -> tuple[tuple[Household, ...], list[Finding]]:
    path = folder / "mail.txt"
    path.write_text(f"Hi Odile,\n\n{said}\n\nThanks,\nRosa\n", encoding="utf-8")
    guest_list, findings = read_list(path, {})
    codes = ("sentence-read", "said-elsewhere", "lines-not-read")
    return guest_list.households, [found for found in findings if found.code in codes]


def test_a_household_of_a_sentence_waits_and_is_asked_about_once(tmp_path: Path) -> None:
    homes, findings = of_mail(
        tmp_path,
        "Rosa's teacher was Kit Orr, who moved about a good deal in all those years. He is at\n"
        "9 Elm St, Bath ME 04530. He can't hear a thing, but he will come.\n\n"
        "Mr. and Mrs. Sam Hale, 7 Oak St, Bath ME 04530",
    )
    assert [home.name for home in homes] == ["Kit Orr", "Sam Hale"]
    assert [(found.code, found.household) for found in findings] == [
        ("sentence-read", homes[0].key)
    ]
    assert findings[0].holds
    assert {cell.cell for cell in homes[0].rows} == {"A3"}


def test_a_proposal_never_takes_a_household_of_its_own_family_in(tmp_path: Path) -> None:
    homes, _ = of_mail(
        tmp_path,
        "Marcus Hale is married to Dr. Ngozi Orr, and they are at 7 Oak St, Bath ME 04530.\n"
        "Julius Hale is single; I have no street for him.",
    )
    assert [len(home.people) for home in homes] == [2, 1]


@pytest.mark.parametrize(
    "text",
    [
        f"Our photographer: Ms. Wren Tallow, {ELM}.",
        f"My florist, Mrs. Fern Hale, {ELM}.",
        f"His ex-wife, Mrs. Dora Hale, {ELM}.",
        f"My late aunt Miss Ida Orr, {ELM}.",
        f"Send the bill to my father, Mr. Abel Orr, {ELM}.",
        f"Return address: Mr. and Mrs. Linus Orr, {ELM}.",
        f"Not the Hales but Mr. and Mrs. Sam Orr, {ELM}.",
    ],
)
def test_who_perhaps_is_no_guest_waits(tmp_path: Path, text: str) -> None:
    homes, findings = of_mail(tmp_path, f"Mr. Kit Penhew, 9 Oak St, Bath ME 04530\n\n{text}")
    asked = {found.household for found in findings if found.code == "sentence-read"}
    assert asked == {home.key for home in homes if home.name != "Kit Penhew"}
    assert len(asked) == 1


def test_a_paragraph_that_no_mailer_broke_is_read(tmp_path: Path) -> None:
    said = "We met at school and I will not bore you with the rest of all that. " * 9
    homes, findings = of_mail(
        tmp_path, f"{said}Kit Orr lives at {ELM}.\n\nSam Orr, 7 Elm St, Bath ME 04530"
    )
    assert sorted(home.name for home in homes) == ["Kit Orr", "Sam Orr"]
    assert [found.code for found in findings] == ["lines-not-read"]


def test_a_lone_word_before_names_may_be_the_family_name() -> None:
    assert is_plain(f"My old friend, Mr. Sam Orr, {ELM}")
    assert not is_plain(f"Orr, Mr. and Mrs. Sam, {ELM}")


def test_a_line_of_a_list_with_two_addresses_is_two_households(tmp_path: Path) -> None:
    two = "Jim and Peg Orr -- PO Box 77, Bath ME 04530. Their son Toby Orr -- 19 Mill St\nApt 3,"
    homes, _ = of_mail(
        tmp_path, f"Mr. Kit Penhew -- {ELM}.\nMs. Ada Hale -- 7 Elm St, Bath ME 04530.\n{two} {ELM}"
    )
    assert [home.name for home in homes] == ["Kit Penhew", "Ada Hale", "Jim Orr", "Toby Orr"]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("We asked Capt. Orr and Lt. Hale. They come.", 2),
        ("He is in Ft. Larkmoor, Co. Cork. They come.", 2),
        ("He loves Pastor Dean. They come.", 2),
        ("He lives in Cambridge, Mass. somewhere. They come.", 2),
        ("They come (all of them! even Kit) by train. Good.", 2),
    ],
)
def test_a_point_behind_a_short_form_ends_no_sentence(text: str, count: int) -> None:
    assert len(list(sentences([Line(1, text)]))) == count


def test_who_is_out_beside_them_takes_no_address_from_the_people_before() -> None:
    said = "My sister is Mrs. Nora Orr. Her husband Tom died, so leave him off. She is at"
    assert [home["name"] for home in read(f"{said} {ELM}.")] == ["Mrs. Nora Orr"]
    assert read(f"My sister is Mrs. Nora Orr. Kit Hale declined. She is at {ELM}.") == []


@pytest.mark.parametrize("row", rows_of("moved"), ids=named)
def test_whoever_is_listed_and_moved_is_no_second_household(
    tmp_path: Path, row: dict[str, str]
) -> None:
    listed = "Hi,\n\nDr. Ingrid Penhew\n14 Larkmoor Lane\nLitchfield, CT 06759\n\nMs. Wren Orr\n"
    mail = f"{listed}431 Weathervane Drive\nBar Harbor, ME 04609\n\nLove,\nBea\n\nPS "
    counts = []
    for said in (row["example"], row["counter"]):
        path = tmp_path / "mail.txt"
        path.write_text(f"{mail}{said}.\n", "utf-8")
        guests, findings = read_list(path, {})
        asked = {found.household for found in findings if found.code == "said-elsewhere"}
        assert guests.households[0].key in asked
        counts.append(len(guests.households))
    assert counts == [2, 3]


# Publication 28, section 213: a unit stands behind the street's suffix.
def test_a_short_suffix_before_a_unit_ends_no_sentence() -> None:
    text = "Sally Lorne, 1320 Dunmore Ave. Apt 6, Bar Harbor, ME 04609. Just her."
    assert [each.text for each in sentences([Line(1, text)])] == [text[:-10], "Just her."]
    other = "They live on Dunmore Ave. Aptly named."
    assert len(list(sentences([Line(1, other)]))) == 2
