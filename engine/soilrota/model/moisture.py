"""How moist the soil was, and how often each calendar day finds it as the protocol wants it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import IntEnum

#: Days of a calendar that has a 29 February.
CALENDAR_DAYS = 366
_LEAP_YEAR = 2024


class Likelihood(IntEnum):
    """How often a calendar day finds the wanted soil: larger is better."""

    SELDOM = 0
    SOMETIMES = 1
    MOSTLY = 2


@dataclass(frozen=True, slots=True)
class RecordedMoisture:
    """The soil on the last day of the weather record.

    Attributes:
        day: the day.
        share: water in the soil as a share of what is available at field capacity [-]; None where not known.
        state: `dry`, `moist`, `wet` or `not-known`.
    """

    day: date
    share: float | None
    state: str


@dataclass(frozen=True, slots=True)
class MoistureOutlook:
    """What the weather record says of the days to come.

    Attributes:
        station: id of the station.
        years: past years that every calendar day has behind it at least, 29 February apart [-].
        wanted: `moist` or `dry`: what the protocol prefers.
        likelihoods: of the 366 calendar days, from 1 January on, 29 February included.
        recorded: the soil on the last day of the record; None without a record.
        shares: of the 366 calendar days, in how large a share of past years it had the wanted soil [-]; may be empty.
        enough_years: whether the years suffice for a climatology; where not, that is said.
    """

    station: str
    years: int
    wanted: str
    likelihoods: tuple[Likelihood, ...]
    recorded: RecordedMoisture | None
    shares: tuple[float, ...] = ()
    enough_years: bool = True

    def on(self, day: date) -> Likelihood:
        """Return how often that calendar day finds the wanted soil."""
        return self.likelihoods[calendar_index(day)]


def calendar_index(day: date) -> int:
    """Return the position of a day in a calendar that has a 29 February, from 0 on 1 January.

    >>> calendar_index(date(2027, 1, 1)), calendar_index(date(2027, 3, 1)), calendar_index(date(2028, 3, 1))
    (0, 60, 60)
    """
    return (date(_LEAP_YEAR, day.month, day.day) - date(_LEAP_YEAR, 1, 1)).days
