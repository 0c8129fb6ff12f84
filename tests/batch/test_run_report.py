"""The report of a night as JSON."""

from __future__ import annotations

import json
from datetime import date

from soilrota.batch.run_report import run_report
from soilrota.batch.values import Cause, DocumentEntry, Entry, NightReport, Outcome
from soilrota.problems import Place, error

PROBLEM = error("unknown-key", Place("clients/b/client.yaml", 2, 1), "nmae", "name", "rename it")


def test_every_client_is_told_of() -> None:
    """Outcome, cause, documents, tries and problems of each client, and the sums."""
    made = DocumentEntry("clients/a/programme.pdf", date(2027, 2, 15), "digest", made=True)
    entries = (
        Entry("a", Outcome.MADE, documents=(made,), tasks=3, took_s=1.23456, tries=1),
        Entry("b", Outcome.PROBLEMS, problems=(PROBLEM,)),
        Entry("c", Outcome.FAILED, "its worker ended", Cause.CRASHED, tries=2, trace="not told"),
    )
    text = run_report(NightReport(date(2027, 2, 15), "then", 2.0, entries, (PROBLEM,), 15, ("disk full",))).decode()
    report = json.loads(text)
    assert report["counts"] == {"made": 1, "unchanged": 0, "problems": 1, "failed": 1, "not-reached": 0}
    assert (report["as_of"], report["stopped_by"], report["faults"]) == ("2027-02-15", 15, ["disk full"])
    a, b, c = report["clients"]
    assert (a["documents"], a["took_s"]) == (
        [{"file": "clients/a/programme.pdf", "date": "2027-02-15", "sha256": "digest", "made": True}],
        1.235,
    )
    assert (b["problems"][0]["line"], c["cause"], c["tries"]) == (2, "crashed", 2)
    assert "not told" not in text


def test_a_night_without_clients_is_json_too() -> None:
    """No entries: an empty list."""
    assert json.loads(run_report(NightReport(date(2027, 2, 15), "then", 2.0, (), ())))["clients"] == []
