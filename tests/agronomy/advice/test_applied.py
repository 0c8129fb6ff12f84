"""What was spread since the sampling is taken off exactly once; what is not known is never guessed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.applied import Applied, applied_of, spread_on
from soilrota.model.advice import Input
from soilrota.model.applications import Application, Standing
from soilrota.model.products import ProductKind
from tests.agronomy.advice.nutrient_cases import product, spread
from tests.agronomy.derived.bags import zone

SAMPLED, UNTIL = date(2027, 2, 10), date(2027, 10, 31)
MAP = product("Grain starter", nitrogen=10.0, phosphorus=22.0)
DUNG = replace(product("Yard manure", phosphorus=0.3, potassium=0.6), material_class="manure")


def applied(*rows: Application, nutrient: Input = Input.PHOSPHORUS, region: str = "") -> Applied:
    """Return what rows brought."""
    return applied_of(spread_on(rows, zone(), SAMPLED, UNTIL), (MAP, DUNG), nutrient, region)


def test_a_known_product() -> None:
    """Its name in any capitals; rate times content."""
    found = applied(spread("grain STARTER", 50.0))
    assert [(one.step.rule, one.step.amount) for one in found.parts] == [("already-applied", -11.0)]
    assert found.cautions == ()
    assert found.in_year(2027) == 11.0
    assert found.in_year(2026) == 0.0


@pytest.mark.parametrize(
    "changes",
    [
        {"first_day": SAMPLED, "last_day": SAMPLED},
        {"first_day": date(2027, 11, 1), "last_day": date(2027, 11, 2)},
        {"standing": Standing.CANCELLED},
        {"zones": ("other",)},
        {"farm": "other"},
    ],
)
def test_what_does_not_count(changes: dict[str, object]) -> None:
    """Seen by the sampling, of another season, cancelled, elsewhere."""
    assert applied(replace(spread("Grain starter", 50.0), **changes)) == Applied()


def test_what_ends_after_the_sampling_counts() -> None:
    """And a row that names no zone means every zone of the farm; planned is a step of its own."""
    row = spread(
        "Grain starter", 50.0, date(2027, 2, 1), last_day=date(2027, 2, 11), zones=(), standing=Standing.PLANNED
    )
    assert [one.step.rule for one in applied(row).parts] == ["planned"]


def test_what_is_not_known_is_a_caution() -> None:
    """Another word, no rate, two products of one name; of lime it says nothing on phosphorus."""
    assert applied(spread("starter", 50.0)).cautions == ("applied-unknown",)
    assert applied(spread("Grain starter", None)).cautions == ("applied-unknown",)
    assert applied(spread("ground limestone", 50.0, material_class="lime")) == Applied()
    twice = applied_of((spread("Grain starter", 50.0),), (MAP, MAP), Input.PHOSPHORUS)
    assert (twice.parts, twice.cautions) == ((), ("applied-unknown",))


def test_a_product_without_the_nutrient_needs_no_rate() -> None:
    """It brings nothing, whatever its rate."""
    assert applied(spread("Grain starter", None), nutrient=Input.POTASSIUM) == Applied()


def test_nobody_knows_when() -> None:
    """Done without a day may lie before the sampling; planned without a day lies after it."""
    done = spread("Grain starter", 50.0, None)
    assert (applied(done).parts, applied(done).cautions) == ((), ("applied-undated",))
    planned = applied(replace(done, standing=Standing.PLANNED))
    assert [one.step.amount for one in planned.parts] == [-11.0]


def test_manure_counts_in_full_and_may_count_for_nothing() -> None:
    """All of it is taken off; its interval reaches to nought."""
    found = applied(spread("Yard manure", 10_000.0, material_class="manure"))
    (part,) = found.parts
    assert (part.amount.low, part.amount.value, part.amount.high) == (-30.0, -30.0, 0.0)
    assert found.cautions == ("manure-availability",)


def test_manure_counts_by_its_share_where_a_source_has_one() -> None:
    """Nine tenths of 30 kg phosphorus in the United States, between a half and all."""
    found = applied(spread("Yard manure", 10_000.0, material_class="manure"), region="US-OH")
    (part,) = found.parts
    assert (part.amount.low, part.amount.value, part.amount.high) == (-30.0, -27.0, -15.0)
    assert part.step.source is not None
    assert found.cautions == ()


@given(st.lists(st.integers(1, 400), min_size=1, max_size=6), st.randoms(use_true_random=False))
def test_exactly_once(rates: list[int], random: object) -> None:
    """However it is split over rows, and in whatever order, the same is taken off."""
    rows = [spread("Grain starter", float(rate)) for rate in rates]
    random.shuffle(rows)  # type: ignore[attr-defined]
    split, whole = applied(*rows), applied(spread("Grain starter", float(sum(rates))))
    assert sum(one.amount.value for one in split.parts) == pytest.approx(whole.parts[0].amount.value)


def test_lime_counts_as_the_pure_substance() -> None:
    """2 t/ha of a lime that neutralises 80 of 100 is 1.6 t of pure lime; a fertiliser's neutralising counts as none."""
    lime = replace(product("Ground lime"), kind=ProductKind.LIME, material_class="lime", neutralising_percent=80.0)
    rows = (spread("ground lime", 2000.0, material_class="lime"), spread("Grain starter", 100.0))
    found = applied_of(rows, (lime, MAP), Input.LIME, "AU-VIC")
    assert [one.step.amount for one in found.parts] == [pytest.approx(-1.6)]
    assert applied_of(rows[1:], (MAP,), Input.GYPSUM) == Applied()
    assert applied_of(rows[:1], (MAP,), Input.LIME).cautions == ("applied-unknown",)
