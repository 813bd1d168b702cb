"""How well a list is read that somebody wrote who didn't know the code, with its truth beside it.

`python tests/lists/scoring.py [-q] LIST…` Beside each list stands `<stem>.truth.json`: for every
household the lines that a formal stationer would letter from what the list says (outer, inner,
other ways that are as good), the address, and what the client has to be asked. The list goes
through the commands as a designer's would, and is judged by what they answer. A household that is
found nowhere counts as wrong, though lines that aren't read are told and asked about as such.
"""

import json
import re
import subprocess
import sys
import tempfile
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any

Entry = dict[str, Any]
Lines = tuple[str, ...]

TITLES = frozenset({"title-missing"})
"""Asked once for the whole list; not counted as a household's question."""

LEAST = 0.15
"""How alike a household read must be to one of the truth to be taken for it, at least."""


@dataclass(frozen=True, slots=True)
class Score:
    """Counts over the households of one list, or of several added up."""

    households: int = 0
    wrong: int = 0
    """Outer or inner lines differ from the truth, and nothing of the household is asked."""
    outer: int = 0
    """Of these the ones whose outer envelope differs."""
    missed: int = 0
    """The client has to be asked, and nothing is."""
    needless: int = 0
    """Held, though all can be known from the list."""
    held: int = 0
    questions: int = 0
    """Questions of households, titles left out."""
    extra: int = 0
    """Envelopes, not held, for whom the list invites nobody."""

    def __add__(self, other: "Score") -> "Score":
        return Score(*(getattr(self, f.name) + getattr(other, f.name) for f in fields(self)))


@dataclass(frozen=True, slots=True)
class Fault:
    """One household that is read otherwise than it should be."""

    sort: str
    name: str
    wanted: str
    got: str


def score(path: Path, program: Sequence[str] | None = None) -> tuple[Score, tuple[Fault, ...]]:
    """Read one list by the commands and hold it against its truth.

    `program` is how the tool is called; without it this Python's own.
    """
    truth = json.loads(path.with_suffix(".truth.json").read_text(encoding="utf-8"))
    call = program or (sys.executable, "-m", "addressing")
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(  # noqa: S603 - ours
            [*call, "lines", str(path), "--json", "--to", f"{folder}/job"],
            capture_output=True,
            check=False,
        )
    answer = json.loads(done.stdout)
    if "households" not in answer:
        raise AssertionError(done.stdout.decode() + done.stderr.decode())
    return judge(truth["households"], answer["households"])


def judge(truth: list[Entry], read: list[Entry]) -> tuple[Score, tuple[Fault, ...]]:
    """Hold the households as read against the truth."""
    total, faults = Score(households=len(truth)), []
    pairs = pair(truth, read)
    for number, wanted in enumerate(truth):
        got = read[pairs[number]] if number in pairs else None
        one, sorts = of_one(wanted, got)
        total += one
        faults += [Fault(sort, wanted["id"], told(wanted), said(got)) for sort in sorts]
    for place in sorted(set(range(len(read))) - set(pairs.values())):
        total += Score(
            held=int(read[place]["held"]),
            questions=len(asked(read[place])),
            extra=int(not read[place]["held"]),
        )
        faults.append(Fault("extra", "-", "nobody", said(read[place])))
    return total, tuple(faults)


def of_one(wanted: Entry, got: Entry | None) -> tuple[Score, tuple[str, ...]]:
    """One household's counts and the sorts of its faults."""
    must, may = wanted.get("must_ask") or [], wanted.get("may_ask") or []
    if got is None:
        return Score(wrong=1, outer=1), ("lost",)
    questions = asked(got)
    outer = not any(same(lines_of(got, "outer"), each) for each in outers(wanted))
    inner = not any(same(lines_of(got, "inner"), each) for each in inners(wanted))
    sorts = []
    if not questions and not must and (outer or inner):
        sorts.append("wrong outer" if outer else "wrong inner")
    if must and not questions and not got["held"]:
        sorts.append("missed")
    if got["held"] and not must and not may:
        sorts.append("needless " + ", ".join(sorted(questions)))
    return (
        Score(
            wrong=int(any(s.startswith("wrong") for s in sorts)),
            outer=int("wrong outer" in sorts),
            missed=int("missed" in sorts),
            needless=int(any(s.startswith("needless") for s in sorts)),
            held=int(got["held"]),
            questions=len(questions),
        ),
        tuple(sorts),
    )


def asked(household: Entry) -> set[str]:
    """The codes of what is asked about a household, titles left out."""
    return {
        each["code"]
        for each in household["findings"]
        if each["severity"] in ("ask", "stop") and each["code"] not in TITLES
    }


def lines_of(household: Entry, kind: str) -> Lines:
    """The lines of a household's piece, empty without it."""
    for piece in household["pieces"]:
        if piece["kind"] == kind:
            return tuple(line["text"] for line in piece["lines"])
    return ()


def outers(wanted: Entry) -> Iterator[Lines]:
    """Every outer envelope that is as good as the truth's."""
    for names in (wanted["outer_names"], *(wanted.get("outer_names_also") or ())):
        for address in (wanted.get("address") or [], *(wanted.get("address_also") or ())):
            yield (*names, *address)


def inners(wanted: Entry) -> Iterator[Lines]:
    """Every inner envelope that is as good as the truth's."""
    for lines in (wanted["inner"], *(wanted.get("inner_also") or ())):
        yield tuple([lines] if isinstance(lines, str) else lines)


def same(got: Lines, wanted: Lines) -> bool:
    """Whether the lines say the same: how many they are, and a country's capitals, is style."""
    return folded(got) == folded(wanted)


def folded(lines: Iterable[str]) -> str:
    # "and" before the second of two lines is a choice of the docket, where guides differ.
    text = " ".join(line.removeprefix("and ") for line in lines).replace("’", "'").replace(",", " ")
    return " ".join(unicodedata.normalize("NFC", text).casefold().split())


def pair(truth: list[Entry], read: list[Entry]) -> dict[int, int]:
    """Which household as read is which of the truth, the most alike first."""
    wanted = [
        words_of((*each["people"], *each["outer_names"], *(each.get("address") or ())))
        for each in truth
    ]
    got = [
        words_of((*lines_of(each, "outer"), *lines_of(each, "inner"), *people_of(each)))
        for each in read
    ]
    alike = sorted(
        (
            (len(one & other) / (len(one | other) or 1), number, place)
            for number, one in enumerate(wanted)
            for place, other in enumerate(got)
            if one & other
        ),
        key=lambda each: (-each[0], each[1], each[2]),
    )
    pairs: dict[int, int] = {}
    for likeness, number, place in alike:
        if likeness >= LEAST and number not in pairs and place not in pairs.values():
            pairs[number] = place
    return pairs


def people_of(household: Entry) -> Iterator[str]:
    for person in household["people"]:
        yield " ".join(filter(None, (person["given"], person["family"])))
    address = household["address"] or {}
    yield " ".join(str(address.get(part) or "") for part in ("street", "unit", "city", "postcode"))


def words_of(lines: Iterable[str]) -> set[str]:
    plain = {"mr", "mrs", "ms", "and", "the", "street", "road", "lane", "avenue", "drive", "guest"}
    return set(re.findall(r"\w+", " ".join(lines).casefold())) - plain


def told(wanted: Entry) -> str:
    must = " | ASK " + "; ".join(wanted["must_ask"]) if wanted.get("must_ask") else ""
    inner = next(inners(wanted), ())
    return f"{' / '.join(next(outers(wanted)))} || {' / '.join(inner)}{must}"


def said(got: Entry | None) -> str:
    if got is None:
        return "nothing"
    held = (
        f" [held: {', '.join(sorted(asked(got)))}]"
        if got["held"]
        else f" [{', '.join(sorted(asked(got)))}]"
    )
    return f"{' / '.join(lines_of(got, 'outer'))} || {' / '.join(lines_of(got, 'inner'))}{held}"


def main() -> None:
    """Score the lists that are named, and show what differs (`-q`: the counts alone)."""
    total, said_all = Score(), "-q" not in sys.argv
    for path in map(Path, sys.argv[1:]):
        if path.name.endswith(".truth.json") or not path.with_suffix(".truth.json").exists():
            continue
        one, faults = score(path)
        total += one
        say(f"== {path.name}: {one}")
        for fault in faults if said_all else ():
            say(f"- {fault.sort} ({fault.name})")
            say(f"    wanted {fault.wanted}")
            say(f"    got    {fault.got}")
    say(f"== in all: {total}")
    for name, count in asdict(total).items():
        say(f"   {name}: {count} ({100 * count / max(total.households, 1):.1f} per 100)")


def say(text: str) -> None:
    print(text)  # noqa: T201 - a script


if __name__ == "__main__":
    main()
