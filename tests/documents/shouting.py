"""A language in which everything that is said comes out in capitals, so that what is not said shows."""

from __future__ import annotations

import re

import pytest

from soilrota.language import speech

_FACT = re.compile(r"(\{\w+\})")


class _Shouting:
    """A catalogue that says everything in capitals, facts apart."""

    def gettext(self, words: str) -> str:
        """Return words in capitals."""
        assert words, "the empty text is the head of a catalogue"
        return "".join(part if _FACT.fullmatch(part) else part.upper() for part in _FACT.split(words))

    def pgettext(self, use: str, words: str) -> str:
        """Return words of a use in capitals."""
        assert use
        return self.gettext(words)

    def ngettext(self, one: str, many: str, count: int) -> str:
        """Return the form for a count in capitals."""
        return self.gettext(one if count == 1 else many)


def shout(monkeypatch: pytest.MonkeyPatch) -> None:
    """Speak in capitals for the rest of a test."""
    monkeypatch.setattr(speech, "catalogue_of", lambda _: _Shouting())


def unsaid(text: str) -> list[str]:
    """Return the words of a text that were not said: those with three small letters or more."""
    return [word for word in re.findall(r"[\w'’/()+³-]+", text) if re.search("[a-z]{3}", word)]
