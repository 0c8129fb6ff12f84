"""Cautions stand where they are needed."""

from __future__ import annotations

from soilrota.documents.cautions import ALWAYS, DEEP, DUST, PIPES, WATER, cautions_for
from tests.documents.made import answers, example


def test_deep_cores_bring_the_caution_on_buried_services_first() -> None:
    """Cores to 60 cm are warned of; cores to 10 cm are not."""
    deep = example("brolga-plains")
    assert cautions_for(deep, answers(deep)[1])[0] == DEEP
    shallow = example("dune-end-sheep")
    assert cautions_for(shallow, answers(shallow)[1]) == ALWAYS


def test_cores_below_the_topsoil_bring_the_caution_on_shallow_pipes() -> None:
    """Cores to 30 cm need no locating service here, and may still meet a water pipe."""
    vines = example("farrow-vines")
    found = cautions_for(vines, answers(vines)[1])
    assert found[0] == PIPES
    assert DEEP not in found


def test_planned_lime_and_water_nearby() -> None:
    """Lime that is planned brings the caution on dust; water within 50 m the one on run-off."""
    lime = example("hazel-rigg")
    assert DUST in cautions_for(lime, answers(lime)[1])
    water = example("glen-tarn")
    assert WATER in cautions_for(water, answers(water)[1])
