"""What passes between the night and a worker that makes the reports of one client."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from soilrota.batch.values import KnownDocument
from soilrota.problems import Problem


@dataclass(frozen=True, slots=True)
class ReportOrder:
    """What a worker is asked: the reports of one client.

    Attributes:
        root, out: the book's folder and the output folder; a worker reads there and never writes.
        client: id of the client.
        as_of: the as-of date.
        known: what the ledger knows of its reports, by path below the output folder.
        wait_days: how long a first report waits for bags that have not come back [d].
        at_once: whether nothing is waited for.
        farms: ids of the farms; empty for all.
    """

    root: Path
    out: Path
    client: str
    as_of: date
    known: Mapping[str, KnownDocument] = field(default_factory=dict)
    wait_days: int = 0
    at_once: bool = False
    farms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MadeReport:
    """One report: its path below the output folder, what to remember of it, its bytes; None where it is in place."""

    file: str
    known: KnownDocument
    content: bytes | None


@dataclass(frozen=True, slots=True)
class ReportAnswer:
    """What a worker made.

    Attributes:
        client: id of the client.
        holds_until: last as-of date on which the same files give the same reports.
        reports: those that are to stand, and no others.
        problems: of the practice's own template, which kept reports from being made; what stood of them stands.
    """

    client: str
    holds_until: date
    reports: tuple[MadeReport, ...]
    problems: tuple[Problem, ...] = ()
