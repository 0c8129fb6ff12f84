"""Cautions follow the work at hand."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.pack_cautions import CLOSING, cautions_for_visit
from soilrota.model.field_pack import FieldPack, PackZone
from tests.documents.made import example
from tests.documents.packs import a_pack, a_task, a_visit

CLIENT = example("brolga-plains")
FARM = CLIENT.farms[0]


def about(pack: FieldPack) -> list[str]:
    """Return what the cautions are about."""
    return [caution.about for caution in cautions_for_visit(pack)]


def one_zone(protocol: str, land_use: str = "crop", water_m: float | None = None) -> FieldPack:
    """Return a visit to one zone."""
    zone = replace(FARM.zones[0], land_use=land_use, distance_to_water_m=water_m)
    return a_visit(CLIENT, FARM, (PackZone("A", zone, (a_task(CLIENT, FARM, zone, CLIENT.protocols[protocol]),)),))


def test_buried_services_come_first_where_a_core_is_deep() -> None:
    """And only there."""
    assert about(one_zone("deep-nitrogen"))[:2] == ["Buried services", "Deep corer or rig"]
    assert "Buried services" not in about(one_zone("topsoil-crop"))


def test_a_core_below_the_topsoil_is_warned_of_shallow_pipes() -> None:
    """Cores to 30 cm, without the words on rigs."""
    client = example("anvil-creek")
    farm = client.farms[0]
    task = a_task(client, farm, farm.zones[0], client.protocols["acidity-profile"])
    found = cautions_for_visit(a_visit(client, farm, (PackZone("A", farm.zones[0], (task,)),)))
    assert found[0].about == "Buried services"
    assert "shallower than 30 cm" in found[0].words
    assert "Deep corer or rig" not in [one.about for one in found]


def test_what_always_holds() -> None:
    """Alone, weather, machines, lifting, hygiene, quarantine."""
    always = {
        "Working alone",
        "Heat, sun, fire, storm",
        "Machines on the farm",
        "Lifting and strain",
        "Hygiene between farms",
        "Moving soil",
    }
    assert always <= set(about(one_zone("topsoil-crop", "orchard")))


def test_stock_spray_and_water_where_they_are() -> None:
    """Orchards have spray and no stock, pasture the other way round; water where a zone lies near."""
    orchard, pasture = about(one_zone("topsoil-crop", "orchard")), about(one_zone("topsoil-crop", "pasture", 12.0))
    assert "Spraying" in orchard
    assert "Livestock" not in orchard
    assert "Livestock" in pasture
    assert "Spraying" not in pasture
    assert "Water and steep banks" in pasture
    assert "Water and steep banks" not in orchard


def test_many_bags_are_weighed() -> None:
    """Fifteen bags are some kilograms."""
    (lifting,) = [one for one in cautions_for_visit(a_pack()) if one.about == "Lifting and strain"]
    assert lifting.words.startswith("15 bags weigh about 8 kg.")


def test_local_rules_come_first() -> None:
    """It is said in so many words."""
    assert "Local rules" in CLOSING
    assert "licensed practice" in CLOSING
