"""What ledger and marks say of other jobs, of whom waits, of what is the same for all."""

import json
import shutil
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from addressing.job.recording import Ran, record_printed
from addressing.ledger import Ledger, open_ledger
from addressing.records.prints import Printing, Wanted

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE),
    ("Ms. Odile Farrenby", "2 Larkmoor Lane", *PLACE),
]
HOSTS = (
    '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
    'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
)


def said(ran: subprocess.CompletedProcess[str]) -> dict[str, Any]:
    assert ran.returncode in {0, 1}, ran.stderr
    found: dict[str, Any] = json.loads(ran.stdout)
    return found


@pytest.mark.parametrize(
    "command",
    [("printed", "--again"), ("spoiled", "1"), ("destroyed", "1"), ("handed-over", "1")],
)
def test_nothing_is_noted_in_the_ledger_of_another_job(
    addressing: Run, write_list: Write, tmp_path: Path, command: tuple[str, ...]
) -> None:
    other = tmp_path / "theirs.csv"
    theirs = write_list([("Dr. Ysolde Penhew", "77 Larkmoor Lane", *PLACE)])
    other.write_bytes(theirs.read_bytes())
    ours = write_list(ROWS)
    for path in (other, ours):
        assert addressing("plates", path).returncode == 0
        assert addressing("printed", path).returncode == 0
    kept = tmp_path / "guests-job" / "ledger.sqlite"
    shutil.copy(tmp_path / "theirs-job" / "ledger.sqlite", kept)
    before = kept.read_bytes()
    name, *rest = command
    ran = addressing(name, ours, *rest)
    assert ran.returncode == 3
    assert "is another job's" in ran.stderr
    assert kept.read_bytes() == before


def test_who_waits_by_now_is_told_from_who_left(addressing: Run, write_list: Write) -> None:
    path = write_list(ROWS)
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path, "--kind", "outer").returncode == 0
    write_list([("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "")])
    wrong = said(addressing("ledger", path, "--json"))["wrong"]
    assert [each["why"] for each in wrong] == [
        "the household waits for an answer: set it aside until then",
        "the household is no longer on the list",
    ]


def test_who_gets_no_piece_of_a_kind_now_is_not_called_gone(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    path = write_list([("Mr. and Mrs. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE), ROWS[1]])
    docket.write_text('[pieces]\nmake = ["place-card"]\n')
    assert addressing("plates", path, "--docket", docket).returncode == 0
    assert addressing("printed", path).returncode == 0
    write_list(ROWS)
    wrong = said(addressing("ledger", path, "--docket", docket, "--json"))["wrong"]
    assert "no place-card is made for the household now" in [each["why"] for each in wrong]


def test_what_is_the_same_for_all_is_told_when_it_changed(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list(ROWS)
    docket.write_text(HOSTS)
    assert addressing("plates", path, "--docket", docket).returncode == 0
    assert addressing("printed", path).returncode == 0
    ledger = ("ledger", path, "--docket", docket)
    assert said(addressing(*ledger, "--json"))["same_for_all"] == {}
    docket.write_text(HOSTS.replace("1 Larkmoor", "31 Larkmoor"))
    assert said(addressing(*ledger, "--json"))["same_for_all"] == {
        "return": "words changed",
        "reply": "words changed",
    }
    told = addressing("reprint", path, "--docket", docket).stdout
    assert "return: words changed since its plate was made." in told
    assert "Nothing that bears a name needs printing." in told


def test_a_docket_of_what_is_the_same_for_all_makes_its_plates_whoever_waits(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    path = write_list([*ROWS, ("Ms. Blythe Grayling", "", "", "", "")])
    docket.write_text('[pieces]\nmake = ["return", "reply"]\n' + HOSTS)
    made = said(addressing("plates", path, "--docket", docket, "--json"))
    assert [(plate["kind"], plate["pages"]) for plate in made["plates"]] == [
        ("return", 1),
        ("reply", 1),
    ]
    ran = addressing("printed", path)
    assert ran.returncode == 3
    assert "The plates of reply and return in guests-job are the same for all." in ran.stderr
    told = addressing("tally", path, "--docket", docket)
    assert "where another docket makes those, it orders the envelopes" in told.stdout
    suite = said(addressing("tally", path, "--docket", docket, "--json"))["suite"]
    assert suite["stamp, reply"]["needed"] == 3


def test_pages_that_are_nowhere_are_told_as_spans(addressing: Run, write_list: Write) -> None:
    path = write_list(ROWS)
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path).returncode == 0
    ran = addressing("spoiled", path, "1-40", "50", "60-61")
    assert "prints 3-40, 50 and 60-61 are in no outer run" in ran.stderr


def test_a_ledger_is_the_job_s_own_while_anybody_of_it_is_still_listed(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """Even where the folder has lost what it knew of those who left."""
    path = write_list(ROWS)
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path, "--kind", "outer").returncode == 0
    (tmp_path / "guests-job" / "households.json").unlink()
    write_list(ROWS[:1])
    found = said(addressing("ledger", path, "--json"))
    assert [len(found[part]) for part in ("good", "wrong")] == [1, 1]
    assert addressing("spoiled", path, "1").returncode == 0


def test_the_plates_of_a_job_are_noted_together_or_not_at_all(
    addressing: Run, write_list: Write, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What stops between two plates leaves neither in the ledger."""
    assert addressing("plates", write_list(ROWS)).returncode == 0
    noted: list[str] = []
    add = Ledger.add

    def stopped(
        self: Ledger, made: Printing, pages: Sequence[Wanted | None], first: int = 1
    ) -> int:
        if noted:
            raise KeyboardInterrupt
        noted.append(made.plate)
        return add(self, made, pages, first)

    monkeypatch.setattr(Ledger, "add", stopped)
    with pytest.raises(KeyboardInterrupt):
        record_printed(tmp_path / "guests-job", Ran(), None, again=False)
    assert noted == ["plates/01-outer-white.pdf"]
    with open_ledger(tmp_path / "guests-job") as ledger:
        assert ledger.prints() == ()


def job_with_replies(tmp_path: Path) -> tuple[str, ...]:
    (tmp_path / "job.toml").write_text(f'{HOSTS}[pieces]\nmake = ["outer", "reply"]\n')
    return "--docket", "job.toml"


def test_spoiled_copies_are_counted_against_what_is_needed(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path, docket = write_list(ROWS), job_with_replies(tmp_path)
    made = said(addressing("plates", path, *docket, "--json"))
    printed = next(p["copies"] for p in made["plates"] if p["kind"] == "reply")
    assert addressing("printed", path).returncode == 0

    def copies() -> dict[str, int]:
        found: dict[str, dict[str, int]] = said(addressing("ledger", path, *docket, "--json"))[
            "copies"
        ]
        return found.get("reply", {})

    assert copies() == {}
    spoil = ("spoiled", path, "--kind", "reply", "--copies")
    assert said(addressing(*spoil, "3", "--json"))["copies"] == {"kind": "reply", "spoiled": 3}
    assert copies() == {"spoiled": 3, "left": printed - 3, "lacking": 0}
    addressing(*spoil, str(printed - 4))
    assert copies() == {"spoiled": printed - 1, "left": 1, "lacking": 1}
    assert (
        "1 are left and 2 are needed: print 1 more." in addressing("ledger", path, *docket).stdout
    )
    addressing(*spoil, "-1000")
    assert copies() == {}


def test_copies_are_of_what_is_the_same_for_all(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path, docket = write_list(ROWS), job_with_replies(tmp_path)
    addressing("plates", path, *docket)
    addressing("printed", path)
    before = (tmp_path / "guests-job" / "ledger.sqlite").read_bytes()
    ran = addressing("spoiled", path, "--copies", "2")
    assert ran.returncode == 2
    assert "Copies can be counted of reply" in ran.stderr
    ran = addressing("spoiled", path)
    assert ran.returncode == 2
    assert "Say which" in ran.stderr
    assert (tmp_path / "guests-job" / "ledger.sqlite").read_bytes() == before


def test_all_wrong_prints_are_destroyed_by_one_word_and_no_right_one(
    addressing: Run, write_list: Write
) -> None:
    path = write_list([*ROWS, ("Dr. Ysolde Penhew", "77 Larkmoor Lane", *PLACE)])
    addressing("plates", path)
    addressing("printed", path)
    write_list([("Mr. Tobias Wexcombe", "15 Larkmoor Lane", *PLACE), *ROWS[1:]])
    wrong = said(addressing("ledger", path, "--json"))["wrong"]
    assert len(wrong) == 3  # the outer of him who moved, outer and inner of her who left
    destroyed = said(addressing("destroyed", path, "--wrong", "--json"))
    assert {(p["run"], p["page"]) for p in destroyed["prints"]} == {
        (p["run"], p["page"]) for p in wrong
    }
    assert {p["state"] for p in destroyed["prints"]} == {"destroyed"}
    now = said(addressing("ledger", path, "--json"))
    assert now["wrong"] == []
    assert len(now["good"]) == 3
    assert "Nothing is wrong." in addressing("destroyed", path, "--wrong").stdout


def test_a_print_of_somebody_who_waits_is_set_aside_and_not_destroyed(
    addressing: Run, write_list: Write
) -> None:
    path = write_list(ROWS)
    addressing("plates", path)
    addressing("printed", path)
    write_list([ROWS[0], ("Ms. Odile Farrenby", "2 Larkmoor Lane", "", "", "")])
    told = said(addressing("destroyed", path, "--wrong", "--json"))
    assert told["prints"] == []
    assert told["set_aside"] == 2
    assert len(said(addressing("ledger", path, "--json"))["wrong"]) == 2


def lost(kept: Path, way: str, before: bytes) -> None:
    """What may befall a ledger: gone, emptied, begun anew, or an older copy put back."""
    kept.unlink()
    if way == "emptied":
        kept.write_bytes(b"")
    elif way == "anew":
        with open_ledger(kept.parent):
            pass
    elif way == "older":
        kept.write_bytes(before)


@pytest.mark.parametrize("way", ["gone", "emptied", "anew", "older"])
def test_a_ledger_that_lost_its_prints_is_told_and_nothing_is_made_by_it(
    addressing: Run, write_list: Write, tmp_path: Path, way: str
) -> None:
    path, kept = write_list(ROWS), tmp_path / "guests-job" / "ledger.sqlite"
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path, "--kind", "outer").returncode == 0
    before = kept.read_bytes()
    assert addressing("printed", path).returncode == 0
    assert addressing("plates", path).returncode == 0
    lost(kept, way, before)
    for command in (("reprint",), ("ledger",), ("spoiled", "1"), ("destroyed", "--wrong")):
        ran = addressing(command[0], path, *command[1:])
        assert ran.returncode == 3, command
        assert "4 prints were noted in it" in ran.stderr
        assert "Put its copy back" in ran.stderr
    assert not (tmp_path / "guests-job" / "reprint-01").exists()
    assert "4 prints were noted in it" in addressing("preflight", tmp_path / "guests-job").stdout
    made = addressing("plates", path)
    assert made.returncode == 0
    assert "4 prints were noted in it" in made.stdout
    assert "4 prints were noted in it" in addressing("printed", path).stdout
    assert addressing("ledger", path).returncode == 0


def test_a_ledger_that_nobody_noted_anything_in_is_not_missed(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    assert addressing("plates", path).returncode == 0
    assert addressing("ledger", path).returncode == 0
    (tmp_path / "guests-job" / "ledger.sqlite").unlink()
    assert addressing("ledger", path).returncode == 0
    assert "noted in it" not in addressing("preflight", tmp_path / "guests-job").stdout


def test_what_is_the_same_for_all_is_named_where_it_is_not_counted(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(HOSTS, "utf-8")
    path = write_list(ROWS)
    assert addressing("plates", path, "--docket", docket).returncode == 0
    noted = addressing("printed", path).stdout
    assert "plates/03-return-white.pdf: return, the same for all; no copies of it" in noted
    assert "plates/04-reply-white.pdf: reply, the same for all; no copies of it" in noted
    assert "guests.csv --kind return --copies N" in noted
    told = addressing("ledger", path).stdout
    assert "The same for all, and not counted here: return and reply." in told
    assert said(addressing("spoiled", path, "--kind", "return", "--copies", "2", "--json"))
    assert "not counted here: reply." in addressing("ledger", path).stdout
    alone = addressing("printed", path, "--kind", "inner", "--again").stdout
    assert "return" not in alone
