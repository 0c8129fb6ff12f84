"""Which row speaks, and what is said where none does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.agronomy.row_choice import Chosen, Ground, choose_row, conditions_met, ground_of
from soilrota.model.guideline import GuidelineRow, PowerLine, Range
from soilrota.model.judgement import Covariate, Refused, WhyNot
from tests.agronomy.small_sets import PBI, ground, made_set, row
from tests.results.making import result
from tests.timing.test_tasks import zone

P = result("phosphorus.colwell", 30)
LOW, HIGH = Range(PBI, 0, 70), Range(PBI, 70, 140)


def chosen(*rows: GuidelineRow, on: Ground | None = None, goal: str = "") -> str:
    """Return the id of the row that speaks of the phosphorus."""
    found = choose_row(P, [made_set(*rows, goal=goal)], on or ground())
    assert isinstance(found, Chosen), found
    return found.row.id


def why(*rows: GuidelineRow, on: Ground | None = None) -> Refused:
    """Return why no row speaks of the phosphorus."""
    found = choose_row(P, [made_set(*rows)], on or ground())
    assert isinstance(found, Refused), found
    return found


def test_the_most_conditions_win_then_the_first() -> None:
    """A row for pasture on clay before one for pasture before one for all; of equals the first."""
    rows = (row("all"), row("pasture", land_uses=("pasture",)), row("both", land_uses=("pasture",), textures=("clay",)))
    assert chosen(*rows, on=ground(texture="clay")) == "both"
    assert chosen(*rows, on=ground(texture="loam")) == "pasture"
    assert chosen(*rows, on=ground("crop")) == "all"
    assert chosen(row("first"), row("second")) == "first"


def test_layers_within() -> None:
    """A row that speaks of every layer within gives way to one of that layer; what sticks out is another."""
    whole = row("whole", bottom_cm=300, any_layer_within=True)
    assert chosen(whole, row("exact")) == "exact"
    assert chosen(whole, row("deep", bottom_cm=15)) == "whole"
    assert why(row(bottom_cm=8, any_layer_within=True)).why is WhyNot.OTHER_LAYER


def test_ranges_are_half_open() -> None:
    """70 belongs to the range that begins there."""
    rows = (row("low", ranges=(LOW,)), row("high", ranges=(HIGH,)))
    assert [chosen(*rows, on=ground(pbi=value)) for value in (0, 69.9, 70, 139.9)] == ["low", "low", "high", "high"]
    assert chosen(row("open", ranges=(Range(PBI, None, None),)), on=ground(pbi=5000)) == "open"
    assert why(*rows, on=ground(pbi=140)) == Refused(WhyNot.OUTSIDE_CALIBRATION, {"covariate": PBI, "value": 140})
    assert why(*rows) == Refused(WhyNot.COVARIATE_MISSING, {"covariate": PBI})


def test_a_general_row_serves_where_the_covariate_is_not_known() -> None:
    """The row that hangs on it does not hold; the other does."""
    follows = row("follows", line=PowerLine(PBI, 15, 1, 0.5))
    assert chosen(follows, row("all")) == "all"
    assert chosen(follows, row("all"), on=ground(pbi=70)) == "follows"
    assert why(follows).why is WhyNot.COVARIATE_MISSING
    no_value = row("inverse", line=PowerLine(PBI, 15, 1, -1))
    assert why(no_value, on=ground(pbi=0)).why is WhyNot.OUTSIDE_CALIBRATION


def test_yield_goals() -> None:
    """The goal that was chosen, else the set's own; a row without one serves any."""
    rows = (row("high", goals=("95",)), row("low", goals=("80", "90")))
    assert chosen(*rows, goal="95") == "high"
    assert chosen(*rows, goal="95", on=replace(ground(), goal="90")) == "low"
    assert chosen(*rows, goal="95", on=replace(ground(), goal="50")) == "high"
    assert why(*rows) == Refused(WhyNot.COVARIATE_MISSING, {"covariate": "goal"})


def test_the_first_set_that_speaks() -> None:
    """An own set goes first; where it has no row, the next is asked."""
    own, plain = made_set(row("own", land_uses=("crop",)), name="own"), made_set(row("plain"), name="plain")
    found = choose_row(P, [own, plain], ground("crop"))
    assert isinstance(found, Chosen)
    assert (found.set.id, found.row.id) == ("own", "own")
    found = choose_row(P, [own, plain], ground())
    assert isinstance(found, Chosen)
    assert (found.set.id, found.row.id) == ("plain", "plain")


@pytest.mark.parametrize(
    ("made", "expected"),
    [
        (row(analyte="sulphur"), Refused(WhyNot.NOT_IN_SET, {"sets": ("made",)})),
        (
            row(method="olsen"),
            Refused(
                WhyNot.OTHER_METHOD,
                {"method": "colwell", "methods": ("olsen",), "unit": "mg/kg", "units": ("mg/kg",)},
            ),
        ),
        (
            row(unit="mg/l"),
            Refused(
                WhyNot.OTHER_METHOD,
                {"method": "colwell", "methods": ("colwell",), "unit": "mg/kg", "units": ("mg/l",)},
            ),
        ),
        (row(bottom_cm=7.5), Refused(WhyNot.OTHER_LAYER, {"layer": "0-10", "layers": ("0-7.5",)})),
        (row(land_uses=("crop", "hay")), Refused(WhyNot.OTHER_GROUND, {"land_uses": ("crop", "hay")})),
        (row(textures=("clay",)), Refused(WhyNot.COVARIATE_MISSING, {"covariate": "texture"})),
        (row(rainfall_zones=("high",)), Refused(WhyNot.COVARIATE_MISSING, {"covariate": "rainfall-zone"})),
        (row(crops=("wheat",)), Refused(WhyNot.COVARIATE_MISSING, {"covariate": "crop"})),
    ],
)
def test_refusals(made: GuidelineRow, expected: Refused) -> None:
    """Each with its facts: another basis is another method; what is not known is not the same as what differs."""
    assert why(made) == expected


def test_the_last_step_that_any_row_reached() -> None:
    """A row of the right method but another layer tells more than one of another method."""
    assert why(row(method="olsen"), row("deep", bottom_cm=15)).why is WhyNot.OTHER_LAYER
    assert why(row(textures=("clay",)), row("q", textures=("sand",)), on=ground(texture="loam")) == Refused(
        WhyNot.OTHER_GROUND, {"textures": ("clay", "sand")}
    )
    assert choose_row(P, [], ground()) == Refused(WhyNot.NO_SET)


def test_the_ground_of_a_zone() -> None:
    """As the map has it, with crops and goal."""
    made = ground_of(replace(zone("bank"), texture="clay", rainfall_zone="low"), {}, ["wheat"], "90")
    assert made == Ground("pasture", "clay", "low", ("wheat",), {}, "90")
    assert chosen(row("wheat", crops=("oats", "wheat")), on=made) == "wheat"


def test_what_a_row_hung_on() -> None:
    """Covariates of ranges and line, each once."""
    held = row(ranges=(LOW, Range("clay-percent", None, 30)), line=PowerLine(PBI, 1, 1, 1))
    on = ground(pbi=60, clay_percent=20)
    assert conditions_met(held, on) == (Covariate(PBI, 60), Covariate("clay-percent", 20))
    assert conditions_met(row(), on) == ()
