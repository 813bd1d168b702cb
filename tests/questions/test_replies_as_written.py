"""Replies as clients write them: without colons, by name, with words beside an answer."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.job.answering import Answered, answers_and_corrections, keep_answers
from addressing.job.asking import Listed, list_as_read, outgoing, write_questions

HEADER = "Name,Street,City,State,ZIP,Notes"
ROWS = (
    "Ms. Ottoline Grayling and Guest,431 Weathervane Drive,Bar Harbor,ME,04609,",
    "Mr. Hugo Farrenby,1440 Birchbark Trail,Duluth,MN,55802,",
    "Ms. Linnet Ashgrove,,,,,",
    "The Penhew Family,9 Mill Row,Litchfield,CT,06759,",
    "Ms. Zora Kest,5 Elm Row,Litchfield,CT,06759,maybe",
    "Mr. Silas Umber,77 Elm Row,Litchfield,CT,06759,",
    "Mr. Silas Umbar,77 Elm Row,Litchfield,CT,06759,",
    "Mr. Ned Vole,12 Oak St,Litchfield,CT,,",
    "Hugo Sallow,3 Osier Row,Portland,ME,04101,",
)
MAYBE, TWINS, GUEST, FAMILY, HOME, ZIP, TITLE = map(str, range(1, 8))
"""The numbers of the letter's questions."""
Reply = Callable[[str], Answered]


@pytest.fixture
def listed(tmp_path: Path) -> Listed:
    path = tmp_path / "list.csv"
    path.write_text("\n".join((HEADER, *ROWS)) + "\n", "utf-8")
    return list_as_read(path, None, tmp_path / "job")


@pytest.fixture
def reply(listed: Listed, tmp_path: Path) -> Reply:
    """What came of a reply to the list's letter; its mark stands above."""
    job = tmp_path / "job"
    out = outgoing(listed, job)
    _, letter = write_questions(listed, out, job)
    mark = next(line for line in letter.read_text("utf-8").splitlines() if "letter " in line)

    def answered(text: str) -> Answered:
        path = tmp_path / "reply.txt"
        path.write_text(f"{mark}\n{text}\n", "utf-8")
        return keep_answers(listed, answers_and_corrections(listed, path, (), job), job)

    return answered


def taken(done: Answered) -> dict[str, str]:
    """Code → what was taken of it, by the effect's own words where it is a proposed answer."""
    return {
        question.covers[0].code: decision.answer.partition("\n")[0]
        for question, decision in done.applied.taken
    }


@pytest.mark.parametrize(
    ("line", "code"),
    [
        (f"#{GUEST} - comes alone", "guest-unnamed"),
        (f"Q{GUEST}: comes alone", "guest-unnamed"),
        (f"Question {GUEST}: comes alone", "guest-unnamed"),
        (f"No. {GUEST}: comes alone", "guest-unnamed"),
        (f"{GUEST} - comes alone", "guest-unnamed"),
        (f"{GUEST}/ comes alone", "guest-unnamed"),
        (f"{GUEST} comes alone", "guest-unnamed"),
        (f"- {GUEST}: comes alone", "guest-unnamed"),
        (f"{GUEST}: it's fine", "guest-unnamed"),
        (f"{GUEST}: no idea", "guest-unnamed"),
        (f"{GUEST}: b) Comes alone", "guest-unnamed"),
        (f"{MAYBE}: she's invited", "marker-in-list"),
        (f"{MAYBE}: Yes she's still invited!", "marker-in-list"),
        (f"{TWINS}: same person, b", "duplicate-probable"),
        (f"{TWINS}: b, same guy", "duplicate-probable"),
        (f"{TWINS}: they're the same person, use the first", "duplicate-probable"),
        ("The Penhews: a", "family-unnamed"),
        ("The Penhew Family: Theo and Ida Penhew, kids: Nell", "family-unnamed"),
        ("Linnet Ashgrove - by hand", "address-missing"),
        (f"#{HOME} - 12 Oak St, Litchfield, CT 06759", "address-missing"),
        (f"{ZIP}: yes, 06759", "zip-missing"),
        (f"{ZIP}: it's 06759", "zip-missing"),
        ("yes to all", "marker-in-list"),
        (f"{GUEST}: nein, kommt allein", "guest-unnamed"),
        (f"{MAYBE}: sí, claro", "marker-in-list"),
        (f"{TWINS}: die erste, bitte", "duplicate-probable"),
    ],
)
def test_an_answer_is_taken_however_its_number_and_words_stand(
    reply: Reply, line: str, code: str
) -> None:
    done = reply(line)
    assert (list(taken(done)), done.refused, done.words) == ([code], (), ())


def test_several_answers_on_a_line_are_each_their_own_numbers(reply: Reply) -> None:
    done = reply(f"{MAYBE}: a {TWINS}: b, {GUEST}: b")
    assert len(taken(done)) == len((MAYBE, TWINS, GUEST))
    assert done.refused == ()


@pytest.mark.parametrize(
    "line",
    [
        f"{GUEST}: b, I think",
        f"{TWINS}: same person",
        f"{TWINS}: a, same person",
        f"{MAYBE}: no, she moved to Boston",
        f"{MAYBE}: b, but is her sister coming?",
        "12 Oak St is what she said",
        "Zora and Kit: a",
        "The Farrenbys: a",
    ],
)
def test_what_is_half_said_or_takes_somebody_away_beside_other_words_is_asked_again(
    reply: Reply, line: str
) -> None:
    done = reply(line)
    assert taken(done) == {}
    assert done.words


def test_words_beside_an_answer_stay_open_and_hold_though_it_is_taken(reply: Reply) -> None:
    done = reply(f"{TITLE}: mr\nhe moved to Boston")
    assert taken(done) == {"title-missing": "mr"}
    assert [(each.quoted, each.holds) for each in done.words] == [("he moved to Boston", True)]


def test_dealing_with_words_beside_an_answer_leaves_the_answer(
    reply: Reply, listed: Listed, tmp_path: Path
) -> None:
    place = str(reply(f"{TITLE}: mr\nhe moved to Boston").words[0].where)
    given = answers_and_corrections(listed, None, (), tmp_path / "job", more=True)
    done = keep_answers(listed, given, tmp_path / "job", settle=[place])
    assert taken(done) == {"title-missing": "mr"}
    assert done.words == ()


@pytest.mark.parametrize("way", ["letter {}", "> letter {}.", "(letter {})", "Letter {} -"])
def test_the_letters_own_mark_is_nobodys_remark(reply: Reply, tmp_path: Path, way: str) -> None:
    text = (tmp_path / "job" / "questions.txt").read_text("utf-8")
    mark = next(line for line in text.splitlines() if "letter " in line).split()[-1]
    done = reply(f"{way.format(mark)}\n{MAYBE}: a")
    assert (done.words, done.remarks) == ((), ())


OAK = "12 Oak St, Litchfield, CT 06759"


@pytest.mark.parametrize(
    ("line", "place"),
    [
        (f"{HOME}: same as {ZIP}\n{ZIP}: 06759", OAK),
        (f"{HOME}: same address as Ned Vole\n{ZIP}: 06759", OAK),
        (f"{HOME}: same as Hugo Sallow", "3 Osier Row, Portland, ME 04101"),
        (f"{HOME}: same as #{MAYBE}", "5 Elm Row, Litchfield, CT 06759"),
    ],
)
def test_same_as_another_is_the_others_address_with_its_answer(
    reply: Reply, line: str, place: str
) -> None:
    done = reply(line)
    assert taken(done)["address-missing"] == place
    assert [each.text for each in done.remarks if place in each.text] != []


@pytest.mark.parametrize("whom", [ZIP, HOME, "9.9", "nobody here"])
def test_same_as_nobody_or_an_address_in_doubt_is_asked_again(reply: Reply, whom: str) -> None:
    done = reply(f"{HOME}: same as {whom}")
    assert "address-missing" not in taken(done)
    assert done.refused != ()


def test_nothing_but_a_proposal_with_that_number_is_meant_by_yes_and_a_number(
    reply: Reply,
) -> None:
    done = reply(f"{ZIP}: yes, 06760")
    assert taken(done).get("zip-missing") != "06759"


@pytest.mark.parametrize("words", ["nein", "non, sans invité", "nicht eingeladen", "avec sa soeur"])
def test_words_of_another_language_are_nobodys_name(reply: Reply, words: str) -> None:
    done = reply(f"{GUEST}: {words}")
    assert taken(done) == {}
    assert done.words


def test_a_voice_note_without_stops_is_kept_open(reply: Reply) -> None:
    spoken = (
        "ok so um number one yes zora kest is coming number two those are the same person use the"
        " first number three i don't know his name number five linnet is at twelve oak street"
    )
    done = reply(spoken)
    assert taken(done) == {}
    assert done.words
