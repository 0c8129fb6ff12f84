"""Which issue of a report a file holds, held against all that is known of it; what is to be written, if anything.

The same file again changes nothing. House defaults, where the rules leave it open:

- What the laboratory says of its issue stands. It may bring more bags later on, but an issue never says two things.
- Where it says nothing, a report that differs from what is known is a corrected one if its day is later than that of
  the highest issue. On the same day, or without a day, it contradicts what is known, and a person decides.
- Bags and analyses that were not there before join the issue that the file agrees with: the one that shares most
  values with it, of several the one of its day, then the highest.
- A report number is compared without case and blanks, and kept as it was first written.
- Of rows that contradict what is known, those that only repeat it count as taken in; the others wait together, because
  nobody can say which issue they are of.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from soilrota.model.intake import MatchedRow, SetAsideRow
from soilrota.model.results import Result
from soilrota.problems import Problem, error, warning
from soilrota.results.accepting import plain_number, report_file_name, results_of
from soilrota.results.matching import set_aside

_MOST_SAID = 3


@dataclass(frozen=True, slots=True)
class ReportFile:
    """One file of accepted results to be written whole.

    Attributes:
        client: id of the client.
        name: name of the file in the client's folder of results.
        results: all its rows, those that it held before included.
        added: the rows that are new.
    """

    client: str
    name: str
    results: tuple[Result, ...]
    added: tuple[Result, ...]


@dataclass(frozen=True, slots=True)
class Versions:
    """What becomes of the matched rows of a file: each is accepted or set aside.

    Attributes:
        files: what is to be written, by client and name; empty where all was known.
        accepted: rows that are new, or that say what is known already.
        set_aside: rows that contradict what is known.
        notes: what a person should know; warnings.
    """

    files: tuple[ReportFile, ...]
    accepted: tuple[MatchedRow, ...]
    set_aside: tuple[SetAsideRow, ...]
    notes: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class _Row:
    """A matched row with its results, whose issue is not yet decided, and its place in the file's order."""

    index: int
    matched: MatchedRow
    results: tuple[Result, ...]


def versions_of(
    matched: Sequence[MatchedRow], known: Mapping[str, Sequence[Result]], laboratory: str, digest: str, as_of: date
) -> Versions:
    """Return what is to be written of the matched rows of one file.

    Args:
        matched: the rows, in the order of the file.
        known: all results of all issues on disk, by client; what stands (`Client.results`) is not enough.
        laboratory: id of the laboratory.
        digest: digest of the file, by which its rows are named.
        as_of: day of the night, for reports without a day of their own.

    Returns:
        Files, rows and notes. Reasons: `issue-contradicts`, `report-contradicts`. Note: `report-corrected`.
    """
    groups: defaultdict[tuple[str, str, int | None], list[_Row]] = defaultdict(list)
    for index, one in enumerate(_spelt_as_known(matched, known, laboratory)):
        results = results_of(one, laboratory, one.row.issue or 1, as_of, f"{digest}:{one.row.number}")
        groups[one.client, one.row.report, one.row.issue].append(_Row(index, one, results))
    decided = _Decided(laboratory, known)
    for (client, report, issue), rows in sorted(groups.items(), key=lambda group: (*group[0][:2], group[0][2] or 0)):
        report_known = decided.of_report(client, report)
        if issue is None:
            decided.without_issue(client, report, rows, report_known)
        else:
            decided.join(client, report, issue, rows, report_known.get(issue, {}))
    return decided.versions()


def _spelt_as_known(
    matched: Sequence[MatchedRow], known: Mapping[str, Sequence[Result]], laboratory: str
) -> Iterator[MatchedRow]:
    """Yield the rows with the report number as it was first written: case and blanks do not tell two reports apart."""
    spellings: dict[tuple[str, str], str] = {}
    for client in sorted({one.client for one in matched}):
        for result in known.get(client, ()):
            if result.laboratory == laboratory:
                spellings.setdefault((client, _spelling(result.report)), result.report)
    for one in matched:
        report = spellings.setdefault((one.client, _spelling(one.row.report)), one.row.report)
        yield one if report == one.row.report else replace(one, row=replace(one.row, report=report))


def _spelling(report: str) -> str:
    """Return what report numbers are compared by."""
    return "".join(report.split()).casefold()


#: Results of one issue by what they measure.
_Issue = dict[Hashable, Result]


class _Decided:
    """What was decided so far; what one part of a file adds is known to the next."""

    def __init__(self, laboratory: str, known: Mapping[str, Sequence[Result]]) -> None:
        self._laboratory = laboratory
        self._known = known
        self._added: defaultdict[tuple[str, str, int], list[Result]] = defaultdict(list)
        self._accepted: list[_Row] = []
        self._set_aside: list[tuple[int, SetAsideRow]] = []
        self._notes: list[Problem] = []

    def of_report(self, client: str, report: str) -> dict[int, _Issue]:
        """Return what is known of a report, by issue."""
        issues: defaultdict[int, _Issue] = defaultdict(dict)
        for result in self._of_client(client):
            if result.report == report:
                issues[result.issue].setdefault(result.key, result)
        for (of_client, of_report, issue), results in self._added.items():
            if (of_client, of_report) == (client, report):
                issues[issue].update({result.key: result for result in results})
        return dict(issues)

    def without_issue(self, client: str, report: str, rows: Sequence[_Row], known: Mapping[int, _Issue]) -> None:
        """Decide on rows of a report of which the file does not say the issue."""
        agreeing = [issue for issue, results in known.items() if not any(_differs(row, results) for row in rows)]
        if not known or agreeing:
            issue = max(agreeing, key=lambda one: (*_likeness(rows, known[one]), one), default=1)
            self.join(client, report, issue, rows, known.get(issue, {}))
            return
        highest = max(known)
        last_day = max(result.reported for result in known[highest].values())
        if all(row.matched.row.reported is not None and row.matched.row.reported > last_day for row in rows):
            place = rows[0].matched.row.place
            found = f"report {report} differs from issue {highest} of {last_day.isoformat()} and is of a later day"
            mend = f"nothing needs to be done: it is kept as issue {highest + 1}, the earlier one too"
            self._notes.append(warning("report-corrected", place, found, "", mend))
            self.join(client, report, highest + 1, rows, {})
            return
        for row in rows:
            if any(_holds(issue, row) for issue in known.values()):
                self._accepted.append(row)
            else:
                self._wait(row, _contradiction(row, report, known[highest], last_day))

    def join(self, client: str, report: str, issue: int, rows: Sequence[_Row], known: _Issue) -> None:
        """Take rows into an issue of which something may be known; those that say otherwise wait."""
        for row in rows:
            differing = _differs(row, known)
            if differing:
                self._wait(row, _second_saying(row, report, issue, differing))
                continue
            new = [replace(result, issue=issue) for result in row.results if result.key not in known]
            if new:
                self._added[client, report, issue] += new
            self._accepted.append(row)

    def _wait(self, row: _Row, reason: Problem) -> None:
        """Set a row aside."""
        self._set_aside.append((row.index, set_aside(row.matched.row, [reason])))

    def versions(self) -> Versions:
        """Return everything that was decided."""
        files: defaultdict[tuple[str, str], list[Result]] = defaultdict(list)
        for (client, report, issue), added in sorted(self._added.items()):
            files[client, self._file_of(client, report, issue)] += added
        return Versions(
            files=tuple(self._file(*key, tuple(added)) for key, added in sorted(files.items())),
            accepted=tuple(row.matched for row in sorted(self._accepted, key=lambda row: row.index)),
            set_aside=tuple(row for _, row in sorted(self._set_aside, key=lambda pair: pair[0])),
            notes=tuple(self._notes),
        )

    def _file_of(self, client: str, report: str, issue: int) -> str:
        """Return the name of the file of an issue: the one that holds it already, or else a new one."""
        there = {_file_name(one) for one in self._of_client(client) if (one.report, one.issue) == (report, issue)}
        return there.pop() if len(there) == 1 else report_file_name(self._laboratory, report, issue)

    def _file(self, client: str, name: str, added: tuple[Result, ...]) -> ReportFile:
        """Return a file with everything that it held, whatever that is, and what is added."""
        held = (one for one in self._known.get(client, ()) if _file_name(one) == name)
        return ReportFile(client, name, (*held, *added), added)

    def _of_client(self, client: str) -> Iterator[Result]:
        """Yield what is known of a client from this laboratory."""
        return (one for one in self._known.get(client, ()) if one.laboratory == self._laboratory)


def _file_name(result: Result) -> str:
    """Return the name of the file that holds a result."""
    return result.place.file.rpartition("/")[2]


def _differs(row: _Row, issue: _Issue) -> list[tuple[Result, Result]]:
    """Return what a row says otherwise than an issue: (known, said)."""
    pairs = [(issue[result.key], result) for result in row.results if result.key in issue]
    return [(known, said) for known, said in pairs if not said.says_the_same(known)]


def _holds(issue: _Issue, row: _Row) -> bool:
    """Return whether an issue holds all that a row says."""
    return not _differs(row, issue) and all(result.key in issue for result in row.results)


def _likeness(rows: Sequence[_Row], issue: _Issue) -> tuple[int, bool]:
    """Return how many values of rows an issue has, and whether it is of their day."""
    shared = sum(result.key in issue for row in rows for result in row.results)
    days = {row.matched.row.reported for row in rows}
    return shared, any(result.reported in days for result in issue.values())


def _contradiction(row: _Row, report: str, known: _Issue, last_day: date) -> Problem:
    """Return that a row is of a report that says otherwise than what is known of it."""
    differing = _differs(row, known)
    said = _differences(differing) if differing else "other rows of the file differ from it"
    found = f"report {report} is known, of {last_day.isoformat()}, and this file is of no later day: {said}"
    mend = "a corrected report needs an issue number or a later day; ask the laboratory which one stands"
    return error("report-contradicts", row.matched.row.place, found, "the same values, or a later issue", mend)


def _second_saying(row: _Row, report: str, issue: int, differing: Sequence[tuple[Result, Result]]) -> Problem:
    """Return that a row says otherwise than the issue that it names."""
    found = f"issue {issue} of report {report} is known and says otherwise: {_differences(differing)}"
    mend = "a corrected report needs the next issue number; ask the laboratory which one stands"
    return error("issue-contradicts", row.matched.row.place, found, "the same values, or a later issue", mend)


def _differences(differing: Sequence[tuple[Result, Result]]) -> str:
    """Return the first differences in words."""
    said = [f"{new.analyte}.{new.method} {_words(old)} there, {_words(new)} here" for old, new in differing]
    return "; ".join(said[:_MOST_SAID]) + (f"; and {len(said) - _MOST_SAID} more" if len(said) > _MOST_SAID else "")


def _words(result: Result) -> str:
    """Return a value with its ground in words: where only the field note was corrected, that is what differs."""
    soil = f"{result.farm}/{result.zone}, {result.top_cm:g}-{result.bottom_cm:g} cm, {result.sampled.isoformat()}"
    return f"{result.qualifier}{plain_number(result.value)} {result.unit} ({soil})"
