"""From the grounds of a client to the view of the report of one farm.

Nothing here depends on the day on which it is made, so a report that says the same is the same.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.correction_sentences import correction_sentence
from soilrota.documents.dates import counted, joined, long_day
from soilrota.documents.judgement_sentences import spread_sentence
from soilrota.documents.protocols import depth_words, protocol_sentences
from soilrota.documents.report_cautions import reading_notes, report_cautions
from soilrota.documents.report_grounds import FarmGrounds, ReportGrounds, all_judged
from soilrota.documents.report_matters import matters
from soilrota.documents.report_shopping import priority_rows, shopping
from soilrota.documents.report_signature import signature_view
from soilrota.documents.report_standing import Standing, standing_of
from soilrota.documents.report_table import rating_map, zone_tables
from soilrota.documents.report_views import FarmReportView, SampleRow
from soilrota.documents.report_zone import zone_part
from soilrota.language import marked, marked_as, say, say_as, speaking
from soilrota.model.client import Farm

_CALM = marked(
    "Nothing that could be judged lies beyond its line, and nothing was found that speaks against the results."
)
_RATIOS = marked("A ratio that stands beyond its line is left out here: by itself it is weak evidence.")
_UNJUDGED = marked("No value could be judged: the zones’ pages say why.")
_NO_ADVICE = marked(
    "This report says what was found. How much of what to spread was not worked out: that needs the crop plan, the "
    "products and the figures of the region, and it follows once they are there."
)
#: How moist the soil was, by the word of the field notes.
_SOIL = {"dry": marked_as("soil", "dry"), "moist": marked_as("soil", "moist"), "wet": marked_as("soil", "wet")}


def report_view(grounds: ReportGrounds, farm: Farm) -> FarmReportView:
    """Return the view of the report of one farm.

    Args:
        grounds: what the client's reports rest on.
        farm: one of its farms, with at least one result.
    """
    with speaking(grounds.client.language):
        return _view(grounds, farm)


def _view(grounds: ReportGrounds, farm: Farm) -> FarmReportView:
    """Return the view in the language that is spoken."""
    of_farm, client = FarmGrounds(grounds, farm), grounds.client
    adviser = client.practice.people[client.adviser]
    found = matters(of_farm)
    zones = tuple(zone_part(of_farm, zone) for zone in farm.zones)
    ranked = priority_rows(of_farm)
    bought = shopping(of_farm)
    has_needs = any(one.farm == farm.id for one in grounds.needs)
    return FarmReportView(
        title=say("Farm report: {farm}", farm=farm.name),
        client=client.name,
        farm=farm.name,
        locality=farm.locality,
        practice=client.practice.name,
        contact=client.practice.contact,
        adviser=", ".join(filter(None, (adviser.name, adviser.qualification))),
        language=client.language,
        logo=client.practice.logo,
        colours=client.practice.colours,
        sampled=_sampled(of_farm),
        absent=tuple(_absent(of_farm)),
        matters=found,
        calm="" if found else _calm(of_farm),
        map=rating_map(of_farm),
        tables=zone_tables(of_farm),
        spreads=tuple(_spreads(of_farm)),
        zones=zones,
        advice_note="" if has_needs else say(_NO_ADVICE),
        priorities=ranked,
        shopping=bought,
        protocols=tuple(_protocols(of_farm)),
        samples=tuple(_samples(of_farm)),
        corrections=tuple(_corrections(of_farm)),
        notes=reading_notes(of_farm),
        sources=tuple(of_farm.sources),
        cautions=report_cautions(of_farm),
        signature=signature_view(client, grounds.sign),
    )


def _calm(grounds: FarmGrounds) -> str:
    """Return what is said where nothing stands out."""
    beyond = [
        rating
        for judged in grounds.judged
        for rating in judged.ratings
        if standing_of(rating) in {Standing.TOO_LOW, Standing.TOO_HIGH}
    ]
    if not any(judged.ratings for judged in grounds.judged):
        return say(_UNJUDGED)
    return f"{say(_CALM)} {say(_RATIOS)}" if beyond else say(_CALM)


def _sampled(grounds: FarmGrounds) -> str:
    """Return when the farm was sampled last and what the report rests on."""
    zones = {one.zone for one in grounds.judged}
    results = [one.result for judged in grounds.judged for one in all_judged(judged)]
    measured = [one for one in results if one.method != "derived"]
    if not measured:
        return say("No results yet.")
    last = max(one.sampled for one in measured)
    return say(
        "Last sampled on {day}. The last results of {zones}: {values}.",
        day=long_day(last, grounds.language),
        zones=counted(len(zones), "zone", "zones"),
        values=counted(len(measured), "value", "values"),
    )


def _absent(grounds: FarmGrounds) -> Iterator[str]:
    """Yield which bags have not come back, and which zones have no results at all."""
    for bag in grounds.all.missing:
        if bag.farm == grounds.farm.id and bag.zone in grounds.zones:
            yield say(
                "{zone}, {depth}, sampled on {day}: the results have not come back.",
                zone=grounds.named(bag.zone),
                depth=depth_words(bag.top_cm, bag.bottom_cm, grounds.language),
                day=long_day(bag.since, grounds.language),
            )
    judged = {one.zone for one in grounds.judged}
    without = [grounds.named(zone) for zone in grounds.zones if zone not in judged]
    if without:
        yield say("No results yet: {zones}.", zones=joined(without))


def _spreads(grounds: FarmGrounds) -> Iterator[str]:
    """Yield what the farm's mean would have hidden, only where it hides something."""
    for spread in grounds.all.spreads:
        if spread.farm == grounds.farm.id and spread.mean_below is False and spread.below:
            yield spread_sentence(spread, grounds.farm.name, lambda zone: grounds.zones[zone].name)


def _protocols(grounds: FarmGrounds) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield each protocol of which there are results, with how it is sampled."""
    for name in dict.fromkeys(one.protocol for one in grounds.judged):
        protocol = grounds.client.protocols[name]
        yield protocol.name, protocol_sentences(protocol, grounds.client.practice, grounds.language)


def _samples(grounds: FarmGrounds) -> Iterator[SampleRow]:
    """Yield how the bags of the last sampling of each zone were taken, as the field notes say."""
    last = {(one.zone, one.protocol): one.sampled for one in grounds.judged}
    order = {zone: number for number, zone in enumerate(grounds.zones)}
    notes = [
        note
        for note in grounds.client.field_notes
        if note.farm == grounds.farm.id and last.get((note.zone, note.protocol)) == note.day
    ]
    for note in sorted(notes, key=lambda note: (order[note.zone], note.protocol, note.top_cm)):
        yield SampleRow(
            zone=grounds.named(note.zone),
            day=long_day(note.day, grounds.language),
            depth=depth_words(note.top_cm, note.bottom_cm, grounds.language),
            cores=say("not written down") if note.cores is None else str(note.cores),
            soil=say_as("soil", _SOIL.get(note.soil_state, note.soil_state)) if note.soil_state else "–",
            bag=note.bag or "–",
        )


def _corrections(grounds: FarmGrounds) -> Iterator[str]:
    """Yield what laboratories corrected of the farm's results."""
    for one in grounds.client.corrections:
        result = one.later or one.earlier
        if result is not None and result.farm == grounds.farm.id:
            yield f"{correction_sentence(one, grounds.client)}."
