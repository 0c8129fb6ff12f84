"""Made-up seasons of any length, the same for the same number."""

from __future__ import annotations

import random
from datetime import date, timedelta

from soilrota.documents import PaperLink, SeasonClient, SeasonTask, SeasonView
from soilrota.model.windows import Span, State

DAY = date(2027, 2, 15)
PEOPLE = ("Ada Brook", "Ben Carr", "Cy Dell", "Édith Fenn")
_ZONES = ("North flat", "Barn", "Long ridge", "Creek", "Dam", "Night paddock")
_PROTOCOLS = ("Topsoil under pasture", "Deep nitrogen before sowing")


def a_season(count: int, tasks_a_client: int = 12) -> SeasonView:
    """Return a season of so many tasks [-]."""
    chance = random.Random(count)
    clients = tuple(
        SeasonClient(f"client-{number}", f"Farm {number}", (_paper(number, "Programme", "programme.pdf"),))
        for number in range(-(-count // tasks_a_client))
    )
    tasks = tuple(_task(chance, clients[number // tasks_a_client], number // tasks_a_client) for number in range(count))
    return SeasonView("Small Soil Practice", tasks, clients, (PaperLink("Field calendar", "field_calendar.pdf"),))


def _paper(number: int, words: str, name: str) -> PaperLink:
    """Return a paper of a client."""
    return PaperLink(words, f"clients/client-{number}/{name}")


def _task(chance: random.Random, client: SeasonClient, number: int) -> SeasonTask:
    """Return one task."""
    first = DAY + timedelta(chance.randint(-60, 250))
    season = Span(first, first + timedelta(chance.randint(30, 90)))
    gap = first + timedelta(chance.randint(5, 20))
    state = chance.choice(list(State))
    best = gap + timedelta(chance.randint(1, 8)) if chance.random() < 0.8 else None
    planned = best if best is not None and chance.random() < 0.6 else None
    return SeasonTask(
        client=client.id,
        farm=chance.choice(("Home block", client.name)),
        zone=f"{chance.choice(_ZONES)} {chance.randint(1, 9)}",
        protocol=chance.choice(_PROTOCOLS),
        state=state,
        season_name="Late summer",
        season=season,
        open=(Span(gap, season.last),),
        closed=(Span(season.first, gap - timedelta(1)),),
        spreading=(Span(season.first, season.first),) if chance.random() < 0.3 else (),
        best=best,
        planned=planned,
        person=chance.choice(PEOPLE[1:]) if planned else "",
        adviser=PEOPLE[0],
        last_sampled=DAY - timedelta(360),
        months_overdue=chance.randint(0, 9) if state is State.OVERDUE else None,
        papers=(_paper(number, "Field pack", "field_pack-home-1.pdf"),) if planned else (),
        is_current=chance.random() < 0.95,
    )
