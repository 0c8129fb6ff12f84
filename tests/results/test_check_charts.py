"""Control charts of check samples: every rule against its words, doubts on the right days, censoring told honestly."""

from __future__ import annotations

from datetime import date, timedelta
from types import MappingProxyType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.guidelines.check_samples import check_limits
from soilrota.model.check_charts import CheckChart, CheckRule, CheckState, OffSpell
from soilrota.model.check_values import CheckValue
from soilrota.model.practice import AssignedValue, CheckMaterial
from soilrota.model.result_findings import Grade, ResultRule
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.results.check_charts import deviation, findings_for, judge, laboratory_state, uncharted

DAY = date(2026, 1, 1)
PHOSPHORUS = AssignedValue("phosphorus", "colwell", "mg/kg", 30.0, 2.0)
MATERIALS = MappingProxyType({"loam": CheckMaterial("loam", "Loam", (PHOSPHORUS,), Place("practice.yaml"))})
LIMITS = check_limits()


def day(number: int) -> date:
    """Return the day of the check of a number, a week apart."""
    return DAY + timedelta(7 * number)


def a_value(number: int, z: float, qualifier: str = "", **changed: object) -> CheckValue:
    """Return the value of a check that lies so many standard deviations off."""
    fields: dict[str, object] = {
        "laboratory": "north",
        "report": f"R{number}",
        "issue": 1,
        "bag": f"B{number:04}",
        "material": "loam",
        "sent": day(number) - timedelta(10),
        "received": None,
        "reported": day(number),
        "analyte": "phosphorus",
        "method": "colwell",
        "qualifier": qualifier,
        "value": 30.0 + 2.0 * z,
        "unit": "mg/kg",
    }
    return CheckValue(**{**fields, **changed})  # type: ignore[arg-type]


def chart_of(*deviations: float) -> CheckChart:
    """Return the chart of checks that lie so many standard deviations off."""
    (chart,) = laboratory_state([a_value(number, z) for number, z in enumerate(deviations)], MATERIALS, date.max)
    return chart


@pytest.mark.parametrize(
    ("deviations", "state", "rule", "since"),
    [
        ((0.5, -0.5, 1.9), CheckState.IN_LINE, None, None),
        ((0, 3.0), CheckState.WATCH, CheckRule.WARNING, 1),
        ((0, -3.1), CheckState.OFF, CheckRule.ACTION, 1),
        ((0, 2.1, 0, 2.1), CheckState.OFF, CheckRule.PAIR, 1),
        ((0, 2.1, 0, 0, 2.1), CheckState.WATCH, CheckRule.WARNING, 4),
        ((0, 2.1, -2.1), CheckState.WATCH, CheckRule.WARNING, 2),
        ((0, 2.1, 2.1, 0.5), CheckState.IN_LINE, None, None),
        ((-1, *[0.1] * 8), CheckState.WATCH, CheckRule.ONE_SIDE, 1),
        ((-1, *[0.1] * 7), CheckState.IN_LINE, None, None),
        ((0.1, *[-1.4] * 5), CheckState.IN_LINE, None, None),
        ((0.1, *[-1.4] * 6), CheckState.OFF, CheckRule.DRIFT, 1),
        ((0.1, -3.2, -1.1), CheckState.OFF, CheckRule.ACTION, 1),
    ],
)
def test_each_rule(deviations: tuple[float, ...], state: CheckState, rule: CheckRule | None, since: int | None) -> None:
    """A rule is broken where its words say so, one step earlier it is not, and the first check concerned is named."""
    chart = chart_of(*deviations)
    assert (chart.state, chart.rule) == (state, rule)
    assert chart.since == (None if since is None else day(since))


def test_a_spell_and_its_days() -> None:
    """Off from the check that shows it, doubted from the last one in line before the drift, until one is near again."""
    chart = chart_of(0.2, -0.3, 1.6, 1.8, 1.7, 1.9, 1.9, 1.2, 0.9, 0.1)
    (spell,) = chart.spells
    assert (spell.rule, spell.since, spell.shown) == (CheckRule.DRIFT, day(2), day(6))
    assert (spell.in_line_before, spell.until) == (day(1), day(8))
    assert [point.state for point in chart.points[6:]] == [CheckState.OFF] * 2 + [CheckState.IN_LINE] * 2
    doubted = [spell.doubts(when) for when in (day(1) - timedelta(1), day(1), day(8) - timedelta(1), day(8))]
    assert doubted == [False, True, True, False]


def test_two_checks_of_one_day_do_not_hide_one_another() -> None:
    """A good bag in the same report does not take the doubt back, and is not the last one in line before it."""
    values = [a_value(0, 0), a_value(1, 4.0, bag="B1"), a_value(1, 0.0, bag="B2"), a_value(2, 0.0)]
    (chart,) = laboratory_state(values, MATERIALS, date.max)
    (spell,) = chart.spells
    assert (spell.in_line_before, spell.shown, spell.until) == (day(0), day(1), day(2))
    reverse = [a_value(0, 0), a_value(1, 0.0, bag="B1"), a_value(1, 4.0, bag="B2")]
    (chart,) = laboratory_state(reverse, MATERIALS, date.max)
    assert chart.spells[0].in_line_before == day(0)


@pytest.mark.parametrize(
    ("qualifier", "figure", "z"),
    [
        ("<", 29.0, None),
        ("<", 40.0, None),
        ("<", 25.0, -2.5),
        (">", 31.0, None),
        (">", 20.0, None),
        (">", 40.0, 5.0),
        ("", 31.0, 0.5),
    ],
)
def test_what_lies_outside_the_reported_range(qualifier: str, figure: float, z: float | None) -> None:
    """Below 29 of 30 may be anything; below 25 is at least 2.5 standard deviations off, and so on the other side."""
    assert deviation(a_value(0, 0, qualifier, value=figure), PHOSPHORUS, LIMITS.warning) == z
    assert deviation(a_value(0, 0, unit="mg/l"), PHOSPHORUS, LIMITS.warning) is None


def test_a_check_that_tells_nothing_neither_breaks_nor_ends_anything() -> None:
    """It stands on the chart as what cannot be told; alone it leaves the laboratory untold."""
    values = [a_value(0, 2.1), a_value(1, 1, "<"), a_value(2, 2.1)]
    (chart,) = laboratory_state(values, MATERIALS, date.max)
    assert [point.state for point in chart.points] == [CheckState.WATCH, CheckState.UNTOLD, CheckState.OFF]
    (alone,) = laboratory_state(values[1:2], MATERIALS, date.max)
    assert (alone.state, alone.rule, alone.since, alone.spells) == (CheckState.UNTOLD, None, None, ())


def test_which_values_a_chart_shows() -> None:
    """The highest issue of a report, nothing after the as-of date, nothing without an assigned value; in order."""
    values = [
        a_value(3, 0.3),
        a_value(1, 9.9),
        a_value(1, 0.1, issue=2),
        a_value(9, 0.0),
        a_value(2, 0.2, method="olsen"),
        a_value(2, 0.2, laboratory="far"),
    ]
    charts = laboratory_state(values, MATERIALS, day(5))
    assert [chart.laboratory for chart in charts] == ["far", "north"]
    assert [point.z for point in charts[1].points] == [pytest.approx(0.1), pytest.approx(0.3)]
    assert laboratory_state(list(reversed(values)), MATERIALS, day(5)) == charts
    assert uncharted(values, MATERIALS) == (("north", "loam", "phosphorus.olsen"),)
    assert laboratory_state(values, MATERIALS, DAY) == ()


def slow(deviations: list[float]) -> list[CheckRule | None]:
    """Return the rule that each check breaks, from the words of the rules, every check looked at anew."""
    found: list[CheckRule | None] = []
    start = 0
    off: CheckRule | None = None
    for index, z in enumerate(deviations):
        if off is not None:
            off = None if abs(z) <= 1 else off
            start = index + 1
            found.append(off)
            continue
        seen = deviations[start : index + 1]
        last, eight = seen[-3:], seen[-8:]
        upper = max(sum(one - 0.5 for one in seen[cut:]) for cut in range(len(seen)))
        lower = max(sum(-one - 0.5 for one in seen[cut:]) for cut in range(len(seen)))
        same = [one for one in last if abs(one) > 2 and (one > 0) == (z > 0)]
        rule = None
        if abs(z) > 2:
            rule = CheckRule.WARNING
        if len(eight) == 8 and (min(eight) > 0 or max(eight) < 0):
            rule = CheckRule.ONE_SIDE
        if max(upper, lower) > 5:
            rule = CheckRule.DRIFT
        if abs(z) > 2 and len(same) >= 2:
            rule = CheckRule.PAIR
        if abs(z) > 3:
            rule = CheckRule.ACTION
        found.append(rule)
        off = rule if rule in {CheckRule.ACTION, CheckRule.PAIR, CheckRule.DRIFT} else None
    return found


@given(st.lists(st.integers(-14, 14).map(lambda quarter: quarter / 4), max_size=40), st.integers(-3, 3))
def test_rules_equal_a_slow_reading_of_their_words(deviations: list[float], shift: int) -> None:
    """Over any series, shifted or not, each check has the rule that the words give; quarters add up exactly."""
    series = [one + shift / 4 for one in deviations]
    judged = judge([(day(number), z) for number, z in enumerate(series)], LIMITS)
    assert [rule for _, rule in judged.states] == slow(series)
    for spell in judged.spells:
        assert spell.since <= spell.shown
        assert spell.until is None or spell.until > spell.shown
        assert spell.in_line_before is None or spell.in_line_before < spell.since


def a_result(reported: date, **changed: object) -> Result:
    """Return a result of a client."""
    fields: dict[str, object] = {
        "report": "C1",
        "sampled": reported - timedelta(14),
        "reported": reported,
        "farm": "home",
        "zone": "barn",
        "protocol": "topsoil",
        "bag": "A0000-E",
        "top_cm": 0.0,
        "bottom_cm": 10.0,
        "analyte": "phosphorus",
        "method": "colwell",
        "qualifier": "",
        "value": 20.0,
        "unit": "mg/kg",
        "laboratory": "north",
        "place": Place("records/results/a/c1.csv", 2),
    }
    return Result(**{**fields, **changed})  # type: ignore[arg-type]


def test_doubts_follow_the_results_of_that_time() -> None:
    """Laboratory, analysis and days must all fit; the finding says which check of which material, and how far off."""
    charts = [chart_of(0, 0, 3.5, 1.5, 0.5)]
    results = [
        a_result(day(1) - timedelta(1)),
        a_result(day(1), zone="first"),
        a_result(day(3), zone="last"),
        a_result(day(4)),
        a_result(day(2), laboratory="far"),
        a_result(day(2), method="olsen"),
    ]
    findings = findings_for(results, charts)
    assert [finding.key.zone for finding in findings] == ["first", "last"]
    finding = findings[0]
    assert (finding.rule, finding.grade, finding.bars) == (ResultRule.CHECK_SAMPLE, Grade.DOUBT, False)
    assert finding.analyses == ("phosphorus.colwell",)
    assert finding.facts == {"analysis": "phosphorus.colwell", "material": "loam", "day": day(2), "z": 3.5}
    assert finding.place == results[1].place
    assert findings_for(results, [chart_of(0, 0, 2.5, 1.5, 0.5)]) == ()


def test_off_from_the_first_check_on() -> None:
    """Where no check was in line before, all earlier results are doubted, and still are while none is in line again."""
    spell = OffSpell(CheckRule.ACTION, DAY, DAY, 4.0, None)
    assert spell.doubts(date.min)
    assert spell.doubts(date.max)
