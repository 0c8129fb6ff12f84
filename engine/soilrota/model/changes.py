"""What would change an answer: one record moved, dropped or dated, and the window that would follow."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from soilrota.problems import Place


class ChangeKind(StrEnum):
    """What would be done with the record."""

    EARLIER = "earlier"
    LATER = "later"
    DROPPED = "dropped"
    DATED = "dated"


@dataclass(frozen=True, slots=True)
class Change:
    """One change of one record.

    Attributes:
        kind: what would be done.
        place: the record.
        what: what was spread: class and material.
        days: by how many days it would move [d]; 0 where it does not move.
        first_day: its first day then; None where it has none.
        opens: first open day from the as-of date on that would follow; None where nobody can say.
        preferred: the preferred day that would follow; None where nobody can say.
    """

    kind: ChangeKind
    place: Place
    what: tuple[str, str]
    days: int
    first_day: date | None
    opens: date | None
    preferred: date | None
