"""What one result means for its zone: class, line, and the probability that the zone's true mean lies under it.

A censored value is rated where its limit settles the side of the line. `<` with a limit under the line: the true value
is lower still, so the probability is at least that of the limit. `>` with a limit over it: at most that of the limit.
That bound is what `Rating.below` then holds, and the result's qualifier says so. Everything else of it is refused. A
class that a censored value does not settle stays empty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

from soilrota.agronomy.barred import Barred, rules_against
from soilrota.agronomy.covariates import codes_of, covariates_for
from soilrota.agronomy.critical import Line, clean, line_of, settled_class
from soilrota.agronomy.doubt import Evidence, doubt_of, evidence_of
from soilrota.agronomy.probability import is_near, probability_under, quantile
from soilrota.agronomy.row_choice import Ground, choose_row, conditions_met, ground_of
from soilrota.guidelines.judging import judging_figures
from soilrota.language import phrase
from soilrota.model.client import Client, Zone
from soilrota.model.findings import Fact
from soilrota.model.guideline import GuidelineSet
from soilrota.model.judgement import Doubt, Quantity, Rating, Refused, Unrated, WhyNot
from soilrota.model.results import Result

#: Method of the rows that rate derived quantities.
DERIVED = "derived"


def rate(
    result: Result, sets: Sequence[GuidelineSet], ground: Ground, doubt: Doubt, barred_by: Sequence[str] = ()
) -> Rating | Unrated:
    """Return what a result means, or why that cannot be said.

    Args:
        result: the result.
        sets: guideline sets, the one that goes first first.
        ground: what rows may ask of the zone; see `row_choice.ground_of`.
        doubt: how sure the result is.
        barred_by: rules by which its sample is barred from advice; empty where it is not.
    """
    if barred_by:
        return Unrated(result, Refused(WhyNot.SAMPLE_UNUSABLE, {"rules": tuple(barred_by)}))
    chosen = choose_row(result, sets, ground)
    if isinstance(chosen, Refused):
        return Unrated(result, chosen)
    row = chosen.row
    followed = ground.covariates.get(row.line.covariate) if row.line else None
    line = line_of(row, followed.value if followed else None)
    found = settled_class(row, result.qualifier, result.value)
    if result.qualifier and not _is_settled(result, line, is_classed=found is not None):
        facts: dict[str, Fact] = {"qualifier": result.qualifier, "value": result.value}
        return Unrated(result, Refused(WhyNot.CENSORED, facts | ({"line": line.critical} if line else {})))
    below = probability_under(result.value, doubt, line.critical, line.low, line.high) if line else None
    return Rating(
        result=result,
        row=row,
        set=chosen.set.id,
        name=found.name if found else "",
        words=found.words if found else "",
        critical=line.critical if line else None,
        critical_low=line.low if line else None,
        critical_high=line.high if line else None,
        below=below,
        near=below is not None and is_near(below),
        doubt=doubt,
        covariates=conditions_met(row, ground),
    )


def _is_settled(result: Result, line: Line | None, *, is_classed: bool) -> bool:
    """Return whether a censored value says which side of the line it is on; of a row without a line, its class."""
    if line is None:
        return is_classed
    limit, critical = clean(result.value), clean(line.critical)
    return limit <= critical if result.qualifier == "<" else limit >= critical


def last_sampling(client: Client, zone: Zone, protocol: str) -> tuple[Result, ...]:
    """Return the results of a zone's last sampling under a protocol, in the order of the book.

    Each layer's last day counts where it lies within `same_sampling_days` of the last of all.
    """
    under = [one for one in client.results if (one.farm, one.zone, one.protocol) == (zone.farm, zone.id, protocol)]
    last = {(one.top_cm, one.bottom_cm): one.sampled for one in sorted(under, key=lambda one: one.sampled)}
    if not last:
        return ()
    since = max(last.values()) - timedelta(days=judging_figures().same_sampling_days)
    return tuple(one for one in under if one.sampled == last[one.top_cm, one.bottom_cm] >= since)


def rate_zone(
    client: Client,
    zone: Zone,
    protocol: str,
    sets: Sequence[GuidelineSet],
    *,
    barred: Barred | None = None,
    crops: Sequence[str] = (),
    goal: str = "",
    quantities: Sequence[Quantity] = (),
    evidence: Evidence | None = None,
) -> tuple[tuple[Rating, ...], tuple[Unrated, ...]]:
    """Return what the last results of a zone under a protocol mean, and those that are not rated.

    Args:
        client: whose records are asked.
        zone: the zone.
        protocol: id of the protocol.
        sets: guideline sets of the zone, the one that goes first first.
        barred: samples whose results are barred from advice, of `barred_samples(findings)`.
        crops: crops of the zone's plan.
        goal: the yield goal that was chosen; empty for each set's own.
        quantities: what was reckoned of the last results; each may be a covariate.
        evidence: of `evidence_of(client)`, where it is at hand already.
    """
    proof, gone = evidence or evidence_of(client), barred or {}
    codes = codes_of(sets)
    usable = [one for one in _of_zone(client, zone) if not rules_against(one, gone)]
    judged = []
    for result in last_sampling(client, zone, protocol):
        ground = ground_of(zone, covariates_for(result, codes, zone, usable, quantities), crops, goal)
        judged.append(rate(result, sets, ground, doubt_of(result, proof), rules_against(result, gone)))
    rated = tuple(one for one in judged if isinstance(one, Rating))
    return rated, tuple(one for one in judged if isinstance(one, Unrated))


def rate_quantity(quantity: Quantity, sets: Sequence[GuidelineSet], ground: Ground) -> Rating | Unrated | None:
    """Return what a derived quantity means by the rows of method `derived`; None where no set speaks of it.

    The rating's result is the quantity in the shape of a result; its doubt is half the quantity's interval of 95 %.
    """
    if not quantity.inputs or not any(row.analyte == quantity.code for one in sets for row in one.rows):
        return None
    result = replace(
        quantity.inputs[0], analyte=quantity.code, method=DERIVED, qualifier="", value=quantity.value,
        unit=quantity.unit, top_cm=quantity.top_cm, bottom_cm=quantity.bottom_cm, as_reported="", origin="",
    )  # fmt: skip
    sd = abs(quantity.high - quantity.low) / 2 / quantile(0.95)
    doubt = Doubt(sd, on_log_scale=False, sampling=sd, laboratory=0.0, source=phrase("the quantity's own interval"))
    return rate(result, sets, ground, doubt)


def _of_zone(client: Client, zone: Zone) -> list[Result]:
    """Return the results of a zone under any protocol."""
    return [one for one in client.results if (one.farm, one.zone) == (zone.farm, zone.id)]
