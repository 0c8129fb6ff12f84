"""Corrected reports as sentences: what a later issue changed, added or did not repeat."""

from __future__ import annotations

from soilrota.documents.dates import number, with_unit
from soilrota.documents.protocols import depth_words
from soilrota.language import say
from soilrota.model.client import Client
from soilrota.model.results import Correction, Result
from soilrota.quantities import analysis_name

_DECIMALS = 4
#: Units that nobody writes behind a number.
_UNPRINTED = ("pH", "index")


def correction_sentence(correction: Correction, client: Client) -> str:
    """Return what a later issue of a report changed of one value, as a sentence without a full stop.

    Args:
        correction: the correction.
        client: whose it is, for names and the form of numbers.
    """
    result = correction.later or correction.earlier
    assert result is not None  # a correction is of a value
    zone = next(
        (
            zone.name
            for farm in client.farms
            for zone in farm.zones
            if (zone.farm, zone.id) == (result.farm, result.zone)
        ),
        result.zone,
    )
    depth = depth_words(result.top_cm, result.bottom_cm, client.language)
    facts = {
        "report": correction.report,
        "issue": correction.issue,
        "analysis": analysis_name(f"{result.analyte}.{result.method}"),
        "zone": zone,
        "depth": depth,
    }
    earlier, later = (
        None if one is None else _value(one, client.language) for one in (correction.earlier, correction.later)
    )
    if earlier is None:
        return say(
            "Report {report}, issue {issue}: {analysis} of {zone}, {depth}, is new: {later}", later=later, **facts
        )
    if later is None:
        return say(
            "Report {report}, issue {issue}: {analysis} of {zone}, {depth}, is not repeated; {earlier} of the earlier "
            "issue stands",
            earlier=earlier,
            **facts,
        )
    return say(
        "Report {report}, issue {issue}: {analysis} of {zone}, {depth}, is {later} and no longer {earlier}",
        earlier=earlier,
        later=later,
        **facts,
    )


def _value(result: Result, language: str) -> str:
    """Return a value with its qualifier and unit."""
    figure = f"{result.qualifier}{number(result.value, language, _DECIMALS)}"
    return with_unit(figure, "" if result.unit in _UNPRINTED else result.unit)
