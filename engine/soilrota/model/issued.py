"""What was given out to crews and must mean the same for ever: bag ids and sampling points."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from soilrota.model.field_pack import Bag
    from soilrota.model.ground import Position


@dataclass(frozen=True, slots=True)
class IssuedBag:
    """A bag id that was given out, and the night on which it was."""

    bag: Bag
    issued_on: date


@dataclass(frozen=True, slots=True)
class IssuedPoint:
    """A point that was given out.

    Attributes:
        farm, zone, protocol: ids.
        season: first day of the season that it was given out for, ISO 8601.
        number: its place in the walking order, from 1.
        position: where [degree].
        in_row: whether the core is taken in the row with the band.
        issued_on: the night on which it was given out.
    """

    farm: str
    zone: str
    protocol: str
    season: str
    number: int
    position: Position
    in_row: bool
    issued_on: date


@dataclass(frozen=True, slots=True)
class Issued:
    """Everything that was given out for one client, in the order in which it was."""

    bags: tuple[IssuedBag, ...] = ()
    points: tuple[IssuedPoint, ...] = ()
