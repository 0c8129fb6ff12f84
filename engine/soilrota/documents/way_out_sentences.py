"""Ways out of a season without a day, as sentences."""

from __future__ import annotations

from soilrota.documents.dates import counted, long_day, spans_words
from soilrota.language import marked, say
from soilrota.model.windows import WayOut, WayOutKind

_WAYS = {
    WayOutKind.BEFORE_PLANNED: marked("Sample before the spreading that is planned"),
    WayOutKind.AFTER_GAP: marked("Sample after the waiting time, outside the season"),
    WayOutKind.NEXT_SEASON: marked("Wait for the next season"),
    WayOutKind.MOVE_PLANNED: marked("Put the planned spreading off until the samples are taken"),
}


#: Ways out whose days begin today.
_BEGIN_TODAY = frozenset({WayOutKind.BEFORE_PLANNED, WayOutKind.MOVE_PLANNED})


def way_out_sentence(way: WayOut, language: str) -> str:
    """Return a way out as a sentence, with its days and what it costs."""
    costs = []
    if way.months_late:
        costs.append(say("{months} later than due", months=counted(way.months_late, "month", "months")))
    if way.days_out_of_season:
        outside = counted(way.days_out_of_season, "day", "days")
        costs.append(say("{days} outside the season, so a trend would mix seasons", days=outside))
    words = _way_words(way, language)
    if not costs:
        return words
    cost = say("The cost: {costs}.", costs="; ".join(costs))
    return f"{words} {cost}"


def _way_words(way: WayOut, language: str) -> str:
    """Return a way out with its days."""
    todo, best = say(_WAYS[way.kind]), long_day(way.best, language)
    if way.kind not in _BEGIN_TODAY:
        return say("{way}: {days}, best on {best}.", way=todo, days=spans_words(way.spans, language), best=best)
    # Days that begin today would change every night while nothing else does.
    last = long_day(way.spans[-1].last, language)
    if way.best == way.spans[0].first:
        return say("{way}: up to {last}, the sooner the better.", way=todo, last=last)
    return say("{way}: up to {last}, best on {best}.", way=todo, last=last, best=best)
