"""How the cells of an OpenDocument sheet look: styles by name, each on top of its parent."""

from dataclasses import dataclass, field, replace

from addressing.guestlist.files.looks import Look
from addressing.guestlist.files.markup import Attributes, given

_WHITE, _BLACK = "FFFFFF", "000000"
_RGB = 6
_MOST_PARENTS = 20


@dataclass(frozen=True, slots=True)
class DocumentStyle:
    """What one style says itself; None where it leaves the word to its parent."""

    parent: str = ""
    struck: bool | None = None
    ink: str | None = None
    fill: str | None = None
    hides: bool = False
    """The style of a sheet that isn't shown."""
    rule: str | None = None


@dataclass(slots=True)
class DocumentLooks:
    """Listens to styles and answers how a style looks; "" is a cell without one."""

    styles: dict[str, DocumentStyle] = field(default_factory=dict)
    _name: str = ""
    _looks: dict[str, Look] = field(default_factory=dict)

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if name in ("style:style", "style:default-style"):
            self._name = given(attributes, "style:name") or given(attributes, "style:family")
            parent = given(attributes, "style:parent-style-name")
            self.styles[self._name] = DocumentStyle(parent)
        elif name == "style:text-properties":
            self._say(_struck(attributes), "struck")
            if given(attributes, "style:use-window-font-color") != "true":
                self._say(_colour(given(attributes, "fo:color")), "ink")
        elif name == "style:table-cell-properties":
            self._say(_colour(given(attributes, "fo:background-color")), "fill")
        elif name == "style:map":
            self._say(given(attributes, "style:condition") or None, "rule")
        elif name == "style:table-properties":
            hidden = given(attributes, "table:display") == "false"
            self._say(hidden or None, "hides")

    def end(self, name: str) -> None:
        """A tag closes."""
        if name in ("style:style", "style:default-style"):
            self._name = ""

    def text(self, data: str) -> None:
        """Text says nothing here."""

    def _say(self, value: str | bool | None, what: str) -> None:  # noqa: FBT001 - a style's word
        if self._name and value is not None:
            said: dict[str, object] = {what: value}
            self.styles[self._name] = replace(self.styles[self._name], **said)  # type: ignore[arg-type]

    def look(self, name: str) -> Look:
        """How a cell of a style looks."""
        known = self._looks.get(name)
        if known is None:
            known = self._looks[name] = self._made(name)
        return known

    def struck(self, name: str) -> bool | None:
        """Whether a style of words strikes them through; None where it doesn't say."""
        return next((s.struck for s in self._line(name) if s.struck is not None), None)

    def hides(self, name: str) -> bool:
        """Whether a sheet of a style is hidden."""
        return any(style.hides for style in self._line(name))

    def _line(self, name: str) -> list[DocumentStyle]:
        """A style, its parent, and so on."""
        found: list[DocumentStyle] = []
        while name in self.styles and len(found) < _MOST_PARENTS:
            found.append(self.styles[name])
            name = self.styles[name].parent
        return found

    def _made(self, name: str) -> Look:
        line = self._line(name)
        ink = next((style.ink for style in line if style.ink is not None), None)
        fill = next((style.fill for style in line if style.fill is not None), None)
        ground = fill or _WHITE
        return Look(
            struck=bool(self.struck(name)),
            fill=None if ground == _WHITE else fill,
            ink=None if ink in (None, "", _WHITE, _BLACK) else ink,
            unseen=ink == ground,
            rule=next((style.rule for style in line if style.rule), ""),
        )


def _struck(attributes: Attributes) -> bool | None:
    kind = given(attributes, "style:text-line-through-type")
    style = given(attributes, "style:text-line-through-style")
    said = [word for word in (kind, style) if word]
    return all(word != "none" for word in said) if said else None


def _colour(text: str) -> str | None:
    """A colour as RGB; "" for a plain word such as "transparent", None where nothing is said."""
    if not text:
        return None
    return text[1:].upper() if text.startswith("#") and len(text) == _RGB + 1 else ""
