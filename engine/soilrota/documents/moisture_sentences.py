"""How moist the soil is to be expected on a day, and was on the last day of the record, as sentences."""

from __future__ import annotations

from datetime import date

from soilrota.documents.dates import counted, long_day
from soilrota.language import marked, say
from soilrota.model.windows import Reason

#: The wanted soil, and how often it is found.
_OFTEN = {
    ("moist", "mostly"): marked("Around the preferred day the soil is moist in most years ({years} of record)."),
    ("moist", "sometimes"): marked("Around the preferred day the soil is moist in some years ({years} of record)."),
    ("moist", "seldom"): marked("Around the preferred day the soil is moist in few years ({years} of record)."),
    ("dry", "mostly"): marked("Around the preferred day the soil is dry in most years ({years} of record)."),
    ("dry", "sometimes"): marked("Around the preferred day the soil is dry in some years ({years} of record)."),
    ("dry", "seldom"): marked("Around the preferred day the soil is dry in few years ({years} of record)."),
}
_RECORDED = {
    "dry": marked("On {day}, the last day of the record, it was dry."),
    "moist": marked("On {day}, the last day of the record, it was moist."),
    "wet": marked("On {day}, the last day of the record, it was wet."),
}


def moisture_sentences(wanted: str, likelihood: str, years: int) -> str:
    """Return how often the soil is as it is wanted around the preferred day.

    Args:
        wanted: `moist` or `dry`.
        likelihood: `mostly`, `sometimes` or `seldom`.
        years: past years that this rests on [year].
    """
    often = say(_OFTEN[wanted, likelihood], years=counted(years, "year", "years"))
    look = say("The look of the soil on the day comes first.")
    return f"{often} {look}"


def recorded_sentence(reason: Reason, language: str) -> str:
    """Return how the soil was on the last recorded day; empty where that is not known. Changes from night to night."""
    facts = dict(reason.facts)
    day, state = facts.get("recorded"), str(facts.get("state"))
    if not isinstance(day, date) or state not in _RECORDED:
        return ""
    return say(_RECORDED[state], day=long_day(day, language))
