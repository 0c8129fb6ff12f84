"""Advice in words: amounts with ranges, steps, maxima, why nothing can be advised."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents.advice_sentences import (
    amount_words,
    cap_sentence,
    citation,
    closing_sentences,
    has_reason_words,
    input_name,
    need_sentence,
    no_need_sentence,
    step_sentence,
    step_words,
    unit_of_need,
    why_not_words,
    working_words,
)
from soilrota.documents.id_words import plain
from soilrota.language import speaking
from soilrota.model.advice import Cap, Closing, Input, Need, NoNeed, Step
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Refused, WhyNot
from tests.documents.advice_ids import void_reasons
from tests.documents.advised import CLIENTS, advised
from tests.documents.shouting import shout, unsaid

LANGUAGE = "en-AU"
#: Reasons that a step says, not a refusal.
OF_STEPS = {"crop-not-in-edition", "no-target-yield", "not-in-edition"}
CODE = re.compile(r"[a-z]+_[a-z]+|\b[a-z]+-[a-z]+-[a-z]+-[a-z]+\b")


def a_need(amount: float = 2.46, **changes: object) -> Need:
    """Return a need of lime."""
    plain_need = Need("home", "barn", Input.LIME, amount, 1.8, 3.4, (Step("lift-topsoil", amount),))
    return replace(plain_need, **changes)  # type: ignore[arg-type]


def test_amounts_have_their_unit_and_range() -> None:
    """Tonnes to a tenth, kilograms whole from ten on."""
    assert amount_words(a_need(), LANGUAGE) == "2.5 t/ha (1.8 to 3.4)"
    need = a_need(18.4, input=Input.PHOSPHORUS, low=9.26, high=27.1)
    assert amount_words(need, LANGUAGE) == "18 kg/ha (9.3 to 27)"
    assert amount_words(a_need(2.5, low=2.5, high=2.5), LANGUAGE) == "2.5 t/ha"
    assert {unit_of_need(one) for one in (Input.LIME, Input.GYPSUM)} == {"t/ha"}
    assert all(input_name(one) for one in Input)


def test_needs_say_their_range_dressings_and_doubt() -> None:
    """Unverified figures carry the word; a need of nought says what it may be."""
    assert need_sentence(a_need(split=(1.23, 1.23)), "Barn", LANGUAGE) == (
        "Barn needs 2.5 t/ha of lime (pure calcium carbonate); by the doubt in its results it may be 1.8 to 3.4 t/ha. "
        "Spread it in 2 dressings of 1.2 t/ha."
    )
    none = a_need(0.0, low=0.0, steps=(Step("target-met", 0.0, status=Status.UNVERIFIED),))
    assert need_sentence(none, "Barn", LANGUAGE) == (
        "Barn needs no lime (pure calcium carbonate). By the doubt in its results it may be up to 3.4 t/ha. "
        "A figure behind it is unverified: it was not read in its source."
    )
    assert need_sentence(a_need(2.0, low=2.0, high=2.0), "Barn", "de").startswith("Barn needs 2 t/ha")


def test_a_maximum_that_binds_and_was_not_read_is_said() -> None:
    """One that does not bind says nothing of the need."""
    loose = Cap(8.0, "most-dressings", status=Status.UNVERIFIED)
    assert "unverified" not in need_sentence(a_need(caps=(loose,)), "Barn", LANGUAGE)
    assert "unverified" in need_sentence(a_need(8.0, caps=(loose,)), "Barn", LANGUAGE)


def test_steps_are_signed() -> None:
    """What adds and what takes off; so fine that they add up."""
    taken = Step("already-applied", -3.256, {"product": "Urea", "rate_kg_ha": 40.0})
    assert step_sentence(taken, Input.NITROGEN, LANGUAGE) == (
        "Spread since the sampling: 40 kg/ha of Urea: -3.26 kg/ha."
    )
    added = Step("incomplete-exchange", 0.4, status=Status.UNVERIFIED)
    assert step_sentence(added, Input.GYPSUM, LANGUAGE).endswith(
        ": +0.4 t/ha. The figure is unverified: it was not read in its source."
    )
    assert step_words(added, LANGUAGE) == "More, because the exchange of sodium is never complete"
    assert working_words(1234.5, Input.NITROGEN, "de") == "1.234,5 kg/ha"


def test_maxima_are_said() -> None:
    """With the reason, and the word where a figure was not read."""
    cap = Cap(8.0, "most-dressings", {"dressings": 2, "one_dressing": 4.0}, None, Status.UNVERIFIED)
    assert cap_sentence(cap, Input.LIME, LANGUAGE) == (
        "Never more than 8 t/ha: 2 dressings of at most 4 t/ha each before the soil is measured again. "
        "The figure is unverified: it was not read in its source."
    )


@pytest.mark.parametrize("reason", sorted(void_reasons() - OF_STEPS))
def test_every_reason_of_a_void_rule_has_words(reason: str) -> None:
    """A new one without words fails here."""
    assert has_reason_words(reason)


@pytest.mark.parametrize("why", list(WhyNot))
def test_every_refusal_is_a_sentence(why: WhyNot) -> None:
    """Whatever stands in the way."""
    refused = Refused(why, {"needs": ("magnesium",), "reason": "below-nought", "covariate": "texture", "value": 3.0})
    found = no_need_sentence(NoNeed("home", "barn", Input.MAGNESIUM, refused), LANGUAGE)
    assert found.startswith("No advice on magnesium: ")
    assert not found.endswith(": .")


def test_what_no_laboratory_measures_is_not_called_unmeasured() -> None:
    """The plan and the weather are not known; soils were not measured."""
    needs = ("target-protein", "profile-nitrogen", "growing-season-rain")
    assert why_not_words(Refused(WhyNot.NOT_MEASURED, {"needs": needs}), LANGUAGE) == (
        "mineral nitrogen of the profile was not measured, and the target protein and the rain of the growing season "
        "are not known"
    )
    assert why_not_words(Refused(WhyNot.NOT_MEASURED, {"needs": ("sodium-share",)}), LANGUAGE).startswith(
        "sodium share"
    )


@pytest.mark.parametrize("client_id", CLIENTS)
def test_nothing_of_the_example_book_is_said_in_codes(client_id: str) -> None:
    """Every need, step, maximum and refusal."""
    client, advice = advised(client_id)
    said = []
    for one in advice.needs:
        if isinstance(one, NoNeed):
            said.append(no_need_sentence(one, client.language))
        else:
            said.append(need_sentence(one, "Zone", client.language))
            said += [step_sentence(step, one.input, client.language) for step in one.steps]
            said += [cap_sentence(cap, one.input, client.language) for cap in one.caps]
    assert [text for text in said if CODE.search(text) or "––" in text] == []


def test_citations_leave_no_gap() -> None:
    """Where nobody is named as author."""
    assert citation(Source("a", "", 0, "arithmetic"), Status.VERIFIED) == "Arithmetic"
    assert citation(Source("a", "Anna", 1999, "Soils", "table 2"), Status.UNVERIFIED) == (
        "Anna (1999): Soils, table 2 [unverified]"
    )
    assert plain("a-b_c") == "a b c"


def test_what_spreading_does_to_sampling() -> None:
    """Days of both, the order, and a season that it closes."""
    first, last, until = date(2027, 4, 1), date(2027, 4, 30), date(2027, 10, 30)
    closing = Closing(
        "home", "barn", "pit-gypsum", first, last, until, sample_first=False, window_first=None, window_last=None
    )
    assert closing_sentences(closing, "pit gypsum", LANGUAGE) == (
        "Spreading pit gypsum on 1 April to 30 April 2027 closes sampling until 30 October 2027.",
        "Spread first; the next sampling can wait.",
        "Followed, it leaves no day of that season for sampling.",
    )
    open_ = replace(closing, sample_first=True, window_first=date(2027, 11, 1), window_last=date(2027, 12, 1))
    assert closing_sentences(open_, "pit gypsum", LANGUAGE)[1:] == (
        "Sample first, then spread.",
        "Followed, it leaves 1 November to 1 December 2027 for the next sampling.",
    )


@pytest.mark.parametrize("client_id", ["anvil-creek", "brolga-plains", "hazel-rigg", "ellery-orchard"])
def test_nothing_is_left_in_english(client_id: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every word of needs, steps, maxima and refusals comes out of the catalogue, but for what the book names."""
    _, advice = advised(client_id)
    shout(monkeypatch)
    said, names = [], set[str]()
    for one in advice.needs:
        if isinstance(one, NoNeed):
            said.append(no_need_sentence(one, "ja"))
            continue
        said += [need_sentence(one, "Z", "ja"), amount_words(one, "ja")]
        said += [step_sentence(step, one.input, "ja") for step in one.steps]
        said += [cap_sentence(cap, one.input, "ja") for cap in one.caps]
        names |= {str(step.facts["product"]) for step in one.steps if "product" in step.facts}
    assert said
    for name in sorted(names, key=len, reverse=True):
        said = [text.replace(name, "") for text in said]
    assert {word for text in said for word in unsaid(text)} <= {"Australia"}


def test_what_is_lacking_and_what_is_closed_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Reasons with facts, and the order of spreading and sampling."""
    shout(monkeypatch)
    needs = ("target-yield", "bulk-density", "nitrogen")
    found = why_not_words(Refused(WhyNot.NOT_MEASURED, {"needs": needs}), "ja")
    assert unsaid(found) == []
    facts = {"reason": "no-rule-here", "land_use": "pasture", "region": "NZ"}
    # Countries come with the locales, not out of the catalogue.
    assert unsaid(why_not_words(Refused(WhyNot.RULE_VOID, facts), "ja")) == ["Zealand"]
    assert "UNVERIFIED" in citation(Source("a", "A", 1999, "T"), Status.UNVERIFIED)
    day = date(2027, 4, 1)
    closing = Closing("home", "barn", "x", day, day, day, sample_first=True, window_first=day, window_last=day)
    for one in (closing, replace(closing, sample_first=False, window_first=None)):
        assert unsaid(" ".join(closing_sentences(one, "X", "ja"))) == []


def test_a_country_is_named_in_the_language() -> None:
    """Countries come with the locales, targets have the decimal sign."""
    facts = {"reason": "target-not-in-rule", "target": 6.5, "targets": ("6.2", "6.8")}
    with speaking("es"):
        found = why_not_words(
            Refused(WhyNot.RULE_VOID, {"reason": "no-rule-here", "land_use": "x", "region": "NZ"}), "es"
        )
        assert "Nueva Zelanda" in found
        assert "6,2 y 6,8" in why_not_words(Refused(WhyNot.RULE_VOID, facts), "es")
