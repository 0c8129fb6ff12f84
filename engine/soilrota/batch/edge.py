"""What sending takes from the edge of the program; a module of its own, so that a quiet night loads nothing for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Edge:
    """What sending takes from the edge of the program.

    Attributes:
        now: returns the moment, with a time zone.
        environment: the variables of the environment, where a login may stand.
        should_end: returns whether the command was asked to end.
    """

    now: Callable[[], datetime]
    environment: Mapping[str, str]
    should_end: Callable[[], bool]
