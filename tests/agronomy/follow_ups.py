"""Advice records, applications and results of one zone, for the tests of what came of advice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from soilrota.agronomy.afterwards import Following, followed_up
from soilrota.model.advice import Input
from soilrota.model.applications import Application
from soilrota.model.client import Client
from soilrota.model.follow_up import AdviceRecord, AdvisedNeed, AdvisedRate, AdvisedTest, FollowUp
from soilrota.model.products import ProductList
from soilrota.model.results import Result
from soilrota.results.history import comparability_key
from tests.agronomy.advice.nutrient_cases import product, spread
from tests.results.making import client as plain_client
from tests.results.making import result

SAMPLED, ADVISED, SPREAD, NEXT, TODAY = (
    date(2027, 2, 10), date(2027, 4, 1), date(2027, 5, 1), date(2028, 2, 10), date(2028, 6, 1),
)  # fmt: skip
P = "phosphorus.colwell"
GROUND = ("home", "river-flat")
TEST = AdvisedTest("phosphorus", "colwell", "mg/kg", 0, 10, SAMPLED, 20.0, 2.0, 4.0, 2.0)
NEED = AdvisedNeed(*GROUND, Input.PHOSPHORUS, 14.0, 8.0, 20.0, 0.0, TEST)
RATE = AdvisedRate(*GROUND, "super", "Super", 140.0, 1)
RECORD = AdviceRecord("anvil-creek", ADVISED, "d" * 64, "AUD", (NEED,), (RATE,))


def applied(kg_p_ha: float, day: date | None = SPREAD, **changes: Any) -> Application:
    """Return an application of a product with a tenth of phosphorus."""
    return spread("super", 10 * kg_p_ha, day, zones=("river-flat",), **changes)


def client(*applications: Application, after: str | float | None = None, **changes: Any) -> Client:
    """Return a client whose zone was sampled before the advice, and perhaps after it."""
    held: list[Result] = [result(P, 20.0, SAMPLED)]
    held += [result(P, after, NEXT)] if after is not None else []
    made = plain_client(*held, applications=applications, **changes)
    products = ProductList("AUD", 9.0, 100.0, {"super": product("super", phosphorus=10.0)})
    return replace(made, practice=replace(made.practice, products=products))


def following(on: date = TODAY, **changes: Any) -> Following:
    """Return what is followed up by."""
    return Following(on, comparability_key, **changes)


def came_of(of: Client, record: AdviceRecord = RECORD, on: date = TODAY) -> FollowUp:
    """Return what came of the one need of a record."""
    (found,) = followed_up(of, [record], following(on))
    return found
