"""Text that is English wherever it is kept or printed, and can be said again in the language of a document."""

from __future__ import annotations

from typing import Self

from soilrota.language.speech import say


class Phrase(str):  # noqa: SLOT000 - text keeps its attributes in a dictionary
    """An English text that remembers its words and facts.

    Attributes:
        words: the text with its facts in braces.
        facts: the facts by name; a fact may be a phrase itself.
    """

    words: str
    facts: dict[str, object]

    def __new__(cls, words: str, facts: dict[str, object]) -> Self:
        """Return the text, its facts put in."""
        text = super().__new__(cls, words.format(**facts) if facts else words)
        text.words, text.facts = words, facts
        return text

    def __reduce__(self) -> tuple[type[Phrase], tuple[str, dict[str, object]]]:
        """Let the words and facts travel from a worker."""
        return Phrase, (self.words, self.facts)


def phrase(words: str, /, **facts: object) -> Phrase:
    """Return an English text that can be said again in another language.

    >>> phrase("zone {zone} has no outline", zone="hill")
    'zone hill has no outline'
    """
    return Phrase(words, facts)


class Figure(str):
    """A number with a point, as it is kept; as a fact of a phrase it is said again as a language writes it."""

    __slots__ = ()


def said_again(text: str) -> str:
    """Return a phrase, or a figure, in the language that is spoken; any other text as it is.

    >>> said_again(phrase("zone {zone} has no outline", zone="hill")), said_again("plain")
    ('zone hill has no outline', 'plain')
    """
    if isinstance(text, Figure):
        from soilrota.language.figures import digits  # noqa: PLC0415 - loads the library that knows locales

        return digits(text)
    if not isinstance(text, Phrase):
        return text
    facts = {name: said_again(fact) if isinstance(fact, str) else fact for name, fact in text.facts.items()}
    return say(text.words, **facts)
