"""What a worker does for one laboratory file: cells to rows, to bags, to results to believe. It writes nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from soilrota.batch.bags import read_bags, with_ground
from soilrota.batch.faults import BatchError
from soilrota.batch.intake_checks import ChecksOfFile
from soilrota.batch.intake_judging import Concerned, Source, judge
from soilrota.batch.intake_reading import forms_of, read_laboratory_file, with_reports
from soilrota.batch.intake_values import IntakeAnswer, IntakeOrder, ResultsFile
from soilrota.batch.reading import read_client, read_clients, read_shared
from soilrota.batch.received import SHORT, received_file
from soilrota.book import Shared, read_results
from soilrota.files import Grid, write_grid_csv
from soilrota.model.client import Client
from soilrota.model.intake import CheckRow, ClientBags, LaboratoryFile, MatchedRow, ReportedRow, SetAsideRow
from soilrota.model.results import Result
from soilrota.problems import Problem, error, has_errors
from soilrota.results import match_rows, results_table, set_aside_table


class IntakeFaultError(BatchError):
    """A file cannot be looked at now; it stays where it is."""


def take_in(order: IntakeOrder) -> IntakeAnswer:
    """Look at one laboratory file.

    Raises:
        IntakeFaultError: the files that all clients share got errors since the intake began.
    """
    shared, problems = read_shared(order.root)
    if shared is None:
        raise IntakeFaultError(f"the files that all clients share got errors: {problems[0]}")
    name = f"inbox/{order.name}"
    forms, problems = forms_of(shared.practice.laboratories, order.laboratory, name)
    if not forms:
        return IntakeAnswer(order.client, refused=problems)
    read, problems = read_laboratory_file(received_file(order.root, order.client), name, forms)
    if read is None:
        return IntakeAnswer(order.client, refused=problems)
    grid, file, form = read
    file = replace(file, rows=with_reports(file.rows, form, order.names, order.name))
    return _Intake(order, shared, grid, file).answer()


class _Intake:
    """The rows of one file on their way in."""

    def __init__(self, order: IntakeOrder, shared: Shared, grid: Grid, file: LaboratoryFile) -> None:
        self._order = order
        self._shared = shared
        self._practice = shared.practice
        self._grid = grid
        self._file = file
        self._short = order.client[:SHORT]
        self._waiting: dict[int, SetAsideRow] = {}
        self._notes: list[Problem] = [*grid.notes, *file.notes]

    def answer(self) -> IntakeAnswer:
        """Return what was found."""
        settled = self._closed()
        rows = [row for row in self._file.rows if self._wanted(row.number)]
        aside = [row for row in self._file.set_aside if self._wanted(row.number)]
        self._set_aside(row for row in aside if row.number not in settled)
        concerned, matched, checks = self._matched([row for row in rows if row.number not in settled])
        of_file = ChecksOfFile(self._order.root, self._file.laboratory, self._short, self._order.as_of)
        values, contradicting = of_file.take(checks)
        self._set_aside(contradicting)
        charts = of_file.charts(values, self._practice.check_materials)
        judged = judge(matched, concerned, Source(self._file.laboratory, self._short, charts), self._order.as_of)
        self._set_aside(judged.versions.set_aside)
        self._set_aside(
            SetAsideRow(one.row.number, one.row.origin, one.row.cells, judged.barred[one.row.number])
            for one in matched
            if one.row.number in judged.barred
        )
        waiting = tuple(self._waiting[number] for number in sorted(self._waiting))
        there = (*(one.row for one in judged.versions.accepted), *(one.row for one in checks))
        origins = {row.number: row.origin for row in rows if row.origin}
        origins |= {row.number: row.origin for row in aside if row.origin}
        return IntakeAnswer(
            client=self._order.client,
            laboratory=self._file.laboratory,
            reports=tuple(sorted({row.report for row in rows if row.report})),
            rows=len(rows) + len(aside),
            accepted=tuple(sorted(row.number for row in there if row.number not in self._waiting)),
            origins=origins,
            waiting=waiting,
            settled=settled,
            files=tuple(
                ResultsFile(file.client, file.name, results_table(file.results)) for file in judged.versions.files
            ),
            checks=values,
            table=self._table(waiting),
            notes=tuple(dict.fromkeys((*self._notes, *of_file.problems, *judged.versions.notes))),
            remarks=judged.remarks,
            corrected=judged.corrected,
        )

    def _wanted(self, number: int) -> bool:
        """Return whether a row is to be looked at."""
        return self._order.only is None or number in self._order.only

    def _closed(self) -> dict[int, str]:
        """Return who closed which of the rows and why, in words, by number."""
        people = self._practice.people
        entries = {entry.row: entry for entry in self._practice.dismissed}
        numbers = [row.number for row in self._file.rows] + [row.number for row in self._file.set_aside]
        return {
            number: f"closed by {people[entry.by].name if entry.by in people else entry.by}: {entry.reason}"
            for number in sorted(numbers)
            if self._wanted(number) and (entry := entries.get(f"{self._short}:{number}")) is not None
        }

    def _set_aside(self, rows: Iterable[SetAsideRow]) -> None:
        """Set rows aside, beside the reasons that they have already."""
        for row in rows:
            earlier = self._waiting.get(row.number)
            reasons = dict.fromkeys((*(earlier.reasons if earlier else ()), *row.reasons))
            self._waiting[row.number] = replace(row, reasons=tuple(reasons))

    def _matched(self, rows: Sequence[ReportedRow]) -> tuple[Concerned, list[MatchedRow], tuple[CheckRow, ...]]:
        """Return the clients concerned, the rows that found their bag, and those of check samples.

        The rows are matched twice: the first time tells which clients are concerned, and those alone are read whole.
        """
        ids, _ = read_clients(self._order.root)
        bags, problems = read_bags(self._order.root, ids, self._practice)
        self._notes += problems
        checks, day = self._practice.check_bags, self._order.as_of
        first = match_rows(rows, bags, checks, day)
        concerned, wrong = self._read({one.client for one in first.matched})
        with_all = [_with_ground(one, concerned.clients) for one in bags]
        matching = match_rows(rows, with_all, checks, day)
        self._set_aside(matching.set_aside)
        self._set_aside(
            SetAsideRow(one.row.number, one.row.origin, one.row.cells, (_unreadable(one, wrong[one.client]),))
            for one in matching.matched
            if one.client in wrong
        )
        matched = [one for one in matching.matched if one.client not in wrong]
        self._notes += [note for one in matched for note in one.notes]
        return concerned, matched, matching.check_rows

    def _read(self, clients: Iterable[str]) -> tuple[Concerned, dict[str, Problem]]:
        """Return clients whole with all their results, and an error of each that cannot be read."""
        read: dict[str, Client] = {}
        known: dict[str, tuple[Result, ...]] = {}
        wrong: dict[str, Problem] = {}
        for client in sorted(clients):
            found, problems = read_client(self._order.root, client, self._shared)
            results, of_results = read_results(self._order.root, client)
            faults = [problem for problem in (*problems, *of_results) if has_errors((problem,))]
            if found is None or faults:
                wrong[client] = faults[0]
            else:
                read[client], known[client] = found, results
        return Concerned(read, known), wrong

    def _table(self, waiting: Sequence[SetAsideRow]) -> bytes | None:
        """Return the table of the rows that wait; None where none does."""
        if not waiting:
            return None
        rows = set_aside_table(self._file, waiting, self._order.client)
        return write_grid_csv(rows, delimiter=self._grid.delimiter or ",")


def _with_ground(bags: ClientBags, clients: Mapping[str, Client]) -> ClientBags:
    """Return the bags of a client with its ground where it was read."""
    client = clients.get(bags.client)
    return bags if client is None else with_ground(bags, client)


def _unreadable(row: MatchedRow, wrong: Problem) -> Problem:
    """Return that a row waits until the files of its client are in order."""
    found = f"the files of {row.client} have errors, for instance {wrong}".rstrip(".")
    mend = "mend them; the row is tried again whenever the book changes"
    return error("client-has-errors", row.row.place, found, "", mend)
