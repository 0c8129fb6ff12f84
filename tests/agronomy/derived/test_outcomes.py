"""Making a quantity, or saying why there is none."""

from __future__ import annotations

from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.agronomy.derived.outcomes import Outcome, Working, reckoned, refused
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import NoQuantity, Quantity, Refused, WhyNot
from tests.agronomy.derived.bags import bag

SOURCE = Source("doe", "Doe", 1999, "On soil")
CODES = ("calcium.exchangeable", "magnesium.exchangeable")


def ratio(calcium: float | str, magnesium: float | str, *statuses: Status) -> Outcome:
    """Return the outcome of a ratio."""
    readings = bag(dict(zip(CODES, (calcium, magnesium), strict=True))).read(*CODES)
    assert not isinstance(readings, Refused)
    return reckoned(
        0,
        10,
        Working(
            code="ratio",
            unit="-",
            formula=lambda a, b, factor: factor * a / b,
            readings=readings,
            figures=(Doubtful(2, 1, 4),),
            cited=(SOURCE, Status.VERIFIED),
            statuses=statuses,
            facts={"factor": 2},
            cautions=("weak", "weak"),
        ),
    )


def test_a_quantity() -> None:
    """Value, interval, inputs, source, and the weakest status of all that went in; a caution once."""
    found = ratio(8, 2, Status.UNVERIFIED)
    assert isinstance(found, Quantity)
    assert (found.value, found.unit, found.source, found.status) == (8, "-", SOURCE, Status.UNVERIFIED)
    assert found.low < 4.1
    assert found.high > 15.9
    assert (found.facts, found.cautions) == ({"factor": 2}, ("weak",))
    assert [one.value for one in found.inputs] == [8, 2]
    plain = ratio(8, 2)
    assert isinstance(plain, Quantity)
    assert plain.status is Status.VERIFIED


def test_a_censored_input_is_named() -> None:
    """Where it is below the line above the stroke; under the stroke there is no end, and so no quantity."""
    above = ratio("<0.1", 2)
    assert isinstance(above, Quantity)
    assert (above.low, above.facts["censored"]) == (0, ("calcium.exchangeable",))
    below = ratio(8, "<0.1")
    assert below == NoQuantity(
        "ratio", 0, 10, Refused(WhyNot.CENSORED, {"analysis": CODES[1], "qualifier": "<", "value": 0.1})
    )


def test_nought_under_the_stroke() -> None:
    """A measured nought divides nothing."""
    found = ratio(8, 0)
    assert isinstance(found, NoQuantity)
    assert found.refused == Refused(WhyNot.RULE_VOID, {"reason": "divided-by-nought"})


def test_refused() -> None:
    """A refusal carries the layer of the bag."""
    why = Refused(WhyNot.NOT_MEASURED, {"needs": ("x",)})
    assert refused(bag({"ph.water": 6}, (10, 30)), "ece", why) == NoQuantity("ece", 10, 30, why)
