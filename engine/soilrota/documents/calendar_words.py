"""Words of the field calendar: why a visit has no day or a late one, how long things take, how good the plan is."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.dates import counted
from soilrota.model.field_calendar import FieldWork, LeftOut, Proof, WhyLate, WhyUnplaced

_HOUR = 60

WHY_UNPLACED = {
    WhyUnplaced.NO_OPEN_DAY: "No day is left on which it may be made.",
    WhyUnplaced.ONLY_CLOSED_DAYS: "The practice is away on every day on which it may be made.",
    WhyUnplaced.NOBODY_QUALIFIED: "Nobody who samples may make it.",
    WhyUnplaced.TOO_FAR: "It is farther away than anybody drives.",
    WhyUnplaced.TOO_LONG: "Work and driving take longer than anybody's day, and it cannot be split over days.",
    WhyUnplaced.NOBODY_AT_WORK: "Nobody who could make it is at work on its days.",
    WhyUnplaced.NO_RUN_OF_DAYS: "It takes several days, and nobody has so many close together among its days.",
    WhyUnplaced.DAYS_FULL: "The days of everybody who could make it are full.",
}
WHY_LATE = {
    WhyLate.OPENS_LATE: "it does not open in time",
    WhyLate.NOBODY_EARLIER: "nobody who could make it is at work in time",
    WhyLate.EARLIER_DAYS_FULL: "the earlier days are full",
}
_LEFT_OUT = {
    LeftOut.DRIVES_SHARED: "that a drive is rarely shared by a whole day's visits",
    LeftOut.DISTANT_DAYS_FREE: "the time that visits far from their best day take",
    LeftOut.LONG_VISITS_FREE: "the time of visits that are split over days",
    LeftOut.TRAVEL_NOT_BOUNDED: "the driving",
}


def duration(minutes: int) -> str:
    """Return a time in hours and minutes.

    >>> duration(45), duration(60), duration(125)
    ('45 min', '1 h', '2 h 5 min')
    """
    hours, rest = divmod(minutes, _HOUR)
    return " ".join(
        part for part in (f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else "") if part
    )


def proof_sentences(proof: Proof) -> Iterator[str]:
    """Yield how far from the best possible plan the calendar can be."""
    if proof.exact:
        yield "The plan is proved best: as many visits as possible have a day, then the days nearest to the best ones."
        return
    if proof.gap == 0:
        yield "No plan gives more visits a day, or days nearer to the best ones; less driving may be possible."
        return
    yield (
        "Plans are compared by points: a day farther from a best day is one, a visit without a day "
        f"{proof.unplaced_points:,}. This plan has {proof.objective:,}, and no plan can have fewer than "
        f"{proof.bound:,} ({proof.gap:.0%} less)."
    )
    if proof.leaves_out:
        left = "; ".join(_LEFT_OUT[one] for one in proof.leaves_out)
        yield f"That least number leaves out {left}, so that the plan may be nearer to the best than it says."


def figure_sentences(work: FieldWork) -> Iterator[str]:
    """Yield the figures that times were reckoned with, and their source."""
    minutes, travel, planning = work.minutes, work.travel, work.planning
    yield (
        f"Work: {minutes.arrival:g} min to arrive and clean down, {minutes.zone_set_up:g} min a zone, "
        f"{minutes.walking_a_hectare:g} min a hectare, {minutes.topsoil_core:g} min a topsoil core, "
        f"{minutes.deep_core_each_30_cm:g} min every 30 cm of a deep core."
    )
    yield (
        f"Driving: {travel.detour:g} times the straight distance at {travel.speed_km_h:g} km/h; "
        f"{travel.unknown_one_way_minutes} min each way to a farm that the map does not show."
    )
    yield (
        f"A visit may move by {counted(planning.free_days, 'day', 'days')} so that neighbours share a drive; at most "
        f"{counted(planning.most_farms_a_day, 'farm', 'farms')} a day."
    )
    yield f"These figures are house defaults ({work.source}); hold them against your own days."
