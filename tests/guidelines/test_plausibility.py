"""The table of plausibility: complete, cited, and with the figures of its sources."""

from __future__ import annotations

from math import log1p, sqrt

import pytest

from soilrota.guidelines.plausibility import (
    check_of,
    checks,
    chloride_conductivity,
    history_figures,
    swap_figures,
    usual_spread,
)
from soilrota.model.result_findings import Grade, ResultRule
from soilrota.quantities import analytes


def test_every_rule_stands_in_the_table() -> None:
    """No finding can come up that the table does not grade; every row has a reason and says where it comes from."""
    table = checks()
    assert {rule for rule, _ in table} == set(ResultRule)
    assert all(check.reason.endswith(".") and check.published and check.source for check in table.values())
    assert [check.rule for check in table.values()] == sorted((rule for rule, _ in table), key=list(ResultRule).index)


def test_worse_cases_lie_further_out() -> None:
    """A set-aside is never asked by a milder figure than the doubt beside it."""
    for rule, worse, milder in (
        ("history", "extreme", "doubt"),
        ("swapped", "likely", "possible"),
        ("sodium-share", "impossible", "high"),
    ):
        far, near = check_of(ResultRule(rule), worse), check_of(ResultRule(rule), milder)
        assert far.figures["above"] > near.figures["above"]
        assert far.grade is Grade.SET_ASIDE
    mirrored, reversed_ = (check_of(ResultRule.PH_PAIR, case) for case in ("mirrored", "reversed"))
    assert mirrored.figures["below"] < reversed_.figures["below"]


def test_a_case_that_is_not_there() -> None:
    """A misspelt case is a fault of the program, not a silent default."""
    with pytest.raises(KeyError):
        check_of(ResultRule.PH_PAIR, "widest")


def test_chloride_alone() -> None:
    """600 mg/kg of chloride as sodium chloride give 0.294 dS/m: 1.6485e-4 x Cl % of salt over 0.336 (SCM chapter 3)."""
    assert chloride_conductivity(600) == pytest.approx(600 * 1.6485e-4 / 0.336)
    assert round(chloride_conductivity(600), 3) == 0.294
    assert chloride_conductivity(1) == pytest.approx(4.9e-4, abs=1e-5)


def test_published_spreads() -> None:
    """Morton et al. 2000: Olsen P 21.3, K 26.2, S 37.4 %; SCM table App 2.1 halved; squares add up."""
    for analyte, year, laboratory in (
        ("phosphorus", 0.213, 0.125),
        ("potassium", 0.262, 0.075),
        ("sulphur", 0.374, 0.1),
    ):
        spread = usual_spread(analyte)
        assert spread.sd == pytest.approx(sqrt(log1p(year**2) + log1p(laboratory**2)))
        assert (spread.is_log, spread.is_house_default) == (True, False)
    ph = usual_spread("ph")
    assert (ph.is_log, ph.is_house_default) == (False, False)
    assert ph.sd == pytest.approx(sqrt(0.12**2 + 0.125**2))
    assert 0.022 * 5.5 == pytest.approx(0.12, abs=0.002)


def test_spreads_without_a_source_say_so() -> None:
    """An analyte that the table does not name has the default, and every default is marked."""
    assert usual_spread("zinc") == usual_spread("gold")
    assert usual_spread("zinc").is_house_default
    for analyte in analytes():
        spread = usual_spread(analyte)
        assert spread.sd > 0
        assert spread.is_house_default == ("common practice" in spread.source or "organic carbon" in spread.source)


def test_how_history_and_swaps_are_reckoned() -> None:
    """1.4826 is that of a normal sample; the prior of a swap is small; evidence is never counted more than once."""
    assert history_figures().mad_to_sd == 1.4826
    assert history_figures().median_variance == pytest.approx(3.14159 / 2, abs=1e-4)
    figures = swap_figures()
    assert 0 < figures.share_of_bags < 0.05
    assert 0 < figures.evidence_share <= 1
    assert figures.least_history >= 2
