"""How moist the soil is, in words."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.documents.moisture_sentences import moisture_sentences, recorded_sentence
from soilrota.model.moisture import Likelihood
from soilrota.model.windows import Reason, Rule

OFTEN = {Likelihood.MOSTLY: "in most years", Likelihood.SOMETIMES: "in some years", Likelihood.SELDOM: "in few years"}


@pytest.mark.parametrize("likelihood", list(Likelihood))
@pytest.mark.parametrize("wanted", ["moist", "dry"])
def test_how_often_a_day_finds_the_wanted_soil(wanted: str, likelihood: Likelihood) -> None:
    """Every likelihood of either soil, with the years behind it; the eye comes first."""
    assert moisture_sentences(wanted, likelihood.name.lower(), 1) == (
        f"Around the preferred day the soil is {wanted} {OFTEN[likelihood]} (1 year of record). "
        "The look of the soil on the day comes first."
    )


@pytest.mark.parametrize("state", ["dry", "moist", "wet"])
def test_the_recorded_soil(state: str) -> None:
    """The last day of the record, as it was."""
    reason = Reason(Rule.MOISTURE, facts={"recorded": date(2027, 2, 14), "state": state})
    assert recorded_sentence(reason, "en-AU") == f"On 14 February 2027, the last day of the record, it was {state}."


def test_nothing_is_said_of_a_soil_that_is_not_known() -> None:
    """Neither without a state nor without a day."""
    assert (
        recorded_sentence(Reason(Rule.MOISTURE, facts={"recorded": date(2027, 2, 14), "state": "not-known"}), "en")
        == ""
    )
    assert recorded_sentence(Reason(Rule.MOISTURE, facts={"state": "dry"}), "en") == ""
