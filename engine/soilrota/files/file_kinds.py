"""Tells by the first bytes of a file what it is, whatever it is called."""

from __future__ import annotations

import re

#: First bytes of files that are no table, and what they are.
_SIGNATURES = (
    (b"{\\rtf", "a text document (RTF)"),
    (b"\x89PNG\r\n", "a picture (PNG)"),
    (b"\xff\xd8\xff", "a picture (JPEG)"),
    (b"GIF8", "a picture (GIF)"),
    (b"II*\x00", "a picture (TIFF)"),
    (b"MM\x00*", "a picture (TIFF)"),
    (b"\x1f\x8b", "a packed file (gzip)"),
    (b"7z\xbc\xaf\x27\x1c", "a packed file (7z)"),
    (b"Rar!\x1a\x07", "a packed file (RAR)"),
    (b"BZh", "a packed file (bzip2)"),
    (b"\xfd7zXZ\x00", "a packed file (xz)"),
    (b"SQLite format 3\x00", "a database (SQLite)"),
    (b"PAR1", "a data file (Parquet)"),
    (b"\x7fELF", "a program"),
    (b"MZ\x90\x00", "a program"),
)
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ZIP = (b"PK\x03\x04", b"PK\x05\x06", b"PK\x07\x08")
_HTML = re.compile(rb"(\xef\xbb\xbf)?\s*<(!doctype html|html|head|table|body)\b", re.IGNORECASE)
_XML = re.compile(rb"(\xef\xbb\xbf)?\s*<\?xml\b", re.IGNORECASE)
#: The name of the part that holds a workbook with a password, as an OLE file writes names.
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
#: How far into a file its signature may stand [byte].
_BEGINNING = 1024


def is_zip(raw: bytes) -> bool:
    """Return whether bytes are a zip archive, as a workbook is."""
    return raw.startswith(_ZIP)


def looks_like(raw: bytes) -> str:
    """Return what a file is in words where it is known to be no table of text, for instance `a PDF document`; or empty.

    >>> looks_like(b"%PDF-1.7 ...")
    'a PDF document'
    """
    beginning = raw[:_BEGINNING]
    if beginning.startswith(_OLE):
        return "a workbook with a password" if _ENCRYPTED in raw else "an old binary workbook (XLS)"
    if b"%PDF-" in beginning:
        return "a PDF document"
    if _HTML.match(beginning):
        return "a web page (HTML)"
    if _XML.match(beginning):
        return "an XML document"
    return next((words for signature, words in _SIGNATURES if beginning.startswith(signature)), "")


def archive_looks_like(names: frozenset[str]) -> str:
    """Return what a zip archive is where it is no workbook that is read; empty for one.

    Args:
        names: names of its entries, in lower case.
    """
    if any(name.endswith("vbaproject.bin") for name in names):
        return "a workbook with macros"
    if "xl/workbook.bin" in names:
        return "a binary workbook (XLSB)"
    if any(name.startswith("word/") for name in names):
        return "a text document (DOCX)"
    if any(name.startswith("ppt/") for name in names):
        return "a slide show (PPTX)"
    if "content.xml" in names or "mimetype" in names:
        return "an open document (ODS or ODT)"
    if "[content_types].xml" not in names:
        return "a zip archive"
    return ""
