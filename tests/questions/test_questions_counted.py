"""`questions` and `answer` count the same things, and say what they count."""

import re
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

Run = Callable[..., CompletedProcess[str]]


def test_what_is_open_is_counted_as_the_letter_numbers_it(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "guests.csv"
    names = ("Theo Penhew", "Nell Vole", "Ned Orr", "Ida Kest", "Kit Marsh")
    rows = (f"{name},{n} Mill Row,Litchfield,CT,06759" for n, name in enumerate(names, start=1))
    path.write_text("\n".join(("Name,Street,City,State,ZIP", *rows, "Mr. Bo Hale,,,,")), "utf-8")
    asked = addressing("questions", path).stdout
    done = addressing("answer", path, "--set", "A2", "street", "8 Mill Row").stdout
    counts = [re.search(r"\d+ questions \(\d+ answers[^)]*\)", text) for text in (asked, done)]
    assert [found and found[0] for found in counts] == [
        "2 questions (6 answers with those of their tables)"
    ] * 2
