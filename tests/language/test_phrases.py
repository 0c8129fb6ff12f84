"""A phrase is English text that can be said again."""

from __future__ import annotations

import pickle

import pytest

from soilrota.language import Figure, Phrase, phrase, said_again, speaking, speech


class _Shouting:
    """A catalogue that says everything in capitals, facts apart."""

    def gettext(self, words: str) -> str:
        """Return words in capitals."""
        return "".join(part if part.startswith("{") else part.upper() for part in _parts(words))


def _parts(words: str) -> list[str]:
    """Return a text cut at its facts."""
    pieces = words.replace("{", "\0{").replace("}", "}\0").split("\0")
    return [piece for piece in pieces if piece]


@pytest.fixture(autouse=True)
def _shout(monkeypatch: pytest.MonkeyPatch) -> None:
    """Speak a language in which translated words show."""
    monkeypatch.setattr(speech, "catalogue_of", lambda _: _Shouting())


def test_a_phrase_is_english_text_until_it_is_said_again() -> None:
    """It is text wherever text is wanted; its facts keep their own letters."""
    told = phrase("zone {zone} has no outline", zone="Hill")
    assert told == "zone Hill has no outline"
    assert said_again(told) == "ZONE Hill HAS NO OUTLINE"


def test_a_fact_that_is_a_phrase_is_said_again_too() -> None:
    """A clause inside a sentence is translated with it."""
    told = phrase("{why}, so nothing is known of {zone}", why=phrase("the map is empty"), zone="Hill")
    assert told == "the map is empty, so nothing is known of Hill"
    assert said_again(told) == "THE MAP IS EMPTY, SO NOTHING IS KNOWN OF Hill"


def test_a_phrase_travels_from_a_worker() -> None:
    """Pickled and read back it is the same, and still a phrase."""
    told = pickle.loads(pickle.dumps(phrase("{count} days", count=3)))  # noqa: S301 - our own
    assert (told, type(told), told.words, told.facts) == ("3 days", Phrase, "{count} days", {"count": 3})


def test_other_text_stays_as_it_is() -> None:
    """Words of the book are nobody's to translate."""
    assert said_again("sandy loam") == "sandy loam"
    assert said_again(f"{phrase('dry')}!") == "dry!"


def test_a_phrase_without_facts_may_hold_braces() -> None:
    """As anything that is said."""
    assert phrase("{}") == "{}"


def test_a_figure_is_said_again_as_the_language_writes_it() -> None:
    """It keeps its point where it is kept; in a phrase it gets the comma of the language, after a worker too."""
    told = pickle.loads(pickle.dumps(phrase("{area} ha", area=Figure("60.5"))))  # noqa: S301 - our own
    assert told == "60.5 ha"
    with speaking("es"):
        assert said_again(told) == "60,5 HA"
    with speaking("en-AU"):
        assert said_again(told) == "60.5 HA"
