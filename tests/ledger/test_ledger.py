"""What is on paper: good, due or wrong, and a file that keeps it through a crash."""

import errno
import signal
import sqlite3
import stat
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.ledger import LEDGER, Ledger, compare, fingerprint, open_ledger, used_up
from addressing.records.docket import PieceChoice
from addressing.records.pages import Second, Setting, Underbase, Varnish
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import BESIDE
from addressing.records.prints import Print, Printing, Wanted
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit

NAMES = ("Tobias Wexcombe", "Odile Farrenby", "Ysolde Penhew")


def wanted(number: int, print_: str = "w.f.p.i", kind: str = "outer") -> Wanted:
    return Wanted(kind, "White", f"h-{number}", NAMES[number], print_)


def printed(ledger: Ledger, *pieces: Wanted, sha256: str = "a") -> int:
    return ledger.add(Printing("plates/01-outer-white.pdf", sha256, "2026-05-30"), pieces)


def test_what_was_printed_is_read_back_in_order(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(1), wanted(0))
    with open_ledger(tmp_path) as ledger:
        assert ledger.prints() == (
            Print(run, 1, wanted(1), "printed", "2026-05-30"),
            Print(run, 2, wanted(0), "printed", "2026-05-30"),
        )
        assert ledger.runs_of("a", "outer") == (run,)
        assert ledger.runs_of("b", "outer") == ()


def test_a_plate_that_several_kinds_share_is_known_for_each_of_them_by_itself(
    tmp_path: Path,
) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(0, kind="place-card"))
        blank = ledger.add(Printing("plates/02.pdf", "blank", None), (None, None))
        assert ledger.runs_of("a", "place-card") == (run,)
        assert ledger.runs_of("a", "escort-card") == ()
        assert ledger.runs_of("blank", "outer") == (blank,)


def test_nothing_printed_means_everything_is_new() -> None:
    balance = compare((), [wanted(0), wanted(1)])
    assert [(each.wanted.household, each.why) for each in balance.due] == [
        ("h-0", "new"),
        ("h-1", "new"),
    ]
    assert (balance.good, balance.wrong) == ((), ())


def test_the_same_print_is_good_and_neither_due_nor_wrong(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0))
        balance = compare(ledger.prints(), [wanted(0)])
    assert [each.wanted for each in balance.good] == [wanted(0)]
    assert (balance.due, balance.wrong) == ((), ())


@pytest.mark.parametrize(
    ("now", "why"),
    [
        ("W.f.p.i", "words changed"),
        ("W.f.P.i", "words changed"),
        ("w.F.p.i", "face changed"),
        ("w.f.p.I", "ink and layout changed"),
        ("w.F.P.i", "face, size and place changed"),
    ],
)
def test_a_changed_print_is_due_and_the_old_one_wrong_for_the_same_reason(
    tmp_path: Path, now: str, why: str
) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0))
        balance = compare(ledger.prints(), [wanted(0, now)])
    assert [each.why for each in balance.due] == [why]
    assert [(each.wanted.household, reason) for each, reason in balance.wrong] == [("h-0", why)]


def test_a_print_that_would_only_stand_elsewhere_is_told_apart_and_is_wrong_once_a_new_one_is_there(
    tmp_path: Path,
) -> None:
    now = [wanted(0, "w.f.P.i"), wanted(1, "W.f.P.i")]
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0), wanted(1))
        balance = compare(ledger.prints(), now)
        assert [each.why for each in balance.due] == ["size and place changed", "words changed"]
        assert [each.wanted for each in balance.moved] == [wanted(0)]
        assert [each.wanted for each, _ in balance.wrong] == [wanted(1)]
        printed(ledger, now[0], sha256="b")
        balance = compare(ledger.prints(), now)
    assert balance.moved == ()
    assert [(each.wanted, why) for each, why in balance.wrong] == [
        (wanted(0), "size and place changed"),
        (wanted(1), "words changed"),
    ]


def test_of_two_inks_in_one_file_both_must_only_stand_elsewhere(tmp_path: Path) -> None:
    both = replace(wanted(0), ink=f"White{BESIDE}Gold")
    now = [
        replace(wanted(0), ink="White", print="w.f.P.i"),
        replace(wanted(0), ink="Gold", print="w.F.P.i"),
    ]
    with open_ledger(tmp_path) as ledger:
        printed(ledger, both)
        balance = compare(ledger.prints(), now)
        assert (balance.moved, len(balance.wrong)) == ((), 1)
        balance = compare(ledger.prints(), [now[0], replace(now[1], print="w.f.P.i")])
    assert [each.wanted for each in balance.moved] == [both]


def test_a_household_that_left_leaves_a_wrong_print(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0), wanted(1))
        balance = compare(ledger.prints(), [wanted(1)])
    assert [each.wanted.household for each, _ in balance.wrong] == ["h-0"]
    assert "no longer on the list" in balance.wrong[0][1]


def test_a_spoiled_page_is_due_again_and_is_no_wrong_print(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(0), wanted(1), wanted(2))
        marked = ledger.mark(run, [2, 3], "spoiled")
        assert [each.page for each in marked] == [2, 3]
        balance = compare(ledger.prints(), [wanted(0), wanted(1), wanted(2)])
        assert [(each.wanted.household, each.why) for each in balance.due] == [
            ("h-1", "spoiled"),
            ("h-2", "spoiled"),
        ]
        assert balance.wrong == ()
        printed(ledger, wanted(1), wanted(2), sha256="b")
        assert compare(ledger.prints(), [wanted(0), wanted(1), wanted(2)]).due == ()


def test_a_wrong_print_that_was_handed_over_is_told_to_the_client(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(0))
        ledger.mark(run, [1], "handed over")
        assert compare(ledger.prints(), [wanted(0)]).due == ()
        ((_, why),) = compare(ledger.prints(), [wanted(0, "W.f.p.i")]).wrong
    assert "tell the client" in why


def test_a_destroyed_print_is_wrong_no_more(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(0))
        ledger.mark(run, [1], "destroyed")
        balance = compare(ledger.prints(), [])
    assert balance.wrong == ()


def test_a_page_that_isn_t_there_changes_nothing(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(0))
        with pytest.raises(Fault) as raised:
            ledger.mark(run, [1, 7], "spoiled")
        assert (raised.value.exit, raised.value.code) == (Exit.OPTIONS, "page-unknown")
        assert [each.state for each in ledger.prints()] == ["printed"]


def test_only_its_owner_can_read_a_ledger(tmp_path: Path) -> None:
    with open_ledger(tmp_path):
        pass
    assert stat.S_IMODE((tmp_path / LEDGER).stat().st_mode) == 0o600


KILLED = """
import os, signal, sqlite3, sys
from pathlib import Path
from addressing.ledger import open_ledger
from addressing.records.prints import Printing, Wanted
def pieces():
    for number in range(1000):
        if number == 500:
            os.kill(os.getpid(), signal.SIGKILL)
        yield Wanted("outer", "White", f"h-{number}", "A", "w.f.p.i")
with open_ledger(Path(sys.argv[1])) as ledger:
    ledger.add(Printing("plate", "b"), pieces())
"""


def test_a_run_killed_while_it_is_written_was_never_printed(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0))
    killed = subprocess.run([sys.executable, "-c", KILLED, str(tmp_path)], check=False)  # noqa: S603
    assert killed.returncode == -signal.SIGKILL
    with open_ledger(tmp_path) as ledger:
        assert [each.wanted for each in ledger.prints()] == [wanted(0)]
        assert printed(ledger, wanted(1), sha256="c") == 2


KILLED_BETWEEN = """
import os, signal, sys
from pathlib import Path
from addressing.ledger import open_ledger
from addressing.records.prints import Printing, Wanted
number = int(sys.argv[2])
with open_ledger(Path(sys.argv[1])) as ledger, ledger.at_once():
    steps = (
        lambda: ledger.add(Printing("p1", "b"), [Wanted("outer", "White", "h-1", "A", "w.f.p.i")]),
        lambda: ledger.add(Printing("p2", "c"), [Wanted("outer", "Gold", "h-1", "A", "w.f.p.i")]),
        lambda: ledger.mark(1, [1], "spoiled"),
        lambda: ledger.mark(2, [1], "spoiled"),
    )
    for at, step in enumerate(steps):
        step()
        if at == number:
            os.kill(os.getpid(), signal.SIGKILL)
"""


@pytest.mark.parametrize("after", range(5))
def test_what_is_written_at_once_is_there_whole_or_not_at_all_wherever_it_is_killed(
    tmp_path: Path, after: int
) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0))
    command = [sys.executable, "-c", KILLED_BETWEEN, str(tmp_path), str(after)]
    killed = subprocess.run(command, check=False)  # noqa: S603
    assert killed.returncode == (-signal.SIGKILL if after < 4 else 0)
    with open_ledger(tmp_path) as ledger:
        states = [each.state for each in ledger.prints()]
    assert states == (["printed"] if after < 4 else ["spoiled", "spoiled", "printed"])


def test_a_page_that_isn_t_there_takes_back_what_was_marked_with_it(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        run = printed(ledger, wanted(0), wanted(1))

        def both() -> None:
            with ledger.at_once():
                ledger.mark(run, [1], "spoiled")
                ledger.mark(run, [9], "spoiled")

        with pytest.raises(Fault):
            both()
        assert {each.state for each in ledger.prints()} == {"printed"}


@pytest.mark.parametrize("content", [b"no ledger at all", b"SQLite format 3\0" + b"x" * 4000])
def test_a_file_that_is_no_ledger_is_refused_and_left_as_it_is(
    tmp_path: Path, content: bytes
) -> None:
    (tmp_path / LEDGER).write_bytes(content)
    with pytest.raises(Fault) as raised, open_ledger(tmp_path):
        pass
    assert (raised.value.exit, raised.value.code) == (Exit.INPUT, "ledger-unreadable")
    assert (tmp_path / LEDGER).read_bytes() == content


def test_another_programs_database_is_refused(tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / LEDGER) as connection:
        connection.execute("CREATE TABLE guest (name TEXT)")
    with pytest.raises(Fault) as raised, open_ledger(tmp_path):
        pass
    assert raised.value.code == "ledger-unreadable"


def test_a_newer_ledger_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    with open_ledger(tmp_path):
        pass
    with sqlite3.connect(tmp_path / LEDGER) as connection:
        connection.execute("PRAGMA user_version = 99")
    content = (tmp_path / LEDGER).read_bytes()
    with pytest.raises(Fault) as raised, open_ledger(tmp_path):
        pass
    assert (raised.value.exit, raised.value.code) == (Exit.INPUT, "ledger-newer")
    assert (tmp_path / LEDGER).read_bytes() == content


@pytest.mark.parametrize(
    ("form", "lacks"),
    [
        (1, ("press", "stock", "layout", "size")),
        (2, ("layout", "size")),
        (3, ("size",)),
        (4, ("size",)),
        (5, ()),
        (6, ()),
    ],
)
def test_an_older_ledger_grows_and_keeps_what_is_in_it(
    tmp_path: Path, form: int, lacks: tuple[str, ...]
) -> None:
    """The first had neither place nor paper of a run, the second no layout, none its size."""
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0), wanted(1))
    with sqlite3.connect(tmp_path / LEDGER) as connection:
        for column in (*lacks, "opens", "closes"):
            connection.execute(f"ALTER TABLE run DROP COLUMN {column}")
        if form < 4:
            connection.execute("DROP TABLE copies")
        if form < 6:
            connection.execute("DROP TABLE change")
        connection.execute(f"PRAGMA user_version = {form}")
    for _ in range(2):
        with open_ledger(tmp_path) as ledger:
            assert [each.wanted for each in ledger.prints()] == [wanted(0), wanted(1)]
            assert ledger.tried() == {(None, "White", None, None)}
            assert ledger.copies() == ()
            assert len(ledger.history()) == (form == 6)
            assert ledger.is_as_left()
    with open_ledger(tmp_path) as ledger:
        made = Printing(
            "p", "b", press="home-toner", stock="ivory", layout="a7", size=21.5, opens=9, closes=1
        )
        run = ledger.add(made, [wanted(2)])
        assert (ledger.files()[run], ledger.files()[1].opens) == (made, None)
        assert [each.size for each in ledger.prints()] == [None, None, 21.5]
        assert ("home-toner", "White", "ivory", "a7") in ledger.tried()
        assert len(ledger.history()) == 1 + (form == 6)


def test_a_folder_that_can_t_be_written_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_words: object) -> int:
        raise PermissionError(errno.EACCES, "no")

    monkeypatch.setattr("addressing.ledger.book.os.open", refuse)
    with pytest.raises(Fault) as raised, open_ledger(tmp_path):
        pass
    assert raised.value.exit == Exit.WRITE


def test_a_folder_that_is_not_there_holds_no_job(tmp_path: Path) -> None:
    with pytest.raises(Fault) as raised, open_ledger(tmp_path / "gone"):
        pass
    assert (raised.value.exit, raised.value.code) == (Exit.INPUT, "job-missing")
    assert not (tmp_path / "gone").exists()


def set_one(face: Face, layout: Layout, ink: Ink, text: str, size: float = 14.0) -> Setting:
    piece = Piece("outer", "h-a", "A", (Wording((Line(text, Role.NAME),)),))
    choice = PieceChoice("outer", "trial", "face", "White", "deep-green", size=size)
    setting, _ = fit([piece], choice, layout, face, ink, 0.0)
    return setting


def test_a_fingerprint_tells_words_face_place_and_ink_apart(
    script: Face, envelope: Layout, white: Ink
) -> None:
    def parts(setting: Setting) -> list[str]:
        return fingerprint(setting, setting.pieces[0]).split(".")

    one = set_one(script, envelope, white, NAMES[0])
    assert parts(one) == parts(set_one(script, envelope, white, NAMES[0]))
    other = replace(one, pieces=(replace(one.pieces[0], household="h-b", name="B"),))
    assert parts(one) == parts(other)
    swash = set_one(replace(script, features=(("swsh", 1),)), envelope, white, NAMES[0])
    smaller = set_one(script, envelope, white, NAMES[0], size=13.0)
    gold = set_one(script, envelope, replace(white, spot="Gold"), NAMES[0])
    words = set_one(script, envelope, white, NAMES[1])
    differs = [
        [a != b for a, b in zip(parts(one), parts(each), strict=True)]
        for each in (words, swash, smaller, gold)
    ]
    assert differs[0][0]
    assert differs[1:] == [
        [False, True, False, False],
        [False, False, True, False],
        [False, False, False, True],
    ]
    # The same words in the same place of a larger envelope are another print.
    wide = replace(one, layout=replace(one.layout, width=one.layout.width + 10))
    high = replace(one, layout=replace(one.layout, height=one.layout.height + 10))
    for other in (wide, high):
        changed = [a != b for a, b in zip(parts(one), parts(other), strict=True)]
        assert changed == [False, False, False, True]


def test_all_that_is_seen_on_paper_is_in_the_fingerprint(
    roman: Face, envelope: Layout, white: Ink
) -> None:
    """Each change alone, in the part that it belongs to: words, face, place, ink."""
    gold = replace(white, key="Gold", spot="Gold")
    one = set_one(roman, envelope, white, "Odile Farrenby USMC")
    piece = one.pieces[0]
    line = piece.lines[0]
    zone, face = one.zone, one.face

    def with_face(**changes: object) -> Setting:
        return replace(one, face=replace(face, **changes))  # type: ignore[arg-type]

    changes = {
        1: [
            with_face(axes=(("wght", 500.0),)), with_face(tracking=20), with_face(word_space=30),
            with_face(in_capitals=True), with_face(small_words=True), with_face(sha256="0"),
        ],
        2: [
            replace(one, pieces=(replace(piece, lines=(line._replace(size=line.size + 1),)),)),
            replace(one, pieces=(replace(piece, lines=(line._replace(y=line.y + 1),)),)),
            replace(one, zone=replace(zone, align="arch")),
            replace(one, zone=replace(zone, align="bowl")),
            replace(one, zone=replace(zone, align="arch", radius=300.0)),
            replace(one, zone=replace(zone, turn=90)),
            replace(one, zone=replace(zone, turn=180)),
        ],
        3: [
            replace(one, underbase=Underbase(gold, 0.1)),
            replace(one, underbase=Underbase(gold, 0.2)),
            replace(one, varnish=Varnish(gold)), replace(one, varnish=Varnish(gold, "all")),
            replace(one, hits=((white.key, 2),)), replace(one, hits=((white.key, 3),)),
            replace(one, ink=replace(white, channel="black")),
        ],
    }  # fmt: skip
    plain = fingerprint(one, piece).split(".")
    seen = {tuple(plain)}
    for part, settings in changes.items():
        for setting in settings:
            other = fingerprint(setting, setting.pieces[0]).split(".")
            assert [at for at in range(4) if other[at] != plain[at]] == [part]
            seen.add(tuple(other))
    assert len(seen) == 1 + sum(map(len, changes.values()))


def test_small_capitals_change_only_what_has_words_in_capitals(
    roman: Face, envelope: Layout, white: Ink
) -> None:
    one = set_one(roman, envelope, white, "Odile Farrenby")
    small = replace(one, face=replace(one.face, small_words=True))
    assert fingerprint(one, one.pieces[0]) == fingerprint(small, small.pieces[0])


def test_a_change_is_on_the_disk_before_it_is_said_to_be_done(tmp_path: Path) -> None:
    # SQLite waits for the disk at synchronous = FULL (2), so that a power cut loses nothing.
    with open_ledger(tmp_path) as ledger:
        (level,) = ledger._connection.execute("PRAGMA synchronous").fetchone()  # noqa: SLF001 - no other way to see it
    assert level == 2


def test_a_ledger_that_another_program_is_at_is_told_and_left_as_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("addressing.ledger.book.PATIENCE", 0.05)
    with open_ledger(tmp_path) as ledger:
        printed(ledger, wanted(0))
        other = sqlite3.connect(tmp_path / LEDGER, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Fault) as raised:
            printed(ledger, wanted(1), sha256="b")
        other.execute("ROLLBACK")
        other.close()
        assert (raised.value.exit, raised.value.code) == (Exit.WRITE, "cannot-write")
        assert "another program is at it" in raised.value.text
        assert [each.wanted for each in ledger.prints()] == [wanted(0)]


def test_a_ledger_that_is_locked_is_not_called_damaged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("addressing.ledger.book.PATIENCE", 0.05)
    with open_ledger(tmp_path) as ledger:
        other = sqlite3.connect(tmp_path / LEDGER, isolation_level=None)
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(Fault) as opened, open_ledger(tmp_path):
            pass
        with pytest.raises(Fault) as read:
            ledger.prints()
        other.execute("ROLLBACK")
        other.close()
    assert [each.value.code for each in (opened, read)] == ["cannot-write"] * 2


@pytest.mark.parametrize("zeros", [4096, 2], ids=["a page", "where a print lies"])
def test_a_ledger_that_is_ruined_within_is_refused_and_left_as_it_is(
    tmp_path: Path, zeros: int
) -> None:
    """The head stays whole, so that the file says that it is ours."""
    with open_ledger(tmp_path) as ledger:
        printed(ledger, *(wanted(number % 3) for number in range(400)))
    path = tmp_path / LEDGER
    content = path.read_bytes()
    at = len(content) - 4096 + (20 if zeros < 4096 else 0)  # in the last page's list of places
    hurt = content[:at] + bytes(zeros) + content[at + zeros :]
    path.write_bytes(hurt)
    with pytest.raises(Fault) as raised, open_ledger(tmp_path):
        pass
    assert raised.value.code == "ledger-unreadable"
    assert path.read_bytes() == hurt


def test_inks_that_a_file_has_together_were_each_tried(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        made = Printing("p", "a", press="hollin", stock="ivory", layout="a7")
        ledger.add(made, [replace(wanted(0), ink=BESIDE.join(("White", "Gold")))])
        assert ledger.tried() == {
            ("hollin", "White", "ivory", "a7"), ("hollin", "Gold", "ivory", "a7"),
        }  # fmt: skip


def in_ink(ink: str, print_: str = "w.f.p.i") -> Wanted:
    return replace(wanted(0, print_), ink=ink)


@pytest.mark.parametrize(
    ("were", "now"),
    [
        (("White + Gold",), ("White", "Gold")),
        (("White", "Gold"), ("White + Gold",)),
        (("White + Gold",), ("Gold",)),
        (("White + Gold",), ("Gold + White",)),
    ],
)
def test_inks_on_paper_together_or_apart_are_there_however_they_are_wanted_now(
    tmp_path: Path, were: tuple[str, ...], now: tuple[str, ...]
) -> None:
    with open_ledger(tmp_path) as ledger:
        for ink in were:
            printed(ledger, in_ink(ink))
        balance = compare(ledger.prints(), map(in_ink, now))
        changed = compare(ledger.prints(), [in_ink(ink, "W.f.p.i") for ink in now])
    assert [each.wanted.ink for each in balance.good] == list(were)
    assert (balance.due, balance.wrong) == ((), ())
    assert changed.good == ()
    assert {each.why for each in changed.due} == {why for _, why in changed.wrong}
    assert [each.wanted.ink for each in changed.due] == list(now)


def test_one_ink_on_paper_of_two_that_are_one_file_now_is_no_good(tmp_path: Path) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, in_ink("White"))
        balance = compare(ledger.prints(), [in_ink("White + Gold")])
        apart = compare(ledger.prints(), [in_ink("White"), in_ink("Gold")])
    assert balance.good == ()
    assert [each.why for each in balance.due] == ["only White is on paper"]
    assert [why for _, why in balance.wrong] == [
        "White alone is on it, and White + Gold are one file now"
    ]
    assert len(apart.good) == 1
    assert [(each.wanted.ink, each.why) for each in apart.due] == [("Gold", "new")]


def test_envelopes_with_both_inks_at_once_and_with_one_after_the_other_are_all_counted(
    tmp_path: Path,
) -> None:
    with open_ledger(tmp_path) as ledger:
        printed(ledger, in_ink("White + Gold"), in_ink("White + Gold"))
        printed(ledger, in_ink("White"))
        printed(ledger, in_ink("Gold"))
        assert used_up(ledger.prints()) == {"outer": 3}


def test_the_hand_of_the_address_is_in_the_fingerprint_too(
    roman: Face, envelope: Layout, white: Ink
) -> None:
    """Another file, features, axes: the lines may stand where they stood."""
    one = set_one(roman, envelope, white, "Odile Farrenby")
    faces = [roman, *(replace(roman, **change) for change in (
        {"sha256": "0"}, {"features": (("swsh", 1),)}, {"axes": (("wght", 500.0),)},
        {"tracking": 20},
    ))]  # fmt: skip
    prints = [
        fingerprint(replace(one, second=Second(face, 0.7, 12.0, 2.0)), one.pieces[0]).split(".")
        for face in faces
    ]
    assert len({each[1] for each in prints}) == len(faces)
    assert len({(each[0], *each[2:]) for each in prints}) == 1
