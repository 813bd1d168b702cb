"""Styles of wording: files of their own, checked before a name is worded by them."""

from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.shelf import open_shelf
from addressing.records.guests import Person
from addressing.records.styles import CONDITIONS, Form, is_condition
from addressing.wording.forms import CONDITIONS as ASKED

FORM = """
[[form]]
people = 1
on = ["inner"]
when = ["given name"]
write = "{one.given}"
example = [{ title = "Ms.", given = "Odile", family = "Farrenby" }]
gives = "Odile"
source = "our house style"
"""


def own(folder: Path, text: str, key: str = "friends") -> Path:
    path = folder / "styles" / f"{key}.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_every_condition_that_a_form_may_have_can_be_asked() -> None:
    assert set(ASKED) == set(CONDITIONS)
    assert is_condition("not given name")
    assert is_condition("title is Rabbi")
    assert not is_condition("title is ")
    assert not is_condition("not not given name")


def test_an_own_style_says_only_what_differs(tmp_path: Path) -> None:
    own(tmp_path, f'title = "Friends"\nbase = "formal"\n[words]\nguest = "& Friend"\n{FORM}')
    shelf = open_shelf(tmp_path)
    style, formal = shelf.style("friends"), shelf.style("formal")
    assert "friends" in shelf.styles()
    assert style.forms[style.own :] == formal.forms
    assert style.forms[0] == Form(
        1,
        ("inner",),
        ("given name",),
        "{one.given}",
        (Person("Ms.", "Odile", "Farrenby"),),
        "Odile",
        "our house style",
    )
    assert style.word("guest") == "& Friend"
    assert style.word("and") == formal.word("and")
    assert (style.address, style.capitals, style.titles) == ("spelled", False, True)


def test_an_own_style_may_stand_on_the_packaged_one_of_its_name(tmp_path: Path) -> None:
    own(tmp_path, f'title = "Ours"\nbase = "formal"\n{FORM}', "formal")
    style = open_shelf(tmp_path).style("formal")
    assert (style.title, style.own) == ("Ours", 1)
    assert len(style.forms) == 1 + len(open_shelf(None).style("formal").forms)


WRONG = {
    "condition": (FORM.replace("given name", "givn name"), "form[1].when", "given name"),
    "part": (FORM.replace("{one.given}", "{one.gven}"), "form[1].write", "one.given"),
    "brace": (FORM.replace("{one.given}", "{one.given"), "form[1].write", "{one.title}"),
    "somebody else": (FORM.replace("{one.given}", "{other.given}"), "form[1].write", "{one}"),
    "itself": (FORM.replace("{one.given}", "{one.alone}"), "form[1].write", "{one.alone}"),
    "unknown couple": (
        FORM.replace("{one.given}", "{wife.given}"),
        "form[1].write",
        "husband and wife",
    ),
    "example": (FORM.replace("people = 1", "people = 2"), "form[1].example", "as many people"),
    "envelope": (FORM.replace('"inner"', '"iner"'), "form[1].on[1]", '"outer" or "inner"'),
}


@pytest.mark.parametrize("hurt", WRONG)
def test_a_form_that_can_t_be_used_is_told_by_its_key(hurt: str, tmp_path: Path) -> None:
    form, key, mend = WRONG[hurt]
    own(tmp_path, f'title = "Friends"\nbase = "formal"\n{form}')
    with pytest.raises(Fault) as raised:
        open_shelf(tmp_path).style("friends")
    fault = raised.value
    assert (fault.exit, fault.code) == (Exit.INPUT, "style-wrong")
    assert key in fault.text
    assert mend in fault.mend


@pytest.mark.parametrize(
    ("text", "code", "mend"),
    [
        ('title = "A"\nbase = "formel"\n', "style-unknown", "formal"),
        ('title = "A"\nbase = "friends"\n', "style-unknown", ""),
        (f'title = "A"\n{FORM}', "style-wrong", "base"),
    ],
)
def test_a_style_stands_on_one_that_is_there_or_on_its_own_forms(
    text: str, code: str, mend: str, tmp_path: Path
) -> None:
    own(tmp_path, text)
    with pytest.raises(Fault) as raised:
        open_shelf(tmp_path).style("friends")
    assert raised.value.code == code
    assert mend in raised.value.mend


def test_two_styles_that_stand_on_each_other_are_refused(tmp_path: Path) -> None:
    own(tmp_path, 'title = "A"\nbase = "second"\n', "first")
    own(tmp_path, 'title = "B"\nbase = "first"\n', "second")
    with pytest.raises(Fault) as raised:
        open_shelf(tmp_path).style("first")
    assert raised.value.code == "style-unknown"
