"""Windows of several protocols on one zone: the days that they share, and who can go together."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.visits import SharedDays
from soilrota.model.windows import Span, TaskKey
from soilrota.timing.shared_visits import shared_days, sharing_groups
from tests.timing.making import day, span


def key(protocol: str, zone: str = "river-flat") -> TaskKey:
    """Return the key of a task on the home block."""
    return TaskKey("home", zone, protocol)


def test_shared_days() -> None:
    """Two windows share the days open in both."""
    spans = (span("2027-02-01", "2027-02-10"), span("2027-02-20", "2027-02-28"))
    assert shared_days(spans, [span("2027-02-09", "2027-02-21")]) == (
        span("2027-02-09", "2027-02-10"),
        span("2027-02-20", "2027-02-21"),
    )
    assert shared_days(spans, [span("2027-03-01", "2027-03-02")]) == ()


def test_topsoil_deep_nitrogen_and_profile() -> None:
    """Topsoil goes with either of two others that never meet; another zone's task is not in the group."""
    windows = [
        (key("topsoil"), (span("2027-02-01", "2027-02-28"),)),
        (key("deep-nitrogen"), (span("2027-02-20", "2027-03-10"),)),
        (key("profile"), (span("2027-02-05", "2027-02-10"),)),
        (key("topsoil", "crest"), (span("2027-02-01", "2027-02-28"),)),
    ]
    assert sharing_groups(windows) == (
        SharedDays((key("profile"), key("topsoil")), (span("2027-02-05", "2027-02-10"),)),
        SharedDays((key("deep-nitrogen"), key("topsoil")), (span("2027-02-20", "2027-02-28"),)),
    )


def test_windows_that_never_meet() -> None:
    """Nothing is offered where no day is shared."""
    windows = [(key("a"), (span("2027-02-01", "2027-02-02"),)), (key("b"), (span("2027-02-03", "2027-02-04"),))]
    assert sharing_groups(windows) == ()


days = st.integers(1, 12)
some_spans = st.lists(
    st.tuples(days, days).map(lambda pair: span(f"2027-02-{min(pair):02}", f"2027-02-{max(pair):02}")), max_size=3
)


@given(st.lists(some_spans, min_size=1, max_size=4))
def test_groups_against_every_set_of_tasks(windows: list[list[Span]]) -> None:
    """The groups are the largest of all sets of tasks that have a day together, with all those days."""
    tasks = [(key(f"p{number}"), tuple(spans)) for number, spans in enumerate(windows)]
    together = {}
    for size in range(2, len(tasks) + 1):
        for some in combinations(tasks, size):
            common = {
                one
                for one in range(1, 13)
                if all(any(day(f"2027-02-{one:02}") in s for s in spans) for _, spans in some)
            }
            if common:
                together[tuple(name for name, _ in some)] = common
    largest = {names: common for names, common in together.items() if not any(set(names) < set(o) for o in together)}
    found = {
        group.keys: {s.first.day + offset for s in group.spans for offset in range(s.days)}
        for group in sharing_groups(reversed(tasks))
    }
    assert found == largest
