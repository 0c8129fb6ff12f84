"""From advice to what is remembered of it: amounts, products, and the soil test with what was said to lift it.

What lifts a test is that of the rule that made the need, not that of a later edition: what was expected then is asked
afterwards. For lime it is the need divided by the pH units that it was to lift, as the rule of the region has it.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from math import fsum

from soilrota.agronomy.advice.applied import PLANNED
from soilrota.agronomy.advice.removal import REMOVAL
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.model.advice import Input, Need, NoMix, NoNeed, ProductMix, Step
from soilrota.model.client import Client
from soilrota.model.follow_up import AdviceRecord, AdvisedNeed, AdvisedRate, AdvisedTest
from soilrota.model.results import Result

_BUILD_UP, _LIFT = "build-up", "lift-topsoil"
#: Steps whose figures name the result that they rest on.
_LIMED = (_LIFT, "target-met")


def remembered(
    client: Client,
    day: date,
    digest: str,
    needs: Iterable[Need | NoNeed],
    mixes: Iterable[ProductMix | NoMix] = (),
) -> AdviceRecord:
    """Return what is remembered of a client's advice.

    Args:
        client: the client, with its results and its practice's products.
        day: day of signing.
        digest: of the signature.
        needs: what was advised; inputs of which nothing can be advised are left out.
        mixes: the mixes of its farms.
    """
    products = client.practice.products
    names = {id_: one.name for id_, one in products.products.items()} if products else {}
    spreadings = (one for mix in mixes if isinstance(mix, ProductMix) for one in mix.spreadings)
    return AdviceRecord(
        client=client.id,
        day=day,
        digest=digest,
        currency=products.currency if products else "",
        needs=tuple(_need(client, one) for one in needs if isinstance(one, Need)),
        rates=tuple(
            AdvisedRate(one.farm, one.zone, one.product, names[one.product], one.rate_kg_ha, one.passes)
            for one in spreadings
        ),
    )


def _need(client: Client, need: Need) -> AdvisedNeed:
    """Return what is remembered of one need."""
    planned = -fsum(step.amount for step in need.steps if step.rule == PLANNED)
    ground = (need.farm, need.zone, need.input)
    return AdvisedNeed(*ground, need.amount, need.low, need.high, abs(planned), _test(client, need))


def _test(client: Client, need: Need) -> AdvisedTest | None:
    """Return the soil test that a need followed from, and what lifts it."""
    result = need.rating.result if need.rating else _limed(client, need)
    if result is None or need.input is Input.GYPSUM:
        return None
    low, high = _lift(need)
    return AdvisedTest(
        analyte=result.analyte,
        method=result.method,
        unit=result.unit,
        top_cm=result.top_cm,
        bottom_cm=result.bottom_cm,
        sampled=result.sampled,
        value=result.value,
        lift_low=low,
        lift_high=high,
        taken_off=_taken_off(need),
    )


def _limed(client: Client, need: Need) -> Result | None:
    """Return the pH that a need of lime rests on, by its figures; None where there is none."""
    step = next((one for one in need.steps if one.rule in _LIMED and "method" in one.facts), None)
    if step is None:
        return None
    layer = (step.facts["method"], step.facts["top_cm"], step.facts["bottom_cm"], step.facts["ph"])
    held = (
        one
        for one in client.results
        if (one.farm, one.zone, one.analyte) == (need.farm, need.zone, "ph")
        and (one.method, one.top_cm, one.bottom_cm, one.value) == layer
    )
    return max(held, key=lambda one: one.sampled, default=None)


def _lift(need: Need) -> tuple[float | None, float | None]:
    """Return what lifts the test by one unit, with its range [unit of the need]; None where no source said."""
    for step in need.steps:
        if step.rule == _BUILD_UP:
            middle = _figure(step, "per_unit")
            low, high = _figure(step, "per_unit_low"), _figure(step, "per_unit_high")
            return (low if low is not None else middle), (high if high is not None else middle)
        if step.rule == _LIFT:
            target, value = _figure(step, "target"), _figure(step, "ph")
            if target is not None and value is not None and target > value and step.amount > 0:
                factor = step.amount / (target - value)
                return factor, factor
    return None, None


def _taken_off(need: Need) -> float | None:
    """Return what one harvest takes off [unit of the need]; None where it was not counted."""
    if need.input is Input.LIME:
        return 0.0
    if SpreadingCaution.REMOVAL_NOT_COUNTED in need.cautions:
        return None
    removed = [found for step in need.steps if step.rule == REMOVAL and (found := _figure(step, "removed")) is not None]
    harvests = next((found for step in need.steps if (found := _figure(step, "harvests"))), 1.0)
    return fsum(removed) / harvests


def _figure(step: Step, name: str) -> float | None:
    """Return a number among the figures of a step; None where there is none."""
    found = step.facts.get(name)
    return float(found) if isinstance(found, int | float) else None
