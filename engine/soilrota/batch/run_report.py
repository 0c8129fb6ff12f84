"""`run.json`: the last night, for programs and for those who ask what happened.

```
engine          version of soilrota
as_of           as-of date, ISO
started         when the night started, ISO 8601
took_s          the whole night [s]
stopped_by      number of the signal that ended it early, or null
faults          what could not be made or written, in words
practice[]      files of the practice: file (below the output folder), date, sha256, made (in this night)
packs[]         files of the field packs, in the same form
reports[]       files of the farm reports, in the same form: drafts below drafts/, signed ones below clients/
feeds[]         calendar feeds, in the same form
intake          the inbox; null where the night ended before it
  files[]         looked at tonight: file, sha256, received_on, laboratory, reports, rows, accepted, set_aside (problems
                  by row), settled (words by row), refused (problems), notes (problems), again, fresh, taken
  waiting[]       every file of which rows wait for somebody, in the same form
  left[]          left in the inbox: file, reason
missing[]       bags that have not come back: client, farm, zone, protocol, bag, top_cm, bottom_cm, since, due,
                laboratory
overtaken[]     documents that showed results from before a correction: client, document, date, report, made_again
counts          clients by outcome: made, unchanged, problems, failed, not-reached
problems        of the files that all clients share and of the clients' folder, each as in clients[].problems
clients[]       one entry a client, by id
  client          its id
  outcome         made | unchanged | problems | failed | not-reached
  reason          why it failed or was not reached, in words; else empty
  cause           of a failure: deadline | memory | crashed | fault | not-written; else null
  documents[]     those that stand in the output folder: file (below it), date, sha256, made (in this night)
  tasks           its rows of season.csv
  took_s          time spent on it [s]
  tries           workers that tried it; 0 where nothing had changed
  problems[]      severity, code, file, line, column, path, found, expected, mend
```
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

from soilrota import __version__
from soilrota.batch.intake_report import intake_record, missing_record, overtaken_record
from soilrota.batch.outputs import RUN_FILE
from soilrota.batch.problem_records import to_records
from soilrota.batch.values import DocumentEntry, Entry, NightReport, Outcome
from soilrota.files import replace_file


def run_report(night: NightReport) -> bytes:
    """Return the report as JSON, UTF-8, one client a line."""
    head = {
        "engine": __version__,
        "as_of": night.as_of.isoformat(),
        "started": night.started,
        "took_s": round(night.took_s, 3),
        "stopped_by": night.stopped_by,
        "faults": list(night.faults),
        "counts": {str(outcome): night.count(outcome) for outcome in Outcome},
        "practice": [_document(made) for made in night.shared],
        "packs": [_document(made) for made in night.packs],
        "reports": [_document(made) for made in night.reports],
        "feeds": [_document(made) for made in night.feeds],
        "intake": intake_record(night.intake) if night.intake else None,
        "missing": [missing_record(bag) for bag in night.missing],
        "overtaken": [overtaken_record(one) for one in night.overtaken],
        "problems": to_records(night.problems),
    }
    lines = ",\n".join(json.dumps(_entry(entry), ensure_ascii=False) for entry in night.entries)
    return f'{json.dumps(head, ensure_ascii=False)[:-1]}, "clients": [\n{lines}\n]}}\n'.encode()


def put_report(out: Path, report: NightReport) -> NightReport:
    """Write the report; return it, with the fault where it could not be written."""
    try:
        replace_file(out / RUN_FILE, run_report(report))
    except OSError as fault:
        return replace(report, faults=(*report.faults, f"{RUN_FILE} could not be written: {fault.strerror}"))
    return report


def _document(made: DocumentEntry) -> dict[str, Any]:
    """Return the record of one file."""
    return {"file": made.file, "date": made.day.isoformat(), "sha256": made.output, "made": made.made}


def _entry(entry: Entry) -> dict[str, Any]:
    """Return the record of one client."""
    return {
        "client": entry.client,
        "outcome": str(entry.outcome),
        "reason": entry.reason,
        "cause": str(entry.cause) if entry.cause else None,
        "documents": [_document(made) for made in entry.documents],
        "tasks": entry.tasks,
        "took_s": round(entry.took_s, 3),
        "tries": entry.tries,
        "problems": to_records(entry.problems),
    }
