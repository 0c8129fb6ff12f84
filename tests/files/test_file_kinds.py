"""What a file is, by its first bytes."""

from __future__ import annotations

import pytest

from soilrota.files.file_kinds import archive_looks_like, is_zip, looks_like


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 99, "XLS"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"), "password"),
        (b"\n%PDF-1.4", "PDF"),
        (b"{\\rtf1", "RTF"),
        (b"\xef\xbb\xbf <HTML>", "HTML"),
        (b"<!DOCTYPE html>", "HTML"),
        (b"<?xml version='1.0'?>", "XML"),
        (b"\x89PNG\r\n\x1a\n", "PNG"),
        (b"\x1f\x8b\x08", "gzip"),
    ],
)
def test_what_is_no_table_is_named(raw: bytes, words: str) -> None:
    """In words that a person knows."""
    assert words in looks_like(raw)


@pytest.mark.parametrize("raw", [b"", b"Bag;pH", b"<0.5;1", b"BMI;1", b"MZ;1", b"PK;1", b"GIF;1", b"Rar;1"])
def test_a_table_is_let_through(raw: bytes) -> None:
    """A heading that begins like a signature is no such file."""
    assert looks_like(raw) == ""
    assert not is_zip(raw)


def test_archives() -> None:
    """A workbook has its list of content; others are named."""
    assert is_zip(b"PK\x03\x04...")
    assert archive_looks_like(frozenset({"[content_types].xml", "xl/workbook.xml"})) == ""
    assert "macros" in archive_looks_like(frozenset({"[content_types].xml", "xl/vbaproject.bin"}))
    assert "XLSB" in archive_looks_like(frozenset({"[content_types].xml", "xl/workbook.bin"}))
    assert "DOCX" in archive_looks_like(frozenset({"word/document.xml"}))
    assert "PPTX" in archive_looks_like(frozenset({"ppt/presentation.xml"}))
    assert "ODS" in archive_looks_like(frozenset({"mimetype", "content.xml"}))
    assert archive_looks_like(frozenset({"results.csv"})) == "a zip archive"
