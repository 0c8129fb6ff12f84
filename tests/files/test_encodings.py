"""From bytes to text: marks, declarations, guesses that say so."""

from __future__ import annotations

import codecs

import pytest

from soilrota.files.encodings import decode_table

TEXT = "Bag;EC µS/cm;Temp °C;Note\n" + "B1;120;20;Café Müller – wet\n" * 5


@pytest.mark.parametrize(
    ("raw", "declared", "encoding"),
    [
        (TEXT.encode(), "", "utf-8"),
        (codecs.BOM_UTF8 + TEXT.encode(), "", "utf-8"),
        (codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"), "", "utf-16"),
        (codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"), "windows-1252", "utf-16"),
        (codecs.BOM_UTF32_LE + TEXT.encode("utf-32-le"), "", "utf-32"),
        (codecs.BOM_UTF32_BE + TEXT.encode("utf-32-be"), "", "utf-32"),
        (TEXT.encode("cp1252"), "windows-1252", "windows-1252"),
        (TEXT.replace("–", "-").encode("cp850"), "cp850", "cp850"),
    ],
)
def test_told_without_a_guess(raw: bytes, declared: str, encoding: str) -> None:
    """A mark always counts, then the declaration, then UTF-8; the mark is no text."""
    decoded, problems = decode_table(raw, "a.csv", declared)
    assert problems == ()
    assert decoded is not None
    assert decoded.text.replace("–", "-") == TEXT.replace("–", "-")
    assert (decoded.encoding, decoded.notes, decoded.lossy) == (encoding, (), False)


@pytest.mark.parametrize(
    ("codec", "encoding"),
    [("cp1252", "windows-1252"), ("utf-16-le", "utf-16"), ("utf-16-be", "utf-16")],
)
def test_a_guess_is_said(codec: str, encoding: str) -> None:
    """Signs of units and accents come out right, and a warning names the guess and a line to look at."""
    decoded, problems = decode_table(TEXT.encode(codec), "a.csv")
    assert problems == ()
    assert decoded is not None
    assert (decoded.text, decoded.encoding) == (TEXT, encoding)
    (note,) = decoded.notes
    assert note.code == "encoding-guessed"
    assert encoding in note.mend
    assert note.place.line == (1 if encoding == "windows-1252" else 0)


def test_units_alone_are_enough() -> None:
    """A heading with a unit is all that is not ASCII in many a file."""
    for text in ("Bag;EC µS/cm\nB1;5\n", "Bag;g/cm³\nB1;1.3\n", "Bag;°C\nB1;20\n"):
        decoded, _ = decode_table(text.encode("cp1252"), "a.csv")
        assert decoded is not None
        assert (decoded.text, decoded.encoding) == (text, "windows-1252")


@pytest.mark.parametrize(
    ("raw", "declared", "code", "line"),
    [
        (b"a", "utf-9", "unknown-encoding", 0),
        (b"a", "rot13", "unknown-encoding", 0),
        (b"a", "unicode_escape", "unknown-encoding", 0),
        (b"a", "zip\0", "unknown-encoding", 0),
        (b"ab\n" + b"\xff" * 50, "utf-8", "not-in-encoding", 2),
        (codecs.BOM_UTF32_LE + b"text that is none" * 9, "", "not-in-encoding", 1),
        (TEXT.encode("cp500", errors="replace"), "", "encoding-not-told", 0),
        (TEXT.encode("utf-32-le"), "", "encoding-not-told", 0),
        ("Проба;Отчёт;Фосфор\n".encode("cp1251") * 9, "", "encoding-not-told", 0),
    ],
)
def test_what_cannot_be_told_is_refused(raw: bytes, declared: str, code: str, line: int) -> None:
    """With the file, the line where there is one, and the mend."""
    decoded, (problem,) = decode_table(raw, "a.csv", declared)
    assert decoded is None
    assert (problem.code, problem.place.file, problem.place.line) == (code, "a.csv", line)


def test_a_few_bad_bytes_are_left_to_their_rows() -> None:
    """They stand as U+FFFD, and the text says that it is not whole."""
    decoded, problems = decode_table(codecs.BOM_UTF8 + b"a;b\n1;\xff\n", "a.csv")
    assert problems == ()
    assert decoded is not None
    assert (decoded.text, decoded.lossy) == ("a;b\n1;\ufffd\n", True)
    decoded, _ = decode_table(codecs.BOM_UTF16_LE + "a;b\n".encode("utf-16-le") + b"x", "a.csv")
    assert decoded is not None
    assert decoded.text.startswith("a;b\n")
    assert decoded.lossy
