"""No half-written file ever has a final name."""
# ruff: noqa: PT012 - what is raised inside a context is the point

import errno
import hashlib
import os
import signal
import tempfile
from collections.abc import Callable
from pathlib import Path
from pkgutil import resolve_name

import pytest

from addressing.faults import Exit, Fault
from addressing.files import (
    Together,
    alone_in,
    make_folder,
    sha256_of,
    write_fault,
    write_text,
)

FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def refuse(*_: object, **__: object) -> object:
    raise OSError(FULL.errno, FULL.strerror)


def names_in(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_a_text_is_written_whole_with_line_feeds(tmp_path: Path) -> None:
    write_text(tmp_path / "note.txt", "Øne\ntwo\n")
    assert (tmp_path / "note.txt").read_bytes() == "Øne\ntwo\n".encode()
    assert names_in(tmp_path) == {"note.txt"}


def test_a_written_file_can_be_read_by_everybody(tmp_path: Path) -> None:
    write_text(tmp_path / "note.txt", "words")
    assert (tmp_path / "note.txt").stat().st_mode & 0o777 == 0o644


def test_the_old_file_stays_whole_until_the_new_one_is_finished(tmp_path: Path) -> None:
    final = tmp_path / "note.txt"
    final.write_text("old")
    with Together() as together:
        working = together.working(final)
        working.write_text("new")
        assert working.parent == final.parent
        assert final.read_text() == "old"
    assert final.read_text() == "new"


def test_an_error_inside_leaves_the_old_file_and_no_working_file(tmp_path: Path) -> None:
    final = tmp_path / "note.txt"
    final.write_text("old")
    with pytest.raises(KeyError), Together() as together:
        together.working(final).write_text("half")
        raise KeyError
    assert final.read_text() == "old"
    assert names_in(tmp_path) == {"note.txt"}


@pytest.mark.parametrize("refused", ["os.fsync", "pathlib.Path.replace", "tempfile.mkstemp"])
def test_a_full_disk_is_told_with_the_place_and_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, refused: str
) -> None:
    monkeypatch.setattr(refused, refuse)
    with pytest.raises(Fault) as raised:
        write_text(tmp_path / "note.txt", "words")
    fault = raised.value
    assert (fault.exit, fault.code) == (Exit.WRITE, "cannot-write")
    assert os.strerror(errno.ENOSPC) in fault.text
    assert "note.txt" in fault.text
    assert "--to" in fault.mend
    assert fault.where is not None
    assert fault.where.file.endswith("note.txt")
    assert names_in(tmp_path) == set()


def test_files_get_their_final_names_together(tmp_path: Path) -> None:
    with Together() as together:
        for name in ("one.txt", "two.txt"):
            together.working(tmp_path / name).write_text(name)
        assert [final.name for _working, final in together.lent] == ["one.txt", "two.txt"]
        assert not names_in(tmp_path) & {"one.txt", "two.txt"}
    assert names_in(tmp_path) == {"one.txt", "two.txt"}


def test_an_error_inside_gives_no_file_its_final_name(tmp_path: Path) -> None:
    with pytest.raises(KeyError), Together() as together:
        together.working(tmp_path / "one.txt").write_text("one")
        together.working(tmp_path / "two.txt").write_text("half")
        raise KeyError
    assert names_in(tmp_path) == set()


@pytest.mark.parametrize("moment", ["tempfile.mkstemp", "pathlib.Path.unlink"])
def test_an_interrupt_between_a_file_and_the_note_of_it_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, moment: str
) -> None:
    monkeypatch.setattr(moment, then_interrupt(resolve_name(moment.replace(".", ":", 1))))
    with pytest.raises(KeyboardInterrupt), Together() as together:
        together.working(tmp_path / "one.txt")
        together.working(tmp_path / "two.txt")
        raise KeyError
    assert names_in(tmp_path) == set()


def then_interrupt(real: Callable[..., object]) -> Callable[..., object]:
    """Let a function do its work, and the user press Ctrl-C right after it."""

    def work(*arguments: object, **named: object) -> object:
        done = real(*arguments, **named)
        os.kill(os.getpid(), signal.SIGINT)
        return done

    return work


def test_a_fault_inside_comes_out_as_it_is(tmp_path: Path) -> None:
    fault = Fault(Exit.PREFLIGHT, "plate-not-proved", "It failed.", "Run again.")
    with pytest.raises(Fault) as raised, Together() as together:
        together.working(tmp_path / "one.txt").write_text("one")
        raise fault
    assert raised.value is fault
    assert names_in(tmp_path) == set()


def test_a_disk_that_fills_while_a_file_is_written_is_a_fault_with_its_name(
    tmp_path: Path,
) -> None:
    with pytest.raises(Fault) as raised, Together() as together:
        together.working(tmp_path / "one.txt").write_text("one")
        together.working(tmp_path / "two.txt")
        raise OSError(FULL.errno, FULL.strerror)
    assert (raised.value.exit, raised.value.code) == (Exit.WRITE, "cannot-write")
    assert "two.txt" in raised.value.text
    assert names_in(tmp_path) == set()


def test_an_error_that_names_a_working_file_is_told_with_its_final_name(tmp_path: Path) -> None:
    with pytest.raises(Fault) as raised, Together() as together:
        first = together.working(tmp_path / "one.txt")
        together.working(tmp_path / "two.txt")
        raise OSError(FULL.errno, FULL.strerror, str(first))
    assert raised.value.text.startswith(str(tmp_path / "one.txt"))


def test_a_disk_that_fills_while_files_are_flushed_keeps_every_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.fsync", after(1, os.fsync))
    (tmp_path / "one.txt").write_text("old")
    with pytest.raises(Fault) as raised, Together() as together:
        for name in ("one.txt", "two.txt", "three.txt"):
            together.working(tmp_path / name).write_text("new")
    assert raised.value.exit == Exit.WRITE
    assert (tmp_path / "one.txt").read_text() == "old"
    assert names_in(tmp_path) == {"one.txt"}


def after(count: int, real: Callable[[int], None]) -> Callable[[int], None]:
    """The real function `count` times, then a full disk."""
    calls: list[int] = []

    def act(handle: int) -> None:
        calls.append(handle)
        if len(calls) > count:
            refuse()
        real(handle)

    return act


def test_a_folder_is_made_with_those_above_it(tmp_path: Path) -> None:
    make_folder(tmp_path / "a" / "b")
    make_folder(tmp_path / "a" / "b")
    assert names_in(tmp_path / "a" / "b") == set()


def test_a_file_where_a_folder_should_be_is_a_fault(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("a file")
    with pytest.raises(Fault) as raised:
        make_folder(tmp_path / "a" / "b")
    assert (raised.value.exit, raised.value.code) == (Exit.WRITE, "cannot-write")
    assert (tmp_path / "a").read_text() == "a file"


def test_a_folder_that_takes_no_file_is_a_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "NamedTemporaryFile", refuse)
    with pytest.raises(Fault, match="can't be written"):
        make_folder(tmp_path)


def test_a_refusal_without_a_number_is_still_told() -> None:
    assert write_fault(Path("plates"), OSError("odd")).text == "plates can't be written: odd."


def test_the_fingerprint_is_of_the_bytes(tmp_path: Path) -> None:
    data = bytes(range(256)) * 9000  # more than one block
    (tmp_path / "data").write_bytes(data)
    assert sha256_of(tmp_path / "data") == hashlib.sha256(data).hexdigest()


def test_what_a_killed_run_left_goes_with_the_next_and_other_programs_files_stay(
    tmp_path: Path,
) -> None:
    left = [tmp_path / ".proof-ab_1x9zq.pdf.part", tmp_path / "plates" / ".probe-12345678.part"]
    others = [tmp_path / ".film.part", tmp_path / "a" / "b" / "c" / ".x-12345678.pdf.part"]
    for path in (*left, *others):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("half")
    (tmp_path / ".folder-12345678.part").mkdir()
    with alone_in(tmp_path):
        assert not any(path.exists() for path in left)
    assert all(path.exists() for path in others)


def test_a_file_written_anew_takes_away_its_own_half_one_of_a_killed_run(tmp_path: Path) -> None:
    (tmp_path / ".note [2]-ab_1x9zq.txt.part").write_text("half")
    (tmp_path / ".notes-ab_1x9zq.txt.part").write_text("another's")
    write_text(tmp_path / "note [2].txt", "whole")
    assert names_in(tmp_path) == {"note [2].txt", ".notes-ab_1x9zq.txt.part"}


def test_files_whose_long_names_begin_alike_are_written_together(tmp_path: Path) -> None:
    finals = [tmp_path / f"{'n' * 240}{number}.txt" for number in range(3)]
    with Together() as together:
        for final in finals:
            together.working(final).write_text(final.name)
    assert [final.read_text() for final in finals] == [final.name for final in finals]


def test_a_folder_that_is_gone_can_hold_no_run(tmp_path: Path) -> None:
    with pytest.raises(Fault, match="can't be written") as raised, alone_in(tmp_path / "gone"):
        pass
    assert "moved or deleted" in raised.value.mend


def test_what_goes_goes_before_the_last_name_is_given(tmp_path: Path) -> None:
    for name in ("stale.txt", "manifest"):
        (tmp_path / name).write_text("old")
    with pytest.raises(KeyError), Together() as together:
        together.let_go([tmp_path / "stale.txt"])
        raise KeyError
    assert (tmp_path / "stale.txt").exists()
    told: list[tuple[Path, ...]] = []

    def claim(finals: tuple[Path, ...]) -> Callable[[], None]:
        told.append(finals)
        return told.clear

    with Together(claim=claim) as together:
        together.let_go([tmp_path / "stale.txt"])
        together.working(tmp_path / "manifest").write_text("new")
        assert told == []
    assert told == [(tmp_path / "manifest",)]
    assert names_in(tmp_path) == {"manifest"}


def test_a_note_of_files_to_come_is_taken_back_where_none_of_them_could_be_made(
    tmp_path: Path,
) -> None:
    told: list[tuple[Path, ...]] = []

    def claim(finals: tuple[Path, ...]) -> Callable[[], None]:
        told.append(finals)
        return told.clear

    (tmp_path / "one.txt").mkdir()
    with pytest.raises(Fault), Together(claim=claim) as together:
        together.working(tmp_path / "one.txt").write_text("one")
    assert told == []
    with pytest.raises(Fault), Together(claim=claim) as together:
        together.working(tmp_path / "two.txt").write_text("two")
        together.working(tmp_path / "one.txt").write_text("one")
    assert told == [(tmp_path / "two.txt", tmp_path / "one.txt")]
