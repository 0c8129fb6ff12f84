"""Driving between bases and farms: distances, minutes, the shortest round."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, permutations

import numpy as np
import numpy.typing as npt

from soilrota.model.field_calendar import Crew, TravelFigures, VisitToPlace
from soilrota.model.ground import Position

#: Mean radius of the earth [km]: R1 of the GRS 80 ellipsoid (Moritz, H. (2000), Geodetic Reference System 1980,
#: Journal of Geodesy 74, 128-133).
_EARTH_KM = 6371.0088
#: A leg may be this much over a whole minute without counting as the next: rounding of the arithmetic [min].
_ROUNDING = 1e-9


def great_circle_km(places: Sequence[Position]) -> npt.NDArray[np.float64]:
    """Return the great-circle distances [km] between all places (longitude, latitude) [degree].

    Haversine formula: Sinnott, R. W. (1984), Virtues of the haversine, Sky and Telescope 68(2), 159.
    """
    longitude, latitude = np.radians(np.array(places, dtype=float).reshape(-1, 2)).T
    half_lat = np.sin((latitude[:, None] - latitude[None, :]) / 2) ** 2
    half_lon = np.sin((longitude[:, None] - longitude[None, :]) / 2) ** 2
    chord = half_lat + np.cos(latitude)[:, None] * np.cos(latitude)[None, :] * half_lon
    distances: npt.NDArray[np.float64] = 2 * _EARTH_KM * np.arcsin(np.sqrt(np.clip(chord, 0, 1)))
    return distances


class Roads:
    """Driving among numbered visits and people; rounds are remembered.

    A leg takes whole minutes, rounded up. A farm of which the place is not known is driven to and back from the base
    by itself, in minutes that the figures state.
    """

    def __init__(self, visits: Sequence[VisitToPlace], people: Sequence[Crew], figures: TravelFigures) -> None:
        """Measure all legs."""
        known = [visit.position for visit in visits if visit.position is not None]
        kilometres = figures.detour * great_circle_km([*known, *(person.base for person in people)])
        minutes = np.ceil(kilometres * 60 / figures.speed_km_h - _ROUNDING).astype(int)
        rows = iter(range(len(known)))
        self._row = [None if visit.position is None else next(rows) for visit in visits]
        self._base = [len(known) + number for number in range(len(people))]
        self._minutes: list[list[int]] = minutes.tolist()
        self._kilometres: list[list[float]] = kilometres.tolist()
        self._unknown_minutes = 2 * figures.unknown_one_way_minutes
        self._unknown_km = self._unknown_minutes * figures.speed_km_h / 60
        self._rounds: dict[tuple[int, tuple[int, ...]], tuple[int, tuple[int, ...]]] = {}

    def way_km(self, person: int, visit: int) -> float | None:
        """Return the way by road from a person's base to a visit [km]; None where the place is not known."""
        row = self._row[visit]
        return None if row is None else self._kilometres[self._base[person]][row]

    def there_and_back(self, person: int, visit: int) -> int:
        """Return the minutes of driving from the base to one visit and back [min]."""
        row = self._row[visit]
        return self._unknown_minutes if row is None else 2 * self._minutes[self._base[person]][row]

    def between(self, visit: int, other: int) -> int:
        """Return the minutes of driving between two visits [min]; those of two ways to the base where not known."""
        row, column = self._row[visit], self._row[other]
        return self._unknown_minutes if row is None or column is None else self._minutes[row][column]

    def round_minutes(self, person: int, visits: tuple[int, ...]) -> int:
        """Return the minutes of the shortest round from the base through the visits (in order of number) and back."""
        return self._round(person, visits)[0]

    def round_order(self, person: int, visits: tuple[int, ...]) -> tuple[int, ...]:
        """Return the visits in the order of the shortest round; of equal ones the first in order of number."""
        return self._round(person, visits)[1]

    def round_km(self, person: int, order: tuple[int, ...]) -> float:
        """Return the length of a round in the given order [km]."""
        base = self._base[person]
        rows = [row for row in (self._row[visit] for visit in order) if row is not None]
        legs = sum(self._kilometres[one][other] for one, other in pairwise([base, *rows, base]))
        return legs + self._unknown_km * (len(order) - len(rows))

    def _round(self, person: int, visits: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
        """Return minutes and order of the shortest round, looked up or found by trying every order."""
        found = self._rounds.get((person, visits))
        if found is None:
            found = self._rounds[person, visits] = self._shortest(person, visits)
        return found

    def _shortest(self, person: int, visits: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
        """Return minutes and order of the shortest round; a round and its reverse are tried once."""
        known = [visit for visit in visits if self._row[visit] is not None]
        elsewhere = tuple(visit for visit in visits if self._row[visit] is None)
        extra = self._unknown_minutes * len(elsewhere)
        if not known:
            return extra, elsewhere
        from_base = self._minutes[self._base[person]]
        best: tuple[int, tuple[int, ...]] | None = None
        for order in permutations(known):
            if order[0] > order[-1]:
                continue
            rows = [self._row[visit] or 0 for visit in order]
            minutes = from_base[rows[0]] + from_base[rows[-1]]
            minutes += sum(self._minutes[one][other] for one, other in pairwise(rows))
            if best is None or minutes < best[0]:
                best = minutes, order
        assert best is not None  # the loop keeps one of every order and its reverse
        return best[0] + extra, best[1] + elsewhere
