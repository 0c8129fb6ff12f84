"""Advice in words: amounts with ranges, steps, maxima, what it does to sampling."""

from __future__ import annotations

from datetime import date

from soilrota.documents.advice_sentences import (
    amount_words,
    cap_sentence,
    citation,
    closing_sentences,
    input_name,
    no_need_sentence,
    step_words,
    unit_of_need,
)
from soilrota.model.advice import Cap, Closing, Input, NoNeed, Step
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Refused, WhyNot
from tests.documents.reports import a_need

LANGUAGE = "en-AU"


def test_amounts_have_their_unit_and_range() -> None:
    """Tonnes of lime to a tenth, kilograms of an element whole."""
    assert amount_words(a_need(), LANGUAGE) == "2.5 t/ha (1.8 to 3.4)"
    assert amount_words(a_need(what=Input.PHOSPHORUS, amount=18.4), LANGUAGE) == "18 kg/ha (18 to 19)"
    assert {unit_of_need(one) for one in (Input.LIME, Input.GYPSUM)} == {"t/ha"}
    assert all(input_name(one) for one in Input)


def test_steps_say_rule_and_figures() -> None:
    """A rule without words of its own is written by its name."""
    assert step_words(Step("removal", 9.0, {"yield_t_ha": 4.5}), LANGUAGE) == (
        "To replace what the harvest takes away (yield t ha 4.5)"
    )
    assert step_words(Step("some-new-rule", 1.0), LANGUAGE) == "Some new rule"


def test_maxima_and_refusals() -> None:
    """With their reason, and the word where a figure was not read."""
    cap = Cap(4.0, "one-dressing", {"land_use": "pasture"}, None, Status.UNVERIFIED)
    assert cap_sentence(cap, Input.LIME, LANGUAGE) == (
        "Never more than 4 t/ha: one dressing (land use pasture). The figure is unverified."
    )
    missing = NoNeed("home", "barn", Input.NITROGEN, Refused(WhyNot.COVARIATE_MISSING, {"covariate": ("crop",)}))
    assert no_need_sentence(missing, LANGUAGE) == (
        "Nothing is advised of nitrogen: the crop that is grown is not known."
    )


def test_citations_leave_no_gap() -> None:
    """Where nobody is named as author."""
    assert citation(Source("a", "", 0, "arithmetic"), Status.VERIFIED) == "Arithmetic"
    assert citation(Source("a", "Anna", 1999, "Soils", "table 2"), Status.UNVERIFIED) == (
        "Anna (1999): Soils, table 2 [unverified]"
    )


def test_what_spreading_does_to_sampling() -> None:
    """Days of both, the order, and a season that it closes."""
    closing = Closing(
        "home",
        "barn",
        "pit-gypsum",
        date(2027, 4, 1),
        date(2027, 4, 30),
        date(2027, 10, 30),
        sample_first=False,
        window_first=None,
        window_last=None,
    )
    assert closing_sentences(closing, "pit gypsum", LANGUAGE) == (
        "Spreading pit gypsum on 1 April to 30 April 2027 closes sampling until 30 October 2027.",
        "Spread first; the next sampling can wait.",
        "Followed, it leaves no day of that season for sampling.",
    )
