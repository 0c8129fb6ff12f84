"""From bytes to text that is safe to parse and to print, with the place of whatever is not."""

from __future__ import annotations

import codecs
import re
import unicodedata
from pathlib import Path

from soilrota.problems import Place, Problem, error

_UTF16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
#: Control characters but tab, line feed and carriage return; bidirectional and zero-width marks; lone surrogates.
_UNSAFE = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u206f\ud800-\udfff\ufeff\ufffe\uffff]"
)
_MOST_REPORTED = 20
#: Bytes that stand for printed characters in Windows-1252 and for nothing in Latin-1.
_ONLY_WINDOWS = range(0x80, 0xA0)


def read_text(file: Path, name: str, limit: int) -> tuple[str | None, tuple[Problem, ...]]:
    """Read a UTF-8 text file.

    Args:
        file: where it lies.
        name: its name in the book.
        limit: largest size [byte].

    Returns:
        The text without a byte-order mark, line ends as they are; None with a problem where it is too large, cannot be
        read, is not UTF-8 (`not-utf-8`, with the byte and a guess) or holds characters that cannot be seen
        (`unsafe-character`, each with its code point and place).
    """
    place = Place(name)
    try:
        size = file.stat().st_size
        raw = file.read_bytes() if size <= limit else b""
    except OSError as fault:
        mend = "put the file there, or make it readable"
        return None, (error("cannot-read", place, f"the file cannot be read ({fault.strerror})", "", mend),)
    if size > limit:
        found = f"the file holds {size:,} bytes"
        return None, (error("too-large", place, found, f"at most {limit:,}", "split it, or take out what is not data"),)
    return decode(raw, name)


def decode(raw: bytes, name: str) -> tuple[str | None, tuple[Problem, ...]]:
    """Return the text of UTF-8 bytes, as `read_text` does for a file."""
    if raw.startswith(_UTF16):
        mend = "save it as UTF-8"
        return None, (error("not-utf-8", Place(name), "the file looks like UTF-16", "UTF-8", mend),)
    raw = raw.removeprefix(codecs.BOM_UTF8)
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as fault:
        before = raw[: fault.start].decode("utf-8")
        guess = _guess(raw)
        found = f"byte {fault.start + 1} (0x{raw[fault.start]:02x}) is not UTF-8; the file looks like {guess}"
        return None, (error("not-utf-8", place_at(before, len(before), name), found, "UTF-8", "save it as UTF-8"),)
    problems = tuple(_unsafe(text, name))
    return (None, problems) if problems else (text, ())


def _guess(raw: bytes) -> str:
    """Return which encoding the bytes are probably in."""
    if b"\x00" in raw[:200]:
        return "UTF-16"
    return "Windows-1252" if any(byte in _ONLY_WINDOWS for byte in raw) else "Latin-1"


def _unsafe(text: str, name: str) -> list[Problem]:
    """Return a problem for each character that cannot be seen."""
    problems: list[Problem] = []
    for match in _UNSAFE.finditer(text):
        if len(problems) == _MOST_REPORTED:
            break
        character = match.group()
        called = unicodedata.name(character, "a control character").lower()
        found = f"the character U+{ord(character):04X} ({called}) cannot be seen"
        problems.append(error("unsafe-character", place_at(text, match.start(), name), found, "", "take it out"))
    return problems


def place_at(text: str, index: int, name: str) -> Place:
    """Return the place of the character at `index` of the text."""
    line_start = text.rfind("\n", 0, index) + 1
    return Place(name, text.count("\n", 0, index) + 1, index - line_start + 1)
