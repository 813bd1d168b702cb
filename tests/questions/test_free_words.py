"""Replies in a client's free words: what is plain is taken, what isn't stays open."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """Name,Address,City,State,Zip,Notes
Mr. and Mrs. Hugo Orrin,14 Tannery Lane,Falmouth,ME,04105,
Dave & Ruth Kowal,77 Cayuga Heights Rd,Ithaca,NY,,Are they still coming?
Miles Simm,210 Elm St,Burlington,VT,05401,+1?
Ms. Clara Vance,12 Quarry Hill,Barre,VT,05641,plus one
The Marchet Family,5 Mill Road,Concord,NH,03301,kids Nico and Bea
Tilly Orrin,,,,,
Wendell Stowe,402 Main St Apt,Northampton,MA,01060,
Captain Lou Dunmore,7 Harbor Way,Newport,RI,02480,
"""
NUMBERS = {
    "Dave": "still coming",
    "Miles": "+1?",
    "Clara": "Ms. Clara Vance may bring",
    "Marchet": "kids Nico and Bea",
    "Kowal ZIP": "no ZIP code",
    "Tilly": "no address for",
    "Stowe": "seems to be missing",
    "Dunmore": "belongs to Massachusetts",
    "Titles": "have no title",
}


def outer_after(addressing: Run, folder: Path, question: str, words: str) -> list[str]:
    """The lines of all outer envelopes after a reply that answers one question."""
    (folder / "list.csv").write_text(LIST, "utf-8")
    at = (str(folder / "list.csv"), "--to", str(folder / "job"))
    addressing("questions", *at)
    letter = (folder / "job" / "questions.txt").read_text("utf-8")
    front = " ".join(letter.split()).partition(NUMBERS[question])[0]
    number = front.rpartition("Question ")[2].split()[0].rstrip(",")
    mark = letter.partition("letter ")[2][:8]
    (folder / "reply.txt").write_text(f"Hi Jo! letter {mark}\n{number}: {words}\n", "utf-8")
    done = addressing("answer", at[0], str(folder / "reply.txt"), *at[1:])
    assert "letter" not in done.stdout.partition("decisions.toml")[2], done.stdout
    homes = json.loads(addressing("lines", *at, "--json").stdout)["households"]
    outer = (piece for home in homes for piece in home["pieces"] if piece["kind"] == "outer")
    return [" / ".join(line["text"] for line in piece["lines"]) for piece in outer]


@pytest.mark.parametrize(
    ("question", "words", "line"),
    [
        ("Dave", "yes they are still coming, Sergeant and Mrs. Dave Kowal", "Sergeant and Mrs. D"),
        ("Miles", "his sister Ellen is coming, Ms. Ellen Simm", "Miles Simm / Ms. Ellen Simm / "),
        ("Miles", "+1 yes, Ellen Reed", "Miles Simm / Ellen Reed / "),
        ("Clara", "Clara's plus one is Jonah Reed", "Ms. Clara Vance / Jonah Reed / "),
        ("Clara", "Her husband Peter Vance :)", "Ms. Clara Vance and Peter Vance / "),
        ("Marchet", "the parents are Luca and Gia Marchet + kids", "Luca and Gia Marchet / 5 "),
        ("Kowal ZIP", "14850 I think", "Ithaca, New York 14850"),
        ("Kowal ZIP", "Ithaca, 14850", "Ithaca, New York 14850"),
        ("Kowal ZIP", "New York, 14850", "Ithaca, New York 14850"),
        ("Tilly", "same as Hugo's", "Tilly Orrin / 14 Tannery Lane / "),
        ("Tilly", "she lives with Hugo", "Tilly Orrin / 14 Tannery Lane / "),
        ("Stowe", "it's Apt 2B, all good otherwise!", "402 Main Street, Apartment 2B / North"),
        ("Dunmore", "RI, so 02840", "Newport, Rhode Island 02840"),
        ("Titles", "Dave is Mr. and Ruth is Mrs., the rest none", "Mr. and Mrs. Dave Kowal"),
    ],
)  # fmt: skip
def test_what_is_plain_is_taken(
    addressing: Run, tmp_path: Path, question: str, words: str, line: str
) -> None:
    outers = outer_after(addressing, tmp_path, question, words)
    assert any(line in each for each in outers), outers


@pytest.mark.parametrize(
    ("question", "words"),
    [
        ("Dave", "still coming, Dave Kowal's mother too"),
        ("Miles", "his sister Ellen can't come, Ms. Ellen Simm"),
        ("Miles", "his cousin Peter passed away"),
        ("Miles", "Tom's wife Anna Reed"),
        ("Clara", "her daughter Mia (6)"),
        ("Kowal ZIP", "04105 I think"),
        ("Kowal ZIP", "14850 or 14851 I think"),
        ("Kowal ZIP", "Trumansburg, 14886"),
        ("Tilly", "same as my sister"),
        ("Stowe", "Apt 2B or 3B"),
        ("Dunmore", "MA, so 02840"),
        ("Dunmore", "a - no wait, b"),
        ("Titles", "Dave is Mr. and his mother is Mrs."),
        ("Titles", "Hugo is Dr."),
    ],
)
def test_what_is_not_plain_stays_open(
    addressing: Run, tmp_path: Path, question: str, words: str
) -> None:
    said = outer_after(addressing, tmp_path, question, words)
    other = tmp_path / "other"
    other.mkdir()
    assert said == outer_after(addressing, other, question, "not sure yet")
