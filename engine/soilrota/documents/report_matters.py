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
from soilrota.documents.results_view import against_target, target_of, target_words
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
        name = began(name_of(code))
        side = "too low" if standing is Standing.TOO_LOW else "too high"
        headline = f"{name} is {side} in {_zones(grounds, [one.zone for one in some])}."
        depth = depth_words(top, bottom, grounds.language)
        why = [_worst_words(grounds, worst, depth, is_alone=len(some) == 1)]
        follow = [one for one in needs if one.rating is not None and _is_of(one.rating, code, top, bottom)]
        if follow:
            most = max(follow, key=lambda one: one.amount)
            asked = (
                f"The zone that needs most, {grounds.named(most.zone)}, needs {amount_words(most, grounds.language)}"
            )
            why.append(f"{asked} of {input_name(most.input)}.")
        if any(one.rating.row.status is not Status.VERIFIED for one in some):
            why.append("The line is unverified: it was not read in its source.")
        yield _Matter(worst.weight, MatterView(headline, " ".join(why)))


def _off_target(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield values that no guideline rates and that lie off the client's target; half as heavy."""
    off: defaultdict[tuple[str, float, float, str], list[tuple[float, Unrated, Target]]] = defaultdict(list)
    for judged in grounds.judged:
        for one in judged.unrated:
            result = one.result
            target = target_of(grounds.client.targets, grounds.zones[judged.zone], result)
            side = against_target(result, target)
            edge = {"below": target.low, "above": target.high}.get(side) if target else None
            if target is None or edge is None or grounds.is_doubted(result):
                continue
            share = min(max(abs(result.value - edge) / (abs(edge) or 1.0), _LEAST_SHARE), 1.0)
            key = (f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm, side)
            off[key].append((share, one, target))
    for (code, top, bottom, side), some in off.items():
        share, worst, target = max(some, key=lambda one: one[0])
        zones = _zones(grounds, [one.result.zone for _, one, _ in some])
        aim = target_words(target, grounds.language)
        depth = depth_words(top, bottom, grounds.language)
        where = "There it is" if len(some) == 1 else f"Farthest off is {grounds.named(worst.result.zone)} with"
        why = f"{where} {result_words(worst.result)} at {depth}; the target is {aim}. No guideline rates it."
        yield _Matter(share * _EVEN, MatterView(f"{began(name_of(code))} is {side} its target in {zones}.", why))


def _is_of(rating: Rating, code: str, top: float, bottom: float) -> bool:
    """Return whether a rating is of an analysis and layer."""
    result = rating.result
    return (f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm) == (code, top, bottom)


def _worst_words(grounds: FarmGrounds, worst: Beyond, depth: str, *, is_alone: bool) -> str:
    """Return the worst zone's value, its line, and how sure it is."""
    rating = worst.rating
    line = value_words(rating.result.analyte, rating.result.method, rating.critical or 0.0, rating.row.unit)
    side = "under" if standing_of(rating) is Standing.TOO_LOW else "over"
    where = "There it is" if is_alone else f"Farthest off is {grounds.named(worst.zone)} with"
    said = f"{where} {result_words(rating.result)} at {depth}, {side} the line of {line}"
    if rating.below is None:
        return f"{said}."
    chance = rating.below if side == "under" else 1 - rating.below
    if chance > _SURE:
        return f"{said}; the zone’s true mean almost certainly lies {side} it."
    return f"{said}; the chance that the zone’s true mean lies {side} it is about {round(chance * 100)} in 100."


def _zones(grounds: FarmGrounds, zones: Sequence[str]) -> str:
    """Return zones by letter and name, counted where they are many."""
    of_all = len({one.zone for one in grounds.judged})
    ordered = [one for one in grounds.zones if one in set(zones)]
    if len(ordered) == of_all > 1:
        return f"all {of_all} zones"
    if len(ordered) > _NAMED:
        return f"{len(ordered)} of {of_all} zones"
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
        name = input_name(most.input)
        headline = f"{began(name)} is needed in {_zones(grounds, [one.zone for one in needs])}."
        where = "" if len(needs) == 1 else f"Most in {grounds.named(most.zone)}: "
        why = f"{where}{amount_words(most, grounds.language)}."
        yield _Matter((worst.probability or 0.0) * _WAITS, MatterView(headline, why))


def _doubts(grounds: FarmGrounds) -> Iterator[_Matter]:
    """Yield that results are in doubt."""
    shown = {(rating.result.zone, rating.result.sampled) for judged in grounds.judged for rating in all_judged(judged)}
    found = [one for one in grounds.about_results() if one.doubts and (one.key.zone, one.key.sampled) in shown]
    if not found:
        return
    zones = list(dict.fromkeys(one.key.zone for one in found if one.key.zone in grounds.zones))
    codes = list(dict.fromkeys(code for one in found for code in one.analyses))
    analyses = joined([analysis_name(code) for code in codes[:MOST]]) if codes else "what was measured"
    waits = any(one.bars for one in found)
    why = "Somebody must accept them with a reason, or have them measured again" if waits else "Do not lean on them"
    pages = "zones’ pages" if len(zones) > 1 else "zone’s page"
    headline = f"Some results are in doubt in {_zones(grounds, zones)}."
    finding = counted(len(found), "finding", "findings")
    said = f"{finding} about {analyses}{' and others' if len(codes) > MOST else ''}; "
    yield _Matter(
        _WAITS if waits else _DOUBTED,
        MatterView(headline, f"{said}what was found stands on the {pages}. {why}."),
    )


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
        plural = len(zones) > 1
        sample = "samples" if plural else "sample"
        headline = f"The last {sample} of {_zones(grounds, zones)} cannot be used for advice."
        pages = "the zones’ pages say" if plural else "the zone’s page says"
        yield _Matter(_WAITS, MatterView(headline, f"How it was taken rules it out; {pages} why. Sample again."))
