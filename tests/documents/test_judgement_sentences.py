"""Judgements as sentences: one for every kind, plain words, no codes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.batch.judging import ClientJudgement, judge_client
from soilrota.documents.judgement_sentences import (
    covariate_words,
    layer_words,
    no_quantity_sentence,
    quantity_sentence,
    rating_sentence,
    refused_sentence,
    sense_words,
    source_words,
    spread_sentence,
    trend_sentence,
)
from soilrota.language import speaking
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Covariate, FarmSpread, Rating, Trend, TrendVerdict
from tests.documents.made import example
from tests.documents.shouting import shout, unsaid

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


def test_what_stands_in_place_of_a_publication_is_said(
    judged: ClientJudgement, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A publication keeps its title in every language."""
    row = colwell(judged).row
    title = row.source.title
    practice = replace(row, source=Source("practice", "common practice", 0, "no source"), status=Status.VERIFIED)
    shout(monkeypatch)
    assert title in source_words(row)
    assert source_words(practice) == "COMMON PRACTICE: NO SOURCE"


def test_quantities_of_every_example_are_said(judged: ClientJudgement) -> None:
    """One sentence each, with its interval and no code in it."""
    said = [quantity_sentence(quantity) for zone in judged.zones for quantity in zone.quantities]
    assert said
    assert all(" to " in words and "_" not in words for words in said)


def test_a_quantity_names_its_crop_or_analysis() -> None:
    """As a reader would say it, without a range that is the value again."""
    client = example("brolga-plains")
    with speaking(client.language):
        found = judge_client(client, ())
        said = [quantity_sentence(quantity) for zone in found.zones for quantity in zone.quantities]
    assert any(words.startswith("Yield of wheat that salinity leaves is 100%.") for words in said)
    assert any(words.startswith("Stock in the layer by Colwell P is ") for words in said)
    (nitrogen, *_) = [words for words in said if words.startswith("Mineral nitrogen of the profile is ")]
    assert "." not in nitrogen.partition(" kg/ha")[0]


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


def test_numbers_follow_the_language_that_is_spoken(judged: ClientJudgement) -> None:
    """Values and layers too, which have no language of their own."""
    rating = colwell(judged)
    with speaking("es"):
        assert layer_words(0.0, 7.5) == "0–7,5 cm"
        assert "5,25" in covariate_words(Covariate("clay-percent", 5.25), "es")
        assert "0,41" in rating_sentence(
            replace(rating, critical_low=None, critical=0.41, row=replace(rating.row, analyte="x", unit="dS/m")), "es"
        )


def test_nothing_is_left_in_english(judged: ClientJudgement, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every word comes out of the catalogue, but for units and citations."""
    shout(monkeypatch)
    said = [quantity_sentence(one) for zone in judged.zones for one in zone.quantities]
    for zone in judged.zones:
        said += [rating_sentence(one, "ja") for one in zone.ratings]
        said += [trend_sentence(one, "ja") for one in zone.trends]
        said += [refused_sentence("P", one.refused, "ja") for one in zone.unrated]
        said += [no_quantity_sentence(one, "ja") for one in zone.missing]
        said += [sense_words(one.row) for one in zone.ratings]
    assert said
    assert {word for text in said for word in unsaid(text)} <= {"cmol(+)/kg"}
