"""The values of an intake: what a worker is asked about a laboratory file, what it answers, what is said of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from soilrota.batch.inbox import LeftAlone
from soilrota.batch.received import Received
from soilrota.model.check_values import CheckValue
from soilrota.model.intake import SetAsideRow
from soilrota.problems import Problem


@dataclass(frozen=True, slots=True)
class IntakeOrder:
    """What a worker is asked: the rows of one file.

    Attributes:
        root: the book's folder.
        client: the file's digest, under which the workers know the order.
        name: its name in the inbox.
        laboratory: id of the laboratory that its folder names; empty to recognise it.
        received_on: as-of date of the night that took it in.
        as_of: the as-of date.
        only: numbers of the rows to look at; None for all.
        names: names of earlier files by the short form of their digest, for rows that were mended.
    """

    root: Path
    client: str
    name: str
    laboratory: str
    received_on: date
    as_of: date
    only: frozenset[int] | None = None
    names: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ResultsFile:
    """A file of accepted results as it is to stand: client, name of the file, content."""

    client: str
    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class IntakeAnswer:
    """What a worker found in one file. It writes nothing.

    Attributes:
        client: the file's digest.
        laboratory: id of its laboratory; empty where none was recognised.
        reports: numbers of its reports.
        rows: rows that were looked at [-].
        accepted: number of each row that is accepted.
        origins: the row that each row is the mended form of, by number, where it is one.
        waiting: rows that are set aside, with their reasons.
        settled: rows that the practice closed, by number, in words.
        files: files of accepted results as they are to stand.
        checks: values of blind check samples.
        table: the rows that wait, for a person to mend; None where none does.
        refused: why nothing could be read; empty where rows could.
        notes: warnings about the file.
        remarks: what is odd about accepted results, in words.
        corrected: what a later issue of a report changed, in words, by client.
    """

    client: str
    laboratory: str = ""
    reports: tuple[str, ...] = ()
    rows: int = 0
    accepted: tuple[int, ...] = ()
    origins: Mapping[int, str] = field(default_factory=dict)
    waiting: tuple[SetAsideRow, ...] = ()
    settled: Mapping[int, str] = field(default_factory=dict)
    files: tuple[ResultsFile, ...] = ()
    checks: tuple[CheckValue, ...] = ()
    table: bytes | None = None
    refused: tuple[Problem, ...] = ()
    notes: tuple[Problem, ...] = ()
    remarks: tuple[str, ...] = ()
    corrected: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def touched(self) -> frozenset[str]:
        """Return what the answer rests on and changes: ids of clients, and laboratories of check samples."""
        return frozenset({file.client for file in self.files} | {f"checks of {one.laboratory}" for one in self.checks})


@dataclass(frozen=True, slots=True)
class FileEntry:
    """What is said of one laboratory file that was looked at.

    Attributes:
        record: what is known of it now.
        again: whether the same bytes had been taken in before; then nothing was done.
        fresh: whether it came in this time; an earlier file that was looked at again did not.
        taken: rows accepted this time [-].
        dropped_as: its name in the inbox, where the same bytes came under another one before.
    """

    record: Received
    again: bool = False
    fresh: bool = True
    taken: int = 0
    dropped_as: str = ""


@dataclass(frozen=True, slots=True)
class Overtaken:
    """A document that was made from results that a corrected report has replaced.

    Attributes:
        client, document, day: whose, which, and its date.
        report: number of the report.
        made_again: whether it was made anew in the same night.
    """

    client: str
    document: str
    day: date
    report: str
    made_again: bool = False


@dataclass(frozen=True, slots=True)
class IntakeReport:
    """An intake as it went.

    Attributes:
        as_of: the as-of date.
        files: one a file that was looked at, by name.
        records: every file that ever was taken in, the latest first.
        alone: what was left in the inbox.
        faults: what could not be done, in words.
    """

    as_of: date
    files: tuple[FileEntry, ...] = ()
    records: tuple[Received, ...] = ()
    alone: tuple[LeftAlone, ...] = ()
    faults: tuple[str, ...] = ()
