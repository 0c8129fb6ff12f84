"""The client's file: zones, farms, what was agreed."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from soilrota.book.clients import (
    build_contacts,
    build_decisions,
    build_farm,
    build_gap_overrides,
    build_last_sampled,
    build_targets,
    build_zones,
)
from soilrota.model.ground import Outline
from soilrota.model.layout import Rows
from soilrota.problems import Place
from tests.book.written import written

ZONE: dict[str, Any] = {
    "id": "hill",
    "name": "Hill",
    "soil_type": "red loam",
    "land_use": "pasture",
    "landscape_position": "crest",
    "protocols": ["topsoil"],
}
RING = ((0.10, 52.20), (0.11, 52.20), (0.11, 52.21), (0.10, 52.21), (0.10, 52.20))
OUTLINE = Outline(((RING,),), Place("map.geojson"))


def test_a_zone_with_everything() -> None:
    """All that is written reaches the model, numbers as numbers."""
    full = {
        **ZONE,
        "texture": "clay-loam",
        "clay_percent": 34,
        "bulk_density": 1.35,
        "gravel_percent": 15,
        "area_ha": 8,
        "rainfall_zone": "medium",
        "distance_to_water_m": 40,
        "mixed_with": ["sand"],
        "last_sampled": [{"protocol": "topsoil", "day": "2026-02-20"}],
    }
    (zone,) = build_zones(written({"id": "home", "zones": [full]}), {})
    value = zone.value
    assert (value.farm, value.area_ha, value.clay_percent, value.distance_to_water_m) == ("home", 8.0, 34.0, 40.0)
    assert (value.mixed_with, value.outline, value.place.path) == (("sand",), None, "zones/0")
    assert (value.bulk_density, value.gravel_percent) == (1.35, 15.0)
    assert value.last_sampled[0].day == date(2026, 2, 20)
    assert build_last_sampled(zone)[0].at("day").path == "zones/0/last_sampled/0/day"


def test_what_a_zone_follows() -> None:
    """The latest change first; a zone that names no former zones follows itself."""
    follows = [
        {"since": "2022-07-01", "zones": ["north", "south"], "how": "merged"},
        {"since": "2024-07-01", "how": "redrawn"},
    ]
    (zone,) = build_zones(written({"id": "home", "zones": [{**ZONE, "follows": follows}]}), {})
    assert [(one.zones, one.since, one.how) for one in zone.value.follows] == [
        (("hill",), date(2024, 7, 1), "redrawn"),
        (("north", "south"), date(2022, 7, 1), "merged"),
    ]
    assert [one.place.path for one in zone.value.follows] == ["zones/0/follows/1", "zones/0/follows/0"]


def test_the_area_of_the_map() -> None:
    """An area that is not stated is the outline's; a stated one is kept."""
    outlines = {("home", "hill"): OUTLINE}
    (drawn,) = build_zones(written({"id": "home", "zones": [ZONE]}), outlines)
    (stated,) = build_zones(written({"id": "home", "zones": [{**ZONE, "area_ha": 75}]}), outlines)
    assert drawn.value.area_ha == pytest.approx(76.0693, abs=1e-4)
    assert (stated.value.area_ha, stated.value.outline) == (75.0, OUTLINE)


def test_rows_and_the_middle_of_a_cluster() -> None:
    """Both reach the zone they are written for, and no other."""
    banded = {**ZONE, "id": "corn", "area_ha": 8, "rows": {"spacing_cm": 76}}
    top = written({"id": "home", "zones": [banded, {**ZONE, "area_ha": 8}]})
    corn, hill = build_zones(top, {}, {("home", "hill"): (0.1, 52.2), ("other", "corn"): (0.3, 52.2)})
    assert (corn.value.rows, corn.value.fixed_point) == (Rows(76.0), None)
    assert (hill.value.rows, hill.value.fixed_point) == (None, (0.1, 52.2))


def test_a_farm() -> None:
    """A farm takes from the map what the map draws of it."""
    top = written({"id": "home", "name": "Home", "zones": [{**ZONE, "area_ha": 8}]})
    farm = build_farm(top, build_zones(top, {}), {("home", ""): OUTLINE}, {"home": (0.1, 52.2)}, {}).value
    assert (farm.boundary, farm.access, farm.avoided, farm.locality) == (OUTLINE, (0.1, 52.2), (), "")
    assert [zone.id for zone in farm.zones] == ["hill"]


def test_what_was_agreed() -> None:
    """Contacts, targets, decisions and waiting times are read, empty where they hold for all."""
    top = written(
        {
            "contacts": [{"name": "Lee", "role": "manager"}],
            "targets": [
                {
                    "analyte": "phosphorus",
                    "method": "colwell",
                    "unit": "mg/kg",
                    "low": 28,
                    "top_cm": 0,
                    "bottom_cm": 10,
                    "source": "house",
                }
            ],
            "decisions": [{"protocol": "topsoil", "day": "2027-03-20", "what": "order"}],
            "gap_overrides": [{"class": "lime", "months": 2, "reason": "agreed", "zones": ["home/hill"]}],
        }
    )
    (contact,), (target,), (decision,) = build_contacts(top), build_targets(top), build_decisions(top)
    (override,) = build_gap_overrides(top)
    assert (contact.email, contact.phone) == ("", "")
    assert (target.value.low, target.value.high, target.value.zones) == (28.0, None, ())
    assert (decision.value.day, decision.value.zones) == (date(2027, 3, 20), ())
    assert (override.value.zones, override.value.protocols, override.value.months) == (("home/hill",), (), 2)
