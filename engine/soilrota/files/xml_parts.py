"""Goes through the XML of one part of a workbook without keeping a tree, and refuses what no workbook holds.

Document type declarations are refused, so there are no entities to expand and nothing outside the part is ever read. A
part is given to the parser whole, so no token is begun again; time is bounded by the number of elements.
"""

from __future__ import annotations

from typing import Protocol
from xml.parsers import expat

#: Most elements of a part [-].
_MOST_ELEMENTS = 6_000_000
_DOCTYPE_WORDS = "a part declares a document type, which workbooks do not"


class PartRefusedError(Exception):
    """A part cannot be read: the code of the problem, what is wrong in words, and in which row (0 for none)."""

    def __init__(self, code: str, found: str, row: int = 0) -> None:
        super().__init__(found)
        self.code, self.found, self.row = code, found, row


class PartHandler(Protocol):
    """What is told of a part. Names come without their prefix."""

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """An element begins."""

    def end(self, tag: str) -> None:
        """An element ends."""

    def text(self, data: str) -> None:
        """Text stands between."""

    def aside(self) -> None:
        """A comment, a CDATA section or an instruction stands between."""


def parse_part(part: bytes, handler: PartHandler) -> None:
    """Tell a handler of a part from its beginning to its end.

    Raises:
        PartRefusedError: It is no XML, not UTF-8, or declares a document type.
    """
    if b"<!DOCTYPE" in part or b"<!ENTITY" in part:
        raise PartRefusedError("damaged-workbook", _DOCTYPE_WORDS)
    if b"\0" in part[:64] or part.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise PartRefusedError("damaged-workbook", "a part is not in UTF-8")
    parser = expat.ParserCreate("utf-8")
    parser.buffer_text = True
    parser.buffer_size = 65_536
    elements = 0

    def start(tag: str, attributes: dict[str, str]) -> None:
        nonlocal elements
        elements += 1
        if elements > _MOST_ELEMENTS:
            raise PartRefusedError("too-large", f"a part has more than {_MOST_ELEMENTS:,} elements")
        handler.start(tag.rpartition(":")[2], attributes)

    def refuse(*_: object) -> None:
        raise PartRefusedError("damaged-workbook", _DOCTYPE_WORDS)

    def aside(*_: object) -> None:
        handler.aside()

    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = refuse
    parser.StartElementHandler = start
    parser.EndElementHandler = lambda tag: handler.end(tag.rpartition(":")[2])
    parser.CharacterDataHandler = handler.text
    parser.CommentHandler = parser.StartCdataSectionHandler = parser.ProcessingInstructionHandler = aside
    try:
        parser.Parse(part, True)  # noqa: FBT003 - the parser takes no names
    except expat.ExpatError as fault:
        found = f"a part is not well-formed XML ({expat.ErrorString(fault.code)})"
        raise PartRefusedError("damaged-workbook", found) from fault
