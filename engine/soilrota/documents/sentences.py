"""The one place where reasons and states become sentences."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from soilrota.documents.dates import counted, days_words, joined, long_day, short_day, span_words, spans_words
from soilrota.documents.moisture_sentences import moisture_sentences
from soilrota.documents.words import material_words
from soilrota.language import marked_as, say, say_as
from soilrota.model.windows import Reason, Rule, Span, Window
from soilrota.quantities import analysis_name


def window_words(window: Window, language: str) -> str:
    """Return the open days of the season in words, or why there are none."""
    if window.season_open and window.workable:
        return spans_words(window.season_open, language)
    if has_rule(window, Rule.SPREAD_UNDATED):
        return say("not known: a spreading has no date")
    return say("no worked day left this season") if window.open else say("no open day this season")


def preferred_words(window: Window, language: str) -> str:
    """Return the preferred day in words; 'as soon as possible' once the best day has passed, empty without one."""
    if window.preferred is None:
        return ""
    if has_rule(window, Rule.BEST_DAY_PASSED):
        return say("as soon as possible")
    return long_day(window.preferred, language)


def has_rule(window: Window, rule: Rule) -> bool:
    """Return whether a rule is among the window's reasons."""
    return any(reason.rule is rule for reason in window.reasons)


def overdue_words(months: int) -> str:
    """Return how late a task is.

    >>> overdue_words(0), overdue_words(1), overdue_words(11)
    ('by less than a month', 'by 1 month', 'by 11 months')
    """
    if months == 0:
        return say_as("overdue", "by less than a month")
    return say_as("overdue", "by {months}", months=counted(months, "month", "months"))


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
            if first == last:
                return say_as("spread", "on {day}", day=words)
            return say_as("spread", "from {days}", days=words)
        if isinstance(last, date):
            return say_as("spread", "at the latest on {day}", day=long_day(last, self.language))
        return say_as("spread", "on a day not known")

    @property
    def reason_given(self) -> str:
        """A reason in somebody's words, without its full stop."""
        return str(self.facts["reason"]).rstrip(".")

    @property
    def taken(self) -> str:
        """Which days of the season it took, as a sentence; empty where it took none."""
        if not self.reason.taken:
            return ""
        return say("It takes {days} out of the season.", days=spans_words(self.reason.taken, self.language))

    def with_taken(self, *sentences: str) -> str:
        """Return sentences, and then which days of the season it took."""
        return " ".join(filter(None, (*sentences, self.taken)))


def _season(facts: _Facts) -> str:
    span = Span(facts.facts["first"], facts.facts["last"])
    days = span_words(span, facts.language)
    return say("The season for this sampling is {season}: {days}.", season=facts.season, days=days)


def _sampled(facts: _Facts) -> str:
    if "reported" not in facts.facts:
        return say("Last sampled on {day}.", day=facts.day("day"))
    day, reported = facts.day("day"), facts.day("reported")
    return say("Last sampled on {day}; results came on {reported}.", day=day, reported=reported)


def _due(facts: _Facts) -> str:
    span = Span(facts.facts["first"], facts.facts["last"])
    return say(
        "Sampled every {months}, it is due around {day}; the nearest season is {days}.",
        months=facts.months("interval_months"),
        day=facts.day("due_on"),
        days=span_words(span, facts.language),
    )


def _overdue(facts: _Facts) -> str:
    return say(
        "The season in which it was due ended on {day} without a sample: it is overdue {late}.",
        day=facts.day("last"),
        late=overdue_words(int(facts.facts["months"])),
    )


def _spread(facts: _Facts) -> str:
    waited = say(
        "After {what}, spread {when}, wait {months}: open again from {day}.",
        what=facts.what,
        when=facts.when,
        months=facts.months(),
        day=facts.day("open_again"),
    )
    return facts.with_taken(waited)


def _planned(facts: _Facts) -> str:
    first = facts.facts.get("first_day")
    planned = say(
        "Planned: {what} {when}. It closes sampling until {day}.",
        what=facts.what,
        when=facts.when,
        day=facts.day("open_again"),
    )
    if not isinstance(first, date):
        return facts.with_taken(planned)
    before = say("Sample before {day}, or after the wait.", day=short_day(first, facts.language))
    return facts.with_taken(planned, before)


def _passed(facts: _Facts) -> str:
    return say(
        "The {what} planned {when} has not been recorded as done. "
        "It counts as spread until somebody says that it did not happen.",
        what=facts.what,
        when=facts.when,
    )


def _undated(facts: _Facts) -> str:
    return say(
        "The date of a spreading of {what} is not known, so nobody can say which days are clear. "
        "Find the date, or mark the row cancelled if it did not happen.",
        what=facts.what,
    )


def _no_zone(facts: _Facts) -> str:
    return say("The {what} names no zone, so it is taken to have touched the whole farm.", what=facts.what)


def _override(facts: _Facts) -> str:
    return say(
        "For {what} the waiting time was set to {months} instead of {usual}. Reason given: {reason}",
        what=facts.what,
        months=facts.months(),
        usual=facts.months("usual_months"),
        reason=facts.facts["reason"],
    )


def _uncounted(facts: _Facts) -> str:
    said = say("{what} {when} does not close sampling.", what=facts.what, when=facts.when)
    said = f"{said[:1].upper()}{said[1:]}"
    reason = say("Reason given: {reason}", reason=facts.facts["reason"]) if facts.facts.get("reason") else ""
    return f"{said} {reason}".rstrip()


def _wait(facts: _Facts) -> str:
    return say(
        "{analysis} is not settled before {day}: it needs {months} after {what} {when}. "
        "The other analyses can be read.",
        analysis=analysis_name(str(facts.facts["analysis"])),
        day=facts.day("ready"),
        months=facts.months(),
        what=facts.what,
        when=facts.when,
    )


def _anniversary(facts: _Facts) -> str:
    if facts.facts["day"] == facts.facts["target"]:
        return say("Aim for {day}, the same time of year as last time.", day=facts.day("target"))
    return say(
        "The same time of year as last time would be {day}; the nearest day of the season is {nearest}.",
        day=facts.day("day"),
        nearest=facts.day("target"),
    )


def _middle(facts: _Facts) -> str:
    return say("With no earlier sampling, aim for the middle of the season, {day}.", day=facts.day("target"))


def _best_passed(facts: _Facts) -> str:
    return say("The best day, {day}, has passed: the sooner the better.", day=facts.day("day"))


def _tolerance(facts: _Facts) -> str:
    return say(
        "The preferred day lies more than {days} from the anniversary ({day}): a trend would mix seasons.",
        days=counted(int(facts.facts["tolerance_days"]), "day", "days"),
        day=facts.day("anniversary"),
    )


def _leave(facts: _Facts) -> str:
    return facts.with_taken(say("The practice is away: {reason}.", reason=facts.reason_given))


def _blackout(facts: _Facts) -> str:
    return facts.with_taken(say("Nobody goes on the land then: {reason}.", reason=facts.reason_given))


def _worked_days(facts: _Facts) -> str:
    weekdays = weekday_words(facts.facts["weekdays"])
    holidays = [date.fromisoformat(day) for day in facts.facts["holidays"]]
    if not holidays:
        return say("Samples are taken on {weekdays}.", weekdays=weekdays)
    return say(
        "Samples are taken on {weekdays}, and not on public holidays ({days}).",
        weekdays=weekdays,
        days=days_words(holidays, facts.language),
    )


def _holding(facts: _Facts) -> str:
    days = counted(int(facts.facts["days"]), "day", "days")
    weekdays = weekday_words(facts.facts["weekdays"])
    if not weekdays:
        return say(
            "The samples must reach the laboratory within {days}, and no day of the season allows that.", days=days
        )
    return say(
        "The samples must reach the laboratory within {days}, so they are taken on {weekdays} alone.",
        days=days,
        weekdays=weekdays,
    )


def _decision(facts: _Facts) -> str:
    return say(
        "Results are needed for {what} on {day}: the last day of sampling in time is {last}.",
        what=facts.facts["what"],
        day=facts.day("day"),
        last=facts.day("last_useful"),
    )


def _late(facts: _Facts) -> str:
    return say(
        "The days that are left are too late for {what} on {day}. They are open, but none is preferred.",
        what=facts.facts["what"],
        day=facts.day("day"),
    )


def _moisture(facts: _Facts) -> str:
    years = int(facts.facts["years"])
    return moisture_sentences(str(facts.facts["wanted"]), str(facts.facts["likelihood"]), years)


def weekday_words(names: tuple[str, ...]) -> str:
    """Return weekdays in words; Monday to Friday as a span.

    >>> weekday_words(("monday", "tuesday")), weekday_words(("monday", "tuesday", "wednesday", "thursday", "friday"))
    ('Mondays and Tuesdays', 'weekdays, Monday to Friday')
    """
    if names == ("monday", "tuesday", "wednesday", "thursday", "friday"):
        return say("weekdays, Monday to Friday")
    return joined([say_as("every week", _EVERY[name]) for name in names])


_EVERY = {
    "monday": marked_as("every week", "Mondays"),
    "tuesday": marked_as("every week", "Tuesdays"),
    "wednesday": marked_as("every week", "Wednesdays"),
    "thursday": marked_as("every week", "Thursdays"),
    "friday": marked_as("every week", "Fridays"),
    "saturday": marked_as("every week", "Saturdays"),
    "sunday": marked_as("every week", "Sundays"),
}


_SENTENCES: dict[Rule, Callable[[_Facts], str]] = {
    Rule.SEASON: _season,
    Rule.NEVER_SAMPLED: lambda _: say("This zone has not been sampled under this protocol before."),
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
