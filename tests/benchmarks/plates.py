"""How fast plates are, next to general libraries on the same envelopes in the same run.

    python tests/benchmarks/plates.py [--counts 1000,10000] [--rounds 3] [--rivals PYTHON]

Each figure is a whole process: start, imports, envelopes, file closed; the median of the rounds,
taken in turns, since on a shared machine only ratios within one run mean anything. PYTHON is an
interpreter of a throwaway environment for the rivals; those that can't be imported are left out:

    python -m venv rivals
    rivals/bin/pip install reportlab typst fpdf2 uharfbuzz pangocairocffi
    rivals/bin/pip install fontpkg-great-vibes==1.103

CPU is processor time: typst and we work on several cores at once, the rest on one. MB is the
most that a process and those that it started held together: the sum of their proportional sets
(PSS of /proc/PID/smaps_rollup: what several share counts once), looked at every 10 ms in a run of
its own, so that looking takes no time from the others.

"plates" is typesetting (measured, one size chosen for the set, ink-centred) and the file; "and
proof" adds the judge. The others draw the same lines at a fixed 24 pt.
"""

# This script prints and starts processes: it is run by hand.
# ruff: noqa: T201, S603

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parent
OURS = {"plates": ("ours.py", "plates"), "plates and proof": ("ours.py", "proof")}
RIVALS = {
    "typst": "typst",
    "pango and cairo": "pango",
    "reportlab, plain": "reportlab",
    "fpdf2, shaped": "fpdf2",
}
SLOW = {"fpdf2, shaped"}
"""Run at the smallest count only."""


def run(command: list[str], out: Path) -> tuple[float, float, int] | None:
    """Seconds, processor seconds, bytes of one process's file; None if it fails."""
    out.unlink(missing_ok=True)
    started = time.perf_counter()
    process = subprocess.Popen([*command, str(out)], stderr=subprocess.PIPE)
    assert process.stderr is not None
    errors = process.stderr.read()
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - started
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode or not out.exists():
        last = errors.decode(errors="replace").strip().splitlines()[-1:] or ["no file"]
        print(f"  left out: {' '.join(command[1:3])}: {last[0]}", file=sys.stderr)
        return None
    return seconds, usage.ru_utime + usage.ru_stime, out.stat().st_size


def peak(command: list[str], out: Path) -> float:
    """The most megabytes that a process and those that it started held at one time."""
    most = 0.0
    process = subprocess.Popen([*command, str(out)], stderr=subprocess.DEVNULL)
    while process.poll() is None:
        most = max(most, held(process.pid))
        time.sleep(0.01)
    return most


def held(process: int) -> float:
    """Megabytes of a process and its children now, what they share counted once."""
    try:
        children = Path(f"/proc/{process}/task/{process}/children").read_text().split()
        kilobytes = sum(
            int(line.split()[1])
            for each in (process, *children)
            for line in Path(f"/proc/{each}/smaps_rollup").read_text().splitlines()
            if line.startswith("Pss:")
        )
    except (OSError, IndexError):  # it ended meanwhile
        return 0.0
    return kilobytes / 1024


def commands(count: int, rivals: str, *, slow: bool) -> dict[str, list[str]]:
    """Who runs, and how."""
    table = {
        who: [sys.executable, str(HERE / script), how, str(count)]
        for who, (script, how) in OURS.items()
    }
    for who, how in RIVALS.items():
        if slow or who not in SLOW:
            table[who] = [rivals, str(HERE / "rivals.py"), how, str(count)]
    return table


def compare(count: int, rounds: int, rivals: str, *, slow: bool) -> None:
    """Run everyone in turns and print the table for one count."""
    table = commands(count, rivals, slow=slow)
    runs: dict[str, list[tuple[float, float, int]]] = {who: [] for who in table}
    with tempfile.TemporaryDirectory() as folder:
        for _ in range(rounds):
            for who in list(table):
                measured = run(table[who], Path(folder) / "plate.pdf")
                if measured is None:
                    del table[who]
                    continue
                runs[who].append(measured)
        memory = {who: peak(table[who], Path(folder) / "plate.pdf") for who in table}
    print(
        f"\n{count} envelopes    seconds (least-most)    CPU  a second     MB bytes each  of typst"
    )
    seconds = {who: statistics.median(r[0] for r in runs[who]) for who in table}
    for who in table:
        times = [r[0] for r in runs[who]]
        processor = statistics.median(r[1] for r in runs[who])
        ratio = f"{seconds[who] / seconds['typst']:.2f}" if "typst" in seconds else "-"
        print(
            f"{who:18} {seconds[who]:6.2f} ({min(times):.2f}-{max(times):.2f})"
            f" {processor:8.2f} {count / seconds[who]:9.0f} {memory[who]:7.0f}"
            f" {runs[who][0][2] / count:10.0f} {ratio:>10}"
        )


def main() -> None:
    """Read the options and compare."""
    parser = argparse.ArgumentParser(description="Plates against general libraries.")
    parser.add_argument("--counts", default="1000,10000")
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--rivals", default=sys.executable)
    options = parser.parse_args()
    counts = [int(count) for count in options.counts.split(",")]
    for count in counts:
        compare(count, options.rounds, options.rivals, slow=count == min(counts))


if __name__ == "__main__":
    main()
