"""What the job sheet tells whoever stands at the device."""

from dataclasses import replace

import pytest

from addressing.feeding import lay_for
from addressing.job.device_notes import device_notes
from addressing.job.reading import Reading
from addressing.job.set_kinds import SetKind
from addressing.materials.shelf import open_shelf
from addressing.proofs.operating import afterwards, before, inks_of, limits, loading, pages_of
from addressing.proofs.slips import slips_of
from addressing.records.docket import Docket, FeedChoice, Post
from addressing.records.guests import GuestList
from addressing.records.lays import Calibration
from addressing.records.pages import Setting
from addressing.records.plates import PlateFile
from addressing.records.proofs import PlateRun, ProofSet
from addressing.records.shelf import Device, Feed, Ink

SHELF = open_shelf(None)
TONER = SHELF.device("home-toner")


@pytest.fixture
def setting(sets: tuple[ProofSet, ...]) -> Setting:
    return replace(sets[0].setting, kind="outer", layout=SHELF.layout("a7"))


def run_of(setting: Setting, device: Device, **feed: str) -> PlateRun:
    lay = lay_for(device, setting.layout, FeedChoice(**feed))
    return PlateRun((), (setting,), device, lays=(("outer", lay),), load=7)


def test_loading_says_how_many_which_edge_which_face_flap_and_side(setting: Setting) -> None:
    first, *_ = loading(run_of(setting, TONER), TONER)
    assert first.startswith("Feed at most 7 envelopes at once, short edge first, face down")
    assert "the flap on the left" in first
    other = replace(TONER, feed=Feed("long", "right", "up", "lead", exit="face-down", pause=2))
    told = loading(run_of(setting, other), other)
    assert "long edge first, face up" in told[0]
    assert "the flap first, against the right guide" in told[0]
    assert told[1].startswith("They come out face down")
    assert told[2] == "Wait 2 minutes between batches."


def test_a_return_is_printed_on_the_flap_s_side(setting: Setting) -> None:
    run = run_of(replace(setting, kind="return"), TONER)
    assert any("the flap closed" in line for line in loading(run, TONER))
    front = replace(setting, kind="return", zone=replace(setting.zone, side="front"))
    assert not any("flap closed" in line for line in loading(run_of(front, TONER), TONER))


@pytest.mark.parametrize(
    ("way", "told"),
    [
        ("envelope", "the envelope's own size, 7¼ × 5¼ in."),
        ("turned", "choose 5¼ × 7¼ in."),
        ("sheet", "choose 8½ × 11 in. (215.9 × 279.4 mm) and load the envelope alone"),
        ("carrier", "48 mm from the edge that goes in first"),
    ],
)
def test_the_page_to_choose_follows_the_way(setting: Setting, way: str, told: str) -> None:
    (line,) = pages_of(run_of(setting, TONER, way=way), "US")
    assert line.startswith("Outer, A7: ")
    assert told in line
    assert "isn't measured yet" in line


def test_a_measured_place_names_its_calibration_and_what_is_left_over(setting: Setting) -> None:
    run = run_of(setting, TONER)
    true = Calibration("home-toner, main, a7, envelope, 12ab", (1, 0, 3), (0, 1, 0), 0.85, 5)
    lay = replace(run.lays[0][1], calibration=true)
    (line,) = pages_of(replace(run, lays=(("outer", lay),)), "US")
    assert "Corrected by home-toner, main, a7, envelope, 12ab (5 marks, 0.3 mm left over)." in line


def inked(setting: Setting, key: str, channel: str | None, device: Device) -> str:
    ink = Ink(key, key, (0.0, 0.0, 0.0, 1.0), (0.1, 0.1, 0.1), channel)
    (line,) = inks_of(run_of(replace(setting, ink=ink), device), device)
    return line


def test_each_ink_is_told_how_it_reaches_the_paper(setting: Setting) -> None:
    rgb = SHELF.device("home-inkjet")
    assert f"choose “{rgb.black_only}”" in inked(setting, "Black", "grey", rgb)
    told = inked(setting, "White", "grey", rgb)
    assert "the black slot, where White stands, prints alone" in told
    assert "White stands in the black slot" in inked(setting, "White", "black", TONER)
    assert "asks for the black alone" in inked(setting, "Black", "black", TONER)
    assert "the device mixes it" in inked(setting, "Navy", None, TONER)


def test_what_is_set_before_is_set_back_after_the_last_first() -> None:
    for device in map(SHELF.device, SHELF.devices()):
        backs = [back for _, back in device.set_before]
        assert before(device)[: len(backs)] == tuple(each for each, _ in device.set_before)
        assert afterwards(device)[: len(backs)] == tuple(reversed(backs))


def test_paper_s_limits_are_the_record_s() -> None:
    told = limits(TONER)
    assert told[0].startswith("Paper of 60 to 90 g/m²")
    assert any("handmade" in line for line in told)
    bare = replace(TONER, stock=replace(TONER.stock, lightest=None, thickest=0.9))
    assert limits(bare)[0].startswith("Paper of at most 90 g/m²")
    assert "0.9 mm thick" in limits(bare)[1]


@pytest.mark.parametrize(
    ("paper", "told"),
    [("80 lb text", "118 g/m², above 90"), ("50 gsm", "50 g/m², below 60"), ("70 gsm", None)],
)
def test_a_weight_beyond_the_record_is_told_not_refused(
    setting: Setting, sets: tuple[ProofSet, ...], paper: str, told: str | None
) -> None:
    stock = replace(sets[0].stock, surface="felt")
    kinds = (SetKind("outer", (), setting, stock),)
    guests = GuestList("list.csv", "0", (), 0)
    docket = Docket(post=Post(envelope_paper=paper))
    notes = device_notes(Reading(docket, guests, (), kinds, (), frozenset(), TONER))
    assert "test one envelope first" in notes[0]
    assert len(notes[1:]) == (told is not None)
    assert all(str(told) in note for note in notes[1:])


def test_a_slip_reads_its_pile_from_the_top_whichever_way_it_was_printed() -> None:
    keys = ("h-c", "h-b", "h-a")
    names = ("Ida Quill", "Odile Penhew", "Tobias Wexcombe")
    file = PlateFile(
        "plates/01-outer-white-b02.pdf", "0", "outer", "White", 3, 1, 184.15, 133.35, keys, names,
        first=11, reverse=True,
    )  # fmt: skip
    (slip,) = slips_of((file,))
    assert (slip.first, slip.last, slip.count, slip.feeds) == (11, 13, 3, 13)
    assert (slip.first_name, slip.last_name) == ("Tobias Wexcombe", "Ida Quill")
    (straight,) = slips_of((replace(file, reverse=False),))
    assert (straight.first_name, straight.feeds) == ("Ida Quill", 11)
