"""Parts of an archive, taken out within bounds."""

from __future__ import annotations

import io
import struct
import zipfile

import pytest

from soilrota.files.zip_parts import LARGEST_INFLATED, MOST_ENTRIES, DamagedPartError, Parts, open_parts
from soilrota.problems import Problem
from tests.hostile.making import zipped

_TYPES = {"[Content_Types].xml": "<Types/>"}


def _code(raw: bytes) -> str:
    """Return the code of the problem that keeps an archive from being opened."""
    problem = open_parts(raw, "a.xlsx")
    assert isinstance(problem, Problem)
    assert problem.place.file == "a.xlsx"
    assert problem.mend
    return problem.code


def _parts(raw: bytes) -> Parts:
    """Return the parts of an archive that can be opened."""
    parts = open_parts(raw, "a.xlsx")
    assert isinstance(parts, Parts)
    return parts


def test_a_part_is_read_by_its_name() -> None:
    """Packed or not; capitals and slashes do not count; another name has none."""
    for packed in (True, False):
        parts = _parts(zipped({**_TYPES, "xl/Workbook.xml": "<a/>", "/xl\\b.xml": "<b/>"}, packed=packed))
        assert parts.read("XL/workbook.xml") == b"<a/>"
        assert parts.read("xl/b.xml") == b"<b/>"
        assert parts.read("xl/none.xml") is None


def test_what_an_ordinary_writer_streams_is_read() -> None:
    """Sizes may stand behind the parts and in the wide form that large archives use."""

    class OneWay(io.RawIOBase):
        def __init__(self) -> None:
            self.content = b""

        def writable(self) -> bool:
            return True

        def write(self, data: bytes) -> int:  # type: ignore[override]
            self.content += data
            return len(data)

    stream = OneWay()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        with archive.open("xl/workbook.xml", "w", force_zip64=True) as part:
            part.write(b"<a/>")
    assert _parts(stream.content).read("xl/workbook.xml") == b"<a/>"


def test_archives_that_are_not_opened() -> None:
    """Too many entries, too large, too well packed, locked, doubled, cut off, of another kind."""
    many = {f"{number}": "" for number in range(MOST_ENTRIES)}
    assert _code(zipped(_TYPES | many)) == "too-large"
    assert _code(zipped(_TYPES | {"a": b"0" * (LARGEST_INFLATED + 1)})) == "too-large"
    assert _code(zipped(_TYPES | {"a": b"0" * 10_000_000})) == "too-large"
    assert _code(zipped(_TYPES | {"a": "x", "A": "y"})) == "damaged-workbook"
    assert _code(zipped(_TYPES)[:-30]) == "damaged-workbook"
    assert _code(zipped(_TYPES | {"xl/vbaProject.bin": "x"})) == "not-a-table"
    good = zipped(_TYPES)
    at = good.index(b"PK\x01\x02") + 8
    assert _code(good[:at] + b"\x01" + good[at + 1 :]) == "locked-workbook"


@pytest.mark.parametrize("claimed", [0, 10, 4_999_999, 5_000_001, 4_000_000_000])
def test_a_size_that_is_not_true_is_found(claimed: int) -> None:
    """Whether the archive claims less or more than there is; no more than the claim is ever unpacked."""
    content = bytes(range(256)) * 19_531 + b"x" * 64
    raw = zipped(_TYPES | {"a": content}).replace(struct.pack("<I", len(content)), struct.pack("<I", claimed))
    parts = open_parts(raw, "a.xlsx")
    if isinstance(parts, Problem):
        assert parts.code == "too-large"
    else:
        with pytest.raises(DamagedPartError):
            parts.read("a")


def test_a_part_has_its_bound() -> None:
    """A part larger than its reader wants is not unpacked."""
    parts = _parts(zipped(_TYPES | {"a": "x" * 1_000}))
    assert parts.read("a", 1_000) == b"x" * 1_000
    with pytest.raises(DamagedPartError, match="at most 999"):
        parts.read("a", 999)


def test_a_part_that_lies_elsewhere_is_found() -> None:
    """The central directory points at something that is no part."""
    raw = zipped(_TYPES | {"a": "x"})
    entry = _parts(raw).entries["a"]
    entry.header_offset += 1
    with pytest.raises(DamagedPartError, match="outside"):
        Parts(raw, {"a": entry}).read("a")
    entry.header_offset = len(raw)
    with pytest.raises(DamagedPartError, match="outside"):
        Parts(raw, {"a": entry}).read("a")
