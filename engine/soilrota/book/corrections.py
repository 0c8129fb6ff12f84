"""Which results stand: value by value the highest issue of a report, and what later issues changed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence

from soilrota.model.results import Correction, Result


def standing(results: Sequence[Result]) -> tuple[tuple[Result, ...], tuple[Correction, ...]]:
    """Return the results that stand, and what later issues of their reports changed.

    The highest issue of a value stands. A value that a later issue of the same bag does not repeat stands on, and is
    listed; so are values that a later issue changed or added. What it repeats is not.

    Args:
        results: all issues of all reports, in the order of their files.

    Returns:
        What stands, in the same order; and the corrections by report, issue and place.
    """
    reports: defaultdict[tuple[str, str], list[Result]] = defaultdict(list)
    highest: dict[Hashable, int] = {}
    for result in results:
        reports[result.laboratory, result.report].append(result)
        highest[result.key] = max(result.issue, highest.get(result.key, 0))
    stands = tuple(result for result in results if result.issue == highest[result.key])
    corrections = [one for report in reports.values() for one in _corrections(report)]
    return stands, tuple(sorted(corrections, key=_order))


def _corrections(report: Sequence[Result]) -> Iterator[Correction]:
    """Yield what each later issue of a report changed, added or left out."""
    issues: defaultdict[int, dict[Hashable, Result]] = defaultdict(dict)
    for result in report:
        issues[result.issue].setdefault(result.key, result)
    stood: dict[Hashable, Result] = {}
    left_out: set[Hashable] = set()
    for issue in sorted(issues):
        if stood:
            yield from _changes(stood, issues[issue], left_out)
        stood |= issues[issue]
        left_out -= set(issues[issue])


def _changes(
    stood: Mapping[Hashable, Result], issue: Mapping[Hashable, Result], left_out: set[Hashable]
) -> Iterator[Correction]:
    """Yield what one issue changed of what stood before; what it left out is listed once, and added to `left_out`."""
    for key, later in issue.items():
        earlier = stood.get(key)
        if earlier is None or not later.says_the_same(earlier):
            yield Correction(earlier, later, later.issue, later.reported)
    by_sample = {later.sample: later for later in issue.values()}
    for key, earlier in stood.items():
        later_of_bag = by_sample.get(earlier.sample)
        if key not in issue and key not in left_out and later_of_bag is not None:
            left_out.add(key)
            yield Correction(earlier, None, later_of_bag.issue, later_of_bag.reported)


def _order(correction: Correction) -> tuple[Hashable, ...]:
    """Return the order of a correction among all of a client."""
    result = correction.later or correction.earlier
    assert result is not None  # a correction is of a value
    return result.laboratory, result.report, correction.issue, result.place, result.analyte, result.method
