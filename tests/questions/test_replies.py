"""A letter goes out and is answered in a mail, in the ways in which people answer mails."""

import json
from collections.abc import Callable
from email.message import EmailMessage
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
ROWS = (
    ("Ms. Ottoline Grayling and Guest", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Tobias and Odile Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Hugo Farrenby", "1440 Birchbark Trail", "Duluth", "MN", "55802"),
    ("Ms. Linnet Ashgrove", "", "", "", ""),
    ("Mr. Bram Halvorsby", "3 Osier Row", "Portland", "ME", "97201"),
)


class Sent:
    """A letter that was sent, and a way to answer it."""

    def __init__(self, run: Run, path: Path, folder: Path) -> None:
        self.run, self.path, self.folder = run, path, folder
        self.text = (Path("guests-job") / "questions.txt").read_text("utf-8")
        told = json.loads(run("questions", path, "--json").stdout)
        self.numbers = {m["matter"].split(":")[1]: m["number"] for m in told["matters"]}

    def number(self, code: str) -> int:
        return int(self.numbers[code])

    def answer(self, text: str, name: str = "reply.txt") -> dict[str, Any]:
        """What came of a reply; "applied" is question code → answer."""
        reply = self.folder / name
        reply.write_text(text, "utf-8")
        ran = self.run("answer", self.path, reply, "--json")
        assert ran.stdout, ran.stderr
        told: dict[str, Any] = json.loads(ran.stdout)
        told["answers"] = {
            each["question"].partition(":")[2]: each["answer"] for each in told["applied"]
        }
        return told


@pytest.fixture
def sent(addressing: Run, write_list: Write, tmp_path: Path) -> Sent:
    path = write_list(ROWS)
    assert addressing("questions", path).returncode == 0
    return Sent(addressing, path, tmp_path)


@pytest.mark.parametrize("way", ["{0} b\n{1} a", "{0}b\n\n{1}a.", "{0} b, {1} a", "({0} B)\n{1}-a"])
def test_a_number_and_a_letter_are_an_answer_without_a_colon(sent: Sent, way: str) -> None:
    mark = next(line for line in sent.text.splitlines() if "letter " in line)
    numbers = sent.number("guest-unnamed"), sent.number("zip-not-in-state")
    told = sent.answer(f"{mark}\n\n{way.format(*numbers)}\n")
    assert len(told["applied"]) == len(numbers)


def test_a_letter_that_the_question_has_not_is_no_answer(sent: Sent) -> None:
    mark = next(line for line in sent.text.splitlines() if "letter " in line)
    told = sent.answer(f"{mark}\n\n{sent.number('guest-unnamed')} j\n")
    assert told["applied"] == []


def test_answers_behind_the_numbers_are_read(sent: Sent) -> None:
    guest, home = sent.number("guest-unnamed"), sent.number("address-missing")
    text = sent.text.replace(f"  {guest}:\n", f"  {guest}: Mr. Rowan Ashby\n")
    text = text.replace(f"  {home}:\n", f"  {home}: 22 Larkmoor Lane\n     Litchfield, CT 06759\n")
    told = sent.answer(text)
    assert told["findings"] == []
    assert told["answers"] == {
        "guest-unnamed:2": "Mr. Rowan Ashby",
        "address-missing": "22 Larkmoor Lane\nLitchfield, CT 06759",
    }


def test_a_letter_stands_for_the_answer_that_it_marks(sent: Sent) -> None:
    number = sent.number("zip-not-in-state")
    told = sent.answer(sent.text.replace(f"  {number}:\n", f"  {number}: a)\n"))
    assert told["answers"] == {"zip-not-in-state": "The ZIP is right, the state is Oregon"}


def test_lines_of_a_table_are_read_and_the_answer_for_all_serves_the_rest(sent: Sent) -> None:
    number = sent.number("title-missing")
    text = sent.text.replace(f"  {number}:\n", f"  {number}: b\n")
    text = text.replace(f"{number}.2  Odile Penhew:", f"{number}.2  Odile Penhew: Dr.")
    told = sent.answer(text)
    assert sorted(each["answer"] for each in told["applied"]) == [
        "As it stands",  # Tobias and Hugo
        "As it stands",
        "Dr.",
    ]


def test_a_list_of_its_own_above_the_quoted_letter_is_read(sent: Sent) -> None:
    guest, zips = sent.number("guest-unnamed"), sent.number("zip-not-in-state")
    quoted = "\n".join(f"> {line}" for line in sent.text.splitlines())
    told = sent.answer(
        f"Hi!\n\n{guest}) comes alone\n{zips}. both are right as listed\n\nLove, Mum\n\n{quoted}\n"
    )
    assert told["answers"] == {
        "guest-unnamed:2": "comes alone",
        "zip-not-in-state": "both are right as listed",
    }
    assert [found["text"] for found in told["findings"]] == [
        "The client adds: “Hi!”.",
        "The client adds: “Love, Mum”.",
    ]


def test_an_answer_below_a_quoted_question_belongs_to_it(sent: Sent) -> None:
    guest = sent.number("guest-unnamed")
    lines = [f"> {line}" for line in sent.text.splitlines()]
    place = lines.index(f">   {guest}:")
    lines[place + 1 : place + 1] = ["", "Mr. Rowan Ashby", ""]
    told = sent.answer("\n".join((*lines, "", "Love, Mum")))
    assert told["answers"] == {"guest-unnamed:2": "Mr. Rowan Ashby"}
    assert [found["text"] for found in told["findings"]] == ["The client adds: “Love, Mum”."]


def test_words_behind_the_last_question_are_a_remark_and_no_answer(sent: Sent) -> None:
    quoted = "\n".join(f"> {line}" for line in sent.text.splitlines())
    told = sent.answer(f"{quoted}\n\nRowan Ashby\n")
    assert told["applied"] == []
    assert [found["code"] for found in told["findings"]] == ["answer-remark"]


def test_an_address_that_begins_with_a_number_is_no_answer_to_that_number(sent: Sent) -> None:
    home = sent.number("address-missing")
    told = sent.answer(
        sent.text.replace(f"  {home}:\n", f"  {home}:\n1 Larkmoor Lane\nLitchfield, CT 06759\n")
    )
    assert told["answers"] == {"address-missing": "1 Larkmoor Lane\nLitchfield, CT 06759"}


def test_two_answers_to_one_number_are_a_conflict(sent: Sent) -> None:
    guest = sent.number("guest-unnamed")
    told = sent.answer(f"{guest}: comes alone\n{guest}: Rowan Ashby\n\n{sent.text}")
    assert {found["code"] for found in told["findings"]} == {"answer-conflict"}
    assert told["applied"] == []


def test_a_saved_mail_is_read_by_its_plain_text(sent: Sent, tmp_path: Path) -> None:
    guest = sent.number("guest-unnamed")
    mail = EmailMessage()
    mail["Subject"] = "Re: guests"
    mail.set_content(sent.text.replace(f"  {guest}:\n", f"  {guest}: Mr. Rowan Åshby\n"))
    (tmp_path / "reply.eml").write_bytes(mail.as_bytes())
    told = json.loads(sent.run("answer", sent.path, tmp_path / "reply.eml", "--json").stdout)
    assert [each["answer"] for each in told["applied"]] == ["Mr. Rowan Åshby"]


@pytest.mark.parametrize("text", ["1: yes\n", "letter 00000000\n1: yes\n"])
def test_a_reply_to_an_unknown_letter_is_refused(sent: Sent, text: str) -> None:
    reply = sent.folder / "reply.eml"
    reply.write_text(f"Subject: x\n\n{text}", "utf-8")
    ran = sent.run("answer", sent.path, reply, "--json")
    assert ran.returncode == 3
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "answers-none"


def test_a_reply_to_an_earlier_letter_is_still_read_by_its_own_numbers(sent: Sent) -> None:
    guest, zips = sent.number("guest-unnamed"), sent.number("zip-not-in-state")
    first = sent.text
    sent.answer(f"{guest}: comes alone\n{first}", "one.txt")
    sent.run("questions", sent.path)
    second = (Path("guests-job") / "questions.txt").read_text("utf-8")
    assert second != first
    told = sent.answer(f"{zips}: a\n{first}", "two.txt")
    assert told["answers"]["zip-not-in-state"] == "The ZIP is right, the state is Oregon"
    assert told["answers"]["guest-unnamed:2"] == "comes alone"


def test_a_letter_answered_where_it_lies_is_not_written_over(sent: Sent) -> None:
    guest = sent.number("guest-unnamed")
    letter = Path("guests-job") / "questions.txt"
    letter.write_text(sent.text.replace(f"  {guest}:\n", f"  {guest}: comes alone\n"), "utf-8")
    ran = sent.run("questions", sent.path, "--json")
    assert ran.returncode == 4
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "answers-unread"
    assert "comes alone" in letter.read_text("utf-8")


def test_a_heading_of_which_only_the_front_is_left_is_no_part_of_an_answer(sent: Sent) -> None:
    """A client who trims "Question 2 (12 in all)" to "Question 2" answers no more by it."""
    guest = sent.number("guest-unnamed")
    told = sent.answer(f"letter {sent.text.split('letter ')[1][:8]}\n{guest}: b\nQuestion 99\n")
    plain = sent.answer(f"letter {sent.text.split('letter ')[1][:8]}\n{guest}: b\n")
    assert told["answers"] == plain["answers"]
    assert "Question" not in json.dumps(told["answers"])


@pytest.mark.parametrize("close", ["Thanks so much!", "Love,", "xo", "Many thanks"])
def test_a_closing_right_below_the_last_answer_is_no_part_of_it(sent: Sent, close: str) -> None:
    mark = next(line for line in sent.text.splitlines() if "letter " in line)
    guest = sent.number("guest-unnamed")
    told = sent.answer(f"{mark}\n{guest}: Mr. Rowan Ashby\n{close}\nOdile\n")
    assert told["answers"]["guest-unnamed:2"] == "Mr. Rowan Ashby"
