"""Where a task stands.

The first row that holds is the state:

| state | holds when |
|---|---|
| not-known | a record that closes days has no date |
| bags-out | results of the last sampling are awaited, and the next season has not begun |
| results-in | results are in, the last sampling lies at most 6 months back, and the next season has not begun |
| overdue | the due season ended unsampled |
| no-day-left | the season has no open day from the as-of date on that is worked and keeps the samples |
| late-for-decision | days are left, but the results of none would be there for the decision |
| last-days | open on the as-of date, and the last day in time is at most 14 days away |
| open-today | open on the as-of date |
| opens-later | an open day comes |

A sampling from before the book's records awaits nothing, so it is never 'bags out'. Both numbers are house defaults.
"""

from __future__ import annotations

from datetime import date, timedelta

from soilrota.model.windows import Sampling, State
from soilrota.timing.frame import Choice, Frame
from soilrota.timing.months import add_months
from soilrota.timing.spans import ONE_DAY

#: How long results count as news, from the sampling on [month]. House default.
RESULTS_ARE_NEWS_MONTHS = 6
#: 'Last days' begin this long before the last open day [d]. House default.
LAST_DAYS = 14
# Looked up once: a member of an enumeration takes ten times as long as a name of the module.
_BAGS_OUT, _RESULTS_IN, _LATE_FOR_DECISION = State.BAGS_OUT, State.RESULTS_IN, State.LATE_FOR_DECISION
_OPENS_LATER, _OPEN_TODAY, _LAST_DAYS = State.OPENS_LATER, State.OPEN_TODAY, State.LAST_DAYS


def state_of(frame: Frame, choice: Choice) -> State:
    """Return where the task stands, by the table above."""
    on_time = choice.on_time
    if frame.undated:
        return State.NOT_KNOWN
    if frame.last_sampling is not None and frame.as_of < frame.due.first:
        after = _state_after_sampling(frame.last_sampling, frame.as_of)
        if after is not None:
            return after
    if frame.overdue_months is not None:
        return State.OVERDUE
    if not choice.workable:
        return State.NO_DAY_LEFT
    if not on_time:
        return State.LATE_FOR_DECISION
    if frame.as_of < choice.open[0].first:
        return State.OPENS_LATER
    return State.LAST_DAYS if (on_time[-1].last - frame.as_of).days <= LAST_DAYS else State.OPEN_TODAY


def _state_after_sampling(last: Sampling, as_of: date) -> State | None:
    """Return the state of a task that was just sampled; None when that is no longer news."""
    if last.reported is None:
        return State.BAGS_OUT if last.awaited else None
    return State.RESULTS_IN if as_of <= add_months(last.day, RESULTS_ARE_NEWS_MONTHS) else None


def state_holds_until(frame: Frame, choice: Choice, state: State) -> date:
    """Return the last as-of date on which the calendar alone leaves the state as it is; `date.max` when for good."""
    open_days, on_time = choice.open, choice.on_time
    if state is _BAGS_OUT:
        return frame.due.first - ONE_DAY
    if state is _RESULTS_IN and frame.last_sampling is not None:
        return min(frame.due.first - ONE_DAY, add_months(frame.last_sampling.day, RESULTS_ARE_NEWS_MONTHS))
    if state is _OPENS_LATER:
        return min(open_days[0].first - ONE_DAY, on_time[-1].last)
    if state is _LAST_DAYS:
        return min(open_days[0].last, on_time[-1].last)
    if state is _OPEN_TODAY:
        return min(open_days[0].last, on_time[-1].last - timedelta(days=LAST_DAYS + 1))
    return choice.workable[-1].last if state is _LATE_FOR_DECISION else date.max
