"""From what the ledger keeps as text to the values of the season page: tasks, their days and people, their papers."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date

from soilrota.batch.outputs import document_name
from soilrota.batch.season_facts import SeasonFacts
from soilrota.batch.values import PlacedRow, SeasonRow, VisitRow
from soilrota.batch.visit_rows import bags_of
from soilrota.documents import PaperLink, SeasonClient, SeasonTask, SeasonView, WantedGroup
from soilrota.language import marked, said_again, say, speaking
from soilrota.model.windows import Span, State

#: Files of the output folder that the page links to, in this order, and what people call them.
_CLIENT_PAPERS = {
    "farm_report.pdf": marked("Farm report"),
    "programme.pdf": marked("Programme"),
    "results.xlsx": marked("Results"),
}
_PRACTICE_PAPERS = {
    "field_calendar.pdf": marked("Field calendar"),
    "laboratory_checks.pdf": marked("Laboratory checks"),
    "season.csv": marked("All tasks as a table"),
}
_PACK, _LABELS = "field_pack-", "labels-"
_CURRENT = "current"


def season_view(facts: SeasonFacts) -> SeasonView:
    """Return what the season page shows, in the practice's language."""
    with speaking(facts.language):
        return _view(facts)


def _view(facts: SeasonFacts) -> SeasonView:
    """Return the view in the language that is spoken."""
    visits = {key: visit for some in facts.visits.values() for visit in some for key in _tasks_of(visit)}
    placed = {row["visit"]: row for row in facts.placed}
    names: dict[str, str] = {}
    for row in facts.rows:
        names.setdefault(row["client"], row.get("client_name") or row["client"])
    return SeasonView(
        practice=facts.practice,
        tasks=tuple(_task(row, visits.get(_key(row)), placed, facts.papers) for row in facts.rows),
        clients=tuple(
            SeasonClient(client, name, tuple(_client_papers(client, facts.papers.get(client, ()))))
            for client, name in names.items()
        ),
        papers=tuple(PaperLink(say(words), name) for name, words in _PRACTICE_PAPERS.items() if name in facts.shared),
        wanted=tuple(
            WantedGroup(say(one.heading), say(one.meaning), tuple(map(said_again, one.lines)), count=one.count)
            for one in facts.wanting
        ),
        language=facts.language,
    )


def _tasks_of(visit: VisitRow) -> Iterator[tuple[str, str, str, str]]:
    """Yield the tasks of a visit: client, farm, zone, protocol."""
    for bag in bags_of(visit):
        yield visit["client"], bag.farm, bag.zone, bag.protocol


def _key(row: SeasonRow) -> tuple[str, str, str, str]:
    """Return which task a row is of."""
    return row["client"], row.get("farm", ""), row.get("zone", ""), row.get("protocol", "")


def _task(
    row: SeasonRow, visit: VisitRow | None, placed: Mapping[str, PlacedRow], papers: Mapping[str, Sequence[str]]
) -> SeasonTask:
    """Return one task; a row from before a column was there lacks it."""
    place = placed.get(visit["visit"]) if visit else None
    overdue = row.get("months_overdue")
    return SeasonTask(
        client=row["client"],
        farm=row.get("farm_name", ""),
        zone=row.get("zone_name") or row.get("zone", ""),
        protocol=row.get("protocol_name", ""),
        state=State(row.get("state") or State.NOT_KNOWN),
        season_name=row.get("season_name", ""),
        season=_span(f"{row['season_first']}/{row['season_last']}") if row.get("season_first") else None,
        open=_spans(row.get("open_days")),
        closed=_spans(row.get("closed_days")),
        spreading=_spans(row.get("planned_spreading")),
        best=_day(row.get("best_day")),
        best_passed=row.get("best_day_passed") == "yes",
        planned=_day(place["day"]) if place else None,
        person=place["person"] if place else "",
        adviser=row.get("adviser", ""),
        last_sampled=_day(row.get("last_sampled")),
        months_overdue=int(overdue) if overdue else None,
        papers=tuple(_visit_papers(visit, papers.get(row["client"], ()))) if visit else (),
        is_current=row.get("standing") == _CURRENT,
    )


def _visit_papers(visit: VisitRow, names: Sequence[str]) -> Iterator[PaperLink]:
    """Yield field pack and labels of a visit, where they are made."""
    number = visit["visit"].rpartition("/")[2]
    for words, start in ((say("Field pack"), _PACK), (say("Labels"), _LABELS)):
        name = f"{start}{visit['farm']}-{number}.pdf"
        if name in names:
            yield PaperLink(words, document_name(visit["client"], name))


def _client_papers(client: str, names: Collection[str]) -> Iterator[PaperLink]:
    """Yield the papers of a client that are not of one visit alone."""
    for name, words in _CLIENT_PAPERS.items():
        if name in names:
            yield PaperLink(say(words), document_name(client, name))


def _day(text: str | None) -> date | None:
    """Return a day; None for no text."""
    return date.fromisoformat(text) if text else None


def _span(text: str) -> Span:
    """Return a span of the form `first/last`."""
    first, _, last = text.partition("/")
    return Span(date.fromisoformat(first), date.fromisoformat(last))


def _spans(text: str | None) -> tuple[Span, ...]:
    """Return spans with blanks between."""
    return tuple(map(_span, text.split())) if text else ()
