"""Each bad input: its exit code, its code, words that mend it, and nothing half-written."""

import errno
import io
import json
import os
import string
import subprocess
import zipfile
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from fontTools.subset import Subsetter
from fontTools.ttLib import TTFont

from addressing.plates.glyphs import form_operators
from addressing.records.pages import Segment
from addressing.records.shelf import Face

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

SECRET = ("Ms. Odile Wexcombe", "17 Larkmoor Row", "Burlington", "VT", "05401")


def fault_of(ran: Ran) -> dict[str, Any]:
    """The fault that programs read: the last line of standard error; nothing on the other."""
    assert ran.stdout == ""
    fault: dict[str, Any] = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert set(fault) == {"exit", "code", "file", "sheet", "cell", "text", "mend"}
    assert fault["exit"] == ran.returncode
    assert "" not in fault.values()
    assert fault["text"] in ran.stderr.replace("\\n", "\n")
    return fault


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def workbook(*rows: tuple[object, ...]) -> bytes:
    book = openpyxl.Workbook()
    for row in rows:
        book.worksheets[0].append(list(row))
    saved = io.BytesIO()
    book.save(saved)
    return saved.getvalue()


def bomb() -> bytes:
    """A workbook whose sheet unpacks to 64 MB of blanks."""
    saved = io.BytesIO(workbook(("Name",), ("Tobias Penhew",)))
    with zipfile.ZipFile(saved, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet2.xml", b"<x>" + b" " * 64_000_000 + b"</x>")
    return saved.getvalue()


OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504)
LISTS: Mapping[str, tuple[bytes, str, str]] = {
    "no-spreadsheet.xlsx": (b"%PDF-1.7 ...", "list-not-a-spreadsheet", "Save it as .xlsx or .csv"),
    "empty.xlsx": (b"", "list-empty", "Ask for the file again"),
    "locked.xlsx": (OLE + "EncryptedPackage".encode("utf-16-le"), "list-password", "password"),
    "old.xls": (OLE + "Workbook".encode("utf-16-le"), "list-old-format", "save it as .xlsx"),
    "cut.xlsx": (workbook(("Name",))[:900], "list-damaged", "save it again"),
    "bomb.xlsx": (bomb(), "list-too-large", "new workbook"),
    "no-name.csv": (b"Street,City\n14 Larkmoor Lane,Litchfield\n", "name-column-missing", "name"),
    "only-header.csv": (b"Name,Street\n", "list-empty", ""),
}


@pytest.mark.parametrize("name", LISTS)
@pytest.mark.parametrize("command", ["plates", "check"])
def test_a_list_that_can_t_be_read_is_told_with_its_mend(
    addressing: Run, tmp_path: Path, command: str, name: str
) -> None:
    data, code, mend = LISTS[name]
    (tmp_path / name).write_bytes(data)
    ran = addressing(command, name, "--json")
    fault = fault_of(ran)
    assert (fault["exit"], fault["code"]) == (3, code)
    assert fault["file"].endswith(name)
    assert mend in fault["mend"]
    assert tree(tmp_path) == {name: data}


@pytest.mark.parametrize("command", ["plates", "check", "lines", "proof", "tally"])
def test_a_list_that_isn_t_there_is_told(addressing: Run, tmp_path: Path, command: str) -> None:
    fault = fault_of(addressing(command, "gone.xlsx", "--json"))
    assert (fault["exit"], fault["code"]) == (3, "list-missing")
    assert list(tmp_path.iterdir()) == []


def test_a_person_reads_the_same_words_without_the_object(addressing: Run) -> None:
    ran = addressing("check", "gone.xlsx")
    assert (ran.returncode, ran.stdout) == (3, "")
    assert ran.stderr.splitlines() == [
        "gone.xlsx is not there.",
        "Check the name and the folder.",
    ]


DOCKETS: Mapping[str, tuple[str, str, str]] = {
    "no TOML": ("[hosts\n", "docket-syntax", "key = value"),
    "unknown key": ("[job]\ndat = 1\n", "docket-wrong", "date"),
    "unknown style": ('[wording]\ninner = "relaxd"\n', "style-unknown", "relaxed"),
    "unknown layout": ('[[piece]]\nkind = "outer"\nlayout = "a77"\n', "layout-unknown", "a7"),
    "unknown face": (
        '[[piece]]\nkind = "outer"\nface = "great-vibez"\n',
        "face-unknown",
        "great-vibes",
    ),
    "unknown ink": ('[[piece]]\nkind = "outer"\nink = "Whit"\n', "ink-unknown", "White"),
    "unknown paper": ('[[piece]]\nkind = "outer"\nstock = "kraf"\n', "stock-unknown", "kraft"),
    "unknown device": ('[device]\nname = "home-tonner"\n', "device-unknown", "home-toner"),
    "unknown shop": ('[shop]\nname = "farenby-press"\n', "shop-unknown", "farrenby-press"),
    "ink that isn't there": (
        '[device]\nname = "home-inkjet"\n',
        "ink-not-there",
        "Farrenby Press",
    ),
    "envelope that isn't fed": (
        '[device]\nname = "home-toner-white"\n[[piece]]\nkind = "outer"\nlayout = "c4"\n',
        "layout-not-fed",
        "another device or a shop",
    ),
    "unknown meaning": ('[columns]\nName = "nome"\n', "column-meaning-unknown", "name"),
    "unknown column": ('[columns]\nNome = "name"\n', "column-not-found", "Nome"),
    "layout without the piece": (
        '[[piece]]\nkind = "outer"\nlayout = "a7-inner"\n',
        "layout-unfit",
        "",
    ),
}


@pytest.mark.parametrize("what", DOCKETS)
def test_a_docket_that_can_t_be_followed_is_told_with_its_mend(
    addressing: Run, write_list: Write, tmp_path: Path, what: str
) -> None:
    text, code, mend = DOCKETS[what]
    write_list()
    (tmp_path / "docket.toml").write_text(text)
    before = tree(tmp_path)
    fault = fault_of(addressing("plates", "guests.csv", "--docket", "docket.toml", "--json"))
    assert (fault["exit"], fault["code"]) == (3, code)
    assert mend in fault["mend"] + fault["text"]
    assert tree(tmp_path) == before


def test_a_docket_that_isn_t_there_is_told(addressing: Run, write_list: Write) -> None:
    fault = fault_of(addressing("check", write_list(), "--docket", "gone.toml", "--json"))
    assert (fault["exit"], fault["code"]) == (3, "docket-missing")


@pytest.mark.parametrize(
    ("files", "code"),
    [
        ({"penhew.ttf": b"no font at all"}, "face-damaged"),
        ({"penhew.ttf": b"\x00\x01\x00\x00" + bytes(40)}, "face-damaged"),
        ({"penhew.ttf": b""}, "face-damaged"),
        ({"penhew.toml": b'family = "Penhew"\nfile = "penhew.ttf"\n'}, "face-missing"),
        ({"penhew.toml": b'family = "Penhew"\nfile = "../guests.csv"\n'}, "face-wrong"),
        ({"penhew.toml": b'family = "P"\npackage = "penhew_x"\nfile = "a.ttf"\n'}, "face-missing"),
    ],
)  # fmt: skip
def test_a_font_that_is_missing_or_damaged_is_told(
    addressing: Run, write_list: Write, tmp_path: Path, files: Mapping[str, bytes], code: str
) -> None:
    write_list()
    (tmp_path / "fonts").mkdir()
    for name, data in files.items():
        (tmp_path / "fonts" / name).write_bytes(data)
    (tmp_path / "docket.toml").write_text('[[piece]]\nkind = "outer"\nface = "penhew"\n')
    before = tree(tmp_path)
    fault = fault_of(addressing("plates", "guests.csv", "--docket", "docket.toml", "--json"))
    assert (fault["exit"], fault["code"]) == (3, code)
    assert fault["mend"]
    assert tree(tmp_path) == before


def test_a_letter_that_the_face_lacks_holds_its_household(
    addressing: Run, write_list: Write, tmp_path: Path, script: Face
) -> None:
    (tmp_path / "fonts").mkdir()
    subsetter = Subsetter()
    subsetter.populate(text=string.printable)
    with TTFont(script.path) as font:
        subsetter.subset(font)
        font.save(tmp_path / "fonts" / "plain.ttf")
    pieces = "".join(f'[[piece]]\nkind = "{kind}"\nface = "plain"\n' for kind in ("outer", "inner"))
    (tmp_path / "docket.toml").write_text(pieces)
    town = ("Litchfield", "CT", "06759")
    path = write_list(
        [("Ms. Zoë Penhew", "14 Larkmoor Lane", *town), ("Mr. Silas Umber", "3 Osier Row", *town)]
    )
    given = ("--docket", "docket.toml", "--json")
    ran = addressing("check", path, *given)
    assert ran.returncode == 1
    (found, *_) = [
        each for each in json.loads(ran.stdout)["findings"] if each["code"] == "glyph-missing"
    ]
    assert (found["severity"], found["holds"]) == ("stop", True)
    assert "ë" in found["text"]
    assert addressing("plates", path, *given).returncode == 1
    manifest = json.loads((tmp_path / "guests-job" / "manifest.json").read_text("utf-8"))
    assert manifest["held"] == [found["household"]]
    assert [file["pages"] for file in manifest["files"][:2]] == [1, 1]


@pytest.mark.parametrize("command", ["plates", "proof"])
def test_a_file_where_the_folder_should_be_is_told(
    addressing: Run, write_list: Write, tmp_path: Path, command: str
) -> None:
    write_list()
    (tmp_path / "taken").write_text("a file")
    before = tree(tmp_path)
    for folder in ("taken", "taken/below"):
        fault = fault_of(addressing(command, "guests.csv", "--to", folder, "--json"))
        assert (fault["exit"], fault["code"]) == (4, "cannot-write")
        assert "--to" in fault["mend"]
    assert tree(tmp_path) == before


@pytest.mark.skipif(not Path("/proc/self").is_dir(), reason="no /proc on this system")
def test_a_place_that_takes_no_folder_is_told(addressing: Run, write_list: Write) -> None:
    fault = fault_of(addressing("plates", write_list(), "--to", "/proc/self/job", "--json"))
    assert (fault["exit"], fault["code"]) == (4, "cannot-write")


def test_a_folder_where_a_plate_should_be_is_told(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "guests-job" / "proof.pdf").mkdir(parents=True)
    fault = fault_of(addressing("proof", write_list(), "--json"))
    assert (fault["exit"], fault["code"]) == (4, "cannot-write")
    assert [path.name for path in (tmp_path / "guests-job").iterdir()] == ["proof.pdf"]


def full(*_: object, **__: object) -> object:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


@pytest.mark.parametrize(
    "refused",
    ["tempfile.mkstemp", "os.fsync", "pathlib.Path.replace", "addressing.job.plates.bind_plate",
     "addressing.job.plates.contact_sheet", "addressing.job.plates.job_sheet",
     "pathlib.Path.write_text"],
)  # fmt: skip
def test_a_full_disk_is_told_and_the_old_files_stay(
    addressing: Run,
    write_list: Write,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    refused: str,
) -> None:
    addressing("plates", write_list())
    write_list([SECRET])
    before = tree(tmp_path)
    with monkeypatch.context() as patched:
        patched.setattr(refused, full)
        fault = fault_of(addressing("plates", "guests.csv", "--json"))
    assert (fault["exit"], fault["code"]) == (4, "cannot-write")
    assert os.strerror(errno.ENOSPC) in fault["text"]
    assert tree(tmp_path) == before


def test_a_plate_that_fails_its_proof_takes_no_name(
    addressing: Run, write_list: Write, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def nicked(outline: Sequence[Segment]) -> bytes:
        """The real drawing, but its second point stands one unit off its place."""
        verb, (x, *others) = outline[1]
        return form_operators((outline[0], (verb, (x + 1.0, *others)), *outline[2:]))

    addressing("plates", write_list())
    write_list([SECRET])
    before = tree(tmp_path)
    monkeypatch.setattr("addressing.plates.plate.form_operators", nicked)
    ran = addressing("plates", "guests.csv", "--json")
    fault = fault_of(ran)
    assert (fault["exit"], fault["code"]) == (5, "plate-not-proved")
    assert fault["mend"].startswith("No file was changed.")
    assert "Wexcombe" not in ran.stderr
    assert tree(tmp_path) == before
    fresh = addressing("plates", "guests.csv", "--to", "fresh", "--json")
    assert fresh.returncode == 5
    assert tree(tmp_path) == before


@pytest.mark.parametrize("options", [(), ("--json",)])
def test_a_fault_of_the_program_names_no_guest(
    addressing: Run,
    write_list: Write,
    monkeypatch: pytest.MonkeyPatch,
    options: tuple[str, ...],
) -> None:
    def broken(guest_list: Any, *_: Any) -> object:  # noqa: ANN401
        raise ValueError(guest_list.households[0].name)

    monkeypatch.setattr("addressing.job.reading.word_list", broken)
    ran = addressing("check", write_list([SECRET]), *options)
    assert (ran.returncode, ran.stdout) == (70, "")
    assert "ValueError" in ran.stderr
    assert "Odile" not in ran.stderr
    assert "Wexcombe" not in ran.stderr
    assert "Traceback" not in ran.stderr


def test_an_interruption_leaves_with_130_and_nothing_behind(
    addressing: Run, write_list: Write, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_: object) -> object:
        raise KeyboardInterrupt

    monkeypatch.setattr("addressing.job.plates.job_sheet", stopped)
    ran = addressing("plates", write_list(), "--json")
    assert (ran.returncode, ran.stdout) == (130, "")
    assert "Stopped" in ran.stderr
    assert set(tree(tmp_path)) == {"guests.csv"}


@pytest.mark.parametrize(
    "arguments",
    [
        ("plates",),
        ("nothing",),
        ("check", "guests.csv", "--no-such-option"),
        ("check", "guests.csv", "another.csv"),
        ("plates", "guests.csv", "--date", "tomorrow"),
        ("proof", "guests.csv", "--date", "30.5.2026"),
        ("docket", "--to"),
    ],
)
def test_wrong_options_leave_with_two(
    addressing: Run, write_list: Write, tmp_path: Path, arguments: tuple[str, ...]
) -> None:
    write_list()
    ran = addressing(*arguments)
    assert (ran.returncode, ran.stdout) == (2, "")
    assert "Error: " in ran.stderr
    assert set(tree(tmp_path)) == {"guests.csv"}


def test_a_docket_that_is_already_there_stays(addressing: Run, tmp_path: Path) -> None:
    (tmp_path / "docket.toml").write_text("mine")
    ran = addressing("docket", "--to", "docket.toml")
    assert ran.returncode == 4
    assert "Choose another name" in ran.stderr
    assert (tmp_path / "docket.toml").read_text() == "mine"
