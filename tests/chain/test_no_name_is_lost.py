"""What the client typed as a name stands on the envelope, or somebody is asked."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

TITLES = {"Ms.", "Dr.", "Mrs.", "Mr.", "Captain"}
NAMES = (
    "Ms. 林 Penhew",
    "Dr. Дарья Penhew",
    "Mrs. Ω Penhew",
    "Mr. דן Penhew",
    "Ms. ليلى Penhew",
    "Mr. प्रिया Penhew",
    "Ms. Þóra Penhew",
    "Mr. Ħal Penhew",
    "Captain 林 美 Penhew",
    "林 美",
    "Дарья Вексова",
)


@pytest.mark.parametrize("name", NAMES)
def test_a_name_in_any_script_is_kept_whole(addressing: Run, write_list: Write, name: str) -> None:
    path = write_list([(name, "14 Larkmoor Lane", "Litchfield", "CT", "06759")])
    home = json.loads(addressing("lines", path, "--json").stdout)["households"][0]
    words = " ".join(
        f"{person['given'] or ''} {person['family'] or ''}" for person in home["people"]
    ).split()
    expected = [word for word in name.split() if word not in TITLES]
    assert words == expected
    outer = " ".join(line["text"] for line in home["pieces"][0]["lines"])
    assert all(word in outer for word in expected)


@pytest.mark.parametrize("name", [name for name in NAMES if not name.isascii()][:5])
def test_a_letter_that_no_face_draws_stops_its_household(
    addressing: Run, write_list: Write, name: str
) -> None:
    path = write_list([(name, "14 Larkmoor Lane", "Litchfield", "CT", "06759")])
    ran = addressing("check", path, "--json")
    codes = {found["code"] for found in json.loads(ran.stdout)["findings"]}
    missing = "glyph-missing" in codes or "mixed-direction" in codes
    assert missing or ran.returncode == 0
    assert (ran.returncode == 1) is missing
