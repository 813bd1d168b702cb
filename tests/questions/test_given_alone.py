"""Given names as an answer add children; they never take parents or the family name away."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """Name,Notes,Kids,Count,Address,City,State,ZIP
The Penhew Family,,,,22 Larkmoor Lane,Litchfield,CT,06759
The Lorne Family,,"Rosie, Otto",,26 Larkmoor Lane,Litchfield,CT,06759
Mr. Odo and Mrs. Ines Farrenby and Family,,,,30 Larkmoor Lane,Litchfield,CT,06759
Mr. Abel and Mrs. Cora Dunmore,kids?,,,34 Larkmoor Lane,Litchfield,CT,06759
Mr. Hugh and Mrs. Ida Carow,,,4,38 Larkmoor Lane,Litchfield,CT,06759
Mr. Abel Gray and Guest,,,,42 Larkmoor Lane,Litchfield,CT,06759
"""
ASKED = {
    "Penhew": "family-unnamed", "Lorne": "family-unnamed", "Farrenby": "family-unnamed",
    "Dunmore": "children-noted", "Carow": "count-differs", "Gray": "guest-unnamed",
}  # fmt: skip


@pytest.fixture
def path(tmp_path: Path) -> Path:
    (tmp_path / "guests.csv").write_text(LIST, "utf-8")
    (tmp_path / "job.toml").write_text('[pieces]\nmake = ["outer", "inner"]\n', "utf-8")
    return tmp_path / "guests.csv"


def answered(run: Run, path: Path, who: str, words: str) -> tuple[list[list[str]], list[str]]:
    """(the lines of names of outer and inner, why the answer isn't taken) of one household."""
    docket = ("--docket", "job.toml", "--json")
    asked = json.loads(run("questions", path, *docket).stdout)["questions"]
    ref = next(q["question"] for q in asked if who in q["who"] and ASKED[who] in q["question"])
    back = path.parent / "back.toml"
    back.write_text(f"[[answer]]\nquestion = {json.dumps(ref)}\nanswer = {json.dumps(words)}\n")
    told = json.loads(run("answer", path, back, *docket).stdout)
    why = [f["text"] for f in told["findings"] if f["code"] == "answer-not-understood"]
    homes: list[dict[str, Any]] = json.loads(run("lines", path, *docket).stdout)["households"]
    home = next(home for home in homes if home["key"] == ref.partition(":")[0])
    pieces = {piece["kind"]: piece["lines"] for piece in home["pieces"]}
    lines = [
        [line["text"] for line in pieces[kind] if line["role"] == "name"]
        for kind in ("outer", "inner")
    ]
    return lines, why


@pytest.mark.parametrize(
    "words", ["Nell, Bram and Tuck", "Nell, Bram", "Nell", "Theo & Odile", "Nell, baby Tuck"]
)
@pytest.mark.parametrize("who", ["Penhew", "Carow"])
def test_given_names_alone_that_may_be_parents_or_children_are_asked_about(
    addressing: Run, path: Path, who: str, words: str
) -> None:
    before = {"Penhew": "The Penhew Family", "Carow": "Mr. and Mrs. Hugh Carow"}[who]
    (outer, _), why = answered(addressing, path, who, words)
    assert outer == [before]
    assert "given names alone" in why[0]
    assert "kids:" in why[0]


@pytest.mark.parametrize(
    ("who", "words", "outer", "inner"),
    [
        ("Penhew", "kids: Nell, Bram and Tuck",
         ["The Penhew Family"], ["The Penhew Family", "Nell, Bram and Tuck"]),
        ("Penhew", "Nell (6), Bram (4)",
         ["The Penhew Family"], ["The Penhew Family", "Nell and Bram"]),
        ("Lorne", "Rosie, Otto and Tuck",
         ["The Lorne Family"], ["The Lorne Family", "Rosie, Otto and Tuck"]),
        ("Farrenby", "Nell, Bram and Tuck",
         ["Mr. and Mrs. Odo Farrenby"], ["Mr. and Mrs. Farrenby", "Nell, Bram and Tuck"]),
        ("Dunmore", "Nell, Bram and Tuck",
         ["Mr. and Mrs. Abel Dunmore"], ["Mr. and Mrs. Dunmore", "Nell, Bram and Tuck"]),
        ("Dunmore", "Nell and Abel",
         ["Mr. and Mrs. Abel Dunmore"], ["Mr. and Mrs. Dunmore", "Nell and Abel"]),
        ("Carow", "kids: Nell and Bram",
         ["Mr. and Mrs. Hugh Carow"], ["Mr. and Mrs. Carow", "Nell and Bram"]),
    ],
)  # fmt: skip
def test_given_names_of_children_are_added_and_the_parents_stay(
    addressing: Run, path: Path, who: str, words: str, outer: list[str], inner: list[str]
) -> None:
    lines, why = answered(addressing, path, who, words)
    assert why == []
    assert lines == [outer, inner]


@pytest.mark.parametrize(
    "words",
    [
        "Theo and Odile, kids Nell, Bram",
        "Mr. Theo and Mrs. Odile, kids: Nell and Bram",
        "Theo and Odile Penhew, kids Nell and Bram",
    ],
)
def test_parents_by_given_name_beside_children_bear_the_familys_name(
    addressing: Run, path: Path, words: str
) -> None:
    ((outer, inner), why) = answered(addressing, path, "Penhew", words)
    assert why == []
    assert "Penhew" in " ".join(outer)
    assert "Theo" in " ".join(outer)
    assert inner[-1] == "Nell and Bram"


@pytest.mark.parametrize("words", ["and kids", "and the kids", "& family", "+ kids"])
@pytest.mark.parametrize(
    ("who", "names", "inner"),
    [
        ("Penhew", "Mr. Theo and Mrs. Odile Penhew", "Mr. and Mrs. Penhew"),
        ("Farrenby", "", "Mr. and Mrs. Farrenby"),
        ("Farrenby", "Mr. Odo and Mrs. Ines Farrenby", "Mr. and Mrs. Farrenby"),
        ("Dunmore", "Mr. Abel and Mrs. Cora Dunmore", "Mr. and Mrs. Dunmore"),
        ("Gray", "Ms. Lou Orr", "Mr. Gray and Ms. Orr"),
    ],
)
def test_and_kids_in_an_answer_is_kept_on_the_inner_envelope(
    addressing: Run, path: Path, who: str, names: str, inner: str, words: str
) -> None:
    lines, why = answered(addressing, path, who, f"{names} {words}".strip())
    assert why == []
    assert lines[1] == [inner, "and Family"]


def test_one_of_a_couple_who_is_named_alone_keeps_the_family_name(
    addressing: Run, path: Path
) -> None:
    lines, why = answered(addressing, path, "Carow", "Hugh")
    assert why == []
    assert lines == [["Mr. Hugh Carow"], ["Mr. Carow"]]


@pytest.mark.parametrize("opener", ["yes, ", "Yes ", "yep - ", "sorry, ", "oh yes, "])
def test_a_word_that_only_opens_an_answer_is_nobodys_name(
    addressing: Run, path: Path, opener: str
) -> None:
    (outer, inner), why = answered(addressing, path, "Gray", f"{opener}Wren Lorne")
    assert (outer, why) == (["Mr. Abel Gray and Wren Lorne"], [])
    assert "Yes" not in " ".join(inner)


@pytest.mark.parametrize("words", ["no, Abel Gray alone", "Abel Gray alone", "no Abel Gray"])
def test_a_no_beside_a_name_is_asked_about(addressing: Run, path: Path, words: str) -> None:
    (outer, _), why = answered(addressing, path, "Gray", words)
    assert why
    assert "no" not in " ".join(outer).casefold().split()


@pytest.mark.parametrize("words", ["Theo Farrenby, Nell (5), Bram (3)", "Theo Orr, Nell and Bram"])
def test_a_whole_name_before_given_names_may_be_a_parents(
    addressing: Run, path: Path, words: str
) -> None:
    _, why = answered(addressing, path, "Farrenby", words)
    assert why


@pytest.mark.parametrize("words", ["Rhea and Conor", "Rhea (7), Conor (4)"])
def test_a_child_with_a_name_like_the_familys_is_a_child(
    addressing: Run, path: Path, words: str
) -> None:
    (outer, inner), why = answered(addressing, path, "Dunmore", words)
    assert (outer, why) == (["Mr. and Mrs. Abel Dunmore"], [])
    assert inner[-1] == "Rhea and Conor"


def test_a_family_name_alone_is_asked_about(addressing: Run, path: Path) -> None:
    _, why = answered(addressing, path, "Dunmore", "Dunmore")
    assert why
