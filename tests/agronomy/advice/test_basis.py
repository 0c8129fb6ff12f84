"""What advice rests on: usable results of the last sampling, and the zone's own rows of the plan."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.agronomy.advice.basis import basis_of
from soilrota.model.cropping import CropYear
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.judgement import ZoneJudgement
from soilrota.problems import Place
from tests.agronomy.derived.bags import result, zone
from tests.results.making import client

_DAY = date(2027, 2, 10)


def _judgement() -> ZoneJudgement:
    """Return a judgement that says nothing."""
    return ZoneJudgement("home", "hill", "topsoil", _DAY, "", (), (), (), (), ())


def test_earlier_samplings_and_other_rows_of_the_plan_are_not_there() -> None:
    """The last day of each layer, the uppermost layer first."""
    old = replace(result("ph.cacl2", 4.1), sampled=date(2023, 2, 10))
    lower, upper = result("ph.cacl2", 4.6, layer=(10, 20)), result("ph.cacl2", 4.9)
    rows = [CropYear("home", name, 2027, "wheat", 4.0, None, "grain", Place("cropping.csv")) for name in ("hill", "x")]
    basis = basis_of(client(old, lower, upper), zone(), _judgement(), plan=rows)
    assert [one.value for one in basis.measured("ph.cacl2")] == [4.9, 4.6]
    assert basis.measured("ph.water") == ()
    assert basis.plan == (rows[0],)
    assert basis.quantity("ece", 0, 10) is None


def test_barred_samples_are_not_there() -> None:
    """A finding that bars a sample keeps its results out of advice."""
    found = result("ph.cacl2", 4.9)
    finding = SampleFinding(
        SampleKey("home", "hill", "topsoil", 0, 10, _DAY), next(iter(SampleRule)), Weight.UNUSABLE, {}
    )
    assert basis_of(client(found), zone(), _judgement(), findings=[finding]).results == ()
