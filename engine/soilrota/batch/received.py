"""Laboratory files as they came, and what became of each of their rows.

`records/received/<digest>.file` holds a file's bytes under their SHA-256; `<digest>.json` beside it says what became of
its rows: accepted, waiting with their reasons, or settled otherwise. The record is written after everything that it
speaks of, so that a night that is cut off repeats a file and finds its results there already.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from soilrota.batch.problem_records import from_records, to_records
from soilrota.files import replace_file
from soilrota.problems import Problem

FOLDER = "records/received"
#: So many characters of a digest name a file in rows that are set aside.
SHORT = 12


@dataclass(frozen=True, slots=True)
class Received:
    """What is known of one file that was taken in.

    Attributes:
        digest: SHA-256 of its bytes.
        name: its name in the inbox.
        received_on: as-of date of the night that took it in.
        laboratory: id of its laboratory; empty where none was recognised.
        reports: numbers of the laboratory's reports in it.
        rows: rows below its headings [-].
        accepted: numbers of the rows whose results stand in the records, or are check samples.
        waiting: reasons by the number of each row that is set aside.
        settled: what became of rows otherwise, in words, by number.
        refused: why nothing of the file could be read; empty where its rows could.
        notes: what a person should know of the file; warnings.
        remarks: what is odd about its accepted results, in words.
        corrected: what it changed of earlier issues of its reports, in words, by client.
        rests_on: digest of what the rows were judged by.
    """

    digest: str
    name: str
    received_on: date
    laboratory: str = ""
    reports: tuple[str, ...] = ()
    rows: int = 0
    accepted: tuple[int, ...] = ()
    waiting: Mapping[int, tuple[Problem, ...]] | None = None
    settled: Mapping[int, str] | None = None
    refused: tuple[Problem, ...] = ()
    notes: tuple[Problem, ...] = ()
    remarks: tuple[str, ...] = ()
    corrected: Mapping[str, tuple[str, ...]] | None = None
    rests_on: str = ""

    @property
    def short(self) -> str:
        """Return how the file is named in rows that are set aside."""
        return self.digest[:SHORT]

    @property
    def reasons(self) -> Mapping[int, tuple[Problem, ...]]:
        """Return the reasons of the rows that wait, by number."""
        return self.waiting or {}

    @property
    def is_open(self) -> bool:
        """Return whether a later night may find more in it."""
        return bool(self.waiting or self.refused)

    def without(self, numbers: Mapping[int, str]) -> Received:
        """Return the record with rows that no longer wait, each with what became of it in words."""
        gone = {number: words for number, words in numbers.items() if number in self.reasons}
        waiting = {number: reasons for number, reasons in self.reasons.items() if number not in gone}
        return replace(self, waiting=waiting, settled={**(self.settled or {}), **gone})


def received_file(root: Path, digest: str) -> Path:
    """Return where the bytes of a file lie."""
    return root / FOLDER / f"{digest}.file"


def read_received(root: Path) -> Iterator[Received]:
    """Yield what is known of every file, by digest.

    Raises:
        OSError, ValueError: a record cannot be read; it was changed by other hands.
    """
    folder = root / FOLDER
    for path in sorted(folder.glob("*.json")) if folder.is_dir() else ():
        yield _received(path)


def received_of(root: Path, digest: str) -> Received | None:
    """Return what is known of one file; None where it was never taken in whole."""
    path = _record_file(root, digest)
    return _received(path) if path.is_file() else None


def keep_bytes(root: Path, digest: str, content: bytes) -> None:
    """Put a file's bytes where they are safe; nothing is done where they are already.

    Raises:
        OSError: they cannot be written.
    """
    path = received_file(root, digest)
    if not path.is_file() or path.stat().st_size != len(content):
        replace_file(path, content)


def keep_received(root: Path, record: Received) -> None:
    """Write what is known of a file.

    Raises:
        OSError: it cannot be written.
    """
    fields = {
        "digest": record.digest,
        "name": record.name,
        "received_on": record.received_on.isoformat(),
        "laboratory": record.laboratory,
        "reports": record.reports,
        "rows": record.rows,
        "accepted": record.accepted,
        "waiting": {str(number): to_records(reasons) for number, reasons in sorted(record.reasons.items())},
        "settled": {str(number): words for number, words in sorted((record.settled or {}).items())},
        "refused": to_records(record.refused),
        "notes": to_records(record.notes),
        "remarks": record.remarks,
        "corrected": dict(sorted((record.corrected or {}).items())),
        "rests_on": record.rests_on,
    }
    content = json.dumps(fields, ensure_ascii=False, indent=1) + "\n"
    replace_file(_record_file(root, record.digest), content.encode())


def _record_file(root: Path, digest: str) -> Path:
    """Return where the record of a file lies."""
    return root / FOLDER / f"{digest}.json"


def _received(path: Path) -> Received:
    """Return the record of a file.

    Raises:
        OSError: it cannot be read.
        ValueError: it is no record; the text names it.
    """
    try:
        fields = json.loads(path.read_text(encoding="utf-8"))
        return Received(
            digest=fields["digest"],
            name=fields["name"],
            received_on=date.fromisoformat(fields["received_on"]),
            laboratory=fields["laboratory"],
            reports=tuple(fields["reports"]),
            rows=fields["rows"],
            accepted=tuple(fields["accepted"]),
            waiting={int(number): from_records(reasons) for number, reasons in fields["waiting"].items()},
            settled={int(number): words for number, words in fields["settled"].items()},
            refused=from_records(fields["refused"]),
            notes=from_records(fields["notes"]),
            remarks=tuple(fields["remarks"]),
            corrected={client: tuple(words) for client, words in fields["corrected"].items()},
            rests_on=fields["rests_on"],
        )
    except (KeyError, TypeError, ValueError, AttributeError) as fault:
        words = f"{path} is damaged; restore it from a backup, or move it away to have its file taken in anew"
        raise ValueError(words) from fault
