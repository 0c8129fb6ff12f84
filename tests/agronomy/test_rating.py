"""Ratings: class, line and probability for this zone, or the reason why there is none."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.agronomy.barred import barred_samples
from soilrota.agronomy.critical import is_under
from soilrota.agronomy.doubt import Evidence, doubt_of
from soilrota.agronomy.rating import last_sampling, rate_quantity, rate_zone
from soilrota.agronomy.replicates import is_on_log_scale
from soilrota.guidelines.judging import judging_figures
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.guideline import PowerLine, Range, Sense
from soilrota.model.judgement import Covariate, Quantity, Rating, Refused, Unrated, WhyNot
from soilrota.model.results import Result
from soilrota.quantities import Refusal, convert
from tests.agronomy.small_sets import PBI, classes, ground, judged, made_set, rated, refused, row
from tests.results.making import DAY, client, result
from tests.timing.test_tasks import zone

P = "phosphorus.colwell"
CLASSED = row(classes=classes(15, 30, 60))
FLAT = zone("river-flat", "topsoil")


def test_class_line_and_probability() -> None:
    """All that one result means, with what it hung on."""
    follows = row(critical=None, line=PowerLine(PBI, 10, 2, 0.5), ranges=(Range(PBI, 0, 400),), classes=classes(15, 30))
    rating = rated(result(P, 26), follows, on=ground(pbi=100))
    assert (rating.critical, rating.name, rating.words, rating.set) == (30, "c1", "Class 1", "made")
    assert rating.covariates == (Covariate(PBI, 100),)
    assert rating.below is not None
    assert 0.5 < rating.below < 1
    assert rating.doubt == doubt_of(rating.result, Evidence())


def test_near_the_line() -> None:
    """Near where it is neither clearly under nor clearly over."""
    assert [rated(result(P, value), row()).near for value in (8, 27, 30, 33, 100)] == [False, True, True, True, False]


def test_the_printed_interval_of_the_line() -> None:
    """It stands in the rating, and makes the probability less sure."""
    wide = rated(result(P, 45), row(critical_low=22.0, critical_high=41.0))
    plain = rated(result(P, 45), row())
    assert (wide.critical_low, wide.critical_high) == (22, 41)
    assert wide.below is not None
    assert plain.below is not None
    assert plain.below < wide.below < 0.5


def test_classes_alone_and_descriptions() -> None:
    """Without a line there is no probability, and nothing is near it; the class stands."""
    rating = rated(result(P, 20), replace(CLASSED, critical=None, sense=Sense.DESCRIPTION))
    assert (rating.name, rating.critical, rating.below, rating.near) == ("c1", None, None, False)


def test_excess() -> None:
    """The probability is that of lying under the line there too; what is wrong beyond it is the row's sense."""
    salt = row(analyte="conductivity", method="ec-1-5", unit="dS/m", critical=0.4, sense=Sense.EXCESS)
    low, high = (rated(result("conductivity.ec-1-5", value), salt) for value in (0.1, 1.5))
    assert low.below is not None
    assert high.below is not None
    assert low.below > 0.95
    assert high.below < 0.05


@settings(deadline=None)
@given(st.floats(0.5, 500), st.floats(0.5, 500))
def test_monotone_in_the_value(first: float, second: float) -> None:
    """The higher of two values is no more probably under the line, with the doubt that each has itself."""
    low, high = (rated(result(P, value), row()) for value in sorted((first, second)))
    assert low.below is not None
    assert high.below is not None
    assert high.below <= low.below + 1e-12
    if is_under(first, 30):
        below = rated(result(P, first), row()).below
        assert below is not None
        assert below >= 0.5


@settings(deadline=None)
@given(st.integers(1, 120_000))
def test_units_never_change_a_judgement(thousandths: int) -> None:
    """A value that a laboratory wrote in per cent or mg/100 g is judged as the same in mg/kg, at every edge too."""
    plain = thousandths / 1000
    expected = rated(result(P, plain), CLASSED)
    for text, written in (("%", plain / 10_000), ("mg/100 g", plain / 10), ("g/kg", plain / 1000)):
        converted = convert(written, text, "mg/kg", "phosphorus")
        assert not isinstance(converted, Refusal)
        rating = rated(result(P, converted), CLASSED)
        assert rating.name == expected.name
        assert rating.near == expected.near
        assert rating.below == pytest.approx(expected.below, abs=1e-9)


@pytest.mark.parametrize(
    ("value", "name", "said"),
    [("<10", "c0", True), ("<15", "c0", True), ("<25", "", True), ("<30", "", True), (">60", "c3", False),
     (">40", "", False), (">30", "", False)],
)  # fmt: skip
def test_censored_values_that_are_settled(value: str, name: str, said: bool) -> None:
    """A limit on the known side of the line: the limit's own probability is the bound; the class where it is told."""
    rating = rated(result(P, value), CLASSED)
    limit = rated(result(P, float(value[1:])), CLASSED)
    assert (rating.name, rating.below) == (name, limit.below)
    assert rating.below is not None
    assert (rating.below >= 0.5) is said or rating.below == 0.5


@pytest.mark.parametrize("value", ["<31", "<100", ">29", ">5"])
def test_censored_values_that_are_not(value: str) -> None:
    """A limit on the other side tells nothing."""
    facts = {"qualifier": value[0], "value": float(value[1:]), "line": 30.0}
    assert refused(result(P, value), row()).refused == Refused(WhyNot.CENSORED, facts)
    without_line = refused(result(P, "<20"), replace(CLASSED, critical=None)).refused
    assert without_line == Refused(WhyNot.CENSORED, {"qualifier": "<", "value": 20.0})


def test_a_barred_sample_is_not_rated() -> None:
    """Whatever the sets say of it."""
    unrated = judged(result(P, 20), row(), barred_by=("other-depth",))
    assert isinstance(unrated, Unrated)
    assert unrated.refused == Refused(WhyNot.SAMPLE_UNUSABLE, {"rules": ("other-depth",)})
    assert refused(result("sulphur.kcl-40", 8), row()).refused.why is WhyNot.NOT_IN_SET


def earlier(days: int, *results: Result) -> tuple[Result, ...]:
    """Return results so many days earlier."""
    return tuple(replace(one, sampled=one.sampled - timedelta(days)) for one in results)


def test_the_last_sampling() -> None:
    """The last day of each layer, near the last of all; an old layer, protocol or zone is another sampling."""
    top, deep = result(P, 20), result(P, 8, top_cm=10, bottom_cm=20)
    window = judging_figures().same_sampling_days
    held = (*earlier(365, top), top, *earlier(window, deep), *earlier(1, result(P, 1, zone="bank")))
    assert last_sampling(client(*held), FLAT, "topsoil") == (top, *earlier(window, deep))
    assert last_sampling(client(top, *earlier(window + 1, deep)), FLAT, "topsoil") == (top,)
    assert last_sampling(client(top), FLAT, "subsoil") == ()


def test_rating_a_zone() -> None:
    """Each of its last results by its own covariates; those not rated stand with the reason."""
    follows = row(critical=None, line=PowerLine(PBI, 10, 2, 0.5))
    held = (result(P, 20), *earlier(400, result(PBI, 100), result(P, 99)), result("sulphur.kcl-40", 8))
    ratings, unrated = rate_zone(client(*held), FLAT, "topsoil", [made_set(follows)])
    assert [(one.result.value, one.critical) for one in ratings] == [(20, 30)]
    assert ratings[0].covariates[0].result == held[1]
    assert [one.refused.why for one in unrated] == [WhyNot.NOT_IN_SET]


def test_barred_samples_are_no_covariate_either() -> None:
    """A buffering index of a barred sample is not there."""
    follows = row(critical=None, line=PowerLine(PBI, 10, 2, 0.5))
    held = (result(P, 20), *earlier(400, result(PBI, 100)))
    key = SampleKey("home", "river-flat", "topsoil", 0, 10, DAY - timedelta(400))
    barred = barred_samples([SampleFinding(key, SampleRule.OTHER_DEPTH, Weight.UNUSABLE)])
    ratings, unrated = rate_zone(client(*held), FLAT, "topsoil", [made_set(follows)], barred=barred)
    assert ratings == ()
    assert unrated[0].refused == Refused(WhyNot.COVARIATE_MISSING, {"covariate": PBI})


def test_derived_quantities() -> None:
    """Rows of method `derived` rate them, with half their interval as doubt; sets that are silent say nothing."""
    sodicity = row(
        analyte="sodium-share", method="derived", unit="%", critical=6.0, classes=classes(6, 15), sense=Sense.EXCESS
    )
    share = Quantity("sodium-share", 8.0, 6.04, 9.96, "%", 0, 10, (result("sodium.exchangeable", 0.8),))
    rating = rate_quantity(share, [made_set(sodicity)], ground())
    assert isinstance(rating, Rating)
    assert (rating.name, rating.result.analyte, rating.result.value) == ("c1", "sodium-share", 8.0)
    assert rating.doubt.sd == pytest.approx(1.0, abs=1e-4)
    assert rating.below == pytest.approx(0.0228, abs=1e-4)
    assert rate_quantity(share, [made_set(row())], ground()) is None
    unrated = rate_quantity(share, [made_set(replace(sodicity, bottom_cm=30))], ground())
    assert isinstance(unrated, Unrated)
    assert not is_on_log_scale("pH")
