"""Which results stand, and what later issues changed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from random import Random

from soilrota.book.corrections import standing
from soilrota.model.results import Result
from soilrota.problems import Place
from tests.documents.made import example

DAY = date(2026, 2, 20)


def result(issue: int, number: float, analyte: str = "phosphorus", **changes: object) -> Result:
    """Return a value of one issue of a report."""
    plain = Result(
        "r1", DAY, date(2026, 3, issue), "home", "hill", "topsoil", "B1", 0, 10, analyte, "colwell", "", number,
        "mg/kg", "north-bench", Place(f"r1-{issue}.csv", 2), issue,
    )  # fmt: skip
    return replace(plain, **changes)


def listed(*results: Result) -> list[tuple[float | None, float | None, int]]:
    """Return the corrections as (earlier value, later value, issue)."""
    return [
        (one.earlier and one.earlier.value, one.later and one.later.value, one.issue) for one in standing(results)[1]
    ]


def test_the_highest_issue_stands_value_by_value() -> None:
    """Changed values are listed, equal ones are not; whatever comes first in the files."""
    some = (result(2, 33), result(1, 31), result(1, 90, "potassium"), result(2, 90, "potassium"))
    stands, corrections = standing(some)
    assert [(one.value, one.issue) for one in stands] == [(33, 2), (90, 2)]
    assert listed(*some) == [(31, 33, 2)]
    assert corrections[0].reported == date(2026, 3, 2)


def test_what_a_later_issue_does_not_repeat_stands_on() -> None:
    """It is listed once, where its bag came again; bags that did not come again are not listed."""
    some = (result(1, 31), result(1, 5, "sulphur"), result(1, 40, bag="B2"), result(2, 33), result(3, 34))
    assert {(one.bag, one.analyte, one.value) for one in standing(some)[0]} == {
        ("B1", "phosphorus", 34), ("B1", "sulphur", 5), ("B2", "phosphorus", 40),
    }  # fmt: skip
    assert sorted(listed(*some), key=str) == sorted([(31, 33, 2), (5, None, 2), (33, 34, 3)], key=str)


def test_what_a_later_issue_adds_is_listed() -> None:
    """A new analysis, a new bag; but not the rows of a report whose first issue is all there is."""
    assert listed(result(1, 31), result(2, 31), result(2, 5, "sulphur"), result(2, 9, bag="B2")) == [
        (None, 9, 2), (None, 5, 2),
    ]  # fmt: skip
    assert listed(result(1, 31), result(1, 5, "sulphur")) == []
    assert listed(result(2, 31)) == []


def test_other_ground_or_qualifier_is_a_change() -> None:
    """The number alone does not make two values equal; a rounding in the last digit does not set them apart."""
    assert listed(result(1, 31), result(2, 31, zone="flat")) == [(31, 31, 2)]
    assert listed(result(1, 31), result(2, 31, qualifier="<")) == [(31, 31, 2)]
    assert listed(result(1, 31), result(2, 31 + 1e-12)) == []


def test_other_reports_are_left_alone() -> None:
    """Another laboratory's report of the same number, another bag, a sample without a bag of another day."""
    others = (result(2, 1, laboratory="x"), result(2, 2, report="r2"), result(2, 3, bag=""), result(1, 4, bag=""))
    stands, corrections = standing((result(1, 31), *others))
    assert len(stands) == 4
    assert [(one.earlier and one.earlier.value, one.later and one.later.value) for one in corrections] == [(4, 3)]
    assert len(standing((result(1, 4, bag=""), result(2, 3, bag="", sampled=date(2026, 2, 21))))[0]) == 2


def test_any_order_of_the_files_gives_the_same() -> None:
    """What stands and what is listed does not depend on the order in which results are read."""
    random = Random(3)
    for _ in range(200):
        some = [
            result(issue, random.choice([5.0, 6.0]), analyte, bag=bag, place=Place(f"{issue}{bag}{analyte}.csv", 2))
            for issue in (1, 2, 3) for bag in ("B1", "B2") for analyte in ("ph", "sulphur") if random.random() < 0.6
        ]  # fmt: skip
        stands, corrections = standing(some)
        highest = {one.key: one for one in sorted(some, key=lambda one: one.issue)}
        assert set(stands) == set(highest.values())
        random.shuffle(some)
        again, others = standing(some)
        assert (set(again), others) == (set(stands), corrections)


def test_the_example() -> None:
    """One value of one bag was corrected."""
    (correction,) = example("dune-end-sheep").corrections
    assert correction.earlier is not None
    assert correction.later is not None
    assert (correction.earlier.value, correction.later.value, correction.issue) == (35, 37, 2)
    assert all(one.issue == 1 or one.zone == "limestone" for one in example("dune-end-sheep").results)
