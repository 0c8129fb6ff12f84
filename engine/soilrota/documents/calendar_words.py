"""Words of the field calendar: why a visit has no day or a late one, how long things take, how good the plan is."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from babel.dates import format_date

from soilrota.documents.dates import counted, digits, locale_of, number
from soilrota.language import marked, say, spoken
from soilrota.model.field_calendar import FieldWork, LeftOut, Proof, WhyLate, WhyUnplaced

_HOUR = 60

WHY_UNPLACED = {
    WhyUnplaced.NO_OPEN_DAY: marked("No day is left on which it may be made."),
    WhyUnplaced.ONLY_CLOSED_DAYS: marked("The practice is away on every day on which it may be made."),
    WhyUnplaced.NOBODY_QUALIFIED: marked("Nobody who samples may make it."),
    WhyUnplaced.TOO_FAR: marked("It is farther away than anybody drives."),
    WhyUnplaced.TOO_LONG: marked("Work and driving take longer than anybody's day, and it cannot be split over days."),
    WhyUnplaced.NOBODY_AT_WORK: marked("Nobody who could make it is at work on its days."),
    WhyUnplaced.NO_RUN_OF_DAYS: marked("It takes several days, and nobody has so many close together among its days."),
    WhyUnplaced.DAYS_FULL: marked("The days of everybody who could make it are full."),
}
WHY_LATE = {
    WhyLate.OPENS_LATE: marked("it does not open in time"),
    WhyLate.NOBODY_EARLIER: marked("nobody who could make it is at work in time"),
    WhyLate.EARLIER_DAYS_FULL: marked("the earlier days are full"),
}
_LEFT_OUT = {
    LeftOut.DRIVES_SHARED: marked("that a drive is rarely shared by a whole day's visits"),
    LeftOut.DISTANT_DAYS_FREE: marked("the time that visits far from their best day take"),
    LeftOut.LONG_VISITS_FREE: marked("the time of visits that are split over days"),
    LeftOut.TRAVEL_NOT_BOUNDED: marked("the driving"),
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


def weekday_letters(day: date, language: str) -> str:
    """Return the short name of a weekday.

    >>> weekday_letters(date(2027, 3, 1), "en-GB"), weekday_letters(date(2027, 3, 1), "es-ES")
    ('Mon', 'lun')
    """
    return str(format_date(day, "EEE", locale=locale_of(language)))


def proof_sentences(proof: Proof) -> Iterator[str]:
    """Yield how far from the best possible plan the calendar can be."""
    if proof.exact:
        yield say(
            "The plan is proved best: as many visits as possible have a day, then the days nearest to the best ones."
        )
        return
    if proof.gap == 0:
        yield say("No plan gives more visits a day, or days nearer to the best ones; less driving may be possible.")
        return
    yield say(
        "Plans are compared by points: a day farther from a best day is one, a visit without a day {unplaced}. "
        "This plan has {points}, and no plan can have fewer than {least} ({percent}% less).",
        unplaced=number(proof.unplaced_points, spoken(), 0),
        points=number(proof.objective, spoken(), 0),
        least=number(proof.bound, spoken(), 0),
        percent=f"{proof.gap * 100:.0f}",
    )
    if proof.leaves_out:
        left = "; ".join(say(_LEFT_OUT[one]) for one in proof.leaves_out)
        yield say(
            "That least number leaves out {left}, so that the plan may be nearer to the best than it says.", left=left
        )


def figure_sentences(work: FieldWork) -> Iterator[str]:
    """Yield the figures that times were reckoned with, and their source."""
    minutes, travel, planning = work.minutes, work.travel, work.planning
    yield say(
        "Work: {arrival} min to arrive and clean down, {zone} min a zone, {hectare} min a hectare, {topsoil} min a "
        "topsoil core, {deep} min every 30 cm of a deep core.",
        arrival=digits(f"{minutes.arrival:g}"),
        zone=digits(f"{minutes.zone_set_up:g}"),
        hectare=digits(f"{minutes.walking_a_hectare:g}"),
        topsoil=digits(f"{minutes.topsoil_core:g}"),
        deep=digits(f"{minutes.deep_core_each_30_cm:g}"),
    )
    yield say(
        "Driving: {detour} times the straight distance at {speed} km/h; {minutes} min each way to a farm that the map "
        "does not show.",
        detour=digits(f"{travel.detour:g}"),
        speed=digits(f"{travel.speed_km_h:g}"),
        minutes=travel.unknown_one_way_minutes,
    )
    yield say(
        "A visit may move by {days} so that neighbours share a drive; at most {farms} a day.",
        days=counted(planning.free_days, "day", "days"),
        farms=counted(planning.most_farms_a_day, "farm", "farms"),
    )
    yield say("These figures are house defaults ({source}); hold them against your own days.", source=say(work.source))
