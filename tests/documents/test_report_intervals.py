"""The interval of a value, on the scale of its doubt."""

from __future__ import annotations

from dataclasses import replace
from math import log

import pytest

from soilrota.documents.report_grounds import all_judged
from soilrota.documents.report_intervals import interval_of, interval_words
from soilrota.model.judgement import Doubt
from tests.documents.reports import farm_grounds

RESULT = replace(
    all_judged(farm_grounds("anvil-creek").judged[0])[1].result,
    analyte="phosphorus",
    method="colwell",
    unit="mg/kg",
    value=30.0,
    qualifier="",
)


def test_on_the_log_scale_the_value_is_the_geometric_middle() -> None:
    """1.96 standard deviations either way."""
    ends = interval_of(RESULT, Doubt(sd=0.1, on_log_scale=True, sampling=0.1, laboratory=0.0, source=""))
    assert ends is not None
    assert ends[0] * ends[1] == pytest.approx(RESULT.value**2)
    assert log(ends[1] / RESULT.value) == pytest.approx(0.196)


def test_plain_scale_stays_above_nought() -> None:
    """An amount is never negative."""
    doubt = Doubt(sd=5.0, on_log_scale=False, sampling=5.0, laboratory=0.0, source="")
    assert interval_of(RESULT, doubt) == pytest.approx((20.2, 39.8))
    wide = interval_of(RESULT, replace(doubt, sd=50.0))
    assert wide is not None
    assert wide[0] == 0.0


def test_none_where_nothing_is_known() -> None:
    """A censored value and a doubt that nobody knows have no interval."""
    doubt = Doubt(sd=5.0, on_log_scale=False, sampling=5.0, laboratory=0.0, source="")
    assert interval_of(replace(RESULT, qualifier="<"), doubt) is None
    assert interval_words(RESULT, None) == ""
    assert interval_words(RESULT, doubt) == "20 to 40 mg/kg"


def test_units_stand_once() -> None:
    """Behind the upper end; pH has none, per cent keeps close."""
    doubt = Doubt(sd=0.1, on_log_scale=False, sampling=0.1, laboratory=0.0, source="")
    ph = replace(RESULT, analyte="ph", method="cacl2", unit="pH", value=5.2)
    carbon = replace(RESULT, analyte="organic-carbon", method="walkley-black", unit="%", value=2.5)
    assert interval_words(ph, doubt) == "5.0 to 5.4"
    assert interval_words(carbon, doubt) == "2.30 to 2.70%"
