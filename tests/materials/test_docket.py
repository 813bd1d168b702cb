"""The docket: defaults, what is left out, and everything that can be wrong with it."""

import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.docket import read_docket
from addressing.materials.docket_text import docket_text
from addressing.records.docket import Docket, Hosts, Overs, WordingChoices, default_pieces
from addressing.records.pieces import ENVELOPES


def written(folder: Path, text: str) -> Path:
    path = folder / "docket.toml"
    path.write_text(text, encoding="utf-8", newline="\n")
    return path


def bare(docket: Docket) -> Docket:
    """The choices without the file that they came from."""
    return replace(docket, path=None, sha256=None)


def fault_of(folder: Path, text: str) -> Fault:
    with pytest.raises(Fault) as caught:
        read_docket(written(folder, text))
    assert caught.value.exit is Exit.INPUT
    assert caught.value.where is not None
    assert caught.value.where.file == str(folder / "docket.toml")
    return caught.value


def test_an_empty_docket_is_the_default_one(tmp_path: Path) -> None:
    assert bare(read_docket(written(tmp_path, ""))) == Docket()


def test_the_written_default_reads_as_the_default(tmp_path: Path) -> None:
    assert bare(read_docket(written(tmp_path, docket_text()))) == Docket()


def test_the_written_default_with_its_choices_made_reads_too(tmp_path: Path) -> None:
    # Every commented choice is one that can be made; of device and shop one stays out.
    lines = []
    for line in docket_text().splitlines():
        choice = line.startswith(("# [", '# "')) or " = " in line
        lines.append(line.removeprefix("# ") if choice else line)
    text = "\n".join(lines)
    docket = read_docket(
        written(tmp_path, text[: text.index("[shop]")] + text[text.index("[overs]") :])
    )
    assert docket.hosts is not None
    assert docket.hosts.postcode == "06759"
    assert docket.date == "2026-05-30"
    assert docket.device == "home-toner-white"
    assert docket.columns == (("Invitees", "name"),)
    shown = [choice for choice in docket.pieces if choice.kind in ENVELOPES]
    assert all(choice.size == 20.0 and choice.align == "left" for choice in shown)


def test_every_choice_that_a_docket_has_stands_in_the_written_one() -> None:
    text = docket_text()
    keys = (
        "date name street unit city region postcode country style couple make kind layout face "
        "ink stock size largest smallest align features tracking capitals percent minimum pack"
    )
    for key in keys.split():
        assert any(line.removeprefix("# ").startswith(f"{key} = ") for line in text.splitlines())
    for table in ("job", "hosts", "wording", "pieces", "device", "shop", "overs", "columns"):
        assert f"[{table}]" in text


def test_a_docket_knows_its_file_and_fingerprint(tmp_path: Path) -> None:
    path = written(tmp_path, "[wording]\nstyle = 'postal'\n")
    docket = read_docket(path)
    assert docket.path == str(path)
    assert docket.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()


def test_choices_are_taken_as_written(tmp_path: Path) -> None:
    text = """
        [job]
        date = "2025-03-10"
        [hosts]
        name = "The Larkmoors"
        postcode = "06759"
        [wording]
        style = "relaxed"
        couple = "both-names"
        [pieces]
        make = ["inner", "outer"]
        [shop]
        name = "farrenby-press"
        [overs]
        percent = 20
        minimum = 0
        pack = 50
        [columns]
        "Who's coming" = "name"
    """
    docket = read_docket(written(tmp_path, text))
    assert bare(docket) == Docket(
        date="2025-03-10",
        hosts=Hosts(name="The Larkmoors", postcode="06759"),
        wording=WordingChoices("relaxed", "both-names"),
        make=("inner", "outer"),
        shop="farrenby-press",
        overs=Overs(20.0, 0, 50),
        columns=(("Who's coming", "name"),),
    )


def test_a_piece_that_leaves_keys_out_takes_its_kinds_default(tmp_path: Path) -> None:
    docket = read_docket(written(tmp_path, '[[piece]]\nkind = "reply"\nlayout = "a2"\nsize = 12\n'))
    standard = {choice.kind: choice for choice in default_pieces()}
    assert docket.piece("reply") == replace(standard["reply"], layout="a2", size=12.0)
    assert docket.piece("outer") == standard["outer"]


def test_a_date_without_quotes_is_the_same_date(tmp_path: Path) -> None:
    assert read_docket(written(tmp_path, "[job]\ndate = 2026-05-30\n")).date == "2026-05-30"


WRONG = {
    "order": ('[wording]\norder = "fancy"', "wording.order", '"rank", "woman" or "list"'),
    "couple": ('[wording]\ncouple = "x"', "wording.couple", '"both-names"'),
    "piece": ('[[piece]]\nkind = "sleeve"', "piece[1].kind", '"outer"'),
    "piece without a kind": ('[[piece]]\nlayout = "a7"', "piece[1].kind", "add it"),
    "make": ('[pieces]\nmake = ["outr"]', "pieces.make[1]", '"outer"'),
    "make nothing": ("[pieces]\nmake = []", "pieces.make", "give at least 1"),
    "make twice": ('[pieces]\nmake = ["outer", "outer"]', "pieces.make", "once"),
    "choose twice": (
        '[[piece]]\nkind = "outer"\n[[piece]]\nkind = "outer"',
        "piece[2].kind",
        "one [[piece]]",
    ),
    "both": ('[device]\nname = "a"\n[shop]\nname = "b"', "shop", "leave one out"),
    "a word in capitals": ('[Wording]\nstyle = "formal"', "Wording", "Did you mean wording"),
    "a key misspelt": ('[hosts]\nnaem = "X"', "hosts.naem", "Did you mean name?"),
    "a key of a piece misspelt": (
        '[[piece]]\nkind = "outer"\nfase = "x"',
        "piece[1].fase",
        "Did you mean face",
    ),
    "a day in May": ('[job]\ndate = "May 30"', "job.date", "2026-05-30"),
    "no such day": ('[job]\ndate = "2026-02-30"', "job.date", "2026-05-30"),
    "a date without hyphens": ('[job]\ndate = "20260530"', "job.date", "2026-05-30"),
    "a date with an hour": ("[job]\ndate = 2026-05-30T10:00:00", "job.date", "2026-05-30"),
    "a number for a date": ("[job]\ndate = 2026", "job.date", "2026-05-30"),
    "a postcode as a number": ("[hosts]\npostcode = 6759", "hosts.postcode", 'words in "quotes"'),
    "a long country": ('[hosts]\ncountry = "USA"', "hosts.country", "two letters"),
    "half an envelope": ("[overs]\nminimum = 1.5", "overs.minimum", "whole number"),
    "an empty pack": ("[overs]\npack = 0", "overs.pack", "1"),
    "fewer than none": ("[overs]\npercent = -1", "overs.percent", "0"),
    "no number": ("[overs]\npercent = nan", "overs.percent", "finite"),
    "no size": ('[[piece]]\nkind = "outer"\nsize = 0', "piece[1].size", "0"),
    "smallest above largest": (
        '[[piece]]\nkind = "outer"\nsmallest = 30',
        "piece[1]",
        "change one",
    ),
    "a feature that is no tag": (
        '[[piece]]\nkind = "outer"\nfeatures = ["swash"]',
        "piece[1].features",
        '"onum=0"',
    ),
    "a feature on and off": (
        '[[piece]]\nkind = "outer"\nfeatures = ["liga", "liga=0"]',
        "piece[1].features",
        '"liga" is there twice',
    ),
    "a table for a word": ("[device.name]\nx = 1", "device.name", "quotes"),
    "a word for a table": ('hosts = "X"', "hosts", "table"),
    "no meaning": ('[columns]\nWho = ""', "columns.Who", "write something"),
}


@pytest.mark.parametrize("hurt", WRONG)
def test_a_wrong_choice_is_told_by_its_key_with_a_mend(hurt: str, tmp_path: Path) -> None:
    text, key, mend = WRONG[hurt]
    fault = fault_of(tmp_path, text + "\n")
    assert fault.code == "docket-wrong"
    assert "one thing to mend" in fault.text
    assert f"  {key}" in fault.text
    assert mend in fault.mend
    assert fault.where is not None
    assert fault.where.cell == f"docket:{key}"


def test_all_wrong_choices_are_told_together_in_the_files_order(tmp_path: Path) -> None:
    text = '[wording]\norder = "fancy"\n\n[overs]\npack = 0\n\n[hosts]\ncuontry = "US"\n'
    told = fault_of(tmp_path, text).text.splitlines()
    assert told == [
        "docket.toml has 3 things to mend:",
        '  wording.order (line 2): "fancy" isn\'t a choice.',
        '      order = "fancy"',
        "      ^^^^^",
        "  overs.pack (line 5): 0 won't do.",
        "      pack = 0",
        "      ^^^^",
        "  hosts.cuontry (line 8): this key is unknown.",
        '      cuontry = "US"',
        "      ^^^^^^^",
    ]


def test_an_error_of_toml_is_told_with_its_line(tmp_path: Path) -> None:
    fault = fault_of(tmp_path, "[job]\n\ndate = \n")
    assert fault.code == "docket-syntax"
    assert "line 3" in fault.text


def test_a_key_given_twice_is_told(tmp_path: Path) -> None:
    assert fault_of(tmp_path, '[hosts]\nname = "A"\nname = "B"\n').code == "docket-syntax"


def test_a_docket_that_is_not_there_is_missing(tmp_path: Path) -> None:
    with pytest.raises(Fault) as caught:
        read_docket(tmp_path / "gone.toml")
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "docket-missing")


def test_a_docket_saved_with_a_byte_order_mark_and_other_line_ends_reads(tmp_path: Path) -> None:
    path = tmp_path / "docket.toml"
    path.write_bytes(b"\xef\xbb\xbf[wording]\r\nstyle = 'postal'\r\n")
    assert read_docket(path).wording.style == "postal"
