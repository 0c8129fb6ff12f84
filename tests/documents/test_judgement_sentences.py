"""Judgements as sentences: one for every kind, plain words, no codes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from soilrota.batch.judging import ClientJudgement, judge_client
from soilrota.documents.judgement_sentences import (
    no_quantity_sentence,
    quantity_sentence,
    rating_sentence,
    refused_sentence,
    source_words,
    spread_sentence,
    trend_sentence,
)
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status
from soilrota.model.judgement import FarmSpread, NoQuantity, Rating, Refused, Trend, TrendVerdict, WhyNot
from tests.documents.made import example

LANGUAGE = "en-AU"


@pytest.fixture(scope="module")
def judged() -> ClientJudgement:
    """Return what is judged of an example client."""
    return judge_client(example("anvil-creek"), ())


def colwell(judged: ClientJudgement) -> Rating:
    """Return the rating of Colwell P of one zone."""
    (zone,) = judged.of("home", "north-flat")
    return next(one for one in zone.ratings if one.result.method == "colwell" and one.result.analyte == "phosphorus")


def test_a_value_near_its_line(judged: ClientJudgement) -> None:
    """Value, line, interval, what it follows, the chance, and that the figure is unverified."""
    assert rating_sentence(colwell(judged), LANGUAGE) == (
        "Colwell P of 35 mg/kg is near the line of 34 mg/kg (published as 32 to 36 mg/kg) for PBI (adjusted for "
        "Colwell P) of 120. The chance that the zone's true mean lies under it is about 43 in 100. The figure is "
        "unverified: it was not read in its source."
    )


@pytest.mark.parametrize(
    ("below", "near", "qualifier", "said"),
    [
        (0.7, False, "", "lies under the line"),
        (0.999, False, "<", "almost certainly lies under it"),
        (0.8, False, "<", "is at least 80 in 100"),
        (0.002, False, "", "almost certainly does not lie under it"),
        (0.5, True, "", "is near the line"),
    ],
)
def test_how_sure_it_is(judged: ClientJudgement, below: float, near: bool, qualifier: str, said: str) -> None:
    """Words for nearly certain, numbers between; a bound says that it is one."""
    rating = colwell(judged)
    result = replace(rating.result, value=20.0, qualifier=qualifier)
    assert said in rating_sentence(replace(rating, below=below, near=near, result=result), LANGUAGE)


def test_a_verified_figure_is_not_called_unverified(judged: ClientJudgement) -> None:
    """The word stands only where it belongs, in the sentence and in the source."""
    rating = colwell(judged)
    verified = replace(rating, row=replace(rating.row, status=Status.VERIFIED))
    assert "unverified" not in rating_sentence(verified, LANGUAGE)
    assert source_words(rating.row).endswith("[unverified]")
    assert "unverified" not in source_words(verified.row)


def refusals() -> Iterator[tuple[WhyNot, dict[str, Fact], str]]:
    """Yield every reason with facts, and a piece of what is said."""
    yield WhyNot.NO_SET, {}, "no guideline was chosen"
    yield WhyNot.NOT_IN_SET, {}, "says nothing of it"
    yield WhyNot.OTHER_METHOD, {"methods": ("olsen-by-volume",)}, "by olsen by volume"
    yield WhyNot.OTHER_METHOD, {"unit": "mg/kg", "units": ("mg/l",)}, "in mg/l, this value is in mg/kg"
    yield WhyNot.OTHER_LAYER, {"layers": ("0-10", "0-15")}, "0-10 and 0-15 cm"
    yield WhyNot.OTHER_GROUND, {"land_uses": ("crop",), "textures": ("clay-loam",)}, "crops and textures clay loam"
    yield WhyNot.OTHER_GROUND, {}, "other ground"
    yield WhyNot.COVARIATE_MISSING, {"covariate": "clay-percent"}, "clay is not known"
    yield WhyNot.OUTSIDE_CALIBRATION, {"covariate": "exchange-capacity", "value": 52.5}, "of 52.5 is outside"
    yield WhyNot.SAMPLE_UNUSABLE, {"rules": ("other-depth",)}, "keeps it out of advice"
    yield WhyNot.CENSORED, {"qualifier": "<", "value": 5.0}, "beyond a limit"
    yield WhyNot.NOT_MEASURED, {"needs": ("sodium.exchangeable",)}, "Exchangeable Na was not measured"
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
    assert no_quantity_sentence(missing, LANGUAGE).endswith("was not measured.")


def test_quantities_of_every_example_are_said(judged: ClientJudgement) -> None:
    """One sentence each, with its interval and no code in it."""
    said = [quantity_sentence(quantity) for zone in judged.zones for quantity in zone.quantities]
    assert said
    assert all(" to " in words and "_" not in words for words in said)


def test_trends_say_what_was_left_out(judged: ClientJudgement) -> None:
    """Verdicts in words, the least change that can be told, and why earlier values do not compare."""
    (zone,) = judged.of("home", "north-flat")
    trend = next(one for one in zone.trends if one.analyte == "phosphorus")
    for verdict, words in (
        (TrendVerdict.RISING, "It is rising from 2024 to 2026"),
        (TrendVerdict.FALLING, "It is falling from 2024 to 2026"),
        (TrendVerdict.NO_CHANGE_SHOWN, "No change is shown from 2024 to 2026"),
        (TrendVerdict.TOO_SHORT, "There are too few comparable values"),
    ):
        assert trend_sentence(replace(trend, verdict=verdict), LANGUAGE).startswith(words)
    broken: Trend = replace(trend, broken_by=("method", "zone-redrawn"), left_out=2)
    assert trend_sentence(broken, LANGUAGE).endswith(
        "2 earlier values do not compare: another method and the zone as it was drawn before."
    )
    assert "1 earlier value does not compare" in trend_sentence(replace(broken, left_out=1), LANGUAGE)


def test_what_the_farm_mean_would_have_hidden() -> None:
    """It is said only where the mean lies over the line and zones lie under it."""
    spread = FarmSpread(
        "home",
        "phosphorus",
        "colwell",
        "mg/kg",
        0,
        10,
        36.0,
        ("a", 20.0),
        ("b", 60.0),
        ("a",),
        ("b",),
        mean_below=False,
    )
    words = spread_sentence(spread, "Home", str.upper)
    assert words == (
        "Colwell P on Home goes from 20 mg/kg (A) to 60 mg/kg (B); the mean over the area is 36 mg/kg and would have "
        "hidden that A lies under the line."
    )
    assert "hidden" not in spread_sentence(replace(spread, mean_below=True), "Home", str.upper)
    assert "mean" not in spread_sentence(replace(spread, mean=None), "Home", str.upper)


def test_examples_with_every_kind_of_judgement_read_well() -> None:
    """No sentence of any example client shows a code, a Python word or a doubled blank."""
    for name in ("brolga-plains", "hazel-rigg", "ellery-orchard", "iron-prairie", "glen-tarn"):
        client = example(name)
        for zone in judge_client(client, ()).zones:
            said = [rating_sentence(one, client.language) for one in zone.ratings]
            said += [trend_sentence(one, client.language) for one in zone.trends]
            said += [refused_sentence("It", one.refused, client.language) for one in zone.unrated]
            said += [no_quantity_sentence(one, client.language) for one in zone.missing]
            for words in said:
                assert not any(bad in words for bad in ("None", "_", "  ", "('", "..", "nan")), words


def test_the_words_of_a_class_and_a_line_together() -> None:
    """A class and a line are one sentence."""
    client = example("hazel-rigg")
    ratings = [one for zone in judge_client(client, ()).zones for one in zone.ratings if one.words and one.critical]
    assert any(
        "is rated Index" in (words := rating_sentence(one, client.language)) and ", and " in words for one in ratings
    )
