"""What the reports of a client rest on, gathered from the book; and which farm's report is due on a day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path

from soilrota.batch.advising import advise_client
from soilrota.batch.bags import missing_of
from soilrota.batch.judging import judge_client, sample_findings
from soilrota.batch.result_doubts import findings_on_results
from soilrota.batch.signatures import sign_state_of
from soilrota.batch.signing import signed_values
from soilrota.batch.weather import known_on, weather_for
from soilrota.documents import ReportGrounds
from soilrota.guidelines.choosing import sets_for
from soilrota.model.client import Client
from soilrota.model.intake import MissingBag
from soilrota.timing import tasks_of, window_of

#: Samplings of a farm that lie so close together are one visit [d]. House default.
_ONE_VISIT = timedelta(days=14)


def report_grounds(root: Path, client: Client, as_of: date) -> tuple[ReportGrounds, date]:
    """Return what the reports of a client rest on, and the last day on which the same is known.

    Windows are those of the day on which a report is made: they alone make no report anew.

    Args:
        root: the book's folder.
        client: the client.
        as_of: the as-of date.
    """
    samples = sample_findings(root, client)
    about_results, until = findings_on_results(root, client, as_of)
    judged = judge_client(client, samples)
    tasks = tasks_of(client, known_on(weather_for(root, client)[0] or {}, as_of))
    advice = advise_client(client, judged, samples, as_of)
    zones = (zone for farm in client.farms for zone in farm.zones)
    grounds = ReportGrounds(
        client=client,
        judged=judged.zones,
        spreads=judged.spreads,
        samples=samples,
        results=about_results,
        windows={task.key: window_of(task, as_of) for task in tasks},
        missing=missing_of(client, as_of),
        sign=sign_state_of(root, signed_values(client)),
        set_names={one.id: one.name for zone in zones for one in sets_for(client, zone)},
        needs=advice.needs,
        mixes=advice.mixes,
        priorities=advice.priorities,
        closings=advice.closings,
        products=client.practice.products,
    )
    return grounds, until


def waits_until(client: Client, farm: str, missing: Sequence[MissingBag], wait_days: int) -> date | None:
    """Return the last day on which the report of a farm waits for bags of its last visit; None where it awaits none.

    Args:
        client: the client.
        farm: id of the farm.
        missing: bags that have not come back.
        wait_days: how long a report waits for them after the visit [d].
    """
    awaited = [bag.since for bag in missing if bag.farm == farm]
    taken = [result.sampled for result in client.results if result.farm == farm]
    last = max([*awaited, *taken], default=None)
    if last is None or not any(since >= last - _ONE_VISIT for since in awaited):
        return None
    return last + timedelta(days=wait_days)
