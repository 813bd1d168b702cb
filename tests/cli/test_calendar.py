"""The job's days, from docket to screen."""

import json
import subprocess
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")


def test_the_calendar_says_what_is_late_by_the_jobs_date(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text("[wedding]\ndate = 2026-09-19\n")
    path = write_list([ROW])
    run = ("calendar", path, "--docket", docket)
    early = json.loads(addressing(*run, "--date", "2026-03-01", "--json").stdout)["days"]
    assert [day["date"] for day in early][-1] == "2026-09-19"
    assert not any(day["late"] for day in early)
    late = json.loads(addressing(*run, "--date", "2026-09-01", "--json").stdout)["days"]
    assert [day["late"] for day in late] == [day["date"] < "2026-09-01" for day in late]
    assert "LATE" in addressing(*run, "--date", "2026-09-01").stdout


def test_a_docket_without_the_day_is_told(addressing: Run, write_list: Write) -> None:
    ran = addressing("calendar", write_list([ROW]), "--json")
    assert ran.returncode == 3
    assert '"wedding-missing"' in ran.stderr


def test_guests_at_home_and_abroad_have_their_own_days_and_the_docket_s_day_goes_first(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text("[job]\nposting = 2026-08-03\n[wedding]\ndate = 2026-09-19\n")
    path = write_list([ROW, ("Ms. Odile Farrenby", "4 Rue du Four", "75006 Paris, France", "", "")])
    said = addressing("calendar", path, "--docket", docket).stdout
    assert "2026-07-11  Invitations are posted abroad (counted from the wedding)" in said
    assert "2026-08-03  Invitations are posted at home (as the docket says)" in said


def test_printing_takes_the_days_of_the_shop_that_the_docket_names(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    told = []
    for press in ('[shop]\nname = "farrenby-press"', '[device]\nname = "home-toner-white"'):
        docket.write_text(f"[wedding]\ndate = 2026-09-19\n{press}\n")
        said = addressing("calendar", path, "--docket", docket, "--date", "2026-01-01").stdout
        told += [line for line in said.splitlines() if "Printing begins" in line]
    assert "7 days for printing" in told[0]
    assert "1 day for printing" in told[1]


def test_public_holidays_and_the_docket_s_own_days_of_rest_are_passed_over(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text('[wedding]\ndate = 2026-08-22\nrest = ["2026-07-02"]\n')
    said = addressing("calendar", path, "--docket", docket).stdout
    # seven weeks before is Independence Day, kept on the Friday before, too
    posted = "2026-07-01  Invitations are posted at home"
    assert f"{posted} (counted from the wedding; 2026-07-04 is Independence Day)" in said
    abroad = docket.read_text() + '[hosts]\nname = "Mme Penhew"\ncountry = "CA"\n'
    docket.write_text(abroad)
    said = addressing("calendar", path, "--docket", docket).stdout
    assert "2026-07-04  Invitations are posted" in said
    docket.write_text('[wedding]\ndate = 2026-08-22\nrest = ["2 July"]\n')
    ran = addressing("calendar", path, "--docket", docket)
    assert ran.returncode == 3
    assert "year, month, day" in ran.stderr


def test_the_piece_that_dries_slowest_says_when_filling_may_begin(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """Inkjet dries a day, on a metallic paper two (data/drying.tsv)."""
    packaged = (files("addressing") / "data" / "devices.toml").read_text("utf-8")
    inkjet = packaged.partition("[home-inkjet]\n")[2].partition("\n[home-")[0]
    (tmp_path / "devices").mkdir()
    (tmp_path / "devices" / "home-inkjet.toml").write_text(
        inkjet.replace('"coated", "metallic", "translucent"', "")
    )
    (tmp_path / "stocks.toml").write_text(
        '[pearl]\ntitle = "Pearl"\nscreen = "#F0EEE6"\nsurface = "metallic"\n'
    )
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    for papers, days in ((("ivory", "ivory"), 1), (("ivory", "pearl"), 2), (("pearl", "ivory"), 2)):
        pieces = "".join(
            f'[[piece]]\nkind = "{kind}"\nink = "Black"\nstock = "{paper}"\n'
            for kind, paper in zip(("outer", "inner"), papers, strict=True)
        )
        docket.write_text(
            '[pieces]\nmake = ["outer", "inner"]\n[wedding]\ndate = 2026-09-19\n'
            f'[device]\nname = "home-inkjet"\n{pieces}'
        )
        told = addressing("calendar", path, "--docket", docket).stdout
        assert f"({days} day{'s' * (days > 1)} to dry, 1 day to fill)" in told


def test_every_suite_of_the_list_is_filled_in_turn(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text("[wedding]\ndate = 2026-09-19\nminutes_per_suite = 200\n")
    path = write_list([ROW, ("Ms. Odile Farrenby", "2 Larkmoor Lane", *ROW[2:])])
    assert "2 days to fill" in addressing("calendar", path, "--docket", docket).stdout


def test_the_hosts_own_country_in_a_list_is_not_abroad(addressing: Run, tmp_path: Path) -> None:
    docket, path = tmp_path / "docket.toml", tmp_path / "guests.csv"
    docket.write_text("[wedding]\ndate = 2026-09-19\n")
    path.write_text(
        "Name,Street,City,State,ZIP,Country\n"
        "Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759,United States\n"
    )
    said = addressing("calendar", path, "--docket", docket).stdout
    assert "posted at home" in said
    assert "abroad" not in said


def test_holidays_of_the_year_before_the_wedding_are_passed_over_too(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text("[wedding]\ndate = 2027-01-14\n")
    said = addressing("calendar", write_list([ROW]), "--docket", docket).stdout
    posted = next(line for line in said.splitlines() if "posted at home" in line)
    assert posted.startswith("2026-11-25")
    assert "2026-11-26 is Thanksgiving" in posted
