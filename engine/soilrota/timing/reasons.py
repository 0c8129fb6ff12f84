"""Why a window is what it is, as data, in the order in which the rules decided.

Facts of each rule; a fact in brackets is there only when known:

| rule | place | facts |
|---|---|---|
| sampled | the sampling | day, bags, [reported] |
| never-sampled | the task | |
| due-season | the task | due_on, interval_months, season, label, first, last |
| overdue | the task | months, label, last (of the missed season) |
| season | the task | season, label, first, last (of the season that the answer is about) |
| spread-undated | the application | class, material, standing, [first_day] |
| spread, spread-planned | the application | class, material, [first_day], last_day, months, open_again |
| plan-has-passed | the application | class, material, [first_day], last_day |
| spread-no-zone | the application | class, material, farm |
| gap-override | the override | class, material, months, usual_months, reason |
| class-does-not-count | the application | class, material, [first_day], [last_day], [reason] |
| anniversary | the sampling | day, target |
| middle-of-season | | target |
| best-day-passed | | day (the best open day of the season, now past) |
| outside-tolerance | the sampling | anniversary, tolerance_days |
| leave, blackout | the closure | reason |
| worked-days | | weekdays, holidays (days of the season that are public holidays) |
| holding | the task | days, weekdays (on which a bag can be taken) |
| decision | the decision | day, what, last_useful |
| late | the decision | day, what, last_useful |
| moisture | | station, years, wanted, likelihood (of the preferred day), [recorded, state, share] |
| analysis-wait | the application | analysis, ready, class, material, [first_day], last_day, months, source |

An application is named when it takes days of the season. Beyond that, an override is named wherever the usual gap
would have taken days of the season, and a class that does not count where it was spread in the season or in the year
before it (house default).
"""

from __future__ import annotations

from soilrota.model.applications import Standing
from soilrota.model.windows import AppliedGap, Fact, Reason, Rule, Span
from soilrota.problems import Place
from soilrota.timing.frame import Choice, Frame
from soilrota.timing.gaps import closed_span, closes, dated_facts, material_facts, no_zone_note, override_note
from soilrota.timing.months import add_months
from soilrota.timing.practical_reasons import decision_reasons, moisture_reasons, work_reasons
from soilrota.timing.waits import Wait

# Looked up once: a member of an enumeration takes ten times as long as a name of the module.
_CANCELLED = Standing.CANCELLED
_SEASON, _SAMPLED, _DUE_SEASON = Rule.SEASON, Rule.SAMPLED, Rule.DUE_SEASON
_ANNIVERSARY, _OUTSIDE_TOLERANCE = Rule.ANNIVERSARY, Rule.OUTSIDE_TOLERANCE


def reasons_of(frame: Frame, choice: Choice, waits: tuple[Wait, ...]) -> tuple[Reason, ...]:
    """Return the reasons of a window.

    Args:
        frame: what was asked.
        choice: what was chosen, and from what.
        waits: analyses that are not ready on the preferred day.
    """
    reasons = _calendar(frame)
    if frame.undated:
        reasons += _undated(frame)
    if frame.taken:
        reasons += _closed(frame)
    if frame.task.applications:
        reasons += _said_without_closing(frame)
    if choice.season_open:
        reasons += work_reasons(frame, choice)
    reasons += decision_reasons(frame, choice)
    reasons += _choice(frame, choice)
    reasons += moisture_reasons(frame, choice)
    reasons += [_wait(wait) for wait in waits]
    return tuple(reasons)


def _calendar(frame: Frame) -> list[Reason]:
    """Return which season is asked about, and why."""
    place = frame.task.place
    season_facts = _season_facts(frame, frame.season)
    season = Reason(_SEASON, place, (), season_facts)
    last = frame.last_sampling
    if last is None or frame.due_on is None:
        return [Reason(Rule.NEVER_SAMPLED, place), season]
    facts: dict[str, Fact] = {"day": last.day, "bags": last.bags}
    if last.reported is not None:
        facts["reported"] = last.reported
    sampled = Reason(_SAMPLED, last.place, (), facts)
    due_facts = season_facts if frame.overdue_months is None else _season_facts(frame, frame.due)
    facts = {"due_on": frame.due_on, "interval_months": frame.task.interval_months, **due_facts}
    due = Reason(_DUE_SEASON, place, (), facts)
    if frame.overdue_months is None:
        return [sampled, due, season]
    facts = {"months": frame.overdue_months, "label": due_facts["label"], "last": frame.due.last}
    return [sampled, due, Reason(Rule.OVERDUE, place, facts=facts), season]


def _season_facts(frame: Frame, span: Span) -> dict[str, Fact]:
    """Return the facts of one occurrence of the task's season."""
    return {"season": frame.task.season, "label": span.label, "first": span.first, "last": span.last}


def _undated(frame: Frame) -> list[Reason]:
    """Return the applications that make the answer 'not known'."""
    reasons = []
    for record in frame.undated:
        application = record.application
        facts = {**dated_facts(application), "standing": str(application.standing)}
        reasons += [Reason(Rule.SPREAD_UNDATED, application.place, facts=facts), *no_zone_note(record)]
    return reasons


def _closed(frame: Frame) -> list[Reason]:
    """Return what took days of the season, each with what must be said with it."""
    reasons = []
    for closing, span in frame.taken:
        reasons += [closing.reason_for((span,)), *closing.notes]
    return reasons


def _said_without_closing(frame: Frame) -> list[Reason]:
    """Return overrides and uncounted classes that matter although they took no day."""
    reasons = []
    found = [record for record in frame.task.applications if record.override_reason or not record.counts]
    for record in sorted(found, key=_place) if len(found) > 1 else found:
        if record.application.standing is _CANCELLED:
            continue
        if not record.counts:
            reasons += _uncounted(frame, record)
        elif _override_freed_days(frame, record):
            reasons += override_note(record)
    return reasons


def _place(record: AppliedGap) -> Place:
    """Return where an application stands."""
    return record.application.place


def _override_freed_days(frame: Frame, record: AppliedGap) -> bool:
    """Return whether the application takes no day of the season, but would under the usual gap."""
    first_day, last_day = record.application.first_day, record.application.last_day
    if not closes(record) or not record.override_reason or last_day is None:
        return False
    season = frame.season
    if season.meets(closed_span(first_day, last_day, record.months)):
        return False
    return season.meets(closed_span(first_day, last_day, record.usual_months))


def _uncounted(frame: Frame, record: AppliedGap) -> list[Reason]:
    """Return that a class does not count, where it was spread in the season or in the year before."""
    application = record.application
    first_day = application.first_day or application.last_day
    last_day = application.last_day or application.first_day
    if first_day is not None and last_day is not None:
        year_before = add_months(frame.season.first, -12)
        if last_day < year_before or first_day > frame.season.last:
            return []
    reason: dict[str, Fact] = {"reason": record.class_reason} if record.class_reason else {}
    facts = {**dated_facts(application), **reason}
    return [Reason(Rule.CLASS_DOES_NOT_COUNT, application.place, facts=facts)]


def _choice(frame: Frame, choice: Choice) -> list[Reason]:
    """Return why the preferred day is preferred."""
    last, anniversary = frame.last_sampling, frame.anniversary
    if last is None or anniversary is None:
        reasons = [Reason(Rule.MIDDLE_OF_SEASON, facts={"target": frame.target})]
    else:
        reasons = [Reason(_ANNIVERSARY, last.place, facts={"day": anniversary, "target": frame.target})]
    preferred, season_best = choice.preferred, choice.season_best
    if preferred is None or season_best is None:
        return reasons
    if choice.best_has_passed:
        reasons.append(Reason(Rule.BEST_DAY_PASSED, facts={"day": season_best}))
    tolerance = frame.task.tolerance_days
    if last is not None and anniversary is not None and abs((preferred - anniversary).days) > tolerance:
        facts: dict[str, Fact] = {"anniversary": anniversary, "tolerance_days": tolerance}
        reasons.append(Reason(_OUTSIDE_TOLERANCE, last.place, facts=facts))
    return reasons


def _wait(wait: Wait) -> Reason:
    """Return that an analysis is not ready on the preferred day."""
    facts: dict[str, Fact] = {"analysis": wait.analysis, "ready": wait.ready, "months": wait.rule.months}
    facts |= {**dated_facts(wait.application), **material_facts(wait.application), "source": wait.rule.source}
    return Reason(Rule.ANALYSIS_WAIT, wait.application.place, facts=facts)
