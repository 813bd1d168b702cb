"""The case table of nameparser 2.6.0, read by this program: how far the two agree, by kind of text.

The table pins that parser's behaviour at its forks, so most of its rows are odd on purpose: letters
that no degree has, titles in the middle, names of one word, royal styles. Where the readers differ
the reasons are: several people in one cell (one person to the other reader); letters behind a name
that `name_words.tsv` doesn't know (X.Y.Z.); titles that `titles.tsv` doesn't know, or that stand in
the middle; East Asian names, kept in the order in which they are written; "Wexcombe, MA", which is
asked about. The floors are what was measured when they were written. The rows stay in their package
(LGPL-2.1-or-later): they are fetched for the test and never copied.
"""

import hashlib
import importlib.util
import io
import re
import subprocess
import sys
import tarfile
from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest

from addressing.guestlist.folding import fold
from addressing.guestlist.people.cell import CellReading, read_people

RELEASE = "nameparser-2.6.0"
DIGEST = "232deac081c49f7663ea6c90eded1ee70ae63c42c5c4e585a7540b1b2c226126"
FLOORS = {
    "plain": 0.67,
    "with brackets or quotes": 0.82,
    "with a joint": 0.52,
    "with a comma": 0.40,
    "other scripts": 0.27,
}
KINDS = {
    "other scripts": re.compile(r"[^\W\d_\u0000-\u024f]"),
    "with a comma": re.compile(r"[,;]"),
    "with a joint": re.compile(r"\b(?:and|y|e|i|und|et)\b|&", re.IGNORECASE),
    "with brackets or quotes": re.compile("[()\"“”'’«»]"),
}


@pytest.fixture(scope="module")
def cases(tmp_path_factory: pytest.TempPathFactory) -> Iterator[list[Any]]:
    """The cases without a policy or locale of their own."""
    folder = tmp_path_factory.mktemp("cases")
    archive = folder / f"{RELEASE}.tar.gz"
    order = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-binary"]
    order += [RELEASE.partition("-")[0], "--dest", str(folder), RELEASE.replace("-", "==")]
    got = subprocess.run(order, check=False, capture_output=True)  # noqa: S603 - pip
    if got.returncode or not archive.exists():
        pytest.skip(f"the source of {RELEASE} can't be had here: nothing was compared")
    assert hashlib.sha256(archive.read_bytes()).hexdigest() == DIGEST
    name = f"{RELEASE}/tests/v2/cases.py"
    with tarfile.open(archive) as packed, packed.extractfile(name) or io.BytesIO() as source:
        path = folder / "cases.py"
        path.write_bytes(source.read())
    spec = importlib.util.spec_from_file_location("nameparser_cases", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["nameparser_cases"] = module
    spec.loader.exec_module(module)
    yield [case for case in module.CASES if case.policy is None and case.locale is None]
    del sys.modules["nameparser_cases"]


def kind_of(text: str) -> str:
    return next((kind for kind, sign in KINDS.items() if sign.search(text)), "plain")


def theirs(case: Any) -> tuple[str, str]:  # noqa: ANN401 - a record of the other package
    given = " ".join(part for part in (case.expect.get(k, "") for k in ("given", "middle")) if part)
    return fold(given) if given else "", fold(case.expect.get("family", "") or "")


def agrees(read: CellReading, expected: tuple[str, str]) -> bool:
    """One person of the same given and family name; one name alone may be called either."""
    if len(read.people) != 1:
        return False
    (person,) = read.people
    ours = tuple(fold(name) if name else "" for name in (person.given, person.family))
    return ours == expected or ("" in ours and "" in expected and set(ours) == set(expected))


def test_the_readers_agree_as_far_as_they_did(cases: list[Any]) -> None:
    total, agreed = Counter[str](), Counter[str]()
    for case in cases:
        total[kind_of(case.text)] += 1
        agreed[kind_of(case.text)] += agrees(read_people(case.text), theirs(case))
    assert sum(total.values()) > 1000
    shares = {kind: round(agreed[kind] / total[kind], 3) for kind in FLOORS}
    assert {kind: share for kind, share in shares.items() if share < FLOORS[kind]} == {}


def test_no_case_loses_the_person(cases: list[Any]) -> None:
    nobody = [
        case.text
        for case in cases
        if re.search(r"[^\W\d_]{3}", case.text)
        and any(theirs(case))
        and not (read := read_people(case.text)).people
        and read.label is None
        and not read.remarks
    ]
    assert nobody == []
