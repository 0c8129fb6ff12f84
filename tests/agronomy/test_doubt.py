"""How sure a zone's mean is: its parts, its scale, the cores that count, own replicates."""

from __future__ import annotations

from dataclasses import replace
from math import expm1, hypot, log1p, sqrt

import pytest

from soilrota.agronomy.doubt import Between, Evidence, cores_of, doubt_from, doubt_of, evidence_of, standard_error
from soilrota.agronomy.replicates import Replicates
from soilrota.guidelines.core_spread import least_degrees
from soilrota.model.protocol import Layer
from soilrota.model.samples import FieldNote
from soilrota.problems import Place
from tests.results.making import DAY, client, result

P = result("phosphorus.colwell", 30, bag="B1")
PH = result("ph.cacl2", 5.0, bag="B1")


def note(cores: int | None, bag: str = "B1", bottom_cm: float = 10) -> FieldNote:
    """Return a note of the river flat's topsoil."""
    return FieldNote(DAY, "home", "river-flat", "topsoil", 0, bottom_cm, cores, "moist", "", bag, Place("notes.csv", 2))


def evidence(*notes: FieldNote, layers: tuple[Layer, ...] = ()) -> Evidence:
    """Return what a client with these notes says, whose protocol has these layers."""
    plain = client(field_notes=notes)
    topsoil = replace(plain.protocols["topsoil"], layers=layers)
    return evidence_of(replace(plain, protocols={"topsoil": topsoil}))


def test_whose_cores_count() -> None:
    """The bag's note, else one of the same ground and day, else the protocol's wish, else one core."""
    layers = (Layer(0, 10, 25), Layer(10, 20, 12))
    assert cores_of(P, evidence(note(18), note(31, "B2"), layers=layers)) == 18
    assert cores_of(P, evidence(note(18, "b1"))) == 18
    assert cores_of(replace(P, bag=""), evidence(note(31, "B2"))) == 31
    assert cores_of(P, evidence(note(None), layers=layers)) == 25
    assert cores_of(P, evidence(note(18, bottom_cm=20), layers=layers)) == 25
    assert cores_of(P, evidence()) == 1


def test_concentrations_on_the_log_scale() -> None:
    """40 % between cores, 20 of them, 15.2 % between laboratories: the cv comes back out of the sd."""
    doubt = doubt_of(P, evidence(note(20)))
    cv = hypot(0.40 / sqrt(20), 0.30685 * 30**-0.2061)
    assert doubt.on_log_scale
    assert not doubt.own
    assert sqrt(expm1(doubt.sd**2)) == pytest.approx(cv)
    assert doubt.sampling == pytest.approx(sqrt(log1p(0.4**2 / 20)))
    assert standard_error(30, doubt) == pytest.approx(30 * cv)
    assert "20 cores" in doubt.source
    assert "Rayment and Lyons (2011)" in doubt.source


def test_ph_on_its_own_scale() -> None:
    """8 % between cores and 1.8 % between laboratories of pH 5.0, in pH units."""
    doubt = doubt_of(PH, evidence(note(20)))
    assert not doubt.on_log_scale
    assert (doubt.sampling, doubt.laboratory) == pytest.approx((5 * 0.08 / sqrt(20), 0.09))
    assert standard_error(5.0, doubt) == doubt.sd == pytest.approx(hypot(doubt.sampling, doubt.laboratory))


def test_within_one_laboratory() -> None:
    """Colwell P repeats within 20 % at two standard deviations; pH within 4 %."""
    assert sqrt(expm1(doubt_of(P, Evidence(), Between.ONE_LABORATORY).laboratory ** 2)) == pytest.approx(0.10)
    assert doubt_of(PH, Evidence(), Between.ONE_LABORATORY).laboratory == pytest.approx(0.10)


def test_more_cores_are_surer() -> None:
    """The sampling's part falls with the cores, the laboratory's does not."""
    doubts = [doubt_of(P, evidence(note(cores))) for cores in (5, 10, 20, 40)]
    assert [one.sd for one in doubts] == sorted((one.sd for one in doubts), reverse=True)
    assert len({one.laboratory for one in doubts}) == 1


@pytest.mark.parametrize("found", [P, PH])
def test_own_replicates_stand_where_there_are_enough(found: object) -> None:
    """From `least_degrees` on; in one laboratory they are the whole doubt, between laboratories that part is added."""
    assert found in {P, PH}
    one = P if found is P else PH
    code, sd = f"{one.analyte}.{one.method}", 0.20
    few, enough = (
        Evidence(replicates={code: Replicates(sd, degrees, degrees)})
        for degrees in (least_degrees() - 1, least_degrees())
    )
    assert not doubt_of(one, few).own
    within, between = doubt_of(one, enough, Between.ONE_LABORATORY), doubt_of(one, enough)
    assert within.own
    assert within.sd == pytest.approx(sd)
    assert between.sampling == pytest.approx(within.sampling)
    assert between.laboratory == doubt_of(one, few).laboratory
    assert "own replicates" in between.source


def test_replicates_closer_than_the_laboratory_repeats() -> None:
    """Then they say nothing of the sampling, and the doubt of a comparison within is what they say."""
    enough = Evidence(replicates={"phosphorus.colwell": Replicates(0.03, 20, 20)})
    doubt = doubt_of(P, enough, Between.ONE_LABORATORY)
    assert doubt.sampling == 0
    assert doubt.sd == pytest.approx(0.03)


def test_a_value_of_nought() -> None:
    """Has a doubt too, in its share; its standard error is nought."""
    zero = replace(P, value=0.0)
    assert standard_error(0.0, doubt_of(zero, Evidence())) == 0
    assert doubt_from(PH, 0.03, 0.04, "given").sd == pytest.approx(5 * 0.05)
