"""What matters most on a farm: shortages, excesses and results in doubt, the weightiest first, in plain words.

The order is a house rule. A shortage or an excess weighs the chance that the zone lies beyond its line, times how far
beyond the value lies (as a share of the line, at least a tenth and at most all of it), for the worst zone; a need that
was reckoned weighs as the shortage that it follows from. Results that wait for somebody weigh more than half of the
heaviest shortage there can be, results in doubt half as much: what is not to be believed cannot be acted on.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from soilrota.documents.advice_sentences import amount_words, input_name
from soilrota.documents.dates import counted, joined
from soilrota.documents.judgement_sentences import began, name_of, result_words, value_words
from soilrota.documents.protocols import depth_words
from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.documents.report_standing import Standing, standing_of
from soilrota.documents.report_views import MatterView
from soilrota.documents.results_view import target_of, target_side, target_words
from soilrota.language import marked, say, say_count
from soilrota.model.advice import Need
from soilrota.model.findings import Weight
from soilrota.model.guideline import Status
from soilrota.model.judgement import Rating, Unrated, ZoneJudgement
from soilrota.model.results import Target
from soilrota.quantities import analysis_name

MOST = 3
_LEAST_SHARE = 0.1
_WAITS, _DOUBTED = 0.6, 0.3
_SURE, _EVEN = 0.99, 0.5
#: Zones that a headline names; more are counted.
_NAMED = 6
#: Headlines of values beyond their line, and off their target.
_HEADLINES = {
    Standing.TOO_LOW: marked("{analysis} is too low in {zones}."),
    Standing.TOO_HIGH: marked("{analysis} is too high in {zones}."),
}
_OFF_TARGET = {
    "below": marked("{analysis} is below its target in {zones}."),
    "above": marked("{analysis} is above its target in {zones}."),
}


@dataclass(frozen=True, slots=True)
class Beyond:
    """One value beyond its line: in which zone, by which rating, how much it weighs."""

    zone: str
    rating: Rating
    weight: float


@dataclass(frozen=True, slots=True)
class _Matter:
    """Something that matters, with its weight [-]."""

    weight: float
    view: MatterView


def matters(grounds: FarmGrounds) -> tuple[MatterView, ...]:
    """Return what matters most on a farm, at most three."""
    found = [*_values(grounds), *_off_target(grounds), *_needs_alone(grounds), *_doubts(grounds), *_barred(grounds)]
    found.sort(key=lambda one: -one.weight)
    return tuple(one.view for one in found[:MOST])


def beyond_lines(grounds: FarmGrounds) -> dict[tuple[str, float, float, Standing], list[Beyond]]:
    """Return the values beyond their lines by analysis, layer and side; the worst zone of each first.

    A ratio by itself is weak evidence, and what is in doubt is told of as such: neither is here.
    """
    found: defaultdict[tuple[str, float, float, Standing], list[Beyond]] = defaultdict(list)
    for judged in grounds.judged:
        weak = weak_codes(judged)
        for rating in judged.ratings:
            standing = standing_of(rating)
            result = rating.result
            if standing not in {Standing.TOO_LOW, Standing.TOO_HIGH} or result.analyte in weak:
                continue
            if not grounds.is_doubted(result):
                key = (f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm, standing)
                found[key].append(Beyond(judged.zone, rating, _weight(rating)))
    return {key: sorted(some, key=lambda one: -one.weight) for key, some in found.items()}


def weak_codes(judged: ZoneJudgement) -> frozenset[str]:
    """Return the codes of ratios, which by themselves are weak evidence."""
    return frozenset(one.code for one in judged.quantities if "ratio-weak" in one.cautions)


def _weight(rating: Rating) -> float:
    """Return the chance that the zone lies beyond the line times how far beyond its value lies [-]."""
    critical = rating.critical or 1.0
    low = standing_of(rating) is Standing.TOO_LOW
    chance = rating.below if rating.below is not None else float(low)
    share = abs(rating.result.value - critical) / abs(critical)
    return (chance if low else 1 - chance) * min(max(share, _LEAST_SHARE), 1.0)


def _values(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield shortages and excesses, with the need that follows where one was reckoned."""
    needs = [one for one in grounds.all.needs if isinstance(one, Need) and one.farm == grounds.farm.id and one.amount]
    for (code, top, bottom, standing), some in beyond_lines(grounds).items():
        worst = some[0]
        zones = _zones(grounds, [one.zone for one in some])
        headline = say(_HEADLINES[standing], analysis=began(name_of(code)), zones=zones)
        depth = depth_words(top, bottom, grounds.language)
        why = [_worst_words(grounds, worst, depth, is_alone=len(some) == 1)]
        follow = [one for one in needs if one.rating is not None and _is_of(one.rating, code, top, bottom)]
        if follow:
            most = max(follow, key=lambda one: one.amount)
            why.append(
                say(
                    "The zone that needs most, {zone}, needs {amount} of {input}.",
                    zone=grounds.named(most.zone),
                    amount=amount_words(most, grounds.language),
                    input=input_name(most.input),
                )
            )
        if any(one.rating.row.status is not Status.VERIFIED for one in some):
            why.append(say("The line is unverified: it was not read in its source."))
        yield _Matter(worst.weight, MatterView(headline, " ".join(why)))


def _off_target(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield values that no guideline rates and that lie off the client's target; half as heavy."""
    off: defaultdict[tuple[str, float, float, str], list[tuple[float, Unrated, Target]]] = defaultdict(list)
    for judged in grounds.judged:
        for one in judged.unrated:
            result = one.result
            target = target_of(grounds.client.targets, grounds.zones[judged.zone], result)
            side = target_side(result, target)
            edge = {"below": target.low, "above": target.high}.get(side) if target else None
            if target is None or edge is None or grounds.is_doubted(result):
                continue
            share = min(max(abs(result.value - edge) / (abs(edge) or 1.0), _LEAST_SHARE), 1.0)
            key = (f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm, side)
            off[key].append((share, one, target))
    for (code, top, bottom, side), some in off.items():
        share, worst, target = max(some, key=lambda one: one[0])
        zones = _zones(grounds, [one.result.zone for _, one, _ in some])
        facts = {
            "value": result_words(worst.result),
            "depth": depth_words(top, bottom, grounds.language),
            "target": target_words(target, grounds.language),
        }
        why = (
            say("There it is {value} at {depth}; the target is {target}. No guideline rates it.", **facts)
            if len(some) == 1
            else say(
                "Farthest off is {zone} with {value} at {depth}; the target is {target}. No guideline rates it.",
                zone=grounds.named(worst.result.zone),
                **facts,
            )
        )
        headline = say(_OFF_TARGET[side], analysis=began(name_of(code)), zones=zones)
        yield _Matter(share * _EVEN, MatterView(headline, why))


def _is_of(rating: Rating, code: str, top: float, bottom: float) -> bool:
    """Return whether a rating is of an analysis and layer."""
    result = rating.result
    return (f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm) == (code, top, bottom)


def _worst_words(grounds: FarmGrounds, worst: Beyond, depth: str, *, is_alone: bool) -> str:
    """Return the worst zone's value, its line, and how sure it is."""
    rating = worst.rating
    line = value_words(rating.result.analyte, rating.result.method, rating.critical or 0.0, rating.row.unit)
    facts = {"value": result_words(rating.result), "depth": depth, "line": line}
    is_under = standing_of(rating) is Standing.TOO_LOW
    if is_alone and is_under:
        said = say("There it is {value} at {depth}, under the line of {line}", **facts)
    elif is_alone:
        said = say("There it is {value} at {depth}, over the line of {line}", **facts)
    elif is_under:
        said = say(
            "Farthest off is {zone} with {value} at {depth}, under the line of {line}",
            zone=grounds.named(worst.zone),
            **facts,
        )
    else:
        said = say(
            "Farthest off is {zone} with {value} at {depth}, over the line of {line}",
            zone=grounds.named(worst.zone),
            **facts,
        )
    if rating.below is None:
        return f"{said}."
    sure = _sure_words(rating.below if is_under else 1 - rating.below, is_under=is_under)
    return f"{said}; {sure}."


def _sure_words(chance: float, *, is_under: bool) -> str:
    """Return how sure it is that a zone lies beyond its line."""
    if chance > _SURE and is_under:
        return say("the zone’s true mean almost certainly lies under it")
    if chance > _SURE:
        return say("the zone’s true mean almost certainly lies over it")
    in_hundred = round(chance * 100)
    if is_under:
        return say("the chance that the zone’s true mean lies under it is about {chance} in 100", chance=in_hundred)
    return say("the chance that the zone’s true mean lies over it is about {chance} in 100", chance=in_hundred)


def _zones(grounds: FarmGrounds, zones: Sequence[str]) -> str:
    """Return zones by letter and name, counted where they are many."""
    of_all = len({one.zone for one in grounds.judged})
    ordered = [one for one in grounds.zones if one in set(zones)]
    if len(ordered) == of_all > 1:
        return say_count("all {count} zone", "all {count} zones", of_all)
    if len(ordered) > _NAMED:
        return say_count("{some} of {count} zone", "{some} of {count} zones", of_all, some=len(ordered))
    return joined([grounds.named(one) for one in ordered])


def _needs_alone(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield the needs that follow from no value beyond a line, for instance a nitrogen budget, by input."""
    told = {key[:3] for key in beyond_lines(grounds)}
    by_input: defaultdict[str, list[Need]] = defaultdict(list)
    for need in grounds.all.needs:
        if not isinstance(need, Need) or need.farm != grounds.farm.id or not need.amount:
            continue
        result = need.rating.result if need.rating else None
        if result is None or (f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm) not in told:
            by_input[need.input].append(need)
    for needs in by_input.values():
        worst = max(needs, key=lambda one: one.probability or 0.0)
        most = max(needs, key=lambda one: one.amount)
        zones = _zones(grounds, [one.zone for one in needs])
        headline = say("{input} is needed in {zones}.", input=began(input_name(most.input)), zones=zones)
        why = f"{amount_words(most, grounds.language)}."
        if len(needs) > 1:
            why = say("Most in {zone}: {amount}", zone=grounds.named(most.zone), amount=why)
        yield _Matter((worst.probability or 0.0) * _WAITS, MatterView(headline, why))


def _doubts(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield that results are in doubt."""
    shown = {(rating.result.zone, rating.result.sampled) for judged in grounds.judged for rating in all_judged(judged)}
    found = [one for one in grounds.about_results() if one.doubts and (one.key.zone, one.key.sampled) in shown]
    if not found:
        return
    zones = list(dict.fromkeys(one.key.zone for one in found if one.key.zone in grounds.zones))
    codes = list(dict.fromkeys(code for one in found for code in one.analyses))
    analyses = joined([analysis_name(code) for code in codes[:MOST]]) if codes else say("what was measured")
    if len(codes) > MOST:
        analyses = say("{analyses} and others", analyses=analyses)
    waits = any(one.bars for one in found)
    headline = say("Some results are in doubt in {zones}.", zones=_zones(grounds, zones))
    said = say_count(
        "{findings} about {analyses}; what was found stands on the zone’s page.",
        "{findings} about {analyses}; what was found stands on the zones’ pages.",
        len(zones),
        findings=counted(len(found), "finding", "findings"),
        analyses=analyses,
    )
    why = (
        say("Somebody must accept them with a reason, or have them measured again.")
        if waits
        else say("Do not lean on them.")
    )
    yield _Matter(_WAITS if waits else _DOUBTED, MatterView(headline, f"{said} {why}"))


def _barred(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield that samples cannot be used."""
    days = {judged.zone: judged.sampled for judged in grounds.judged}
    barred = {
        one.sample.zone
        for one in grounds.about_samples()
        if one.weight is Weight.UNUSABLE and days.get(one.sample.zone) == one.sample.day
    }
    zones = [zone for zone in grounds.zones if zone in barred]
    if zones:
        headline = say_count(
            "The last sample of {zones} cannot be used for advice.",
            "The last samples of {zones} cannot be used for advice.",
            len(zones),
            zones=_zones(grounds, zones),
        )
        why = say_count(
            "How it was taken rules it out; the zone’s page says why. Sample again.",
            "How it was taken rules it out; the zones’ pages say why. Sample again.",
            len(zones),
        )
        yield _Matter(_WAITS, MatterView(headline, why))
