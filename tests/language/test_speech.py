"""What is said: words by language, facts put in, forms of a count, uses of a word."""

from __future__ import annotations

import threading

import pytest

from soilrota.language import marked, marked_as, say, say_as, say_count, speaking, spoken


def test_english_is_said_as_it_stands() -> None:
    """English has no catalogue, nor has a language that nobody wrote."""
    for language in ("en-GB", "en-US", "nl-NL"):
        with speaking(language):
            assert say("{zone} is moist.", zone="Hill") == "Hill is moist."
            assert say_count("{count} core of {zone}", "{count} cores of {zone}", 2, zone="Hill") == "2 cores of Hill"


def test_another_language_orders_facts_by_name() -> None:
    """Words with facts come out of the catalogue, and the facts are in them."""
    with speaking("es-ES"):
        assert say_as("days", "{first} to {last}", first="1", last="2") == "1 al 2"
        assert say_as("list", "{before} and {last}", before="a, b", last="c") == "a, b y c"


def test_words_that_no_catalogue_holds_are_said_in_english() -> None:
    """Something is said rather than nothing."""
    with speaking("es"):
        assert say("no catalogue holds {this}", this="this") == "no catalogue holds this"
        assert say_as("nowhere", "days") == "days"


@pytest.mark.parametrize(("count", "words"), [(0, "0 cores"), (1, "1 core"), (2, "2 cores")])
def test_a_count_has_its_form(count: int, words: str) -> None:
    """One is said alone; none and many alike."""
    assert say_count("{count} core", "{count} cores", count) == words


def test_words_without_facts_may_hold_braces_and_a_fact_may_too() -> None:
    """What somebody wrote into a name is never read as a place for a fact."""
    assert say("{}") == "{}"
    with speaking("es"):
        assert say("") == ""  # where gettext keeps the head of a catalogue
    assert say("{zone}", zone="{client}") == "{client}"


def test_a_language_is_spoken_inside_its_block_only() -> None:
    """Blocks nest, an error leaves them, and another thread speaks its own."""
    before = spoken()
    heard: list[str] = []
    with speaking("es"):
        with speaking("en-AU"):
            assert spoken() == "en-AU"
        assert spoken() == "es"
        listener = threading.Thread(target=lambda: heard.append(spoken()))
        listener.start()
        listener.join()
    with pytest.raises(ZeroDivisionError), speaking("es"):
        _ = 1 / 0
    assert spoken() == before
    assert heard == ["en-GB"]


def test_a_marked_text_is_itself() -> None:
    """Marks are for whoever gathers texts."""
    assert (marked("lime"), marked_as("material", "lime")) == ("lime", "lime")
