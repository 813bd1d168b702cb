"""What the client's proof leaves out: a designer's notes, keys of a docket, a list's capitals."""

from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pypdfium2
import pytest

from addressing.job.counting import count_job
from addressing.job.proofs import for_client, job_of
from addressing.job.reading import read_job
from addressing.records.findings import Finding, Severity
from addressing.records.proofs import ProofJob
from addressing.tables import table
from addressing.where import Where, is_listed

LIST = """Name,Street,City,State,Zip
MR. LUDO VAN DER LARKMOOR,14 Larkmoor Lane,Litchfield,CT,06759
"Mr. Tobias Penhew, PhD",3 Elm Row,Litchfield,CT,06759
"""


def client_sees(folder: Path) -> ProofJob:
    (folder / "list.csv").write_text(LIST, encoding="utf-8")
    (folder / "docket.toml").write_text("", encoding="utf-8")
    reading = read_job(folder / "list.csv", folder / "docket.toml", None)
    return for_client(job_of(reading, count_job(reading)))


def test_a_household_is_named_with_capitals_as_names_have_them(tmp_path: Path) -> None:
    named = [home.name for home in client_sees(tmp_path).households]
    assert named == ["Ludo van der Larkmoor", "Tobias Penhew"]


def test_no_sentence_on_the_client_s_proof_speaks_of_the_docket(tmp_path: Path) -> None:
    job = client_sees(tmp_path)
    said = [f"{each.text} {each.mend} {each.where}" for each in job.findings]
    assert any("PhD" in each for each in said)
    assert not [each for each in said if "docket" in each or "--set" in each]


def shown(*findings: Finding) -> list[Finding]:
    return list(for_client(ProofJob("", "", "", "", "", "", (), findings, ())).findings)


def test_a_designer_s_note_is_left_out_and_a_stop_keeps_its_reason_without_the_mending() -> None:
    place = Where("list.csv", None, "A2")
    note = Finding(Severity.NOTE, "face-stepped-in", place, "Set in another face.", "Choose one.")
    stop = Finding(Severity.STOP, "glyph-missing", place, "It lacks a letter.", "Name a face.")
    ask = Finding(Severity.ASK, "title-missing", place, "No title is given.", "Which titles?")
    assert [(each.text, each.mend) for each in shown(note, stop, ask)] == [
        ("It lacks a letter.", ""),
        ("No title is given.", "Which titles?"),
    ]


def test_places_that_a_client_can_t_look_up_are_not_named() -> None:
    ask = Finding(
        Severity.ASK,
        "title-missing",
        Where("--set", "--set", "1"),
        "No title is given.",
        "Which titles?",
        also=(Where("docket.toml", None, "docket:words[1]"), Where("list.csv", None, "A2")),
    )
    (one,) = shown(ask)
    assert one.where.cell is None
    assert one.also == (Where("list.csv", None, "A2"),)
    assert not is_listed(Where("docket.toml", None, "docket:hosts.street"))
    assert is_listed(Where("list.csv", None, "A2"))


def test_whose_business_a_finding_is_stands_in_its_row() -> None:
    assert {row["for"] for row in table("findings")} == {"", "client", "designer"}


@pytest.mark.parametrize(
    ("mend", "left"),
    [
        ("If that isn't meant: answer --undo.", "If that isn't right, please say so."),
        ("Which titles? Set it with answer --set.", "Which titles?"),
        ("A shorter line helps; or put size = 20 into the docket.", ""),
        ("Make them with `addressing plates`.", ""),
        ("Nothing needs doing.", "Nothing needs doing."),
    ],
)
def test_commands_and_the_docket_are_no_words_for_the_client(mend: str, left: str) -> None:
    place = Where("list.csv", None, "A2")
    severity = Severity.NOTE if "undo" in mend else Severity.ASK
    (one,) = shown(Finding(severity, "left-out", place, "Ms. Vane is left out.", mend))
    assert one.mend == left


def test_the_proof_that_is_signed_shows_no_command(
    addressing: Callable[..., CompletedProcess[str]], tmp_path: Path
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(LIST, encoding="utf-8")
    addressing("answer", path, "--set", "Penhew", "invited", "no")
    addressing("plates", path)
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "proof.pdf") as document:
        pages = [page.get_textpage().get_text_range() for page in document]
    said = " ".join(" ".join(pages).split())
    assert "is left out, by the answer “no”. If that isn't right, please say so." in said
    assert "--" not in said
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "job-sheet.pdf") as document:
        pages = [page.get_textpage().get_text_range() for page in document]
    assert "(--set!1)" in " ".join(" ".join(pages).split()), "the operator can take it back"


def test_the_operator_reads_which_strokes_are_finer_than_the_device_holds(
    addressing: Callable[..., CompletedProcess[str]], tmp_path: Path
) -> None:
    path, docket = tmp_path / "guests.csv", tmp_path / "docket.toml"
    path.write_text(LIST, encoding="utf-8")
    docket.write_text(
        '[device]\nname = "home-toner-white"\n[hosts]\nname = "Mr. Gideon Penhew"\n'
        'street = "1 Larkmoor Lane"\ncity = "Litchfield"\nregion = "CT"\npostcode = "06759"\n',
        "utf-8",
    )
    told = addressing("plates", path, "--docket", docket).stdout
    assert "The finest stroke of the return plate" in told
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "job-sheet.pdf") as document:
        pages = [page.get_textpage().get_text_range() for page in document]
    said = " ".join(" ".join(pages).split())
    assert "Return: the finest stroke is 0.05 mm, and 0.09 mm holds here as a rule." in said
    assert "Outer: the finest" not in said
    assert "one pass as a rule; a second (hits in the docket) only where" in said
