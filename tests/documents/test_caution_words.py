"""Every caution of advice has words."""

from __future__ import annotations

import pytest

from soilrota.agronomy.advice.cautions import Caution
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.documents.caution_words import (
    LOCAL_RULES_DECIDE,
    caution_sentence,
    caution_sentences,
    has_caution_words,
)
from soilrota.model.advice import Need
from tests.documents.advised import CLIENTS, advised


@pytest.mark.parametrize("caution", [*Caution, *SpreadingCaution])
def test_every_caution_has_a_sentence(caution: str) -> None:
    """A new one without words fails here."""
    assert has_caution_words(caution)
    assert caution_sentence(caution).endswith(".")


@pytest.mark.parametrize("client", CLIENTS)
def test_cautions_of_the_example_book_are_worded(client: str) -> None:
    """Those that come from derived quantities too."""
    needs = [one for one in advised(client)[1].needs if isinstance(one, Need)]
    assert [one for need in needs for one in need.cautions if not has_caution_words(one)] == []


def test_local_rules_come_last_and_once() -> None:
    """Wherever there is any caution; none alone says nothing."""
    assert caution_sentences(("local-rules", "dust", "dust"))[1:] == (LOCAL_RULES_DECIDE,)
    assert caution_sentences(("dust",)) == (caution_sentence("dust"), LOCAL_RULES_DECIDE)
    assert caution_sentences(()) == ()


def test_one_without_words_is_said_by_its_name() -> None:
    """Nothing is left out."""
    assert not has_caution_words("brand-new")
    assert caution_sentence("brand-new") == "Mind: brand new."
