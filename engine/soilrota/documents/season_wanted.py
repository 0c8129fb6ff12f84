"""Which tasks of the season need somebody first, in words: the most urgent state first, a line a client."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from soilrota.documents.dates import counted, joined, long_day
from soilrota.documents.season_view import SeasonTask, SeasonView, WantedGroup
from soilrota.documents.words import STATES
from soilrota.language import marked, say, spoken
from soilrota.model.windows import State

#: States by urgency, as the page sorts them.
URGENCY = (
    State.OVERDUE,
    State.LAST_DAYS,
    State.LATE_FOR_DECISION,
    State.NO_DAY_LEFT,
    State.NOT_KNOWN,
    State.OPEN_TODAY,
    State.OPENS_LATER,
    State.BAGS_OUT,
    State.RESULTS_IN,
)
#: What somebody is to do about a state; the states that need nobody today are not named.
MEANINGS = {
    State.OVERDUE: marked("Their season ended without a sample. Give them a day, or tell the client why not."),
    State.LAST_DAYS: marked("The season closes soon. Sample these first."),
    State.LATE_FOR_DECISION: marked("Open, but the results come after the client's decision. Ring the client."),
    State.NO_DAY_LEFT: marked("Something takes every day that was left. The programme names the ways out."),
    State.NOT_KNOWN: marked("A spreading has no date. Ask the client for it."),
}
_MOST_ZONES = 4


def wanted_groups(view: SeasonView) -> tuple[WantedGroup, ...]:
    """Return what needs somebody today: first what is no task, then tasks by the urgency of their state."""
    names = {client.id: client.name for client in view.clients}
    return (*view.wanted, *_of_tasks(view.tasks, names))


def _of_tasks(tasks: Sequence[SeasonTask], names: dict[str, str]) -> Iterator[WantedGroup]:
    """Yield the groups of tasks."""
    by_state: defaultdict[State, defaultdict[str, list[SeasonTask]]] = defaultdict(lambda: defaultdict(list))
    for task in tasks:
        if task.state in MEANINGS:
            by_state[task.state][task.client].append(task)
    for state in URGENCY:
        if clients := by_state.get(state):
            lines = tuple(f"{names[client]}: {_zones(some)}" for client, some in clients.items())
            count = sum(map(len, clients.values()))
            yield WantedGroup(say(STATES[state]), say(MEANINGS[state]), lines, state, count)


def _zones(tasks: list[SeasonTask]) -> str:
    """Return the zones of some tasks of one client and state, the first few by name, with their last open day."""
    zones = list(dict.fromkeys(task.zone for task in tasks))
    named = zones[:_MOST_ZONES]
    if len(zones) > len(named):
        named.append(say("{count} more", count=len(zones) - len(named)))
    words = joined(named)
    if len(tasks) > len(zones):
        count = counted(len(tasks), "task", "tasks")
        words = f"{words} ({count})"
    last = min((task.open[-1].last for task in tasks if task.state is State.LAST_DAYS and task.open), default=None)
    return say("{zones}, until {day}", zones=words, day=long_day(last, spoken())) if last else words
