"""XML gone through without a tree."""

from __future__ import annotations

import pytest

from soilrota.files.xml_parts import PartRefusedError, parse_part


class _Log:
    """Writes down what it is told."""

    def __init__(self) -> None:
        self.told: list[str] = []

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        self.told.append(f"<{tag} {attributes}>")

    def end(self, tag: str) -> None:
        self.told.append(f"</{tag}>")

    def text(self, data: str) -> None:
        self.told.append(data)

    def aside(self) -> None:
        self.told.append("aside")


def test_everything_is_told_in_order() -> None:
    """Prefixes of tags are taken off; comments, CDATA and instructions are asides."""
    log = _Log()
    parse_part('<x:a b="1">µ<c/><!-- --><![CDATA[d]]><?e?></x:a>'.encode(), log)
    assert log.told == ["<a {'b': '1'}>", "µ", "<c {}>", "</c>", "aside", "aside", "d", "aside", "</a>"]


@pytest.mark.parametrize(
    "part",
    [
        b"",
        b"a;b",
        b"<a>",
        b"<a>&b;</a>",
        b"<!DOCTYPE a><a/>",
        b'<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>',
        b'<!DOCTYPE a SYSTEM "file:///x"><a/>',
        "<a/>".encode("utf-16"),
        '<!DOCTYPE a [<!ENTITY b "c">]><a/>'.encode("utf-16-le"),
        b"\xff\xfe<a/>",
        b"<a>\xff</a>",
    ],
)
def test_what_no_workbook_holds_is_refused(part: bytes) -> None:
    """Broken XML, document types in any encoding, and other encodings than UTF-8."""
    with pytest.raises(PartRefusedError) as fault:
        parse_part(part, _Log())
    assert fault.value.code == "damaged-workbook"


def test_an_encoding_that_is_declared_does_not_count() -> None:
    """UTF-8 alone is read, whatever the declaration says: so nothing can be hidden by it."""
    log = _Log()
    parse_part('<?xml version="1.0" encoding="iso-8859-1"?><a>µ</a>'.encode(), log)
    assert log.told == ["<a {}>", "µ", "</a>"]


def test_elements_are_counted() -> None:
    """Too many are refused."""
    with pytest.raises(PartRefusedError) as fault:
        parse_part(b"<a>" + b"<a/>" * 6_000_000 + b"</a>", _Log2())
    assert fault.value.code == "too-large"


class _Log2(_Log):
    """Forgets all that it is told."""

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Forget it."""

    def end(self, tag: str) -> None:
        """Forget it."""
