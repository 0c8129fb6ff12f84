"""Names, subjects and addresses as lines of a message's head.

The head is written here and not by the standard library, whose folding lets a name or subject that holds a carriage
return inside an encoded word become a header of its own (Python before 3.11.15), and loses quotes and commas of long
names. What is written here is ASCII with encoded words (RFC 2047), but for addresses that need more (RFC 6532).
"""

from __future__ import annotations

import base64
import re
import unicodedata
from dataclasses import dataclass

from soilrota.files.formats import fault

#: Longest plain value of a line [character]: with the longest name of a header it stays below 78 (RFC 5322, 2.1.1).
_LONGEST_PLAIN = 60
#: Bytes in one encoded word [B]: with its frame it stays within 75 characters (RFC 2047, 2).
_WORD_BYTES = 45
_PLAIN = re.compile(r"[ -~]*")
#: Directions that a text forces on what follows it: they make one subject look like another.
_FORCED_DIRECTIONS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_NO_TEXT = frozenset({"Cc", "Cs", "Zl", "Zp"})
#: Letters [character] of what was written that are told again where it is refused.
_LONGEST_REASON = 200
_MAIL_TO = re.compile(r"mailto:[A-Za-z0-9._~:/?#@!$&'*+;=%-]{1,393}")


@dataclass(frozen=True, slots=True)
class Mailbox:
    """An address that can be written.

    Attributes:
        name: the display name, clean; may be empty.
        address: the address with its domain in ASCII.
        needs_utf8: whether letters before the `@` are not ASCII, so that the server must offer SMTPUTF8.
    """

    name: str
    address: str
    needs_utf8: bool

    def line(self) -> str:
        """Return the mailbox as the value of a header, folded."""
        if not self.name:
            return self.address
        if _fits(self.name):
            return '"' + self.name.replace("\\", "\\\\").replace('"', '\\"') + f'"\r\n <{self.address}>'
        return f"{_encoded(self.name)}\r\n <{self.address}>"


def clean(text: str) -> str:
    r"""Return a text fit for one header: on one line, without controls, forced directions and encoded words.

    >>> clean("A =?UTF-8?Q?=0A?=Bcc: x")
    'A = ?UTF-8?Q?=0A?=Bcc: x'
    >>> clean("one\r\nBcc: two")
    'one Bcc: two'
    """
    spaced = "".join(" " if _is_no_text(letter) else letter for letter in text)
    return " ".join(spaced.split()).replace("=?", "= ?")


def _is_no_text(letter: str) -> bool:
    """Return whether a character has no place in a header."""
    return letter in _FORCED_DIRECTIONS or unicodedata.category(letter) in _NO_TEXT


def text_line(text: str) -> str:
    """Return a clean text as the value of a header, as it is where it is short and ASCII, else in encoded words."""
    return text if _fits(text) else _encoded(text)


def _fits(text: str) -> bool:
    """Return whether a text stands in a line as it is."""
    return len(text) <= _LONGEST_PLAIN and _PLAIN.fullmatch(text) is not None


def _encoded(text: str) -> str:
    """Return a text as encoded words, one a line, none of which parts a character (RFC 2047, 5)."""
    words, word = [], b""
    for letter in text:
        encoded = letter.encode()
        if len(word) + len(encoded) > _WORD_BYTES:
            words.append(word)
            word = b""
        word += encoded
    return "\r\n ".join(f"=?utf-8?b?{base64.b64encode(part).decode()}?=" for part in (*words, word))


def mailbox(name: str, address: str) -> tuple[Mailbox | None, str]:
    """Return an address that can be written, or None and in words why it cannot.

    Args:
        name: the display name; cleaned here.
        address: one bare address; a domain with other letters than ASCII is written as the network has it.
    """
    wrong = fault("email", address)
    if wrong:
        return None, clean(f"{wrong[0][:_LONGEST_REASON]}: {wrong[1]}")
    local, _, domain = address.rpartition("@")
    ascii_domain = _ascii_domain(domain)
    if ascii_domain is None:
        return None, f"the domain of {clean(address)} has letters with two spellings: write it in its form with xn--"
    return Mailbox(clean(name), f"{local}@{ascii_domain}", not local.isascii()), ""


def _ascii_domain(domain: str) -> str | None:
    """Return a domain as the network has it; None where the standard library would write another one."""
    if domain.isascii():
        return domain
    try:
        written = domain.encode("idna")
        same = written.decode("idna") == unicodedata.normalize("NFC", domain).lower()
    except UnicodeError:
        return None
    return written.decode("ascii") if same else None


def can_be_unsubscribed_at(address: str) -> bool:
    """Return whether an address is a plain `mailto:`, short enough for one line of List-Unsubscribe (RFC 2369)."""
    return _MAIL_TO.fullmatch(address) is not None and "=?" not in address
