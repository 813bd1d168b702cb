"""A job that has a docket is read by it, said or not; the next steps name one that was said."""

import json
import re
import shlex
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]

LIST = """Who,Note,Street,City,State,ZIP
Mr. Tobias Wexcombe,,14 Larkmoor Lane,Litchfield,CT,06759
Ms. Odile Farrenby,,2 Larkmoor Lane,Litchfield,CT,
"""
DOCKET = '[columns]\nWho = "name"\n[pieces]\nmake = ["outer"]\n'
LOOKERS = ("check", "lines", "tally", "ledger", "estimate")
WRITERS = ("questions", "answer", "plates", "proof", "reprint", "tidy")


@pytest.fixture
def client(tmp_path: Path) -> Path:
    """A client's list with a blank in its name, and a docket beside it."""
    (tmp_path / "anna.toml").write_text(DOCKET)
    path = tmp_path / "anna list.csv"
    path.write_text(LIST)
    return path


def next_steps(said: str) -> list[list[str]]:
    """The commands that an answer names, as a shell reads them."""
    return [shlex.split(found)[1:] for found in re.findall("addressing [a-z].*", said)]


def test_a_hint_followed_as_it_stands_keeps_docket_and_folder(
    addressing: Run, client: Path
) -> None:
    given = (client.name, "--docket", "anna.toml", "--to", "anna job")
    (step,) = next_steps(addressing("questions", *given).stdout)
    assert step == ["answer", client.name, "anna job/questions.xlsx", *given[1:]]
    assert addressing(*step).returncode == 0
    assert addressing("answer", *given, "--set", "C3", "postcode", "06759").returncode == 0
    newer = client.with_name("anna-v2.csv")
    newer.write_text(LIST)
    (step,) = next_steps(addressing("compare", client.name, newer.name, *given[1:]).stdout)
    assert step == ["plates", newer.name, *given[1:]]
    assert addressing(*step).returncode == 0
    (step,) = next_steps(addressing("printed", client.name, *given[3:]).stdout)
    assert step == ["spoiled", client.name, "Tobias Wexcombe", *given[3:]]


@pytest.mark.parametrize("first", ["questions", "plates", "proof"])
def test_a_job_with_a_docket_is_worked_on_by_it_wherever_that_is_left_out(
    addressing: Run, client: Path, first: str
) -> None:
    assert addressing(first, client, "--docket", "anna.toml").returncode in {0, 1}
    for command in (*WRITERS, *LOOKERS):
        ran = addressing(command, client, "--json")
        assert "Read by this job's docket, anna.toml." in ran.stderr, command
    with_it = addressing("lines", client, "--docket", "anna.toml", "--json")
    assert addressing("lines", client, "--json").stdout == with_it.stdout


@pytest.mark.parametrize("first", ["questions", "plates", "proof"])
def test_a_job_whose_docket_is_gone_is_not_worked_on_without(
    addressing: Run, client: Path, tmp_path: Path, first: str
) -> None:
    assert addressing(first, client, "--docket", "anna.toml").returncode in {0, 1}
    (tmp_path / "anna.toml").rename(tmp_path / "moved.toml")
    folder = tmp_path / "anna list-job"
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    for command in (*WRITERS, "ledger"):
        ran = addressing(command, client, "--json")
        fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
        assert (ran.returncode, fault["code"]) == (2, "docket-left-out"), command
        assert "--docket anna.toml" in fault["mend"]
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


@pytest.mark.parametrize("damage", [None, "", "{}x", '{"files": [', "\x00"])
def test_a_job_whose_manifest_is_lost_is_never_read_by_the_defaults_unsaid(
    addressing: Run, client: Path, tmp_path: Path, damage: str | None
) -> None:
    assert addressing("plates", client, "--docket", "anna.toml").returncode == 1
    manifest = tmp_path / "anna list-job" / "manifest.json"
    was = manifest.read_bytes()
    manifest.unlink() if damage is None else manifest.write_text(damage, "utf-8")
    for command in ("plates", "questions", "reprint", "package", "stuffing"):
        ran = addressing(command, client, "--json")
        fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
        assert (ran.returncode, fault["code"]) == (3, "manifest-lost"), command
        assert "--docket none" in fault["mend"]
    assert "Read without a docket" in addressing("check", client).stderr
    assert addressing("questions", client, "--docket", "anna.toml").returncode == 0
    manifest.write_bytes(was)
    assert addressing("plates", client).returncode == 1


def test_only_looking_goes_on_where_the_docket_is_gone_and_says_so(
    addressing: Run, client: Path, tmp_path: Path
) -> None:
    addressing("questions", client, "--docket", "anna.toml")
    (tmp_path / "anna.toml").rename(tmp_path / "moved.toml")
    ran = addressing("check", client, "--json")
    assert "isn't there: --docket anna.toml" in ran.stderr
    assert json.loads(ran.stdout)["households"] == 2
    assert "--docket" not in addressing("check", client, "--docket", "moved.toml").stderr


def test_what_was_printed_is_noted_only_in_the_job_of_the_docket_that_is_said(
    addressing: Run, client: Path, tmp_path: Path
) -> None:
    assert addressing("plates", client, "--docket", "anna.toml").returncode == 1
    (tmp_path / "other.toml").write_text(DOCKET)
    ran = addressing("printed", client, "--docket", "other.toml", "--json")
    assert (ran.returncode, '"docket-other"' in ran.stderr) == (2, True)
    assert addressing("printed", client, "--docket", "anna.toml").returncode == 0
    assert addressing("spoiled", client, "1", "--docket", "other.toml").returncode == 2
    assert (
        addressing("handed-over", client, "1", "--docket", tmp_path / "anna.toml").returncode == 0
    )


def test_the_same_docket_changed_is_taken_and_none_is_taken_when_it_is_said(
    addressing: Run, client: Path, tmp_path: Path
) -> None:
    assert addressing("plates", client, "--docket", "anna.toml").returncode == 1
    (tmp_path / "anna.toml").write_text(DOCKET + "[overs]\npercent = 20\n")
    assert addressing("plates", client, "--docket", "anna.toml").returncode == 1
    assert addressing("plates", client, "--docket", "none").returncode == 1
    assert addressing("plates", client).returncode == 1


def test_a_job_begun_without_a_docket_remembers_one_that_came_with_the_questions(
    addressing: Run, client: Path
) -> None:
    assert addressing("plates", client).returncode == 1
    assert addressing("questions", client, "--docket", "anna.toml").returncode == 0
    assert "Read by this job's docket" in addressing("plates", client).stderr


def test_questions_answered_but_unread_are_told_with_the_whole_command(
    addressing: Run, client: Path, tmp_path: Path
) -> None:
    given = (client.name, "--docket", "anna.toml")
    addressing("questions", *given)
    letter = tmp_path / "anna list-job" / "questions.txt"
    letter.write_text(letter.read_text() + "06759")
    ran = addressing("questions", *given)
    assert ran.returncode == 4
    told = 'addressing answer "anna list.csv" "anna list-job/questions.txt" --docket anna.toml'
    assert told in ran.stderr


def test_questions_keep_the_keys_that_the_folder_knows(
    addressing: Run, client: Path, tmp_path: Path
) -> None:
    given = (client.name, "--docket", "anna.toml")
    addressing("plates", *given)
    known = tmp_path / "anna list-job" / "households.json"
    before = {home["key"] for home in json.loads(known.read_text())["households"]}
    client.write_text(LIST.replace("Wexcombe", "Wexcomb"))
    assert addressing("questions", *given).returncode == 0
    assert {home["key"] for home in json.loads(known.read_text())["households"]} == before
