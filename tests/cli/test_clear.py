"""When the job is over, every file that holds a guest's home goes, and nothing else."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")


def files_in(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def whole_job(addressing: Run, path: Path) -> Path:
    """A job with plates, questions, a ledger and a reprint."""
    for command in ("plates", "questions", "printed"):
        assert addressing(command, path, "--json").returncode in {0, 1}
    assert addressing("spoiled", path, "1").returncode == 0
    assert addressing("reprint", path, "--json").returncode in {0, 1}
    return path.with_name("guests-job")


def test_everything_of_the_job_goes_and_the_list_stays(addressing: Run, write_list: Write) -> None:
    path = write_list([ROW])
    folder = whole_job(addressing, path)
    assert {"ledger.sqlite", "households.json", "questions.xlsx"} <= files_in(folder)
    before = path.read_bytes()
    said = json.loads(addressing("clear", path, "--yes", "--json").stdout)
    assert said["removed"]
    assert not folder.exists()
    assert path.read_bytes() == before


def test_without_a_yes_it_is_said_and_nothing_goes(addressing: Run, write_list: Write) -> None:
    path = write_list([ROW])
    folder = whole_job(addressing, path)
    before = files_in(folder)
    said = json.loads(addressing("clear", path, "--json").stdout)
    assert set(said["files"]) == before
    assert not said["removed"]
    assert files_in(folder) == before


def test_the_letters_and_the_decisions_go_too(addressing: Run, write_list: Write) -> None:
    path = write_list([("Odile Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "")])
    for command in ("questions", "answer"):
        said = ("--set", "B2", "postcode", "06759") if command == "answer" else ()
        assert addressing(command, path, *said, "--json").returncode == 0
    folder = path.with_name("guests-job")
    assert {"letters.json", "decisions.toml", "questions.txt"} <= files_in(folder)
    assert addressing("clear", path, "--yes").returncode == 0
    assert not folder.exists()


def test_a_file_that_isn_t_the_jobs_stays_with_its_folder(
    addressing: Run, write_list: Write
) -> None:
    path = write_list([ROW])
    folder = whole_job(addressing, path)
    (folder / "plates" / "notes.txt").write_text("my own")
    said = json.loads(addressing("clear", path, "--yes", "--json").stdout)
    assert said["stays"] == ["plates/notes.txt"]
    assert files_in(folder) == {"plates/notes.txt"}


def test_what_was_written_elsewhere_with_names_on_it_goes_too(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """A tidied list, faces with the list's names, a sheet to hold to the light."""
    path = write_list([ROW])
    folder = whole_job(addressing, path)
    (tmp_path / "sheets").mkdir()
    docket = tmp_path / "docket.toml"
    docket.write_text('[device]\nname = "home-toner-white"\n')
    sheets = ("test-sheet-a7.pdf", "hold-to-light-a7.pdf")
    for command in (
        ("tidy", path),
        ("tidy", path, "--to", tmp_path / "sheets" / "tidy.csv"),
        ("faces", path, "--to", tmp_path / "sheets" / "faces.pdf"),
        ("test-sheet", "a7", "--list", path, "--docket", docket, "--to", tmp_path / "sheets"),
    ):
        assert addressing(*command).returncode == 0, command
    elsewhere = {"tidy.csv", "faces.pdf", *sheets}
    assert files_in(tmp_path / "sheets") == elsewhere
    said = json.loads(addressing("clear", path, "--json").stdout)
    assert {str(tmp_path / "sheets" / name) for name in elsewhere} <= set(said["files"])
    assert {"tidy.xlsx", "written.json"} <= set(said["files"])
    told = addressing("clear", path, "--yes").stdout
    assert str(tmp_path / "sheets" / "tidy.csv") in told
    assert "the client's answers stay" in told
    assert not folder.exists()
    assert files_in(tmp_path / "sheets") == set()
    assert path.exists()
    assert docket.exists()


def test_a_tidied_list_that_somebody_went_on_with_stays_and_is_told_of(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    folder = whole_job(addressing, path)
    for name in ("edited.csv", "listed.csv"):
        assert addressing("tidy", path, "--to", name).returncode == 0
    with (tmp_path / "edited.csv").open("a", encoding="utf-8") as stream:
        stream.write("\n")
    assert addressing("proof", tmp_path / "listed.csv").returncode == 0
    said = addressing("clear", path, "--yes").stdout
    assert "edited.csv: written for the job and changed since, stays" in said
    assert "listed.csv: the list of a job of its own, stays" in said
    assert "What stays may hold names and homes too" in said
    assert not folder.exists()
    assert {"edited.csv", "listed.csv"} <= files_in(tmp_path)


def test_a_list_or_docket_that_bears_a_noted_name_is_never_taken(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    assert addressing("tidy", path, "--to", "again.csv").returncode == 0
    (tmp_path / "again-job").mkdir()
    note = (tmp_path / "guests-job" / "written.json").read_text()
    (tmp_path / "again-job" / "written.json").write_text(note)
    said = json.loads(addressing("clear", tmp_path / "again.csv", "--yes", "--json").stdout)
    assert said["files"] == ["written.json"]
    assert (tmp_path / "again.csv").exists()


def test_a_folder_without_a_job_is_refused(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.jpg").write_bytes(b"")
    ran = addressing("clear", path, "--to", tmp_path / "photos", "--yes")
    assert ran.returncode == 3
    assert (tmp_path / "photos" / "a.jpg").exists()


def test_all_else_in_the_folder_goes_only_when_it_is_asked_for_and_list_and_docket_stay(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    folder = tmp_path / "guests-job"
    folder.mkdir()
    path = write_list([ROW], name="guests-job/guests.csv")
    docket = folder / "job.toml"
    docket.write_text('[pieces]\nmake = ["outer"]\n')
    run = (path, "--to", folder)
    assert addressing("plates", *run, "--docket", docket).returncode in {0, 1}
    for name in ("picture.svg", "tidy.xlsx"):
        (folder / name).write_text("a file of another command")
    told = json.loads(addressing("clear", *run, "--others", "--json").stdout)
    assert {"tidy.xlsx", "picture.svg"} <= set(told["files"])
    assert told["stays"] == ["guests.csv", "job.toml"]
    assert addressing("clear", *run, "--others", "--yes").returncode == 0
    assert files_in(folder) == {"guests.csv", "job.toml"}


def test_what_is_named_as_the_list_stays_though_it_is_of_the_job(
    addressing: Run, write_list: Write
) -> None:
    folder = whole_job(addressing, write_list([ROW]))
    named = folder / "questions.xlsx"
    assert addressing("clear", named, "--to", folder, "--yes").returncode == 0
    assert files_in(folder) == {"questions.xlsx"}


def test_plates_to_go_on_with_after_a_jam_go_too(addressing: Run, write_list: Write) -> None:
    path = write_list([ROW, ("Ms. Odile Farrenby", "2 Larkmoor Lane", *ROW[2:])])
    folder = whole_job(addressing, path)
    assert addressing("plates", path, "--from", "2").returncode == 0
    more = {name for name in files_in(folder) if name.startswith("from-")}
    assert any(name.endswith(".pdf") for name in more)
    assert addressing("clear", path, "--yes").returncode == 0
    assert not folder.exists()
