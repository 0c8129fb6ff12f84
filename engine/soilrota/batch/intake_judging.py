"""From matched rows to what is to be written: which issue they are, and whether they can be believed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.book import standing
from soilrota.documents import Names, correction_sentence, result_finding_sentence
from soilrota.model.check_charts import CheckChart
from soilrota.model.client import Client
from soilrota.model.intake import MatchedRow
from soilrota.model.result_findings import ResultFinding, ResultKey, ResultRule
from soilrota.model.results import Result
from soilrota.problems import Problem, error
from soilrota.results import check_results, findings_for, versions_of
from soilrota.results.versions import Versions


@dataclass(frozen=True, slots=True)
class Concerned:
    """The clients whose bags came back, and all their results of all issues, by id."""

    clients: Mapping[str, Client]
    known: Mapping[str, Sequence[Result]]


@dataclass(frozen=True, slots=True)
class Judged:
    """What becomes of matched rows.

    Attributes:
        versions: what is to be written, with the rows that are accepted and those that contradict what is known.
        barred: why rows wait for a person, by number.
        remarks: what is odd about accepted results, in words.
        corrected: what was changed of earlier issues, in words, by client.
    """

    versions: Versions
    barred: Mapping[int, tuple[Problem, ...]]
    remarks: tuple[str, ...]
    corrected: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Source:
    """Where rows come from: laboratory, the short form of the file's digest, the charts of the laboratory's checks."""

    laboratory: str
    short: str
    charts: tuple[CheckChart, ...]


def judge(matched: Sequence[MatchedRow], concerned: Concerned, source: Source, as_of: date) -> Judged:
    """Return what becomes of matched rows.

    Results whose findings wait for a person are left out, and what is to be written is reckoned once more without them.

    Args:
        matched: the rows, in the order of the file.
        concerned: the clients that they belong to.
        source: where they come from.
        as_of: the as-of date.
    """
    versions = versions_of(matched, concerned.known, source.laboratory, source.short, as_of)
    added = _added(versions)
    findings = [
        (client, finding)
        for client in sorted(added)
        for finding in (
            *check_results(concerned.clients[client], added[client]),
            *findings_for(added[client], source.charts),
        )
    ]
    barred = _barred(findings, added, concerned.clients)
    if barred:
        kept = [one for one in matched if one.row.number not in barred]
        versions = versions_of(kept, concerned.known, source.laboratory, source.short, as_of)
        added = _added(versions)
    there = {(client, ResultKey.of(result)) for client, some in added.items() for result in some}
    remarks = dict.fromkeys(
        f"{client}: {_sentence(finding, concerned.clients[client])}."
        for client, finding in findings
        if not finding.bars and (client, finding.key) in there
    )
    return Judged(versions, barred, tuple(remarks), _corrected(added, concerned, source))


def _added(versions: Versions) -> dict[str, list[Result]]:
    """Return the results that are new, by client."""
    added: defaultdict[str, list[Result]] = defaultdict(list)
    for file in versions.files:
        added[file.client] += file.added
    return dict(added)


def _barred(
    findings: Iterable[tuple[str, ResultFinding]], added: Mapping[str, Sequence[Result]], clients: Mapping[str, Client]
) -> dict[int, tuple[Problem, ...]]:
    """Return the reasons of each row whose results wait for a person."""
    reasons: defaultdict[int, dict[Problem, None]] = defaultdict(dict)
    for client, finding in findings:
        if not finding.bars:
            continue
        for result in added[client]:
            if finding.speaks_of(result):
                number = int(result.origin.rpartition(":")[2])
                reasons[number][_reason(finding, clients[client], result)] = None
    return {number: tuple(found) for number, found in reasons.items()}


def _reason(finding: ResultFinding, client: Client, result: Result) -> Problem:
    """Return why a row waits for a person."""
    mend = "ask the laboratory and mend the row"
    if finding.rule is not ResultRule.HARD_LIMIT:
        sample = f"bag: {result.bag}" if result.bag else f"zone: {result.farm}/{result.zone}, sampled: {result.sampled}"
        mend += (
            f", or accept it with the reason why it stands, in clients/{client.id}/client.yaml under accepted_findings "
            f"(rule: {finding.rule}, {sample})"
        )
    return error(str(finding.rule), finding.place or result.place, _sentence(finding, client), "", mend)


def _sentence(finding: ResultFinding, client: Client) -> str:
    """Return a finding in words, without its full stop."""
    return result_finding_sentence(finding, client.language, Names.of(client)).rstrip(".")


def _corrected(
    added: Mapping[str, Sequence[Result]], concerned: Concerned, source: Source
) -> dict[str, tuple[str, ...]]:
    """Return in words what a file changed of earlier issues, by client; the same however often it is looked at."""
    said = {
        client: tuple(_changes((*known, *added.get(client, ())), concerned.clients[client], source))
        for client, known in sorted(concerned.known.items())
    }
    return {client: words for client, words in said.items() if words}


def _changes(results: Sequence[Result], client: Client, source: Source) -> Iterator[str]:
    """Yield what the issues of a file changed of one client's results."""
    issues = {
        (result.report, result.issue)
        for result in results
        if result.laboratory == source.laboratory and result.origin.startswith(f"{source.short}:")
    }
    for correction in standing(results)[1]:
        if (correction.report, correction.issue) in issues:
            yield f"{correction_sentence(correction, client)}."
