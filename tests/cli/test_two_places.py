"""One job at two places: the client answers once."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]

LIST = """Name,Street,City,State,ZIP
Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759
Ms. Odile Farrenby,2 Larkmoor Lane,Litchfield,CT,
"""
HOME = '[pieces]\nmake = ["outer"]\n'
SHOP = '[job]\nanswers = "guests-home"\n[pieces]\nmake = ["inner"]\n'


@pytest.fixture
def guests(tmp_path: Path) -> Path:
    (tmp_path / "home.toml").write_text(HOME)
    (tmp_path / "shop.toml").write_text(SHOP)
    path = tmp_path / "guests.csv"
    path.write_text(LIST)
    return path


def given(guests: Path, place: str) -> tuple[str, ...]:
    return (guests.name, "--docket", f"{place}.toml", "--to", f"guests-{place}")


def held(addressing: Run, guests: Path, place: str) -> int:
    said = json.loads(addressing("check", *given(guests, place), "--json").stdout)
    return int(said["households_held"])


def test_an_answer_given_at_one_place_holds_at_the_other(addressing: Run, guests: Path) -> None:
    assert addressing("questions", *given(guests, "home")).returncode == 0
    assert held(addressing, guests, "shop") == 1
    answer = ("answer", *given(guests, "home"))
    assert addressing(*answer, "--set", "Ms. Odile Farrenby", "postcode", "06759").returncode == 0
    assert held(addressing, guests, "shop") == 0
    for place in ("home", "shop"):
        assert addressing("plates", *given(guests, place)).returncode == 0
    assert not (guests.parent / "guests-shop" / "decisions.toml").exists()
    # Respelled in a new version: still the same household at both, and the answer still holds.
    assert addressing("printed", guests.name, "--to", "guests-shop").returncode == 0
    guests.write_text(LIST.replace("Ms. Odile Farrenby", "Ms. Odile Farenby"))
    assert held(addressing, guests, "shop") == 0
    ledger = json.loads(addressing("ledger", *given(guests, "shop"), "--json").stdout)
    assert [each["why"] for each in ledger["due"]] == ["words changed"]


def test_answers_go_where_the_docket_says_and_nowhere_else(addressing: Run, guests: Path) -> None:
    for command in ("questions", "answer"):
        ran = addressing(command, *given(guests, "shop"))
        assert ran.returncode == 2
        assert "takes the client's answers from guests-home" in ran.stderr
    lost = addressing("check", *given(guests, "shop"))
    assert lost.returncode == 3
    assert "no job lies there" in lost.stderr
    assert addressing("questions", *given(guests, "home")).returncode == 0
    assert addressing("plates", *given(guests, "shop")).returncode in {0, 1}
    (guests.parent / "guests-shop" / "decisions.toml").write_text("")
    twice = addressing("check", *given(guests, "shop"))
    assert twice.returncode == 3
    assert "has answers too" in twice.stderr


def test_a_docket_that_names_its_own_folder_is_like_any_other(
    addressing: Run, guests: Path
) -> None:
    docket = guests.with_name("home.toml")
    docket.write_text('[job]\nanswers = "guests-home"\n' + HOME)
    answer = ("answer", *given(guests, "home"))
    assert addressing(*answer, "--set", "A3", "postcode", "06759").returncode == 0
    assert held(addressing, guests, "home") == 0


def test_the_second_place_knows_households_by_the_keys_of_the_first(
    addressing: Run, guests: Path
) -> None:
    """Respelled since the answer was given, and never yet read at the second place."""
    answer = ("answer", *given(guests, "home"))
    assert addressing(*answer, "--set", "Ms. Odile Farrenby", "postcode", "06759").returncode == 0
    guests.write_text(LIST.replace("Ms. Odile Farrenby", "Ms. Odile Farenby"))
    assert held(addressing, guests, "shop") == 0
    assert not (guests.parent / "guests-shop").exists()
