"""A plate that another program saved is none; a page that differs is named all the same."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]
Change = Callable[[pikepdf.Pdf], None]

PLATE = Path("guests-job") / "plates" / "01-outer-white.pdf"
SAVED = "The file was saved by another program, cut short or added to"


@pytest.fixture
def plate(addressing: Run, write_list: Write) -> Path:
    assert addressing("plates", write_list(), "--json").returncode == 0
    return PLATE


def told(addressing: Run, plate: Path) -> list[str]:
    ran = addressing("preflight", plate)
    assert ran.returncode == 5
    head, *lines = ran.stdout.splitlines()
    assert "not to be printed" in head
    return [line.strip() for line in lines if "Make the plates again" not in line]


def saved(
    plate: Path, change: Callable[[pikepdf.Pdf], object], lock: pikepdf.Encryption | None = None
) -> None:
    with pikepdf.open(plate, allow_overwriting_input=True) as document:
        change(document)
        packed = pikepdf.ObjectStreamMode.generate
        document.save(plate, object_stream_mode=packed, encryption=lock)


def drawn(document: pikepdf.Pdf, page: int, change: Callable[[bytes], bytes]) -> None:
    own = document.pages[page]
    own.Contents = document.make_stream(change(own.Contents.read_bytes()))


def nothing(document: pikepdf.Pdf) -> None:
    """Saved as it is."""


def boxed(document: pikepdf.Pdf) -> None:
    drawn(document, 1, lambda its: its + b"0 0 9 9 re f\n")


def renamed(document: pikepdf.Pdf) -> None:
    letters = document.pages[2].Contents.read_bytes()
    drawn(document, 1, lambda _: letters)


def turned(document: pikepdf.Pdf) -> None:
    document.pages[1].Rotate = 180


def dropped(document: pikepdf.Pdf) -> None:
    del document.pages[2]


def letter(document: pikepdf.Pdf) -> pikepdf.Object:
    """The first letter's drawing."""
    forms = document.pages[0].Resources.XObject
    return forms[min(forms.keys())]


def nicked(document: pikepdf.Pdf) -> None:
    own = letter(document)
    first, rest = own.read_bytes().split(b" ", 1)
    own.write(b"%.3f %b" % (float(first) + 3, rest))


def drawn_over(document: pikepdf.Pdf) -> None:
    own = letter(document)
    own.write(b"0 0 m 9 0 l 9 9 l h " + own.read_bytes())


def mirrored(document: pikepdf.Pdf) -> None:
    letter(document).Matrix = pikepdf.Array([-1, 0, 0, 1, 0, 0])


def cut_off(document: pikepdf.Pdf) -> None:
    letter(document).BBox = pikepdf.Array([0, 0, 9, 9])


def spaced(document: pikepdf.Pdf) -> None:
    """Blanks and numbers written otherwise change nothing."""
    own = letter(document)
    own.write(b"  ".join(own.read_bytes().split()))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (nicked, "isn't drawn as in"),
        (drawn_over, "isn't drawn as in"),
        (mirrored, "isn't drawn as in"),
        (cut_off, "is cut off"),
    ],
)
def test_a_letter_that_another_program_changed_is_named(
    change: Change, words: str, addressing: Run, plate: Path
) -> None:
    saved(plate, change)
    lines = told(addressing, plate)
    assert any(words in line for line in lines), lines


def test_a_letter_that_another_program_wrote_otherwise_is_the_same(
    addressing: Run, plate: Path
) -> None:
    saved(plate, spaced)
    (line,) = told(addressing, plate)
    assert line.startswith(SAVED)


def test_a_plate_only_saved_anew_has_no_page_that_differs(addressing: Run, plate: Path) -> None:
    saved(plate, nothing)
    (line,) = told(addressing, plate)
    assert line.startswith(SAVED)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (boxed, "Page 2 (h-… draws more than its lines of letters"),
        (renamed, "Page 2 (h-… carries the piece of"),
        (turned, "Page 2 (h-… is told to turn by 180° on its way to paper"),
        (dropped, "The plate has 2 pages; 3 were ordered."),
    ],
)
def test_the_page_that_differs_is_named(
    change: Change, words: str, addressing: Run, plate: Path
) -> None:
    saved(plate, change)
    lines = told(addressing, plate)
    begin, _, rest = words.partition("…")
    assert any(line.startswith(begin) and rest in line for line in lines), lines
    assert any(line.startswith(SAVED) for line in lines)
    others = [line for line in lines if line.startswith("Page 1")]
    assert not others


def script(document: pikepdf.Pdf) -> None:
    document.Root.OpenAction = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS="app.beep()")


def attached(document: pikepdf.Pdf) -> None:
    document.attachments["a.txt"] = b"of another program"


def layers(document: pikepdf.Pdf) -> pikepdf.Object:
    layer = document.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name="hidden"))
    off = pikepdf.Dictionary(OFF=pikepdf.Array([layer]))
    document.Root.OCProperties = pikepdf.Dictionary(OCGs=pikepdf.Array([layer]), D=off)
    return layer


def a_letter_hidden(document: pikepdf.Pdf) -> None:
    letters = document.pages[0].resources.XObject
    letters[min(letters.keys())].OC = layers(document)


def labelled(document: pikepdf.Pdf) -> None:
    document.Root.PageLabels = pikepdf.Dictionary(Nums=pikepdf.Array([0, pikepdf.Dictionary()]))


def titled(document: pikepdf.Pdf) -> None:
    document.docinfo["/Title"] = "02-inner-white"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (script, "does something when it is opened"),
        (attached, "has something attached to it"),
        (layers, "has layers that can be switched off"),
        (a_letter_hidden, "has more to it than its shape"),
        (labelled, "Another program added something to the plate"),
        (titled, "The file's title was changed"),
    ],
)
def test_what_another_program_put_into_the_file_is_named(
    change: Callable[[pikepdf.Pdf], object], words: str, addressing: Run, plate: Path
) -> None:
    saved(plate, change)
    lines = told(addressing, plate)
    assert any(words in line for line in lines), lines
    assert any(line.startswith(SAVED) for line in lines)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "The file is empty."),
        (b"<!DOCTYPE html>\n<html></html>\n", "The file isn't a PDF: it is a web page."),
        (b"PK\x03\x04", "The file isn't a PDF."),
    ],
)
def test_what_is_no_pdf_is_called_what_it_is(
    content: bytes, words: str, addressing: Run, plate: Path
) -> None:
    plate.write_bytes(content)
    assert told(addressing, plate)[0] == words


def test_another_ink_is_named(addressing: Run, write_list: Write) -> None:
    gold = '[[piece]]\nkind = "outer"\nink = "Gold"\n[shop]\nname = "farrenby-press"\n'
    hosts = '[hosts]\nname = "Mrs. Odile Larkmoor"\nstreet = "48 Larkmoor Lane"\n'
    hosts += 'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
    Path("job.toml").write_text(hosts + gold, "utf-8")
    ran = addressing("plates", write_list(), "--docket", "job.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    (plate,) = PLATE.parent.glob("01-outer*.pdf")

    def renamed_ink(document: pikepdf.Pdf) -> None:
        document.pages[0].Resources.ColorSpace.Ink[1] = pikepdf.Name("/Silber")

    def another_colour(document: pikepdf.Pdf) -> None:
        document.pages[0].Resources.ColorSpace.Ink[3].C1 = pikepdf.Array([1, 0, 0, 0])

    was = plate.read_bytes()
    saved(plate, renamed_ink)
    lines = told(addressing, plate)
    assert any("The plate's ink is named “Silber”" in line for line in lines), lines
    plate.write_bytes(was)
    saved(plate, another_colour)
    lines = told(addressing, plate)
    assert any("would look otherwise on a screen" in line for line in lines), lines


def test_a_plate_with_a_password_is_told(addressing: Run, plate: Path) -> None:
    saved(plate, nothing, pikepdf.Encryption(owner="a", user="b"))
    assert told(addressing, plate)[0] == "The file is protected by a password."


def test_the_page_is_named_that_has_a_wrong_letter_of_its_own(addressing: Run, plate: Path) -> None:
    def own_letter(document: pikepdf.Pdf) -> None:
        shared, page = document.pages[0].Resources, document.pages[1].obj
        name = bytes(document.pages[1].Contents.read_bytes()).split(b" Do")[0].split(b" ")[-1]
        form = shared.XObject[name.decode()]
        own = document.make_stream(
            b"0 0 m 9 0 l 9 9 l h " + form.read_bytes(),
            Type=form.Type,
            Subtype=form.Subtype,
            BBox=form.BBox,
        )
        forms = {**dict(shared.XObject.items()), name.decode(): own}
        page.Resources = pikepdf.Dictionary({**dict(shared.items()), "/XObject": forms})

    saved(plate, own_letter)
    lines = told(addressing, plate)
    assert any(
        line.startswith("Page 2 (h-") and "a letter that no other page has" in line
        for line in lines
    ), lines
    assert not any("page 1" in line.lower() for line in lines), lines


def test_a_whole_turn_is_no_turn_and_several_inks_are_named_as_such(
    addressing: Run, plate: Path
) -> None:
    def change(document: pikepdf.Pdf) -> None:
        document.pages[1].obj.Rotate = 360
        space = document.pages[0].Resources.ColorSpace["/Ink"]
        space[0], space[1] = pikepdf.Name.DeviceN, pikepdf.Array([space[1]])

    saved(plate, change)
    (line,) = told(addressing, plate)
    assert line.startswith(SAVED)
