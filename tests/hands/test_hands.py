"""A second process: the same answers, and nothing left behind whatever happens.

Test runners keep threads of their own, beside which nothing is forked; so each of these is a
script run by a fresh interpreter.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from addressing import hands
from addressing.hands import Hand

BEGIN = """
import os, sys, time
from addressing import hands
from addressing.faults import Fault
from addressing.hands import Hand
hands.SEVERAL = True
"""

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system doesn't fork")


def run(script: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", BEGIN + script]
    return subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)  # noqa: S603


def lives(process: int) -> bool:
    """True while a process of this number is at work (one that ended and waits is none)."""
    status = Path(f"/proc/{process}/stat")
    try:
        return status.read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def gone(process: int) -> bool:
    """True when a process ends within some seconds."""
    for _ in range(200):
        if not lives(process):
            return True
        time.sleep(0.05)
    return False


def test_the_work_is_done_in_another_process_and_its_answer_comes_whole() -> None:
    done = run(
        "with Hand(lambda: (os.getpid(), 'x' * 1_000_000)) as other:\n"
        "    process, words = other.answer()\n"
        "print(process != os.getpid(), len(words))\n"
    )
    assert done.stdout.split() == ["True", "1000000"], done.stderr


@pytest.mark.parametrize("reason", ["worth", "thread", "machine"])
def test_where_none_may_be_forked_the_same_work_is_done_here(reason: str) -> None:
    done = run(
        "import threading\n"
        f"reason = {reason!r}\n"
        "wait = threading.Event()\n"
        "if reason == 'thread':\n"
        "    threading.Thread(target=wait.wait, daemon=True).start()\n"
        "hands.SEVERAL = reason != 'machine'\n"
        "with Hand(os.getpid, worth=reason != 'worth') as other:\n"
        "    print(other.answer() == os.getpid())\n"
        "wait.set()\n"
    )
    assert done.stdout.split() == ["True"], done.stderr


def test_what_the_work_raises_is_raised_here() -> None:
    done = run(
        "from addressing.faults import Exit\n"
        "def work(): raise Fault(Exit.INPUT, 'face-unusable', 'Text.', 'Mend.')\n"
        "try:\n"
        "    with Hand(work) as other:\n"
        "        other.answer()\n"
        "except Fault as fault:\n"
        "    print(int(fault.exit), fault.code, fault.text, fault.mend)\n"
    )
    assert done.stdout == "3 face-unusable Text. Mend.\n", done.stderr


def test_a_process_that_dies_is_a_fault_that_says_so() -> None:
    done = run(
        "import signal\n"
        "try:\n"
        "    with Hand(lambda: os.kill(os.getpid(), signal.SIGKILL)) as other:\n"
        "        other.answer()\n"
        "except Fault as fault:\n"
        "    print(int(fault.exit), fault.code, fault.text)\n"
        "try:\n"
        "    os.waitpid(-1, os.WNOHANG)\n"
        "except ChildProcessError:\n"
        "    print('nobody left')\n"
    )
    assert done.stdout.splitlines()[0].startswith("70 second-process-ended "), done.stderr
    assert "(signal 9)" in done.stdout
    assert done.stdout.splitlines()[1] == "nobody left"


def test_an_answer_that_cannot_be_handed_over_is_told_and_not_waited_for() -> None:
    done = run(
        "try:\n"
        "    with Hand(lambda: lambda: 1) as other:\n"
        "        other.answer()\n"
        "except Exception as error:\n"
        "    print(type(error).__name__)\n"
    )
    assert done.stdout.strip() in {"PicklingError", "AttributeError"}, done.stderr


SLEEPS = """
def work():
    with open(sys.argv[1], "w") as stream:
        stream.write(str(os.getpid()))
    time.sleep(60)
"""


def child_of(path: Path) -> int:
    """The number of the second process, once it is at work."""
    for _ in range(200):
        if path.exists() and path.read_text():
            return int(path.read_text())
        time.sleep(0.05)
    pytest.fail("the second process never began")


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGKILL"])
def test_no_process_is_left_when_the_first_is_stopped(tmp_path: Path, name: str) -> None:
    told = tmp_path / "process"
    script = BEGIN + SLEEPS + "with Hand(work) as other:\n    other.answer()\n"
    process = subprocess.Popen([sys.executable, "-c", script, str(told)], stderr=subprocess.DEVNULL)  # noqa: S603
    child = child_of(told)
    process.send_signal(getattr(__import__("signal"), name))
    process.wait(timeout=30)
    assert gone(child)


def test_no_process_is_left_when_the_work_beside_it_fails(tmp_path: Path) -> None:
    told = tmp_path / "process"
    script = (
        BEGIN + SLEEPS + "with Hand(work) as other:\n"
        "    while not os.path.exists(sys.argv[1]): time.sleep(0.01)\n"
        "    raise OSError('full')\n"
    )
    done = subprocess.run(  # noqa: S603
        [sys.executable, "-c", script, str(told)], capture_output=True, timeout=60, check=False
    )
    assert b"OSError: full" in done.stderr
    assert not lives(child_of(told))


def test_work_without_the_search_for_cycles_has_it_again_afterwards() -> None:
    import gc  # noqa: PLC0415 - only here

    assert gc.isenabled()
    with hands.steadily():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_the_answer_of_small_work_is_had_without_a_process() -> None:
    with Hand(os.getpid, worth=False) as other:
        assert other.answer() == os.getpid()


PARTS = "from addressing.hands import HandInParts\n"


@pytest.mark.parametrize("several", ["True", "False"])
def test_parts_come_one_by_one_in_order_wherever_the_work_is_done(several: str) -> None:
    done = run(
        PARTS + f"hands.SEVERAL = {several}\n"
        "def work():\n"
        "    for number in range(300):\n"
        "        yield number, os.getpid(), bytes(1000)\n"
        "with HandInParts(work) as other:\n"
        "    parts = list(other.parts())\n"
        "numbers, processes, _ = zip(*parts)\n"
        "print(list(numbers) == list(range(300)), set(processes) != {os.getpid()})\n"
    )
    assert done.stdout.split() == ["True", several], done.stderr


def test_parts_are_handed_over_before_the_last_is_done() -> None:
    done = run(
        PARTS + "def work():\n"
        "    yield 1\n"
        "    time.sleep(600)\n"
        "with HandInParts(work) as other:\n"
        "    print(next(other.parts()))\n"
    )
    assert done.stdout.split() == ["1"], done.stderr


def test_what_the_work_raises_between_its_parts_is_raised_behind_those_before() -> None:
    done = run(
        PARTS + "def work():\n"
        "    yield 1\n"
        "    raise ValueError('two')\n"
        "with HandInParts(work) as other:\n"
        "    try:\n"
        "        for part in other.parts(): print(part)\n"
        "    except ValueError as error: print(error)\n"
    )
    assert done.stdout.split() == ["1", "two"], done.stderr


@pytest.mark.parametrize("written", ["1", "b'x' * 1_000_000"])
def test_a_process_that_ends_between_or_within_its_parts_is_told(written: str) -> None:
    done = run(
        PARTS + "def work():\n"
        f"    yield {written}\n"
        "    os._exit(3)\n"
        "with HandInParts(work) as other:\n"
        "    try:\n"
        "        list(other.parts())\n"
        "    except Fault as fault: print(fault.code, 'code 3' in fault.text)\n"
    )
    assert done.stdout.split() == ["second-process-ended", "True"], done.stderr
