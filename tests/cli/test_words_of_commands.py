"""What commands say to somebody who uses them for the first time."""

import json
import re
import shlex
import subprocess
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from addressing.questions.corrections import CORRECTABLE

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
CLEAR = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE)
ELSEWHERE = ("Dr. Ysolde Penhew", "77 Larkmoor Lane", *PLACE)
DOUBTFUL = ("Ms. Odile Farrenby", "2 Larkmoor Lane", "", "", "")


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("command", ["reprint", "ledger", "check", "plates"])
def test_whoever_is_held_back_is_named_with_the_way_to_free_them(
    addressing: Run, write_list: Write, command: str
) -> None:
    path = write_list([CLEAR, DOUBTFUL])
    assert addressing("plates", path).returncode == 1
    assert addressing("printed", path).returncode == 0
    told = addressing(command, path).stdout
    assert "Odile Farrenby" in told
    assert "addressing questions" in told
    way = re.search(r"addressing answer \S+ --set (\S+) WHAT WORDS", told)
    assert way is not None
    freed = addressing("answer", path, "--set", way[1], "address", ", ".join(ELSEWHERE[1:]))
    assert freed.returncode == 0, freed.stdout
    told = addressing(command, path).stdout
    assert "WHAT WORDS" not in told


def test_the_ledger_tells_programs_who_is_held_back(addressing: Run, write_list: Write) -> None:
    path = write_list([CLEAR, DOUBTFUL])
    addressing("plates", path)
    addressing("printed", path)
    held = json.loads(addressing("ledger", path, "--json").stdout)["held_households"]
    shown = addressing("lines", path).stdout
    assert held == re.findall(r"(h-\w+)  A3  waiting", shown)


def test_an_ink_that_is_not_there_is_refused_with_piece_paper_and_who_has_it(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([CLEAR])
    docket = tmp_path / "job.toml"
    docket.write_text('[device]\nname = "home-inkjet"\n')
    ran = addressing("plates", path, "--docket", docket, "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert fault["cell"] == "docket:piece.outer.ink"
    assert fault["text"].startswith("outer, White on deep-green: Inkjet device at home can't")
    assert '[device] name = "home-toner-white"' in fault["mend"]
    assert '[shop] name = "farrenby-press"' in fault["mend"]
    assert '"home-toner"' not in fault["mend"]


def test_a_shop_that_does_not_print_on_a_paper_is_refused_with_who_does(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([CLEAR])
    docket = tmp_path / "job.toml"
    docket.write_text(
        '[shop]\nname = "farrenby-press"\n[pieces]\nmake = ["place-card"]\n'
        '[[piece]]\nkind = "place-card"\nink = "White"\nstock = "deep-green"\n'
    )
    ran = addressing("plates", path, "--docket", docket, "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (fault["code"], fault["cell"]) == ("shop-not-on-this", "docket:piece.place-card.ink")
    assert '[device] name = "home-toner-white"' in fault["mend"]
    assert "farrenby-press" not in fault["mend"]


def test_a_device_that_can_print_nothing_of_a_job_has_a_reason_and_no_costs(
    addressing: Run, write_list: Write
) -> None:
    path = write_list([CLEAR])
    told = addressing("estimate", path).stdout
    left_out = told.partition("Left out")[2].partition("Where to print")[0]
    assert "Inkjet device at home can't lay down White" in left_out
    assert "set-up" not in left_out
    assert "Inkjet device at home" not in told.partition("Left out")[0]
    routes = json.loads(addressing("estimate", path, "--json").stdout)["routes"]
    once = {route["place"]: bool(route["once"]) for route in routes}
    assert once["home-toner-white"]
    assert not once["home-inkjet"]


def test_envelopes_and_cards_are_counted_apart(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([CLEAR, ELSEWHERE, DOUBTFUL])
    docket = tmp_path / "job.toml"
    docket.write_text('[pieces]\nmake = ["outer", "inner", "place-card", "reply-number"]\n')
    ran = addressing("plates", path, "--docket", docket)
    assert "6 envelopes (2 of them held back), 6 cards (2 of them held back)." in ran.stdout
    with closing(pdfium.PdfDocument(tmp_path / "guests-job" / "proof.pdf")) as proof:
        said = flat(proof[0].get_textpage().get_text_range())
    assert "4 envelopes to read 4 cards to read" in said
    docket.write_text('[pieces]\nmake = ["place-card"]\n')
    told = addressing("check", path, "--docket", docket).stdout
    assert "3 cards" in told.splitlines()[0]
    assert "envelope" not in told.splitlines()[0]


def test_the_help_says_what_can_be_set_and_each_example_is_taken(
    addressing: Run, write_list: Write
) -> None:
    rutland = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Rutland", "VT", "05701")
    path = write_list([rutland, ELSEWHERE])
    told = addressing("answer", "--help").stdout
    rows = re.findall(r'^ {4}(\w+) .* B14 (\w+) ("[^"]+"|\S+)$', told, re.MULTILINE)
    assert {what for what, _, _ in rows} == set(CORRECTABLE)
    for what, again, words in rows:
        assert what == again
        taken = "US" if what == "country" else words.strip('"')
        ran = addressing("answer", path, "--set", "A2", what, taken)
        assert ran.returncode == 0, (what, ran.stdout)
        assert addressing("answer", path, "--undo", f"A2:{what}").returncode == 0


def test_a_line_that_is_broken_is_shown_as_it_will_stand(
    addressing: Run, write_list: Write
) -> None:
    name = "Dr. Wilhelmina Farrenby-Wexcombe and Mr. Bartholomew Grayling-Penhew"
    path = write_list([CLEAR, (name, "2 Larkmoor Lane", *PLACE)])
    told = addressing("lines", path).stdout
    entry = told.partition("(Line broken")[0]
    assert re.search(r"Farrenby-Wexcombe\n +and Mr\. Bartholomew Grayling-Penhew\n", entry)
    made = addressing("plates", path).stdout
    assert "Farrenby-Wexcombe / and Mr. Bartholomew Grayling-Penhew / 2 Larkmoor Lane" in made


def test_plates_end_with_what_comes_next_and_each_command_works(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([CLEAR, ELSEWHERE])
    docket = tmp_path / "job.toml"
    docket.write_text('[shop]\nname = "farrenby-press"\n')
    made = addressing("plates", path, "--docket", docket, "--to", "our job").stdout
    shop, done = re.findall(r": addressing (.*)$", made, re.MULTILINE)[-2:]
    for line in (shop, done):
        ran = addressing(*shlex.split(line))
        assert ran.returncode == 0, ran.stderr
    docket.write_text("")
    made = addressing("plates", path, "--docket", docket, "--to", "other").stdout
    assert "addressing package" not in made
    assert "addressing printed" in made


def test_a_note_on_the_docket_says_how_to_mend_it(addressing: Run, write_list: Write) -> None:
    path = write_list([(*CLEAR[:4], "6759"), ELSEWHERE])
    told = flat(addressing("plates", path).stdout)
    assert "return and reply aren't made. Write the hosts' name and address" in told
    assert "the zero in front was lost. Nothing" not in told
