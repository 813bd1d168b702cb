"""Follows the tags of an XML part as it streams: no tree is built, no document type let in."""

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Protocol
from xml.etree.ElementTree import ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser

from addressing.tables import table

MAX_DEPTH = 200
Attributes = Mapping[str, str]


class BrokenPartError(ValueError):
    """A part that can't be read: it isn't XML, nests without end, or has a document type."""


class Listener(Protocol):
    """What is told of each tag. Names have a short prefix ("x:row"), "" in a foreign space."""

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens; attributes of a namespace have it in full (see `attribute`)."""

    def end(self, name: str) -> None:
        """A tag closes."""

    def text(self, data: str) -> None:
        """Some of the text between tags."""


class _ShortNames(dict[str, str]):
    """From the name that the parser gives ("uri}row") to ours ("x:row"), learnt on the way."""

    def __missing__(self, raw: str) -> str:
        uri, _, local = raw.rpartition("}")
        short = _spaces().get(uri)
        name = f"{short}:{local}" if short else ""
        self[raw] = name
        return name


@cache
def _spaces() -> dict[str, str]:
    return {row["uri"]: row["short"] for row in table("namespaces")}


@cache
def attribute(name: str) -> tuple[str, ...]:
    """The ways in which an attribute such as "table:name" is written in full."""
    short, _, local = name.partition(":")
    return tuple(f"{uri}}}{local}" for uri, known in _spaces().items() if known == short)


def given(attributes: Attributes, name: str) -> str:
    """The value of an attribute with a prefix; "" when it isn't there."""
    return next((attributes[full] for full in attribute(name) if full in attributes), "")


class _Silent:
    """A target that builds nothing."""

    def close(self) -> None:
        """Nothing was kept."""


def follow(blocks: Iterable[bytes], listener: Listener) -> None:
    """Tell a listener of every tag and text of a part.

    Raises:
        BrokenPartError: the part isn't whole; whatever the listener raises goes through.
    """
    parser = DefusedXMLParser(target=_Silent(), forbid_dtd=True)
    expat = parser.parser
    names, depth = _ShortNames(), 0
    opened, closed = listener.start, listener.end  # looked up once, not for each tag

    def start(raw: str, attributes: Attributes) -> None:
        nonlocal depth
        depth += 1
        if depth > MAX_DEPTH:
            message = f"nested deeper than {MAX_DEPTH}"
            raise BrokenPartError(message)
        opened(names[raw], attributes)

    def end(raw: str) -> None:
        nonlocal depth
        depth -= 1
        closed(names[raw])

    # The parser's own handlers build a tree; ours are as fast as they can be in Python.
    expat.ordered_attributes = False
    expat.StartElementHandler, expat.EndElementHandler = start, end
    expat.CharacterDataHandler = listener.text
    expat.DefaultHandlerExpand = None
    try:
        for block in blocks:
            parser.feed(block)
        parser.close()
    except (ParseError, DefusedXmlException, LookupError, UnicodeError) as error:
        if isinstance(error, BrokenPartError):
            raise
        raise BrokenPartError(str(error)) from error
    finally:  # parser and handlers hold each other, and with them all that the listener has heard
        expat.StartElementHandler = expat.EndElementHandler = expat.CharacterDataHandler = None
