"""From the docket's suite to the stamps."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
SUITE = """
[post]
envelope_paper = "80 lb text"
[[suite]]
name = "invitation"
width_mm = 127.0
height_mm = 177.8
paper = "120 lb cover"
"""


def test_the_weight_names_every_part_and_adds_up(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE)
    said = json.loads(addressing("postage", path, "--docket", docket, "--json").stdout)
    assert said["grams"] == pytest.approx(sum(part["grams"] for part in said["parts"]), abs=0.05)
    assert [part["name"] for part in said["parts"]][-1] == "invitation"
    (envelope,) = said["envelopes"]
    assert (envelope["destination"], envelope["count"], envelope["class"]) == ("home", 1, "letter")
    assert said["total"] == pytest.approx(envelope["price"])
    told = addressing("postage", path, "--docket", docket).stdout
    assert "These rates are invented." in told


@pytest.mark.parametrize(
    ("docket", "code", "told"),
    [
        ("", "suite-missing", "what goes into the envelope"),
        (
            SUITE.replace('envelope_paper = "80 lb text"', ""),
            "envelope-paper-missing",
            "of what paper",
        ),
        (f'[pieces]\nmake = ["inner"]\n{SUITE}', "outer-missing", "nothing to post"),
    ],
)
def test_only_what_the_docket_lacks_is_asked_for(
    addressing: Run, write_list: Write, tmp_path: Path, docket: str, code: str, told: str
) -> None:
    (tmp_path / "docket.toml").write_text(docket)
    said = addressing("postage", write_list([ROW]), "--docket", "docket.toml", "--json")
    fault = json.loads(said.stderr.splitlines()[-1])["fault"]
    assert (said.returncode, fault["code"]) == (3, code)
    assert told in fault["text"]


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("120 lb cover", "thick", "(docket:suite[1].paper)"),
        ("80 lb text", "80 lb texty", "(docket:post.envelope_paper)"),
        ('paper = "120 lb cover"', "", "neither paper nor grams. (docket:suite[1].paper)"),
    ],
)
def test_a_paper_that_nobody_can_weigh_is_told_with_its_place(
    addressing: Run, write_list: Write, tmp_path: Path, was: str, now: str, told: str
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE.replace(was, now))
    ran = addressing("postage", write_list([ROW]), "--docket", docket)
    assert ran.returncode == 3
    assert told in ran.stderr
    ran = addressing("postage", write_list([ROW]), "--docket", docket, "--json")
    assert '"paper-unknown"' in ran.stderr


def test_steps_out_of_order_are_refused(addressing: Run, write_list: Write, tmp_path: Path) -> None:
    (tmp_path / "docket.toml").write_text(SUITE)
    (tmp_path / "postage.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[home.letter]\n'
        'steps = [{ oz = 2.0, price = "1" }, { oz = 1.0, price = "2" }]\n'
    )
    docket = tmp_path / "docket.toml"
    ran = addressing("postage", write_list([ROW]), "--docket", docket, "--json")
    assert ran.returncode == 3
    assert '"postage-wrong"' in ran.stderr


HOSTS = """[hosts]
name = "Mr. Gideon Penhew"
street = "1 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
"""
REPLY = """[[suite]]
name = "reply card"
width_mm = 123.8
height_mm = 87.3
paper = "110 lb cover"
reply = true
"""
MIXED = (
    "Name,Street,City,State,ZIP,Country\n"
    "Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759,\n"
    "Ms. Ottoline Grayling,431 Weathervane Drive,Bar Harbor,ME,04609,\n"
    "Mme Odile Farrenby,9 rue du Moulin,Lyon,,69002,France\n"
    "Ms. Ysolde Penhew,12 Larkmoor Road,Ottawa,ON,K1P 1J1,Canada\n"
)


def test_each_country_of_the_rates_is_counted_apart_and_replies_from_home_have_a_price(
    addressing: Run, tmp_path: Path
) -> None:
    path, docket = tmp_path / "guests.csv", tmp_path / "docket.toml"
    path.write_text(MIXED)
    docket.write_text(HOSTS + SUITE + REPLY)
    run = ("postage", path, "--docket", docket)
    said = json.loads(addressing(*run, "--json").stdout)
    counts = {each["destination"]: each["count"] for each in said["envelopes"]}
    assert counts == {"home": 2, "CA": 1, "abroad": 1}
    reply = said["reply"]
    assert (reply["count"], reply["price"], reply["with_card"]) == (2, 0.80, True)
    card = 123.8 * 87.3 / 1e6 * 110 * 453.59237 / (500 * 20 * 26 * 0.0254**2)
    envelope = next(p["grams"] for p in said["parts"] if p["name"].startswith("A1"))
    assert reply["grams"] == pytest.approx(envelope + card, abs=0.02)
    outers = sum(each["price"] * each["count"] for each in said["envelopes"])
    assert said["total"] == pytest.approx(outers + 2 * 0.80)
    told = addressing(*run).stdout
    assert "1 to CA" in told
    assert "2 replies from home" in told


def test_stamps_that_have_no_room_are_told(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE + "caliper_pt = 20.0\ngrams = 30.0\n")
    run = ("postage", write_list([ROW]), "--docket", docket)
    (envelope,) = json.loads(addressing(*run, "--json").stdout)["envelopes"]
    assert (envelope["price"], envelope["stamps"]) == (1.10, [0.80, 0.30])
    told = addressing(*run).stdout
    assert "stamps: 0.80 and 0.30" in told
    assert "write [post] stamps = 2 in the docket" in told


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('[country.UK.letter]\nsteps = [{ oz = 1.0, price = "1" }]\n', "is no country"),
        ('[country.CA.letter]\nsteps = [{ oz = 1.0, price = "-1" }]\n', "no sign"),
        (
            '[country.CA.letter]\nsteps = [{ oz = 2.0, price = "1" }, { oz = 2.0, price = "2" }]\n',
            "out of order",
        ),
    ],
)
def test_postage_that_can_t_be_is_refused(
    addressing: Run, write_list: Write, tmp_path: Path, line: str, said: str
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE)
    (tmp_path / "postage.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\nstamps = ["0.80"]\n[home.letter]\n'
        f'steps = [{{ oz = 2.0, price = "1" }}]\n{line}'
    )
    ran = addressing("postage", write_list([ROW]), "--docket", docket)
    assert ran.returncode == 3
    assert said in ran.stderr


def test_what_is_given_by_hand_has_no_postage_and_no_stamp_but_its_reply_has(
    addressing: Run, tmp_path: Path
) -> None:
    path, docket = tmp_path / "guests.csv", tmp_path / "docket.toml"
    path.write_text(
        "Name,Street,City,State,ZIP,Hand deliver?\n"
        "Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759,\n"
        "Ms. Ottoline Grayling,431 Weathervane Drive,Bar Harbor,ME,04609,yes\n"
    )
    docket.write_text(HOSTS + SUITE + REPLY)
    said = json.loads(addressing("postage", path, "--docket", docket, "--json").stdout)
    assert [(each["destination"], each["count"]) for each in said["envelopes"]] == [("home", 1)]
    assert said["reply"]["count"] == 2
    suite = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)["suite"]
    assert (suite["stamp, outer"]["needed"], suite["stamp, reply"]["needed"]) == (1, 2)


PARTED = (
    "Name,Street,City,State,ZIP,Country,Suite\n"
    "Mr. Tobias Wexcombe and Guest,14 Larkmoor Lane,Litchfield,CT,06759,,Day\n"
    "Ms. Ottoline Grayling,431 Weathervane Drive,Bar Harbor,ME,04609,,Day + Brunch\n"
    "Ms. Ysolde Penhew,12 Larkmoor Lane,Litchfield,CT,06759,,Evening\n"
    "Mme Odile Farrenby,9 rue du Moulin,Lyon,,69002,France,Brunch\n"
)


def test_what_only_some_get_is_counted_weighed_and_posted_for_them_alone(
    addressing: Run, tmp_path: Path
) -> None:
    path, docket = tmp_path / "guests.csv", tmp_path / "docket.toml"
    path.write_text(PARTED)
    brunch = '[[suite]]\nname = "brunch card"\ngrams = 20.0\nonly = ["brunch"]\n'
    visit = '[[suite]]\nname = "map"\ngrams = 5.0\nonly = ["abroad", "Evening"]\n'
    docket.write_text(HOSTS + SUITE + brunch + visit)
    run = ("postage", path, "--docket", docket)
    said = json.loads(addressing(*run, "--json").stdout)
    sent = [(e["destination"], e["contents"][1:], e["count"]) for e in said["envelopes"]]
    assert sent == [
        ("home", [], 1), ("home", ["brunch card"], 1), ("home", ["map"], 1),
        ("abroad", ["brunch card", "map"], 1),
    ]  # fmt: skip
    grams = [each["grams"] for each in said["envelopes"]]
    assert [round(one - grams[0], 2) for one in grams] == [0, 20, 5, 25]
    told = addressing(*run).stdout
    assert "1 at home, with invitation and brunch card" in told
    suite = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)["suite"]
    assert [suite[name]["open"]["high"] for name in ("invitation", "map")] == [5, 2]
    assert {name: suite[name]["needed"] for name in ("invitation", "brunch card", "map")} == {
        "invitation": 4, "brunch card": 2, "map": 2,
    }  # fmt: skip


def test_a_suite_that_the_list_doesn_t_have_is_told_with_those_that_it_has(
    addressing: Run, tmp_path: Path
) -> None:
    path, docket = tmp_path / "guests.csv", tmp_path / "docket.toml"
    path.write_text(PARTED)
    docket.write_text(f'{SUITE}only = ["Lunch"]\n')
    ran = addressing("tally", path, "--docket", docket, "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (ran.returncode, fault["code"]) == (3, "suite-unknown")
    assert '"Brunch", "Day", "Day + Brunch", "Evening"' in fault["text"]
