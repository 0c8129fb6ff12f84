"""Why a text or a conversion was refused, as a value without a place; who knows the place makes a `Problem` of it."""

from __future__ import annotations

from dataclasses import dataclass

_LONGEST = 60


@dataclass(frozen=True, slots=True)
class Refusal:
    """A small reason: what was found, what was expected, how to mend it.

    Attributes:
        found: what was found, in words, without a closing full stop.
        expected: what should stand there.
        mend: what to do about it; never empty.
    """

    found: str
    expected: str
    mend: str

    def __str__(self) -> str:
        """Return the reason on one line.

        >>> str(Refusal("'1,234'", "one reading", "declare the decimal sign"))
        "'1,234'; expected one reading. To mend: declare the decimal sign."
        """
        return f"{self.found}; expected {self.expected}. To mend: {self.mend}."


def shown(text: str) -> str:
    r"""Return a text as a reason quotes it: on one line, without signs that cannot be printed, cut where it is long.

    >>> shown("1.5\n see note")
    "'1.5 see note'"
    """
    line = "".join(sign if sign.isprintable() else "\ufffd" for sign in " ".join(text.split()))
    return f"'{line}'" if len(line) <= _LONGEST else f"'{line[:_LONGEST]} …'"
