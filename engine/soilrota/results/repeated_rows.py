"""The same bag twice in one file: rows that repeat one another, and rows that contradict one another.

House defaults, where the rules leave it open:

- Rows are held against each other within one report and issue: a file may well hold two issues of one report.
- Where a row of the bag holds several values, a row is a sample, so a second row of the bag is a repeat whatever it
  holds. Where each holds one value, only a second value of the same analysis is.
- Rows that say the same are one row written twice: the first stays, the others say which line they repeat. Where any
  of them says otherwise none stays.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator, Sequence

from soilrota.model.intake import ReportedRow, ReportedValue
from soilrota.problems import Problem, error


def repeated_rows(rows: Sequence[ReportedRow], key_of: Callable[[str], str]) -> dict[int, Problem]:
    """Return why a row cannot stand beside the others of its file, by the row's place in the sequence.

    Args:
        rows: the rows of one file, in its order.
        key_of: what two writings of one bag id have in common.
    """
    bags: defaultdict[Hashable, list[int]] = defaultdict(list)
    for index, row in enumerate(rows):
        if row.sample.strip():
            bags[key_of(row.sample), row.report, row.issue].append(index)
    found: dict[int, Problem] = {}
    for several in bags.values():
        for group in _groups(rows, several):
            if len(group) > 1:
                for index, problem in _judged(rows, group):
                    found.setdefault(index, problem)
    return found


def _groups(rows: Sequence[ReportedRow], bag: Sequence[int]) -> Iterator[Sequence[int]]:
    """Yield the rows of one bag that speak of the same thing: all of them, or those of one analysis."""
    if any(len(rows[index].values) > 1 for index in bag):
        yield bag
        return
    by_analysis: defaultdict[Hashable, list[int]] = defaultdict(list)
    for index in bag:
        for value in rows[index].values:
            by_analysis[value.analyte, value.method].append(index)
    yield from by_analysis.values()


def _judged(rows: Sequence[ReportedRow], group: Sequence[int]) -> Iterator[tuple[int, Problem]]:
    """Yield what is said of the rows of a group: the later ones repeat the first, or all contradict one another."""
    first, *later = group
    if all(_said(rows[index]) == _said(rows[first]) for index in later):
        for index in later:
            found = f"bag {rows[index].sample.strip()} with the same values stands already in row {rows[first].number}"
            mend = "nothing needs to be done where it is the same bag; otherwise correct the bag id and drop the row"
            yield index, error("repeated-row", rows[index].place, found, "each bag once", mend)
        return
    numbers = ", ".join(str(rows[index].number) for index in group)
    for index in group:
        found = f"bag {rows[index].sample.strip()} stands in rows {numbers}, which say different things"
        mend = "ask the laboratory which row is whose; correct the bag ids and drop the rows again"
        yield index, error("bag-contradicts", rows[index].place, found, "each bag once", mend)


def _said(row: ReportedRow) -> Hashable:
    """Return what a row says of its bag."""
    return row.sampled, row.received, row.reported, row.depth, frozenset(_value(value) for value in row.values)


def _value(value: ReportedValue) -> Hashable:
    """Return what a value says."""
    return value.analyte, value.method, value.qualifier, value.value, value.unit
