"""What it costs to read a list: beside one full openpyxl pass, and as the list grows.

Run it by hand: `python tests/benchmarks/reading.py [rows] [many rows]` (10 000 and 100 000). Each
figure comes from a process of its own. Times are by the clock, since half of the rows are read by a
second process, and beside them the processor's time of both. Memory is the most that the first one
ever held (all that it shares counted); of the long list also, in a run of its own, what both held
at one moment: each one's share of what they share (PSS) and what is one's alone (USS), by Linux's
smaps_rollup. Megabytes are millions of bytes.
"""

import contextlib
import json
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from openpyxl import Workbook, load_workbook

from addressing.guestlist import read_list
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.tables.headers import find_tables

HEADER = (
    "Title", "First Name", "Last Name", "Partner First Name", "Partner Last Name", "Street", "Apt",
    "City", "State", "ZIP", "Side", "Notes",
)  # fmt: skip
GIVEN = ("Tobias", "Odile", "Linnet", "Bram", "Corwin", "Ottoline", "Ingrid", "Alaric", "Ludo")
FRONT = ("Wex", "Farren", "Pen", "Gray", "Hal", "Rud", "Ash", "Lark", "Mar", "Ever", "Quin", "Oak")
BACK = ("combe", "by", "hew", "ling", "vorsby", "dock", "grove", "moor", "wick", "ley", "ton")
STREETS = ("Larkmoor", "Weathervane", "Birchbark", "Quarry", "Mill", "Orchard", "Juniper", "Chapel")
KINDS = ("Lane", "Road", "Drive", "Street", "Trail", "Avenue")
TOWNS = (
    ("Litchfield", "CT", "06759"), ("Bar Harbor", "ME", "04609"), ("Duluth", "MN", "55802"),
    ("Galena", "IL", "61036"), ("Sitka", "AK", "99835"), ("Taos", "NM", "87571"),
)  # fmt: skip
TOLD = ("openpyxl", "grids", "tables", "whole")


def make_list(path: Path, rows: int) -> None:
    """Write invented households, twelve columns of text; every second row has a partner."""
    dice = random.Random(7)  # noqa: S311 - the same list each time
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Guests")
    sheet.append(HEADER)
    for number in range(rows):
        family = dice.choice(FRONT) + dice.choice(BACK)
        partner = (dice.choice(GIVEN), family) if number % 2 else (None, None)
        street = f"{dice.randrange(1, 9999)} {dice.choice(STREETS)} {dice.choice(KINDS)}"
        unit = f"Apt. {dice.randrange(1, 40)}" if number % 5 == 0 else None
        side = dice.choice(("bride", "groom"))
        note = "usher" if number % 50 == 0 else None
        row = ("Mr.", dice.choice(GIVEN), family, *partner, street, unit, *dice.choice(TOWNS))
        sheet.append((*row, side, note))
    book.save(path)


def full_pass(path: Path) -> None:
    """Every cell once, by openpyxl."""
    for sheet in load_workbook(path).worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                _ = cell.value


def work(what: str, path: Path) -> dict[str, float]:
    """Do one thing once and say how long it took and how much memory the process held."""
    if what == "openpyxl":
        load_workbook(path, read_only=True).close()  # what is loaded once isn't counted
        begun = time.perf_counter()
        full_pass(path)
    elif what == "whole":
        warm = path.with_name("warm.xlsx")
        read_list(warm, {})
        begun = time.perf_counter()
        read_list(path, {})
    else:
        grids = read_grids(open_list(path.with_name("warm.xlsx")))[0]
        find_tables(grids, {})
        begun = time.perf_counter()
        grids = read_grids(open_list(path))[0]
        if what == "tables":
            find_tables(grids, {})
    spent = time.perf_counter() - begun
    mine, others = (
        resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    return {
        "seconds": spent,
        "worked": mine.ru_utime + mine.ru_stime + others.ru_utime + others.ru_stime,
        "megabytes": mine.ru_maxrss * 1024 / 1e6,
    }


def memory(path: Path) -> dict[str, float]:
    """The most that a whole reading held at one moment: both processes, and the first alone."""
    with subprocess.Popen(  # noqa: S603 - ours
        [sys.executable, __file__, "whole", str(path)], stdout=subprocess.DEVNULL
    ) as first:
        most = {"rss": 0.0, "pss": 0.0, "uss": 0.0, "second": 0.0}
        while first.poll() is None:
            held = [told for pid in _with_children(first.pid) if (told := _held(pid))]
            if held:
                most["rss"] = max(most["rss"], held[0]["Rss"])
                most["pss"] = max(most["pss"], sum(each["Pss"] for each in held))
                own = [each["Private_Clean"] + each["Private_Dirty"] for each in held]
                most["uss"] = max(most["uss"], sum(own))
                most["second"] = max(most["second"], *own[1:], 0.0)
            time.sleep(0.1)
    return most


def _with_children(pid: int) -> list[int]:
    with contextlib.suppress(OSError):
        told = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii")
        return [pid, *map(int, told.split())]
    return [pid]


def _held(pid: int) -> dict[str, float]:
    """What a process holds by kind, in megabytes; nothing when it is gone."""
    with contextlib.suppress(OSError, IndexError, ValueError):
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text(encoding="ascii").splitlines()[1:]
        return {line.split(":")[0]: int(line.split()[1]) * 1024 / 1e6 for line in lines if line}
    return {}


def measured(what: str, path: Path) -> dict[str, float]:
    """The same in a process of its own."""
    command = [sys.executable, __file__, what, str(path)]
    told = subprocess.run(command, check=True, capture_output=True, text=True)  # noqa: S603 - ours
    answer: dict[str, float] = json.loads(told.stdout)
    return answer


def main(rows: int, many: int) -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        few, lots = Path(folder) / "few.xlsx", Path(folder) / "many.xlsx"
        make_list(Path(folder) / "warm.xlsx", 200)
        make_list(few, rows)
        found = {what: measured(what, few) for what in TOLD}
        base = found["openpyxl"]["seconds"]
        for what, told in found.items():
            print(  # noqa: T201 - a script
                f"{rows} rows, {what}: {told['seconds']:.2f} s ({told['worked']:.2f} of the "
                f"processor's), {told['megabytes']:.0f} MB, {told['seconds'] / base:.2f} of a full "
                "openpyxl pass"
            )
        make_list(lots, many)
        for what in ("grids", "tables", "whole"):
            told = measured(what, lots)
            each, before = told["seconds"] / many, found[what]["seconds"] / rows
            print(  # noqa: T201 - a script
                f"{many} rows, {what}: {told['seconds']:.1f} s ({told['worked']:.1f} of the "
                f"processor's), {told['megabytes']:.0f} MB, {each * 1e6:.0f} µs a row "
                f"({each / before:.2f} times that of {rows})"
            )
        held = memory(lots)
        print(  # noqa: T201 - a script
            f"{many} rows, whole, looked at ten times a second: first process "
            f"{held['rss']:.0f} MB, both {held['pss']:.0f} MB (PSS), {held['uss']:.0f} MB "
            f"theirs alone, of which the second had {held['second']:.0f} MB at most"
        )


if __name__ == "__main__":
    if len(sys.argv) > 1 and sys.argv[1] in TOLD:
        print(json.dumps(work(sys.argv[1], Path(sys.argv[2]))))  # noqa: T201 - for the parent
    else:
        sizes = [int(number) for number in sys.argv[1:]] + [10_000, 100_000][len(sys.argv) - 1 :]
        main(*sizes)
