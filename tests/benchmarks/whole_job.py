"""The whole job, from a workbook to proved plates and proof sheets, by stage.

    python tests/benchmarks/whole_job.py [--counts 1000,10000] [--rounds 1]

A workbook of invented households in real towns is made in a temporary folder; then a fresh process
does what `addressing plates` does and says how long each stage took. "rest" is start, imports,
digests, counts and the files' settling. With `--profile STAGE` the hottest functions of one stage
are printed as well (it then takes about twice as long).
"""

# This script prints and starts processes: it is run by hand.
# ruff: noqa: T201, S603

import argparse
import cProfile
import json
import os
import pstats
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable
from pathlib import Path
from typing import Any

from envelopes import BEGINNING, ENDING, GIVEN, SORT, STREET

HEADERS = ("Title", "First Name", "Last Name", "Partner", "Address", "City", "State", "ZIP")
STAGES = {
    "read list": ("reading", ("read_list",)),
    "word": ("reading", ("word_list", "word_hosts")),
    "set": ("reading", ("fit",)),
    "write": ("plates", ("bind_plate",)),
    "judge": ("plates", ("judge_plate",)),
    "proof": ("plates", ("contact_sheet", "proof_sets", "job_of")),
    "job sheet": ("plates", ("job_sheet",)),
}
"""Stage: the module of job/ that calls it, and the functions that it calls."""


def make_list(path: Path, count: int) -> None:
    """A workbook of `count` households, each at a door of its own, its ZIP that of its town."""
    import zipcodes  # noqa: PLC0415 - not in the measured process
    from openpyxl import Workbook  # noqa: PLC0415

    dice = random.Random(11)  # noqa: S311 - a list, not a secret
    pick = dice.choice
    towns = [
        town
        for town in zipcodes.list_all()  # type: ignore[no-untyped-call]
        if town["active"] and town["zip_code_type"] == "STANDARD" and town["state"] != "PR"
    ]
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Guests")
    sheet.append(HEADERS)
    doors: set[str] = set()
    while len(doors) < count:
        door = f"{dice.randint(1, 29999)} {pick(STREET)} {pick(SORT)}"
        if door in doors:
            continue
        doors.add(door)
        town = pick(towns)
        partner = f"{pick(GIVEN)} {pick(BEGINNING)}{pick(ENDING)}" if dice.random() < 0.6 else None
        place = (town["city"], town["state"], town["zip_code"])
        family = pick(BEGINNING) + pick(ENDING) + pick(("", "", "s", "er"))
        sheet.append((pick(("Mr.", "Ms.", "Dr.")), pick(GIVEN), family, partner, door, *place))
    book.save(path)


def inside(listed: Path, folder: Path, stage: str | None) -> None:
    """Do the job in this process and print the seconds of each stage, as JSON."""
    started = time.perf_counter()
    from addressing.job import plates, reading  # noqa: PLC0415 - importing is part of the time

    seconds = defaultdict(float, imports=time.perf_counter() - started)
    profile = cProfile.Profile()
    modules = {"reading": reading, "plates": plates}
    for name, (module, functions) in STAGES.items():
        for function in functions:
            act = getattr(modules[module], function)
            timed = _timed(act, seconds, name, profile if name == stage else None)
            setattr(modules[module], function, timed)
    read = reading.read_job(listed, None, None)
    plates.make_plates(read, folder, lambda _what, _count: None)
    seconds["whole"] = time.perf_counter() - started
    peaks = [resource.getrusage(who).ru_maxrss / 1024 for who in (0, resource.RUSAGE_CHILDREN)]
    held = len(read.held)
    print(json.dumps({**seconds, "MB": peaks[0], "MB of second": peaks[1], "held": held}))
    if stage:
        pstats.Stats(profile, stream=sys.stderr).sort_stats("tottime").print_stats(25)


def _timed(
    act: Callable[..., Any], seconds: dict[str, float], name: str, profile: cProfile.Profile | None
) -> Callable[..., Any]:
    """The same function, its time added to a stage."""

    def timed(*given: object, **named: object) -> object:
        began = time.perf_counter()
        try:
            return profile.runcall(act, *given, **named) if profile else act(*given, **named)
        finally:
            seconds[name] += time.perf_counter() - began

    return timed


def outside(count: int, rounds: int, stage: str | None) -> None:
    """Make the list, run the job in fresh processes, print the best round by stage."""
    with tempfile.TemporaryDirectory() as temporary:
        listed = Path(temporary) / "guests.xlsx"
        make_list(listed, count)
        best: dict[str, float] = {}
        for number in range(rounds):
            command = [sys.executable, __file__, "--inside", str(listed)]
            command += ["--to", str(Path(temporary) / f"job{number}")]
            command += ["--profile", stage] if stage else []
            ran = subprocess.run(command, stdout=subprocess.PIPE, check=True)
            told = json.loads(ran.stdout)
            best = told if not best or told["whole"] < best["whole"] else best
    staged = sum(best.get(name, 0.0) for name in (*STAGES, "imports"))
    print(f"\n{count} households, {best['held']:.0f} held, {os.cpu_count()} cores")
    for name in ("imports", *STAGES):
        print(f"  {name:12} {best.get(name, 0.0):7.2f} s")
    print(f"  {'rest':12} {best['whole'] - staged:7.2f} s")
    print(f"  {'whole':12} {best['whole']:7.2f} s", end="")
    print(f"   peak {best['MB']:.0f} MB, second process {best['MB of second']:.0f} MB")


def main() -> None:
    """Read the options and run."""
    parser = argparse.ArgumentParser(description="The whole job, by stage.")
    parser.add_argument("--counts", default="1000,10000")
    parser.add_argument("--rounds", type=int, default=1)
    parser.add_argument("--profile", choices=list(STAGES))
    parser.add_argument("--inside", type=Path, help=argparse.SUPPRESS)
    parser.add_argument("--to", type=Path, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.inside:
        inside(options.inside, options.to, options.profile)
        return
    for count in options.counts.split(","):
        outside(int(count), options.rounds, options.profile)


if __name__ == "__main__":
    main()
