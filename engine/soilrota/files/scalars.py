"""What an unquoted word means. Everything is text until the schema says what it is.

Words that readers of YAML take for something else are refused where they stand, so that a file means the same to a
person, to an editor (YAML 1.2) and to older readers (YAML 1.1).
"""

from __future__ import annotations

import math
import re

_NUMBER = re.compile(r"-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?")
_WHOLE = re.compile(r"-?(0|[1-9][0-9]*)")
_DAY = re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([ Tt].*)?")
_BOOLEAN_WORDS = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false"})
_NOTHING_WORDS = frozenset({"", "~", "null"})
_NUMBER_LIKE = re.compile(
    r"[-+]?(0[0-7_]+|0[0-9]+|0x[0-9a-f_]+|0b[01_]+|0o[0-7]+|[0-9][0-9_]*(\.[0-9_]*)?(e[-+]?[0-9]+)?|\.[0-9]+(e[-+]?[0-9]+)?"
    r"|[0-9][0-9_]*(:[0-5]?[0-9])+(\.[0-9_]*)?|\.inf|\.nan|[0-9]+,[0-9]+)",
    re.IGNORECASE,
)
_NOT_FINITE = re.compile(r"[-+]?\.(inf|nan)", re.IGNORECASE)
_MOST_DIGITS = 15


def kind_of(text: str) -> str:
    """Return what an unquoted word could be taken for: a kind in words, or '' for plain text.

    >>> kind_of("no"), kind_of("2026-02-03"), kind_of("22:30"), kind_of("01-20"), kind_of("river flat")
    ('yes or no', 'a date', 'a number', '', '')
    """
    lower = text.lower()
    if lower in _BOOLEAN_WORDS:
        return "yes or no"
    if lower in _NOTHING_WORDS:
        return "nothing"
    if _NUMBER_LIKE.fullmatch(text):
        return "a number"
    return "a date" if _DAY.fullmatch(text) else ""


def number(text: str) -> int | float | None:
    """Return the number that a word is, in the form of JSON; None where it is none or has no use.

    >>> number("1e5"), number("1.10"), number("012"), number(".5"), number("1_000")
    (100000.0, 1.1, None, None, None)
    """
    if not _NUMBER.fullmatch(text) or sum(character.isdigit() for character in text) > _MOST_DIGITS + 3:
        return None
    if _WHOLE.fullmatch(text):
        return int(text)
    value = float(text)
    return value if math.isfinite(value) else None


def number_fault(text: str) -> tuple[str, str]:
    """Return why an unquoted word is no number here, and the mend."""
    if _NOT_FINITE.fullmatch(text):
        return f"'{text}' is not a finite number", "write a number, or leave the line out"
    if _NUMBER.fullmatch(text):
        return f"a number of {len(text)} characters is out of range", "write a number that can be measured"
    if re.fullmatch(r"[0-9]+,[0-9]+", text):
        return f"'{text}' has a decimal comma", f"write {text.replace(',', '.')}"
    if kind_of(text) == "a number":
        plain = text.replace("_", "").lstrip("+")
        return f"'{text}' is a number in a form that readers take differently", f"write {_plain_number(plain)}"
    return f"'{text}' is not a number", "write a number, without a unit"


def _plain_number(text: str) -> str:
    """Return digits without leading noughts, as a suggestion; 'a plain number' where that cannot be told."""
    match = re.fullmatch(r"0*([0-9]+(?:\.[0-9]+)?)", text if not text.startswith(".") else f"0{text}")
    return match.group(1) if match else "a plain number such as 12.5"
