"""A language of which every text is there, so that a test sees what is not said in it."""

from __future__ import annotations

import re
from gettext import NullTranslations

_FACT_OR_LETTER = re.compile(r"\{\w+\}|[A-Za-z]")
_WORD = re.compile(r"[^\W\d_]+")


class OtherWords(NullTranslations):
    """Says every text with one strange letter for each of its own; facts stand as they are."""

    def gettext(self, message: str) -> str:
        """Return a text."""
        return _FACT_OR_LETTER.sub(lambda found: found[0] if found[0][0] == "{" else "ж", message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """Return a text with a count."""
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        """Return a text by its use."""
        del context
        return self.gettext(message)


def other_catalogue(language: str) -> NullTranslations:
    """Return the words of a language: Spanish is said in strange letters, the others in English."""
    return OtherWords() if language.startswith("es") else NullTranslations()


def not_said(text: str, *facts: object) -> list[str]:
    """Return the words of a text that are neither said in strange letters nor part of a fact."""
    known = {word for fact in facts for word in _WORD.findall(str(fact))}
    return [word for word in _WORD.findall(text) if set(word.lower()) != {"ж"} and word not in known]
