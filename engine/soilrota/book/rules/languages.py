"""Languages: what the practice and its clients ask for is a language in which everything can be said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from soilrota.book.parts import ClientParts, Located, SharedParts
from soilrota.files import nearest_name
from soilrota.language.catalogues import languages
from soilrota.problems import Problem, error


def practice_language_is_spoken(parts: SharedParts) -> Iterator[Problem]:
    """The practice's own language has a catalogue of words, and its days and numbers are known."""
    yield from _spoken(parts.practice)


def client_language_is_spoken(parts: ClientParts) -> Iterator[Problem]:
    """A client's language has a catalogue of words, and its days and numbers are known."""
    yield from _spoken(parts.file)


def _spoken(file: Located[Any]) -> Iterator[Problem]:
    """Yield that the language of a file cannot be spoken, with the languages there are."""
    data: Mapping[str, Any] = file.data
    tag = data.get("language")
    if tag is None:
        return
    there_are = ", ".join(languages())
    expected = f"one of {there_are}, alone or with a country (en-GB)"
    language, _, country = tag.replace("_", "-").partition("-")
    if tag.partition("-")[0] not in languages():
        nearest = nearest_name(language.casefold(), languages())
        mend = f"write {'-'.join(filter(None, (nearest, country)))}" if nearest else f"write one of {there_are}"
        found = f"there are no words in the language '{tag}'"
        yield error("unknown-language", file.at("language"), found, expected, mend)
    elif not _has_a_locale(tag):
        found = f"'{tag}' names no country whose way to write days and numbers is known"
        mend = f"write {language} alone, or with the two letters of a country"
        yield error("unknown-language", file.at("language"), found, expected, mend)


@cache
def _has_a_locale(tag: str) -> bool:
    """Return whether days and numbers of a language tag are known, its country included."""
    from babel import Locale, UnknownLocaleError  # noqa: PLC0415 - a file that names no language needs none

    try:
        return str(Locale.parse(tag, sep="-")).replace("_", "-").casefold() == tag.casefold()
    except (ValueError, UnknownLocaleError):
        return False
