"""Languages that nobody can be spoken to in, and those that can."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

SPOKEN = ["en", "es", "en-AU", "en-US", "en-gb", "es-419", "es-AR"]
#: Tag by tag, what the mend says.
NOT_SPOKEN = {
    "fr": "write one of en, es",
    "fr-CA": "write one of en, es",
    "EN-GB": "write en-GB",
    "english": "write one of en, es",
    "en_GB": "write en-GB",
    "en-ZZ": "write en alone, or with the two letters of a country",
    "en-": "write en alone, or with the two letters of a country",
    "en-x-farm": "write en alone, or with the two letters of a country",
    "es-Spain": "write es alone, or with the two letters of a country",
    "es; q=1": "write one of en, es",
}


@pytest.mark.parametrize("tag", SPOKEN)
def test_languages_with_words(book: Book, tag: str) -> None:
    """A language that has a catalogue, with any country that is known, is the client's and the practice's."""
    book.add("practice.yaml", f"language: {tag}\n")
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert shared.practice.language == tag
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    assert client.language == tag


@pytest.mark.parametrize(("tag", "mend"), NOT_SPOKEN.items())
def test_languages_without(book: Book, tag: str, mend: str) -> None:
    """The line is named, and the languages there are; the practice's own file is held to the same."""
    book.add("client.yaml", f'language: "{tag}"\n')
    problem = book.only()
    assert (problem.code, problem.place.line) == ("unknown-language", book.line("client.yaml", "language:"))
    assert tag in problem.found
    assert "one of en, es" in problem.expected
    assert problem.mend == mend
    book.add("practice.yaml", f'language: "{tag}"\n')
    problem = book.only(shared=True)
    assert (problem.code, problem.place.file) == ("unknown-language", "practice.yaml")


def test_a_client_names_its_own(book: Book) -> None:
    """The client's language comes before the practice's."""
    book.add("practice.yaml", "language: es\n")
    book.add("client.yaml", "language: en-US\n")
    client, _ = book.client()
    assert client is not None
    assert (client.language, client.practice.language) == ("en-US", "es")
