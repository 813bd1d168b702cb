"""Open labelled US addresses that the model never saw, disturbed as lists are: floors of accuracy.

The source of usaddress 0.5.16 (its training files are labelled, MIT) is taken by pip into a folder
of the machine for passing things. A small model is learnt here without a fifth of them, on fewer
copies and in fewer steps than the one that ships, so the floors lie below what
`tests/benchmarks/addresses.py` measures for that.
"""

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

BENCHMARKS = Path(__file__).parents[1] / "benchmarks"
NAMES = (
    "none",
    "commas and points removed",
    "unit after the street, no comma",
    "bare unit",
    "a person's name first",
    "remark in brackets",
    "remark behind",
    "columns",
)
LEARNT = 700
JUDGED = 60


@pytest.fixture(scope="module", autouse=True)
def _beside_the_benchmarks() -> Iterator[None]:
    sys.path.insert(0, str(BENCHMARKS))
    yield
    sys.path.remove(str(BENCHMARKS))


@pytest.fixture(scope="module")
def training() -> Path:
    """The labelled files, kept between runs."""
    from labelled_addresses import fetch  # noqa: PLC0415 - the path is set by a fixture

    try:
        return fetch(Path(tempfile.gettempdir()) / "open-addresses")
    except (subprocess.CalledProcessError, OSError) as problem:
        pytest.skip(f"the open labelled addresses can't be had here: {problem}")


@pytest.fixture(scope="module")
def readings(training: Path, tmp_path_factory: pytest.TempPathFactory) -> list[tuple[bool, bool]]:
    """(a field is wrong, it is asked about) of every address of one fold in every disturbance."""
    import random  # noqa: PLC0415

    import address_folds  # noqa: PLC0415
    import addresses as judging  # noqa: PLC0415
    import pycrfsuite  # noqa: PLC0415
    from labelled_addresses import DISTURBANCES, fits, fold_of, is_full, labelled  # noqa: PLC0415

    known = labelled(training)
    path = tmp_path_factory.mktemp("model") / "small.crfsuite"
    others = [one for one in known if fold_of(one) != 0]
    address_folds.train(path, others[:: len(others) // LEARNT], quick=True)
    model = pycrfsuite.Tagger()
    model.open(str(path))
    faults = judging.faulty()
    mine = [one for one in known if fold_of(one) == 0 and is_full(one)]
    mine = [one for one in mine if judging.digest(one) not in faults]
    rng = random.Random(1)  # noqa: S311 - a sample
    found = [
        judging.judge(name, DISTURBANCES[name](one, rng, 1), model)
        for one in mine[:: len(mine) // JUDGED]
        for name in NAMES
        if fits(name, one)
    ]
    return [(bool(one.wrong), one.asked) for one in found]


def test_nine_addresses_in_ten_are_read_as_labelled(readings: list[tuple[bool, bool]]) -> None:
    right = sum(not wrong for wrong, _ in readings) / len(readings)
    assert right >= 0.9, f"{right:.1%} of {len(readings)}"


def test_hardly_any_is_wrong_without_a_question(readings: list[tuple[bool, bool]]) -> None:
    silent = sum(wrong and not asked for wrong, asked in readings) / len(readings)
    assert silent <= 0.01, f"{silent:.2%} of {len(readings)}"


def test_questions_stay_few(readings: list[tuple[bool, bool]]) -> None:
    asked = sum(asked for _, asked in readings) / len(readings)
    assert asked <= 0.2, f"{asked:.1%} of {len(readings)}"
