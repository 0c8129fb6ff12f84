"""The view of a report: all zones, all sources, what is missing, and nothing that depends on the day alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents import report_view
from soilrota.model.intake import MissingBag
from tests.documents.reports import HARD_CASES, REPORTED, advised, grounds, grounds_of


@pytest.mark.parametrize("name", REPORTED)
def test_every_zone_has_its_page(name: str) -> None:
    """In the order of the file; every source that is cited is listed."""
    of_client = grounds(name)
    for farm in of_client.client.farms:
        view = report_view(of_client, farm)
        assert [zone.name for zone in view.zones] == [zone.name for zone in farm.zones]
        cited = {
            int(number.strip("[]"))
            for zone in view.zones
            for part in zone.parts
            for row in part.results
            for number in row.sources.split()
        }
        assert cited <= set(range(1, len(view.sources) + 1))
        assert view.advice_note
        assert view.shopping is None
        assert (not view.matters) == bool(view.calm)


def test_what_is_missing_is_said() -> None:
    """Bags that have not come back, and zones without results."""
    bag = MissingBag(
        "anvil-creek", "home", "lane", "topsoil-pasture", "A27-9", 0, 10, date(2027, 2, 4), None, "north-bench"
    )
    of_client = grounds("anvil-creek")
    judged = tuple(one for one in of_client.judged if one.zone != "barn")
    view = report_view(replace(of_client, missing=(bag,), judged=judged), of_client.client.farms[0])
    assert view.absent == (
        "E Lane, 0–10 cm, sampled on 4 February 2027: the results have not come back.",
        "No results yet: B Barn.",
    )
    assert report_view(of_client, of_client.client.farms[0]).absent == ()


def test_how_it_was_sampled() -> None:
    """The bags of the last sampling, as the field notes say."""
    of_client = grounds("dune-end-sheep")
    view = report_view(of_client, of_client.client.farms[0])
    assert [(row.zone, row.cores, row.bag) for row in view.samples][:2] == [
        ("A Dune", "30", "D25-003"),
        ("B Swale", "30", "D25-006"),
    ]
    assert len(view.corrections) == 1
    assert view.protocols[0][0] == "Topsoil under pasture"


def test_with_advice_the_note_is_gone() -> None:
    """The other farm, of which nothing was reckoned, keeps it."""
    of_client = advised()
    home, hill = (report_view(of_client, farm) for farm in of_client.client.farms)
    assert (home.advice_note, bool(hill.advice_note)) == ("", True)
    assert home.shopping is not None
    assert hill.shopping is None


def test_a_farm_of_which_nothing_stands_out_says_so() -> None:
    """And does not hide that a ratio was left out."""
    of_client = grounds("farrow-vines")
    view = report_view(of_client, of_client.client.farms[0])
    assert view.calm.startswith("Nothing that could be judged lies beyond its line")
    assert "ratio" in view.calm


@pytest.mark.parametrize("case", HARD_CASES)
def test_hard_cases_have_a_view(case: str) -> None:
    """None breaks, and each has something to say."""
    of_client = grounds_of(HARD_CASES[case]())
    view = report_view(of_client, of_client.client.farms[0])
    assert view.matters or view.calm
    assert len(view.zones) == len(of_client.client.farms[0].zones)
