"""Rules of control charts: each with its figure, its state and its source."""

from __future__ import annotations

from soilrota.guidelines.check_samples import check_limits, check_sources
from soilrota.model.check_charts import CheckRule, CheckState


def test_every_rule_has_figure_state_and_source() -> None:
    """No rule lacks its row; what nobody read in print says so."""
    limits = check_limits()
    assert set(limits.states) == set(check_sources()) == set(CheckRule)
    assert all(source.endswith("(unverified)") for source in check_sources().values())


def test_the_stated_figures() -> None:
    """Lines at 3 and 2, eight on one side, k = 0.5 and h = 5; a lean to one side alone puts no doubt on results."""
    limits = check_limits()
    assert (limits.action, limits.warning, limits.one_side) == (3, 2, 8)
    assert (limits.slack, limits.drift, limits.back) == (0.5, 5, 1)
    off = {rule for rule, state in limits.states.items() if state is CheckState.OFF}
    assert off == {CheckRule.ACTION, CheckRule.PAIR, CheckRule.DRIFT}
