"""Reasons of the practical rules: worked days, holding times, decisions, moisture. The table stands in `reasons`."""

from __future__ import annotations

from functools import lru_cache

from soilrota.model.moisture import Likelihood
from soilrota.model.windows import Fact, Reason, Rule
from soilrota.timing.frame import Choice, Frame
from soilrota.timing.work_calendar import holidays_in

_WEEK = 7
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
# Looked up once: a member of an enumeration takes ten times as long as a name of the module.
_WORKED_DAYS, _HOLDING, _MOISTURE = Rule.WORKED_DAYS, Rule.HOLDING, Rule.MOISTURE
_LIKELIHOODS = {likelihood: likelihood.name.lower() for likelihood in Likelihood}


def work_reasons(frame: Frame, choice: Choice) -> list[Reason]:
    """Return which of the open days are worked, and on which weekdays a bag keeps until the laboratory has it."""
    if not choice.season_open:
        return []
    calendar, task = frame.task.calendar, frame.task
    reasons = []
    holidays = holidays_in(choice.season_open, calendar)
    if len(calendar.weekdays) < _WEEK or holidays:
        facts: dict[str, Fact] = {"weekdays": _names(calendar.weekdays), "holidays": holidays}
        reasons.append(Reason(_WORKED_DAYS, facts=facts))
    if task.holding_days is not None and choice.loses_bags:
        weekdays = choice.kept.weekdays().intersection(calendar.weekdays)
        facts = {"days": task.holding_days, "weekdays": _names(tuple(weekdays))}
        reasons.append(Reason(_HOLDING, task.place, facts=facts))
    return reasons


@lru_cache(maxsize=256)
def _names(weekdays: tuple[int, ...]) -> tuple[str, ...]:
    """Return the names of ISO weekdays, from Monday on."""
    return tuple([_WEEKDAYS[weekday - 1] for weekday in sorted(weekdays)])


def decision_reasons(frame: Frame, choice: Choice) -> list[Reason]:
    """Return which decision the results are for, and which open days are too late for it."""
    if frame.decision is None or frame.last_useful is None:
        return []
    facts: dict[str, Fact] = {
        "day": frame.decision.day,
        "what": frame.decision.what,
        "last_useful": frame.last_useful,
    }
    reasons = [Reason(Rule.DECISION, frame.decision.place, facts=facts)]
    if choice.workable and not choice.on_time:
        reasons.append(Reason(Rule.LATE, frame.decision.place, facts=facts))
    return reasons


def moisture_reasons(frame: Frame, choice: Choice) -> list[Reason]:
    """Return what the weather record says of the preferred day, while that day is chosen and not just the first."""
    outlook, preferred = frame.task.moisture, choice.preferred
    if outlook is None or preferred is None or choice.best_has_passed:
        return []
    facts: dict[str, Fact] = {
        "station": outlook.station,
        "years": outlook.years,
        "wanted": outlook.wanted,
        "likelihood": _LIKELIHOODS[outlook.on(preferred)],
    }
    if outlook.recorded is not None:
        facts |= {"recorded": outlook.recorded.day, "state": outlook.recorded.state}
    return [Reason(_MOISTURE, facts=facts)]
