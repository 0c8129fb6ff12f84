"""From the bytes of a CSV file to its text: by mark, by declaration, or found out and said.

A byte-order mark always counts. Without one the declared encoding does; without that UTF-8 where the bytes are UTF-8,
UTF-16 where every other byte is NUL, and else one of a short list of Western encodings, found by charset-normalizer and
named in a warning. Encodings of that list often tell nothing apart: then `windows-1252`, the most widespread, is taken,
and the warning names the others.
"""

from __future__ import annotations

import codecs
import re
from dataclasses import dataclass

from soilrota.problems import Place, Problem, error, warning

#: Byte-order marks, the longer before those that they begin with.
_MARKS = (
    (codecs.BOM_UTF32_LE, "utf-32-le", "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32-be", "utf-32"),
    (codecs.BOM_UTF8, "utf-8", "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le", "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16-be", "utf-16"),
)
#: Encodings of text that may be declared, by Python's name of them; not its transformations such as `rot13`.
_DECLARABLE = re.compile(
    r"ascii|utf-(8|16|32)(-[lb]e)?|iso8859-\d+|cp\d+|koi8-\w|mac-\w+|gb\w+|big5\w*|shift_jis\w*|euc_\w+"
)
#: Encodings that are guessed, by Python's name, and what they are called; the first is preferred.
_GUESSED = {
    "cp1252": "windows-1252",
    "iso8859_15": "iso-8859-15",
    "latin_1": "iso-8859-1",
    "cp1250": "windows-1250",
    "mac_roman": "mac-roman",
}
#: How much is looked at to guess [byte].
_LOOKED_AT = 65_536
#: Above this share of bytes beyond ASCII a text is in no encoding that is guessed [-]. Our own choice.
_MOST_BEYOND_ASCII = 0.3
#: Below this share of NUL bytes a file may still be text with a few faults [-]. Our own choice.
_MOST_NUL = 0.05
#: Above this share of odd sequences, as charset-normalizer measures them, a text is none [-]. Our own choice: signs of
#: units such as µ and ° count as odd.
_MOST_CHAOS = 0.5
#: Of an otherwise readable file, the largest share of characters that may be unreadable [-]. Our own choice.
_MOST_LOST = 0.001
_FEW_LOST = 20


@dataclass(frozen=True, slots=True)
class Decoded:
    """Text of a file: its encoding, whether some of its bytes were no text (they stand as U+FFFD), and warnings."""

    text: str
    encoding: str
    lossy: bool = False
    notes: tuple[Problem, ...] = ()


def decode_table(raw: bytes, name: str, declared: str = "") -> tuple[Decoded | None, tuple[Problem, ...]]:
    """Return the text of a file.

    Args:
        raw: its bytes.
        name: the file's name, for places.
        declared: encoding that was declared; empty to find it out.

    Returns:
        The text without a byte-order mark; or None with the problem: `unknown-encoding` (no such name declared),
        `not-in-encoding` (too much of it is no text by the mark or the declaration), `encoding-not-told`.
    """
    codec = _declared_codec(declared)
    if codec is None:
        mend = "write a name such as utf-8, utf-16 or windows-1252, or take the declaration out to have it found out"
        found = f"the encoding `{declared[:40]!a}` is not known".replace("'", "")
        return None, (error("unknown-encoding", Place(name), found, "the name of a text encoding", mend),)
    for mark, marked, called in _MARKS:
        if raw.startswith(mark):
            return _read(raw[len(mark) :], marked, called, name)
    if codec:
        return _read(raw, codec, declared, name)
    return _found_out(raw, name)


def _declared_codec(declared: str) -> str | None:
    """Return Python's name of a declared encoding, empty where none is declared, None where there is none such."""
    if not declared:
        return ""
    try:
        codec = codecs.lookup(declared).name
    except (LookupError, ValueError):
        return None
    return codec if _DECLARABLE.fullmatch(codec) else None


def _read(raw: bytes, codec: str, called: str, name: str) -> tuple[Decoded | None, tuple[Problem, ...]]:
    """Return the text by an encoding that is known; a few bytes that are no text are left to their rows."""
    try:
        return Decoded(raw.decode(codec), called), ()
    except UnicodeDecodeError as fault:
        first = fault.start
    text = raw.decode(codec, errors="replace")
    lost = text.count("\ufffd")
    if lost <= max(_FEW_LOST, len(text) * _MOST_LOST):
        return Decoded(text, called, lossy=True), ()
    line = len(re.findall(r"\r\n|\n|\r", text[: text.index("\ufffd")])) + 1
    found = f"byte {first + 1:,} and {lost - 1:,} more are no text in {called}"
    mend = "declare the encoding in which the laboratory writes, or ask for the file in UTF-8"
    return None, (error("not-in-encoding", Place(name, line), found, f"text in {called}", mend),)


def _found_out(raw: bytes, name: str) -> tuple[Decoded | None, tuple[Problem, ...]]:
    """Return the text of bytes about which nothing is declared."""
    wide = _by_nul_bytes(raw)
    if wide:
        decoded, problems = _read(raw, wide, "utf-16", name)
        found = "the encoding is not declared; every other byte is NUL, as in UTF-16"
        return _noted(decoded, _guess(name, 0, found, "utf-16")), problems
    sample = raw[:_LOOKED_AT]
    if sample.count(0) > _MOST_NUL * len(sample):
        return None, (_not_told(name, "many of its bytes are NUL, as in a file that is not text"),)
    try:
        return Decoded(raw.decode("utf-8"), "utf-8"), ()
    except UnicodeDecodeError as fault:
        line = len(re.findall(rb"\r\n|\n|\r", raw[: fault.start])) + 1
        first = raw[fault.start : fault.start + 1]
    telling = _telling_lines(raw)
    if sum(byte > 127 for byte in sample) > _MOST_BEYOND_ASCII * len(sample):  # noqa: PLR2004 - the last of ASCII
        return None, (_not_told(name, "it is not UTF-8, and too much of it is not ASCII to be a Western encoding"),)
    likely = _likely(telling)
    if not likely:
        return None, (_not_told(name, "it is not UTF-8, and no Western encoding gives likely text"),)
    decoded, problems = _read(raw, likely[0], _GUESSED[likely[0]], name)
    others = [_GUESSED[codec] for codec in likely[1:]]
    read = f"byte 0x{first.hex()} is read as {first.decode(likely[0], errors='replace')!a}".replace("'", "")
    found = f"the encoding is not declared and was guessed: {_GUESSED[likely[0]]}; {read}"
    found += f"; as likely: {', '.join(others)}" if others else ""
    return _noted(decoded, _guess(name, line, found, _GUESSED[likely[0]])), problems


def _by_nul_bytes(raw: bytes) -> str:
    """Return the UTF-16 that bytes without a mark are in, empty for none: mostly ASCII has NUL in every other byte."""
    even, odd = raw[0:4096:2], raw[1:4096:2]
    nul_even, nul_odd = even.count(0), odd.count(0)
    for codec, many, of, few in (("utf-16-le", nul_odd, odd, nul_even), ("utf-16-be", nul_even, even, nul_odd)):
        if many > len(of) // 2 and few <= len(of) // 20:
            return codec
    return ""


def _telling_lines(raw: bytes) -> bytes:
    """Return the first lines that hold more than ASCII: the others tell nothing."""
    lines: list[bytes] = []
    size = 0
    for match in re.finditer(rb"[^\r\n]{0,2000}[\x80-\xff][^\r\n]{0,2000}", raw):
        lines.append(match.group())
        size += len(match.group())
        if size > _LOOKED_AT:
            break
    return b"\n".join(lines)


def _likely(sample: bytes) -> list[str]:
    """Return the encodings that give the least unlikely text, by Python's name, the preferred first."""
    from charset_normalizer import from_bytes  # noqa: PLC0415 - a quiet night needs none of it

    matches = list(from_bytes(sample, cp_isolation=list(_GUESSED), threshold=_MOST_CHAOS))
    if not matches:
        return []
    least = min(match.chaos for match in matches)
    names = {codec for match in matches if match.chaos == least for codec in match.could_be_from_charset}
    return [codec for codec in _GUESSED if codec in names]


def _guess(name: str, line: int, found: str, guess: str) -> Problem:
    """Return the warning that an encoding was guessed."""
    mend = f"declare `encoding: {guess}` for the laboratory if that is right, or the right one"
    return warning("encoding-guessed", Place(name, line), found, "", mend)


def _noted(decoded: Decoded | None, note: Problem) -> Decoded | None:
    """Return the text with a note."""
    return decoded and Decoded(decoded.text, decoded.encoding, decoded.lossy, (*decoded.notes, note))


def _not_told(name: str, why: str) -> Problem:
    """Return that the encoding of a file cannot be told."""
    mend = "declare the encoding in which the laboratory writes, or ask for the file as CSV in UTF-8 or as XLSX"
    return error("encoding-not-told", Place(name), f"the encoding cannot be told: {why}", "text", mend)
