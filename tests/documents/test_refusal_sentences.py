"""Why nothing is judged: every reason has its words, in every language."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from soilrota.documents.refusal_sentences import no_quantity_sentence, reason_words, refused_sentence
from soilrota.language import speaking
from soilrota.model.findings import Fact
from soilrota.model.judgement import NoQuantity, Refused, WhyNot
from tests.documents.shouting import shout, unsaid

LANGUAGE = "en-AU"


def refusals() -> Iterator[tuple[WhyNot, dict[str, Fact], str]]:
    """Yield every reason with facts, and a piece of what is said."""
    yield WhyNot.NO_SET, {}, "no guideline was chosen"
    yield WhyNot.NOT_IN_SET, {}, "says nothing of it"
    yield WhyNot.OTHER_METHOD, {"methods": ("olsen-by-volume",)}, "by olsen by volume"
    yield WhyNot.OTHER_METHOD, {"unit": "mg/kg", "units": ("mg/l",)}, "in mg/l, this value is in mg/kg"
    yield WhyNot.OTHER_LAYER, {"layers": ("0-10", "0-15")}, "0-10 and 0-15 cm"
    yield WhyNot.OTHER_GROUND, {"land_uses": ("crop",), "textures": ("clay-loam",)}, "crops and the texture clay loam"
    yield WhyNot.OTHER_GROUND, {"crops": ("canola",)}, "speaks of the crop canola"
    yield WhyNot.OTHER_GROUND, {"crops": ("canola", "wheat")}, "speaks of the crops canola and wheat"
    yield WhyNot.OTHER_GROUND, {}, "other ground"
    yield WhyNot.COVARIATE_MISSING, {"covariate": "clay-percent"}, "clay is not known"
    yield WhyNot.OUTSIDE_CALIBRATION, {"covariate": "exchange-capacity", "value": 52.5}, "of 52.5 is outside"
    yield WhyNot.SAMPLE_UNUSABLE, {"rules": ("other-depth",)}, "keeps it out of advice"
    yield WhyNot.CENSORED, {"qualifier": "<", "value": 5.0}, "beyond a limit"
    yield WhyNot.NOT_MEASURED, {"needs": ("sodium.exchangeable",)}, "exchangeable Na was not measured"
    yield WhyNot.RULE_VOID, {"reason": "gypsum"}, "gypsum in the soil"
    yield WhyNot.RULE_VOID, {"reason": "not known"}, "does not hold for this soil"


def test_every_refusal_has_its_words() -> None:
    """All reasons are covered; codes with hyphens do not reach the reader."""
    assert {why for why, _, _ in refusals()} == set(WhyNot)
    for why, facts, piece in refusals():
        sentence = refused_sentence("Colwell P", Refused(why, facts), LANGUAGE)
        assert piece in sentence
        assert sentence.startswith("Colwell P is not judged: ")
        assert "_" not in sentence
    missing = NoQuantity(
        "carbon-nitrogen-ratio", 0, 10, Refused(WhyNot.NOT_MEASURED, {"needs": ("nitrogen.kjeldahl",)})
    )
    assert (
        no_quantity_sentence(missing, LANGUAGE)
        == "Carbon to nitrogen is not reckoned: total N (Kjeldahl) was not measured."
    )


def test_several_things_were_not_measured() -> None:
    """The verb follows the count."""
    needs = ("sodium.exchangeable", "clay-percent")
    found = reason_words(Refused(WhyNot.NOT_MEASURED, {"needs": needs}), LANGUAGE)
    assert found == "exchangeable Na and clay were not measured"


def test_layers_have_the_decimal_sign_of_the_language() -> None:
    """Written by the tables with a point."""
    with speaking("es"):
        assert "0-7,5" in reason_words(Refused(WhyNot.OTHER_LAYER, {"layers": ("0-7.5",)}), "es")


def test_no_reason_is_left_in_english(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ids of ground and methods are said too; units are not."""
    shout(monkeypatch)
    found = {word for why, facts, _ in refusals() for word in unsaid(reason_words(Refused(why, facts), "ja"))}
    assert found == set()
