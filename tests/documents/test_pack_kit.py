"""The kit follows the protocols of the visit."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.pack_kit import kit_for
from soilrota.model.client import Rows
from soilrota.model.field_pack import FieldPack, PackZone
from soilrota.model.protocol import Protocol
from tests.documents.made import example
from tests.documents.packs import a_layout, a_task, a_visit

CLIENT = example("brolga-plains")
FARM = CLIENT.farms[0]
TOPSOIL, DEEP = CLIENT.protocols["topsoil-crop"], CLIENT.protocols["deep-nitrogen"]


def visit(*protocols: Protocol, rows: Rows | None = None) -> FieldPack:
    """Return a visit to one zone under protocols."""
    zone = replace(FARM.zones[0], rows=rows)
    tasks = tuple(
        a_task(CLIENT, FARM, zone, one, number=index, layout=a_layout(zone, FARM, one.layers))
        for index, one in enumerate(protocols, 1)
    )
    return a_visit(CLIENT, FARM, (PackZone("A", zone, tasks),))


def words(pack: FieldPack) -> str:
    """Return the kit in one text."""
    return " / ".join(f"{line.thing}: {line.note}" for line in kit_for(pack))


def test_topsoil_needs_no_deep_corer_and_no_ice() -> None:
    """One depth, one bucket, bags that keep."""
    said = words(visit(TOPSOIL))
    assert "Corer with a depth stop: stop or mark at 10 cm" in said
    assert "Deep corer" not in said
    assert "Plan of buried services" not in said
    assert "Cool box" not in said
    assert "1 clean plastic bucket:" in said
    assert "6 sample bags: 1 and 5 spare" in said
    assert "Tape" not in said
    assert "galvanised" not in said


def test_deep_nitrogen_brings_corer_ice_and_services() -> None:
    """Its depths are on the tools, its bags on ice, buried services looked for."""
    said = words(visit(TOPSOIL, DEEP))
    assert "Corer with a depth stop: stop or mark at 10 and 30 cm" in said
    assert "Deep corer, to 60 cm: marks at 10, 30 and 60 cm" in said
    assert "Cool box with ice, thermometer: some bags must be at the laboratory within 2 days" in said
    assert "3 clean plastic buckets: one a layer, marked 10, 30 and 60 cm" in said
    assert "Plan of buried services" in said
    assert "Labels for 4 bags" in said


def test_trace_elements_keep_zinc_and_copper_away() -> None:
    """No galvanised or brass tool where they are asked for."""
    said = words(visit(replace(TOPSOIL, analyses=("zinc.dtpa", "ph.cacl2"))))
    assert "not galvanised, not brass, no rust: zinc (DTPA) is asked for" in said
    assert "stainless steel or plastic only" in said


def test_banded_rows_need_a_tape() -> None:
    """The distance of the rows stands with it."""
    assert "Tape: rows 30 cm apart" in words(visit(TOPSOIL, rows=Rows(30.0)))


def test_every_visit_has_first_aid_and_something_to_clean_with() -> None:
    """Whatever the protocols."""
    said = words(visit(TOPSOIL))
    for thing in ("First-aid", "Disinfectant", "Phone", "permanent pens", "Knife", "brush", "This pack"):
        assert thing in said
