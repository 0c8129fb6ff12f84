"""The page of one zone: results beside their targets, what follows from them, how they were taken, advice."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from soilrota.documents.advice_sentences import (
    amount_words,
    cap_sentence,
    citation,
    closing_sentences,
    figure_words,
    input_name,
    no_need_sentence,
    step_words,
    unit_of_need,
)
from soilrota.documents.dates import joined, long_day, number
from soilrota.documents.finding_sentences import sentences_about
from soilrota.documents.judgement_sentences import (
    began,
    name_of,
    quantity_sentence,
    rating_sentence,
    reason_words,
)
from soilrota.documents.protocols import depth_words
from soilrota.documents.report_cautions import need_cautions
from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.documents.report_pictures import profiles, share_bars
from soilrota.documents.report_results import result_views
from soilrota.documents.report_standing import Standing, standing_of
from soilrota.documents.report_views import NeedView, ProtocolPart, StepView, ZonePart
from soilrota.documents.result_finding_sentences import sentences_of_results
from soilrota.documents.sentences import preferred_words, window_words
from soilrota.documents.words import LAND_USES, POSITIONS
from soilrota.language import marked, say, say_count
from soilrota.model.advice import Need, NoNeed
from soilrota.model.client import Zone
from soilrota.model.guideline import Sense, Status
from soilrota.model.judgement import NoQuantity, ZoneJudgement
from soilrota.model.windows import TaskKey

_NOTHING = marked("No results have been accepted for this zone yet.")


def zone_part(grounds: FarmGrounds, zone: Zone) -> ZonePart:
    """Return the page of a zone."""
    judged = grounds.of_zone(zone.id)
    facts = [
        f"{number(zone.area_ha, grounds.language)} ha",
        zone.soil_type,
        say(LAND_USES.get(zone.land_use, zone.land_use)),
        say(POSITIONS.get(zone.landscape_position, zone.landscape_position)),
    ]
    return ZonePart(
        letter=grounds.letters[zone.id],
        name=zone.name,
        facts=", ".join(facts),
        no_results="" if judged else say(_NOTHING),
        parts=tuple(_part(grounds, one) for one in judged),
        needs=tuple(_need(grounds, one) for one in grounds.needs_of(zone)),
        timing=tuple(
            sentence
            for closing in grounds.all.closings
            if (closing.farm, closing.zone) == (grounds.farm.id, zone.id)
            for sentence in closing_sentences(closing, grounds.product_name(closing.product), grounds.language)
        )
        or _next_lines(grounds, zone, has_parts=bool(judged)),
    )


def _next_lines(grounds: FarmGrounds, zone: Zone, *, has_parts: bool) -> tuple[str, ...]:
    """Return when a zone without any results is sampled; where it has results, their parts say so."""
    if has_parts:
        return ()
    return tuple(line for protocol in zone.protocols for line in _next(grounds, zone.id, protocol))


def _part(grounds: FarmGrounds, judged: ZoneJudgement) -> ProtocolPart:
    """Return what was found under one protocol."""
    client, language = grounds.client, grounds.language
    shown = [one.result for one in all_judged(judged)]
    days = frozenset(one.sampled for one in shown)
    samples = [
        one
        for one in grounds.about_samples()
        if (one.sample.zone, one.sample.protocol) == (judged.zone, judged.protocol)
    ]
    several, name = len(grounds.of_zone(judged.zone)) > 1, client.protocols[judged.protocol].name
    return ProtocolPart(
        protocol=name if several else "",
        sampled=_sampled(grounds, judged, "" if several else name),
        results=result_views(grounds, judged),
        profiles=profiles(judged, language),
        shares=share_bars(judged, language),
        constraints=tuple(_constraints(judged, language)),
        quantities=(*_quantities(grounds, judged), *_missing(judged.missing, language)),
        about_results=sentences_of_results(grounds.about_results(), client, shown),
        about_samples=sentences_about(samples, client, days),
        next=tuple(_next(grounds, judged.zone, judged.protocol)),
    )


def _sampled(grounds: FarmGrounds, judged: ZoneJudgement, protocol: str) -> str:
    """Return when a zone was sampled under a protocol, and by which guideline it is judged.

    Args:
        grounds: of the farm.
        judged: what is judged of the zone.
        protocol: name of the protocol; empty where it stands above.
    """
    day = long_day(judged.sampled, grounds.language)
    guideline = grounds.all.set_names.get(judged.set, judged.set)
    if protocol and guideline:
        return say(
            "{protocol}, sampled on {day}; judged by the guideline {guideline}.",
            protocol=protocol,
            day=day,
            guideline=guideline,
        )
    if protocol:
        return say("{protocol}, sampled on {day}; no guideline holds here.", protocol=protocol, day=day)
    if guideline:
        return say("Sampled on {day}; judged by the guideline {guideline}.", day=day, guideline=guideline)
    return say("Sampled on {day}; no guideline holds here.", day=day)


def _constraints(judged: ZoneJudgement, language: str) -> Iterator[str]:
    """Yield what is too high or near its line, and what is far under a line that asks for more."""
    for rating in judged.ratings:
        if rating.row.sense is Sense.EXCESS and standing_of(rating) in {Standing.TOO_HIGH, Standing.NEAR}:
            depth = depth_words(rating.result.top_cm, rating.result.bottom_cm, language)
            note = f" {say(rating.row.note)}" if rating.row.note else ""
            yield say("At {depth}: {finding}", depth=depth, finding=f"{rating_sentence(rating, language)}{note}")


def _quantities(grounds: FarmGrounds, judged: ZoneJudgement) -> Iterator[str]:
    """Yield what was reckoned, with its layer and the source of its formula."""
    several = len({(one.top_cm, one.bottom_cm) for one in judged.quantities}) > 1
    for one in judged.quantities:
        depth = depth_words(one.top_cm, one.bottom_cm, grounds.language)
        source = f" [{grounds.cite(citation(one.source, one.status))}]" if one.source else ""
        said = f"{quantity_sentence(one).rstrip('.')}{source}."
        yield say("At {depth}: {finding}", depth=depth, finding=said) if several else said


def _missing(missing: Sequence[NoQuantity], language: str) -> Iterator[str]:
    """Yield what could not be reckoned, those with the same reason together."""
    by_reason: defaultdict[str, dict[str, None]] = defaultdict(dict)
    for one in missing:
        by_reason[reason_words(one.refused, language)][name_of(one.code)] = None
    for reason, names in by_reason.items():
        yield say_count(
            "{quantities} is not reckoned: {reason}.",
            "{quantities} are not reckoned: {reason}.",
            len(names),
            quantities=began(joined(list(names))),
            reason=reason,
        )


def _next(grounds: FarmGrounds, zone: str, protocol: str) -> Iterator[str]:
    """Yield when a task is sampled next."""
    window = grounds.all.windows.get(TaskKey(grounds.farm.id, zone, protocol))
    if window is None:
        return
    language = grounds.language
    season = grounds.client.practice.seasons[window.season.name].name.lower()
    best = preferred_words(window, language)
    said = f"{_next_name(grounds, zone, protocol)}: {season} {window.season.label}, "
    day = say("Best day: {day}.", day=best)
    yield f"{said}{window_words(window, language)}." + (f" {day}" if best else "")


def _next_name(grounds: FarmGrounds, zone: str, protocol: str) -> str:
    """Return what a line on the next sampling begins with; the protocol where the zone has several."""
    name = grounds.client.protocols[protocol].name
    several = len(grounds.zones[zone].protocols) > 1 and not grounds.of_zone(zone)
    if several:
        return say("Next sampling, {protocol}", protocol=f"{name[:1].lower()}{name[1:]}")
    return say("Next sampling")


def _need(grounds: FarmGrounds, need: Need | NoNeed) -> NeedView:
    """Return one need with its working."""
    language = grounds.language
    if isinstance(need, NoNeed):
        return NeedView(no_need_sentence(need, language), (), ())
    steps = tuple(
        StepView(
            step_words(step, language),
            f"{figure_words(step.amount, need.input, language)} {unit_of_need(need.input)}",
            f"[{grounds.cite(citation(step.source, step.status))}]" if step.source else say("plain arithmetic"),
        )
        for step in need.steps
    )
    return NeedView(
        headline=f"{began(input_name(need.input))}: {amount_words(need, language)}",
        steps=steps,
        notes=(*_notes(need, language), *need_cautions(need.cautions)),
    )


def _chance(chance: int) -> str:
    """Return how likely it is that a zone responds; nothing is ever nought or quite sure."""
    if chance < 1:
        return say("The chance that the zone responds is less than 1 in 100.")
    if chance > 99:  # noqa: PLR2004 - in 100
        return say("The chance that the zone responds is more than 99 in 100.")
    return say("The chance that the zone responds is about {chance} in 100.", chance=chance)


def _notes(need: Need, language: str) -> Iterator[str]:
    """Yield how sure a need is, in how many dressings it is spread, its maxima, and whether a figure is unverified."""
    if need.probability is not None:
        yield _chance(round(need.probability * 100))
    if need.split:
        yield say_count(
            "Spread in {count} dressing of {amounts} {unit}.",
            "Spread in {count} dressings of {amounts} {unit}.",
            len(need.split),
            amounts=joined([figure_words(one, need.input, language) for one in need.split]),
            unit=unit_of_need(need.input),
        )
    yield from (cap_sentence(cap, need.input, language) for cap in need.caps)
    if any(one.status is not Status.VERIFIED for one in need.steps):
        yield say("A figure in the working is unverified: it was not read in its source.")
