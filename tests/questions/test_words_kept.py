"""What a client writes that is no answer is kept, holds whom it names, is told until settled."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest

from addressing.guestlist import read_list
from addressing.guestlist.files.mail_lines import is_courtesy
from addressing.job.words import heard
from addressing.records.questions import Said
from addressing.tables import table
from addressing.where import Where

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
ROWS = (
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Ms. Ottoline Grayling and Guest", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Sister Mary Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802"),
    ("Hugo Farrenby", "3 Osier Row", "Portland", "ME", "97201"),
    ("Linnet and Rowan Ashgrove", "9 Mill Row", "Litchfield", "CT", "06759"),
    ("Dr. Ingrid Coldwell", "22 Quarry Hill", "Duluth", "MN", "55802"),
)
WORDS = {"client-wrote", "client-answered", "client-adds"}


@pytest.fixture
def listed(addressing: Run, write_list: Write) -> Path:
    path = write_list(ROWS)
    assert addressing("questions", path).returncode == 0
    return path


def reply(run: Run, path: Path, said: str, name: str = "reply.txt") -> CompletedProcess[str]:
    """A letter answered with some words above it."""
    letter = Path("guests-job/questions.txt").read_text("utf-8")
    quoted = "\n".join(f"> {line}" for line in letter.splitlines())
    Path(name).write_text(f"Hi Odile,\n\n{said}\n\nLove,\nBea\n\n{quoted}\n", "utf-8")
    return run("answer", path, name)


def corrected(run: Run, path: Path, changes: dict[str, tuple[str, str]]) -> CompletedProcess[str]:
    """The sheet of everybody filled in: part of a household's name → (column, words)."""
    book = openpyxl.load_workbook("guests-job/questions.xlsx")
    page = book["Everyone"]
    columns = {str(cell.value): place for place, cell in enumerate(page[2])}
    for row in page.iter_rows(min_row=3):
        for who, (column, words) in changes.items():
            if who in str(row[0].value):
                row[columns[column]].value = words
    book.save("back.xlsx")
    return run("answer", path, "back.xlsx")


def checked(run: Run, path: Path) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(run("check", path, "--json").stdout)
    return told


def open_words(run: Run, path: Path) -> list[tuple[str, str, bool]]:
    """(the words' place, what is told, whether a household is held) of all that is open."""
    found = [each for each in checked(run, path)["findings"] if each["code"] in WORDS]
    return [(f"{e['sheet']}!{e['cell']}", e["text"], e["holds"]) for e in found]


def held(run: Run, path: Path) -> set[str]:
    homes = json.loads(run("lines", path, "--json").stdout)["households"]
    return {str(home["people"][0]["family"]) for home in homes if home["held"]}


@pytest.mark.parametrize("column", ["New names", "New address"])
def test_words_in_the_sheet_of_everybody_hold_their_household_in_every_later_run(
    addressing: Run, listed: Path, column: str
) -> None:
    done = corrected(addressing, listed, {"Ingrid": (column, "moved to Oxford!!")})
    assert done.returncode == 1
    assert "Coldwell" in held(addressing, listed)
    made = addressing("plates", listed)
    assert "moved to Oxford!!" in made.stdout
    assert "back.xlsx!Everyone!" in made.stdout
    assert "1 thing that the client wrote is open" in made.stdout
    assert addressing("plates", listed).returncode == 1
    assert "Coldwell" in held(addressing, listed)


def test_words_stay_open_when_another_file_of_answers_is_read(
    addressing: Run, listed: Path
) -> None:
    corrected(addressing, listed, {"Ingrid": ("New address", "moved to Oxford!!")})
    reply(addressing, listed, "please add Greta Vole")
    again = addressing("answer", listed, "--set", "Ottoline Grayling", "street", "9 Elm Street")
    assert "moved to Oxford!!" in again.stdout
    assert "please add Greta Vole" in again.stdout
    assert [holds for *_, holds in open_words(addressing, listed)] == [True, False]


def test_a_mail_holds_whom_its_sentences_name_and_tells_of_those_not_listed(
    addressing: Run, listed: Path
) -> None:
    before = held(addressing, listed)
    said = "Sister Mary can't come\nplease add Greta Vole\nThe Penhews have moved."
    assert reply(addressing, listed, said).returncode == 0
    assert held(addressing, listed) - before == {"Halvorsby", "Penhew"}
    assert [(place, holds) for place, _, holds in open_words(addressing, listed)] == [
        ("reply.txt!line 3", True),
        ("reply.txt!line 4", False),
        ("reply.txt!line 5", True),
    ]
    assert checked(addressing, listed)["words_open"] == 3
    for command in ("check", "plates", "tally"):
        assert "3 things that the client wrote are open" in addressing(command, listed).stdout


def test_the_same_words_read_again_are_one_matter(addressing: Run, listed: Path) -> None:
    reply(addressing, listed, "please add Greta Vole")
    reply(addressing, listed, "please add Greta Vole", "again.txt")
    assert len(open_words(addressing, listed)) == 1


@pytest.mark.parametrize(
    "named", ["reply.txt!line 3", "Sister Mary can't come", "Mary Halvorsby", "A4"]
)
def test_words_are_settled_by_their_place_themselves_or_their_household(
    addressing: Run, listed: Path, named: str
) -> None:
    reply(addressing, listed, "Sister Mary can't come")
    done = addressing("answer", listed, "--settled", named)
    assert done.returncode == 0, done.stderr
    assert "Dealt with (1)" in done.stdout
    assert open_words(addressing, listed) == []
    assert "Halvorsby" not in held(addressing, listed)
    reply(addressing, listed, "Sister Mary can't come", "again.txt")
    assert open_words(addressing, listed) == []


def test_words_that_are_settled_leave_their_question_open_and_say_how_it_is_answered(
    addressing: Run, listed: Path
) -> None:
    reply(addressing, listed, "Hugo Farrenby is away, ask his mother")
    done = addressing("answer", listed, "--settled", "reply.txt!line 3").stdout
    assert "Dealt with (1)" in done
    assert "The line is closed. The question stays open and goes into the next letter:" in done
    assert "as it stands: answer --settled 'A5:title-missing'" in done
    assert "answer --set 'A5' WHAT WORDS" in done
    reply(addressing, listed, "Sister Mary can't come", "again.txt")
    other = addressing("answer", listed, "--settled", "again.txt!line 3").stdout
    assert "stays open" not in other, "nothing is asked of her"


def test_what_was_settled_by_mistake_is_opened_anew(addressing: Run, listed: Path) -> None:
    reply(addressing, listed, "please add Greta Vole")
    addressing("answer", listed, "--settled", "please add")
    assert open_words(addressing, listed) == []
    assert addressing("answer", listed, "--undo", "reply.txt!line 3").returncode == 0
    assert len(open_words(addressing, listed)) == 1


def test_settling_what_nobody_wrote_is_a_wrong_option(addressing: Run, listed: Path) -> None:
    done = addressing("answer", listed, "--settled", "Greta Vole")
    assert done.returncode == 2
    assert "Greta Vole" in done.stderr


def test_a_designers_correction_settles_words_and_taken_back_they_are_open_again(
    addressing: Run, listed: Path
) -> None:
    corrected(addressing, listed, {"Ingrid": ("New address", "moved to Oxford!!")})
    new = ("Ingrid Coldwell", "address", "8 Mill Row, Litchfield, CT 06759")
    done = addressing("answer", listed, "--set", *new)
    assert "Dealt with (1)" in done.stdout
    assert "Coldwell" not in held(addressing, listed)
    addressing("answer", listed, "--undo", "Ingrid Coldwell:address")
    assert "Coldwell" in held(addressing, listed)


def test_a_correction_of_something_else_leaves_words_of_the_address_open(
    addressing: Run, listed: Path
) -> None:
    corrected(addressing, listed, {"Ingrid": ("New address", "moved to Oxford!!")})
    addressing("answer", listed, "--set", "Ingrid Coldwell", "names", "Dr. Ingrid Marsh")
    assert len(open_words(addressing, listed)) == 1


def test_the_client_is_asked_what_her_words_mean_and_the_answer_settles_them(
    addressing: Run, listed: Path
) -> None:
    reply(addressing, listed, "Sister Mary can't come")
    assert addressing("questions", listed).returncode == 0
    told = json.loads(addressing("questions", listed, "--json").stdout)["questions"]
    (asked,) = [each for each in told if "client-wrote" in each["question"]]
    assert "“Sister Mary can't come”" in asked["text"]
    back = f'[[answer]]\nquestion = "{asked["question"]}"\nanswer = "Leave them out"\n'
    Path("back.toml").write_text(back, "utf-8")
    assert addressing("answer", listed, "back.toml").returncode == 0
    assert open_words(addressing, listed) == []
    homes = json.loads(addressing("lines", listed, "--json").stdout)["households"]
    assert "Halvorsby" not in {home["people"][0]["family"] for home in homes}


def test_an_answer_that_cannot_be_taken_is_kept_until_its_question_is_answered(
    addressing: Run, listed: Path
) -> None:
    letter = Path("guests-job/questions.txt").read_text("utf-8")
    number = next(
        line.partition(" ")[2].partition(",")[0]
        for line in letter.splitlines()
        if line.startswith("Question") and "Grayling" in line
    )
    said = f"{number}: she is getting divorced, ask her mother"
    assert reply(addressing, listed, said).returncode == 1
    assert "Grayling" in held(addressing, listed)
    reply(addressing, listed, f"{number}: b", "again.txt")
    assert open_words(addressing, listed) == []
    assert "Grayling" not in held(addressing, listed)


def test_a_letter_that_a_mail_program_broke_anew_adds_nothing(
    addressing: Run, listed: Path
) -> None:
    letter = Path("guests-job/questions.txt").read_text("utf-8")
    lines = [line for long in letter.splitlines() for line in (long[:40], long[40:])]
    mark = next(line for line in letter.splitlines() if "letter" in line)
    quoted = "\n".join(f"> {line}" for line in lines if line.strip())
    Path("reply.txt").write_text(f"Thanks!\n\n> {mark}\n{quoted}\n", "utf-8")
    addressing("answer", listed, "reply.txt")
    assert open_words(addressing, listed) == []


def test_a_workbook_with_remarks_is_written_anew_once_they_are_kept(
    addressing: Run, listed: Path
) -> None:
    book = openpyxl.load_workbook("guests-job/questions.xlsx")
    book["Everyone"].append(["please add Greta Vole"])
    book.save("guests-job/questions.xlsx")
    assert addressing("questions", listed).returncode == 4
    addressing("answer", listed, "guests-job/questions.xlsx")
    assert addressing("questions", listed).returncode == 0


MAILS = [
    ("Sister Mary can't come", ["Halvorsby"]),
    ("sister mary is not coming after all", ["Halvorsby"]),
    ("please add Greta Vole", [""]),
    ("Oh and I forgot my cousin Greta Vole, she lives in Salem.", [""]),
    ("Just so you know: Sister Mary won't be there.", ["Halvorsby"]),
    ("Sister Mary is away. Please add Greta Vole and her husband.", ["Halvorsby", ""]),
    ("Ottoline is bringing her new boyfriend\nHis name is Rex", ["Grayling"]),
    ("Dr. Coldwell is now Dr. Coldwell-Marsh", ["Coldwell"]),
    ("Linnet & Rowan split up, so two invitations please", ["Ashgrove"]),
    ("Ottoline and the Penhews are away till June", ["Penhew", "Grayling"]),
    ("Mary and Hugo want to share an invitation", ["Halvorsby", "Farrenby"]),
    ("can we add two neighbours? I'll send names", [""]),
    ("Greta Vole\n12 Elm Street\nSalem, MA 01970", [""]),
    ("Also: Hugo got married", ["Farrenby"]),
    ("Hope you're well!\nxx Bea", []),
    ("Talk soon!\nBea Wexcombe\n555-0100", []),
    ("No more changes from me.", []),
    ("And thank you for the lovely paper!", []),
]


@pytest.mark.parametrize(("said", "families"), MAILS)
def test_words_of_a_mail_are_kept_for_those_whom_they_name(
    write_list: Write, said: str, families: list[str]
) -> None:
    homes = read_list(write_list(ROWS), {})[0].households
    names = {home.key: str(home.people[0].family) for home in homes}
    where = Where("reply.txt", "reply.txt", "line 3")
    kept = heard([Said(said, where)], (), homes, None)
    assert sorted(names.get(each.household or "", "") for each in kept) == sorted(families)


@pytest.mark.parametrize("row", [row for row in table("mail_words") if row["kind"] == "courtesy"])
def test_a_courtesy_is_no_matter_and_a_wish_that_begins_so_is_one(row: dict[str, str]) -> None:
    assert is_courtesy(row["example"])
    assert not is_courtesy(f"{row['example'].rstrip('!.')}, and please add Greta Vole")
    assert not row["counter_example"] or not is_courtesy(row["counter_example"])


def test_words_that_begin_alike_are_not_settled_together(addressing: Run, listed: Path) -> None:
    reply(addressing, listed, "Please add Greta Vole\nPlease ring the Penhews about it")
    ran = addressing("answer", listed, "--settled", "please")
    assert ran.returncode == 2
    assert "“please” begins more than one thing that is open" in ran.stderr
    assert "Please add Greta Vole" in ran.stderr
    assert "Please ring the Penhews about it" in ran.stderr
    assert addressing("answer", listed, "--settled", "please add").returncode == 0


def test_a_cell_stands_for_its_household_and_not_for_words_that_begin_so(
    addressing: Run, listed: Path
) -> None:
    reply(addressing, listed, "2 more chairs for Greta Vole please")
    ran = addressing("answer", listed, "--settled", "2")
    assert ran.returncode == 2
    assert "Nothing is open at 2." in ran.stderr


def test_what_was_settled_is_told_with_whose_it_was(addressing: Run, write_list: Write) -> None:
    path = write_list([ROWS[3]])
    said = addressing("answer", path, "--settled", "A2:title-missing").stdout
    assert "A2  Hugo Farrenby: “No title is given.” stands as it is." in said
