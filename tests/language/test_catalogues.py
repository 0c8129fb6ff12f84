"""Every language that ships is complete: each text has its words, with the same facts, and nothing is left over."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter
from typing import Any

import pytest
from babel.messages.catalog import Message

from soilrota.language.catalogues import catalogue_files, catalogue_of, languages
from tests.language.gathering import brought_up_to_date, gathered, read, texts, untranslated

LANGUAGES = [path.stem for path in catalogue_files()]


def _forms(said: Any) -> list[str]:
    """Return the forms of a text: one, or one a count."""
    return [said] if isinstance(said, str) else list(said)


def _facts(words: str) -> set[str]:
    """Return the names of the facts of a text."""
    return {name for _, name, _, _ in Formatter().parse(words) if name is not None}


def _as_said(message: Message) -> bool:
    """Return whether the words of a message need its own facts, no more, and may leave out only the count."""
    asked = set().union(*(_facts(form) for form in _forms(message.id)))
    return all(
        asked - {"count"} <= _facts(form) | {"count"} and _facts(form) <= asked for form in _forms(message.string)
    )


def test_there_is_a_second_language() -> None:
    """English, and at least one more."""
    assert languages()[0] == "en"
    assert "es" in languages()


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_catalogue_says_everything_and_nothing_else(language: str) -> None:
    """What the engine says now is what the catalogue holds; `tests/language/gathering.py` brings it up to date."""
    there, wanted = read(language), brought_up_to_date(language)
    assert [one.id for one in untranslated(wanted)] == []
    assert sorted(texts(there)) == sorted(texts(wanted))


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_keeps_its_facts(language: str) -> None:
    """No fact is lost or invented on the way, and none is misspelt."""
    assert [one.string for one in texts(read(language)).values() if not _as_said(one)] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_texts_begin_and_end_alike(language: str) -> None:
    """A sentence stays a sentence; a space that joins stays; nothing is markup."""
    odd = []
    for message in texts(read(language)).values():
        for form, said in zip(_forms(message.id), _forms(message.string), strict=True):
            same_end = form.endswith(".") == said.endswith(".")
            same_space = (form[:1] == " ", form[-1:] == " ") == (said[:1] == " ", said[-1:] == " ")
            if not (same_end and same_space) or re.search(r"</?[a-z]+>", said):
                odd.append((form, said))
    assert odd == []


def test_texts_are_gathered_whole() -> None:
    """The gatherer sees literals only: no call of the speech names anything else, but what a table holds."""
    found = texts(gathered())
    assert ("days", "{first} to {last}") in found
    assert all(message.locations for message in found.values())


def test_a_language_that_nobody_wrote_is_english(tmp_path: Path) -> None:
    """It has no catalogue, and no path in a tag leads to one."""
    assert catalogue_of("nl-NL").gettext("{before} and {last}") == "{before} and {last}"
    assert catalogue_of(f"../{tmp_path.name}/es").gettext("days") == "days"
