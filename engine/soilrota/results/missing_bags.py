"""Bags that were taken and have not come back.

House defaults, where the rules leave it open:

- An id of ours names one bag for ever, so any result under it is that bag's. Older ids may come round again: under them
  a result counts where it is of the same day, give or take what `guidelines/intake.yaml` allows.
- A result of the same ground, layer and day is the bag's, whatever id stands beside it.
- Two field notes about one bag are one bag.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Mapping, Sequence
from datetime import date, timedelta

from soilrota.bag_ids import is_bag_id
from soilrota.guidelines.intake import intake_figures
from soilrota.model.intake import ClientBags, MissingBag
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.results.bag_directory import bag_key


def missing_bags(
    clients: Sequence[ClientBags],
    results: Mapping[str, Sequence[Result]],
    as_of: date,
    *,
    laboratory_of: Callable[[str, FieldNote], str],
    due_of: Callable[[str, FieldNote], date | None],
) -> tuple[MissingBag, ...]:
    """Return the bags of field notes of which no result stands, the longest missing first.

    Args:
        clients: the bags of every client.
        results: what stands, by client id.
        as_of: day of the night; notes after it, and notes too old to wait for, are left out.
        laboratory_of: the laboratory of a client's note; empty where none is known.
        due_of: day by which the results of a client's note were to be expected; None where it cannot be told.
    """
    oldest = as_of - timedelta(days=intake_figures().missing_after_days)
    found: list[MissingBag] = []
    for client in clients:
        came = _Came(results.get(client.client, ()))
        named: set[Hashable] = set()
        for note in client.notes:
            bag = (bag_key(note.bag), *_soil(note)) if note.bag else (note.protocol, *_soil(note))
            if oldest <= note.day <= as_of and bag not in named and not came.back(note):
                found.append(_missing(client.client, note, laboratory_of, due_of))
            named.add(bag)
    return tuple(sorted(found, key=lambda one: (one.since, one.client, one.farm, one.zone, one.top_cm, one.bag)))


def _missing(
    client: str,
    note: FieldNote,
    laboratory_of: Callable[[str, FieldNote], str],
    due_of: Callable[[str, FieldNote], date | None],
) -> MissingBag:
    """Return the bag of a note as one that has not come back."""
    return MissingBag(
        client=client,
        farm=note.farm,
        zone=note.zone,
        protocol=note.protocol,
        bag=note.bag,
        top_cm=note.top_cm,
        bottom_cm=note.bottom_cm,
        since=note.day,
        due=due_of(client, note),
        laboratory=laboratory_of(client, note),
    )


def _soil(one: FieldNote) -> tuple[Hashable, ...]:
    """Return ground, layer and day of a note."""
    return one.farm, one.zone, one.top_cm, one.bottom_cm, one.day


class _Came:
    """What came back of a client."""

    def __init__(self, results: Sequence[Result]) -> None:
        self._soils = {(one.farm, one.zone, one.top_cm, one.bottom_cm, one.sampled) for one in results}
        self._days: defaultdict[str, set[date]] = defaultdict(set)
        for one in results:
            if one.bag:
                self._days[bag_key(one.bag)].add(one.sampled)

    def back(self, note: FieldNote) -> bool:
        """Return whether a result of the bag of a note stands."""
        if _soil(note) in self._soils:
            return True
        key = bag_key(note.bag)
        days = self._days.get(key, ()) if note.bag else ()
        apart = timedelta(days=intake_figures().sampled_days_apart)
        return any(is_bag_id(key) or abs(day - note.day) <= apart for day in days)
