"""Words in the language that is spoken: each English text is looked up in the catalogue, then its facts are put in.

Facts stand in braces by name, so that a language may order them as its grammar asks:
`say("{zone} is {state}.", zone=…, state=…)`. Texts are written out where they are said, never put together from parts
of sentences; a table of texts marks them with `marked`, and whoever uses it says them.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from soilrota.language.catalogues import catalogue_of

_SPOKEN: ContextVar[str] = ContextVar("spoken", default="en-GB")


@contextmanager
def speaking(language: str) -> Iterator[None]:
    """Speak a language inside a `with` block (or a function that this decorates).

    Args:
        language: language tag such as `en-AU` or `es`; one without a catalogue speaks English.
    """
    token = _SPOKEN.set(language)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def spoken() -> str:
    """Return the tag of the language that is spoken.

    >>> with speaking("en-AU"):
    ...     spoken()
    'en-AU'
    """
    return _SPOKEN.get()


def found(words: str) -> str:
    """Return words in the language that is spoken, their facts still in braces; the empty text stays empty."""
    return catalogue_of(spoken()).gettext(words) if words else ""


def found_as(use: str, words: str) -> str:
    """Return words by their use, likewise."""
    return catalogue_of(spoken()).pgettext(use, words)


def found_count(one: str, many: str, count: int) -> str:
    """Return words in the form that a count asks for, likewise."""
    return catalogue_of(spoken()).ngettext(one, many, count)


def say(words: str, /, **facts: object) -> str:
    """Return words in the language that is spoken, with their facts.

    >>> say("{zone} is moist.", zone="Hill block")
    'Hill block is moist.'
    """
    return _filled(found(words), facts)


def say_as(use: str, words: str, /, **facts: object) -> str:
    """Return words that another language says differently by their use, such as a short word alone in a heading.

    >>> say_as("soil", "dry")
    'dry'
    """
    return _filled(found_as(use, words), facts)


def say_count(one: str, many: str, count: int, /, **facts: object) -> str:
    """Return words in the form that a count asks for; the count itself is the fact `count`.

    >>> say_count("{count} core was taken.", "{count} cores were taken.", 3)
    '3 cores were taken.'
    """
    return _filled(found_count(one, many, count), {"count": count, **facts})


def marked(words: str) -> str:
    """Return words as they are: they stand in a table, are gathered for translation, and said where they are used."""
    return words


def marked_as(use: str, words: str) -> str:  # noqa: ARG001 - the use is read by whoever gathers the words
    """Return words as they are, for a table of which the words are said with `say_as` and this use."""
    return words


def _filled(words: str, facts: dict[str, object]) -> str:
    """Return words with their facts; words without facts may hold braces."""
    return words.format(**facts) if facts else words
