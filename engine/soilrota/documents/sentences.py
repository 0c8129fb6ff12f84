"""The one place where reasons, states and ways out become sentences."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from soilrota.documents.dates import counted, joined, long_day, short_day, span_words, spans_words
from soilrota.documents.words import material_words
from soilrota.model.windows import Reason, Rule, Span, WayOut, WayOutKind, Window
from soilrota.quantities import analysis_name


def window_words(window: Window, language: str) -> str:
    """Return the open days of the season in words, or why there are none."""
    if window.season_open and window.workable:
        return spans_words(window.season_open, language)
    if has_rule(window, Rule.SPREAD_UNDATED):
        return "not known: a spreading has no date"
    return "no worked day left this season" if window.open else "no open day this season"


def preferred_words(window: Window, language: str) -> str:
    """Return the preferred day in words; 'as soon as possible' once the best day has passed, empty without one."""
    if window.preferred is None:
        return ""
    if has_rule(window, Rule.BEST_DAY_PASSED):
        return "as soon as possible"
    return long_day(window.preferred, language)


def has_rule(window: Window, rule: Rule) -> bool:
    """Return whether a rule is among the window's reasons."""
    return any(reason.rule is rule for reason in window.reasons)


def overdue_words(months: int) -> str:
    """Return how late a task is.

    >>> overdue_words(0), overdue_words(1), overdue_words(11)
    ('by less than a month', 'by 1 month', 'by 11 months')
    """
    return "by less than a month" if months == 0 else f"by {counted(months, 'month', 'months')}"


def reason_sentence(reason: Reason, season_name: str, language: str) -> str:
    """Return one reason as a sentence.

    Args:
        reason: the reason.
        season_name: what people call the season.
        language: language tag of the client.
    """
    return _SENTENCES[reason.rule](_Facts(reason, season_name, language))


class _Facts:
    """The facts of a reason, in the client's form."""

    def __init__(self, reason: Reason, season_name: str, language: str) -> None:
        self.reason = reason
        self.facts: dict[str, Any] = dict(reason.facts)
        self.season = season_name.lower()
        self.language = language

    def day(self, name: str) -> str:
        """Return a fact that is a day, in full."""
        return long_day(self.facts[name], self.language)

    def months(self, name: str = "months") -> str:
        """Return a fact that counts months."""
        return counted(int(self.facts[name]), "month", "months")

    @property
    def what(self) -> str:
        """What was spread."""
        return material_words(str(self.facts["class"]), str(self.facts.get("material", "")))

    @property
    def when(self) -> str:
        """When it was, or will be, spread."""
        first, last = self.facts.get("first_day"), self.facts.get("last_day")
        if isinstance(first, date) and isinstance(last, date):
            words = span_words(Span(first, last), self.language)
            return f"on {words}" if first == last else f"from {words}"
        return f"at the latest on {long_day(last, self.language)}" if isinstance(last, date) else "on a day not known"

    @property
    def reason_given(self) -> str:
        """A reason in somebody's words, without its full stop."""
        return str(self.facts["reason"]).rstrip(".")

    @property
    def taken(self) -> str:
        """Which days of the season it took."""
        if not self.reason.taken:
            return ""
        return f" It takes {spans_words(self.reason.taken, self.language)} out of the season."


def _season(facts: _Facts) -> str:
    span = Span(facts.facts["first"], facts.facts["last"])
    return f"The season for this sampling is {facts.season}: {span_words(span, facts.language)}."


def _sampled(facts: _Facts) -> str:
    reported = f"; results came on {facts.day('reported')}" if "reported" in facts.facts else ""
    return f"Last sampled on {facts.day('day')}{reported}."


def _due(facts: _Facts) -> str:
    span = Span(facts.facts["first"], facts.facts["last"])
    return (
        f"Sampled every {facts.months('interval_months')}, it is due around {facts.day('due_on')}; "
        f"the nearest season is {span_words(span, facts.language)}."
    )


def _overdue(facts: _Facts) -> str:
    late = overdue_words(int(facts.facts["months"]))
    return f"The season in which it was due ended on {facts.day('last')} without a sample: it is overdue {late}."


def _spread(facts: _Facts) -> str:
    return (
        f"After {facts.what}, spread {facts.when}, wait {facts.months()}: "
        f"open again from {facts.day('open_again')}.{facts.taken}"
    )


def _planned(facts: _Facts) -> str:
    first = facts.facts.get("first_day")
    before = f" Sample before {short_day(first, facts.language)}, or after the wait." if isinstance(first, date) else ""
    return (
        f"Planned: {facts.what} {facts.when}. It closes sampling until {facts.day('open_again')}.{before}{facts.taken}"
    )


def _passed(facts: _Facts) -> str:
    return (
        f"The {facts.what} planned {facts.when} has not been recorded as done. "
        "It counts as spread until somebody says that it did not happen."
    )


def _undated(facts: _Facts) -> str:
    return (
        f"The date of a spreading of {facts.what} is not known, so nobody can say which days are clear. "
        "Find the date, or mark the row cancelled if it did not happen."
    )


def _no_zone(facts: _Facts) -> str:
    return f"The {facts.what} names no zone, so it is taken to have touched the whole farm."


def _override(facts: _Facts) -> str:
    return (
        f"For {facts.what} the waiting time was set to {facts.months()} instead of {facts.months('usual_months')}. "
        f"Reason given: {facts.facts['reason']}"
    )


def _uncounted(facts: _Facts) -> str:
    reason = f" Reason given: {facts.facts['reason']}" if facts.facts.get("reason") else ""
    return f"{facts.what.capitalize()} {facts.when} does not close sampling.{reason}"


def _wait(facts: _Facts) -> str:
    return (
        f"{analysis_name(str(facts.facts['analysis']))} is not settled before {facts.day('ready')}: "
        f"it needs {facts.months()} after {facts.what} {facts.when}. The other analyses can be read."
    )


def _anniversary(facts: _Facts) -> str:
    if facts.facts["day"] == facts.facts["target"]:
        return f"Aim for {facts.day('target')}, the same time of year as last time."
    return (
        f"The same time of year as last time would be {facts.day('day')}; "
        f"the nearest day of the season is {facts.day('target')}."
    )


def _middle(facts: _Facts) -> str:
    return f"With no earlier sampling, aim for the middle of the season, {facts.day('target')}."


def _best_passed(facts: _Facts) -> str:
    return f"The best day, {facts.day('day')}, has passed: the sooner the better."


def _tolerance(facts: _Facts) -> str:
    return (
        f"The preferred day lies more than {counted(int(facts.facts['tolerance_days']), 'day', 'days')} from the anniversary "
        f"({facts.day('anniversary')}): a trend would mix seasons."
    )


def _leave(facts: _Facts) -> str:
    return f"The practice is away: {facts.reason_given}.{facts.taken}"


def _blackout(facts: _Facts) -> str:
    return f"Nobody goes on the land then: {facts.reason_given}.{facts.taken}"


def _worked_days(facts: _Facts) -> str:
    holidays = [date.fromisoformat(day) for day in facts.facts["holidays"]]
    off = f", and not on public holidays ({joined([short_day(day, facts.language) for day in holidays])})"
    return f"Samples are taken on {weekday_words(facts.facts['weekdays'])}{off if holidays else ''}."


def _holding(facts: _Facts) -> str:
    days = counted(int(facts.facts["days"]), "day", "days")
    weekdays = weekday_words(facts.facts["weekdays"])
    on = f"so they are taken on {weekdays} alone" if weekdays else "and no day of the season allows that"
    return f"The samples must reach the laboratory within {days}, {on}."


def _decision(facts: _Facts) -> str:
    return (
        f"Results are needed for {facts.facts['what']} on {facts.day('day')}: "
        f"the last day of sampling in time is {facts.day('last_useful')}."
    )


def _late(facts: _Facts) -> str:
    return (
        f"The days that are left are too late for {facts.facts['what']} on {facts.day('day')}. "
        "They are open, but none is preferred."
    )


def _moisture(facts: _Facts) -> str:
    wanted = "moist" if facts.facts["wanted"] == "moist" else "dry"
    often = {"mostly": "in most years", "sometimes": "in some years", "seldom": "in few years"}
    years = counted(int(facts.facts["years"]), "year", "years")
    said = f"Around the preferred day the soil is {wanted} {often[str(facts.facts['likelihood'])]} ({years} of record)."
    return f"{said} The look of the soil on the day comes first."


def recorded_sentence(reason: Reason, language: str) -> str:
    """Return how the soil was on the last recorded day; empty where that is not known. Changes from night to night."""
    facts = dict(reason.facts)
    day, state = facts.get("recorded"), facts.get("state")
    if not isinstance(day, date) or state not in {"dry", "moist", "wet"}:
        return ""
    return f"On {long_day(day, language)}, the last day of the record, it was {state}."


def weekday_words(names: tuple[str, ...]) -> str:
    """Return weekdays in words; Monday to Friday as a span.

    >>> weekday_words(("monday", "tuesday")), weekday_words(("monday", "tuesday", "wednesday", "thursday", "friday"))
    ('Mondays and Tuesdays', 'weekdays, Monday to Friday')
    """
    if names == ("monday", "tuesday", "wednesday", "thursday", "friday"):
        return "weekdays, Monday to Friday"
    return joined([f"{name.capitalize()}s" for name in names])


_SENTENCES: dict[Rule, Callable[[_Facts], str]] = {
    Rule.SEASON: _season,
    Rule.NEVER_SAMPLED: lambda _: "This zone has not been sampled under this protocol before.",
    Rule.SAMPLED: _sampled,
    Rule.DUE_SEASON: _due,
    Rule.OVERDUE: _overdue,
    Rule.SPREAD: _spread,
    Rule.SPREAD_PLANNED: _planned,
    Rule.PLAN_HAS_PASSED: _passed,
    Rule.SPREAD_UNDATED: _undated,
    Rule.SPREAD_NO_ZONE: _no_zone,
    Rule.GAP_OVERRIDE: _override,
    Rule.CLASS_DOES_NOT_COUNT: _uncounted,
    Rule.ANALYSIS_WAIT: _wait,
    Rule.ANNIVERSARY: _anniversary,
    Rule.MIDDLE_OF_SEASON: _middle,
    Rule.OUTSIDE_TOLERANCE: _tolerance,
    Rule.BEST_DAY_PASSED: _best_passed,
    Rule.LEAVE: _leave,
    Rule.BLACKOUT: _blackout,
    Rule.WORKED_DAYS: _worked_days,
    Rule.HOLDING: _holding,
    Rule.DECISION: _decision,
    Rule.LATE: _late,
    Rule.MOISTURE: _moisture,
}

_WAYS = {
    WayOutKind.BEFORE_PLANNED: "Sample before the spreading that is planned",
    WayOutKind.AFTER_GAP: "Sample after the waiting time, outside the season",
    WayOutKind.NEXT_SEASON: "Wait for the next season",
    WayOutKind.MOVE_PLANNED: "Put the planned spreading off until the samples are taken",
}


#: Ways out whose days begin today.
_BEGIN_TODAY = frozenset({WayOutKind.BEFORE_PLANNED, WayOutKind.MOVE_PLANNED})


def way_out_sentence(way: WayOut, language: str) -> str:
    """Return a way out as a sentence, with its days and what it costs."""
    costs = []
    if way.months_late:
        costs.append(f"{counted(way.months_late, 'month', 'months')} later than due")
    if way.days_out_of_season:
        costs.append(
            f"{counted(way.days_out_of_season, 'day', 'days')} outside the season, so a trend would mix seasons"
        )
    cost = f" The cost: {'; '.join(costs)}." if costs else ""
    if way.kind in _BEGIN_TODAY:
        # Days that begin today would change every night while nothing else does.
        best = "the sooner the better" if way.best == way.spans[0].first else f"best on {long_day(way.best, language)}"
        return f"{_WAYS[way.kind]}: up to {long_day(way.spans[-1].last, language)}, {best}.{cost}"
    return f"{_WAYS[way.kind]}: {spans_words(way.spans, language)}, best on {long_day(way.best, language)}.{cost}"
